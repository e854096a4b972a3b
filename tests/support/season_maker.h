/* Season maker: a made-up smokehouse whose burns are made by the model itself at a known truth, as
 * files: a workshop, nights with their records, a few nights to come, a day of bagging. What is
 * learnt from them can be held against the truth. */
#ifndef SUPPORT_SEASON_MAKER_H
#define SUPPORT_SEASON_MAKER_H

#include "base/date.h"
#include "model/kind.h"

#include <stddef.h>
#include <stdint.h>

/* How this smokehouse's burns truly differ from the model's. Logarithms and their spreads. */
typedef struct SeasonTruth {
    double folded_speed, coil_speed;               /* what each tray adds to ln speed */
    double beech_speed, cherry_speed, alder_speed; /* and each dust, by its dry share */
    double burn_speed;                             /* spread from one burn to the next */
    double margin;                                 /* of the margin, all burns alike */
    double coil_margin;                            /* and in the coil besides */
    double burn_margin;                            /* spread from one burn to the next */
} SeasonTruth;

extern const SeasonTruth season_truth;

/* The true ln speed factor, and ln factor of the margin, of a kind of burn, but for what each burn
 * has of its own. The kind's tray and dusts are those of the made workshop. */
double season_true_speed(const BurnKind *kind);
double season_true_margin(const BurnKind *kind);

typedef struct SeasonMaking {
    const char *folder; /* there already */
    uint64_t seed;      /* not 0 */
    int nights;         /* with a record */
    int upcoming;       /* without */
    Date last;          /* of the last night with a record */
    int apart_days;     /* from one night to the next, about; in summer nothing is smoked */
} SeasonMaking;

/* Writes workshop.xml, night-NNN.xml and market.xml. Ends the program when a file can not be
 * written or is not accepted by the readers. */
void season_make(const SeasonMaking *making);

#endif
