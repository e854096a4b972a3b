/* Carrier: the least share of the reliable dust that keeps a night alight. */
#ifndef MODEL_CARRIER_H
#define MODEL_CARRIER_H

#include "model/blend.h"
#include "model/night.h"

/* Carrier shares are sought in whole thousandths of the blend, in the terms it is stated in. */
enum { CARRIER_STEPS = 1000 };

typedef struct CarrierSearch {
    Arena *arena;
    const Batch *batch;
    const DustFigures *dusts; /* of the blend's parts, in their order */
    const Belief *belief;
    Instant light_at;
} CarrierSearch;

typedef struct CarrierFound {
    SolverOutcome outcome;
    int steps;     /* carrier share in thousandths; infeasible: where the chance is best */
    double margin; /* least margin of the night with it */
    double chance; /* that the night lasts with it */
} CarrierFound;

/* Shares of all parts with so many thousandths of carrier: carriers by their weights, the rest by
 * their proportions. Sums to 1. */
void carrier_shares(const Blend *blend, int steps, double *shares);

/* The range of thousandths that leaves every part its asked-for least share; false if none does,
 * and then the nearest to it. */
bool carrier_range(const Blend *blend, int *least, int *most);

/* Least margin over the night with so many thousandths of carrier. */
double carrier_margin(const CarrierSearch *search, int steps);

/* Chance that the night lasts with so many thousandths of carrier. */
double carrier_chance(const CarrierSearch *search, int steps);

/* The least share in the range with which the night is good by its chance, or, if the batch states
 * a margin to reach, with which it reaches that. Either rises with the share,
 * or rises and falls once, wherever dusts are mixed: so where the far end of the range holds,
 * there is one crossing, found between the ends; otherwise the range is looked through by tenths
 * first. A scan by thousandths agrees. */
CarrierFound carrier_find(const CarrierSearch *search);

#endif
