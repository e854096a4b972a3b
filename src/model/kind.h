/* Kind: what a burn has in common with others: its tray and the dry shares of its dusts. */
#ifndef MODEL_KIND_H
#define MODEL_KIND_H

#include "domain/dust.h"
#include "domain/tray.h"

#include <stdbool.h>

enum { KIND_DUSTS_MAX = 32 };

typedef struct BurnKind {
    const Tray *tray; /* NULL: not known, taken as a tray of its own */
    int count;
    const Dust *dusts[KIND_DUSTS_MAX];
    double dry_shares[KIND_DUSTS_MAX];
} BurnKind;

/* Spreads of a logarithm: of what all burns of a smokehouse share, what burns in one tray share,
 * and what burns of one blend share. */
typedef struct KindSpreads {
    double shop, tray, dust;
} KindSpreads;

/* Cosine of the angle between the two vectors of dry shares; 0 when one names no dust. */
double kind_likeness(const BurnKind *a, const BurnKind *b);

/* Whether two burns are of one kind: the same tray and, to a thousandth, the same blend. */
bool kind_same(const BurnKind *a, const BurnKind *b);

/* What two different burns share, as a covariance of the logarithm; dust counts by likeness. */
double kind_shared(const KindSpreads *spreads, const BurnKind *a, const BurnKind *b);

/* Variance of one burn, less what it has of its own. */
double kind_common(const KindSpreads *spreads, const BurnKind *kind);

#endif
