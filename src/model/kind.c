#include "model/kind.h"

#include "base/text.h"
#include "model/bounds.h"

#include <math.h>
#include <string.h>

/* A dust or tray is known by its id, so that batches read each with a workshop of their own are
 * still told alike. */
static bool same(const void *a, const char *id_a, const void *b, const char *id_b) {
    return a == b || text_same(id_a, id_b);
}

static bool same_tray(const Tray *a, const Tray *b) {
    return a && b && same(a, a->id, b, b->id);
}

static double share_of(const BurnKind *kind, const Dust *dust) {
    double share = 0;
    for (int i = 0; i < kind->count; i++) {
        share += same(kind->dusts[i], kind->dusts[i]->id, dust, dust->id) ? kind->dry_shares[i] : 0;
    }
    return share;
}

static double shares_product(const BurnKind *a, const BurnKind *b) {
    double product = 0;
    for (int i = 0; i < a->count; i++) {
        product += a->dry_shares[i] * share_of(b, a->dusts[i]);
    }
    return product;
}

double kind_likeness(const BurnKind *a, const BurnKind *b) {
    double sizes = shares_product(a, a) * shares_product(b, b);
    return sizes > 0 ? clamp(shares_product(a, b) / sqrt(sizes), 0, 1) : 0;
}

bool kind_same(const BurnKind *a, const BurnKind *b) {
    const double thousandth = 0.001;
    return same_tray(a->tray, b->tray) && kind_likeness(a, b) > 1 - thousandth;
}

double kind_shared(const KindSpreads *spreads, const BurnKind *a, const BurnKind *b) {
    double tray = same_tray(a->tray, b->tray) ? spreads->tray * spreads->tray : 0;
    return spreads->shop * spreads->shop + tray +
           spreads->dust * spreads->dust * kind_likeness(a, b);
}

double kind_common(const KindSpreads *spreads, const BurnKind *kind) {
    double dust = kind_likeness(kind, kind) > 0 ? spreads->dust * spreads->dust : 0;
    return spreads->shop * spreads->shop + spreads->tray * spreads->tray + dust;
}
