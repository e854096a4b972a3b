#include "model/doubt.h"

#include <math.h>

/* Spreads between the ends of an 80 % band of the normal distribution. */
static const double SPREADS_IN_BAND = 2 * 1.2815515655446004;

/* Log margin of the first lighting when lit, with its dust so damp. */
static double log_margin_when(const Night *night, double moisture) {
    const Lighting *first = &night->lightings.items[0];
    BurnPoint lit = first->middle.path.points.items[0];
    lit.moisture[0] = lit.moisture[1] = moisture;
    return log(lighting_margin(first, &lit, &lit.air));
}

Holding doubt_of_moisture(const Night *night, const DustFigures *dusts, const double *dry_shares,
                          size_t count, Holding holding) {
    double low = 0, high = 0;
    bool assumed = false;
    for (size_t i = 0; i < count; i++) {
        low += dry_shares[i] * dusts[i].moisture_low;
        high += dry_shares[i] * dusts[i].moisture_high;
        assumed = assumed || dusts[i].moisture_assumed;
    }
    if (!assumed || night->batch->predry.stated) {
        return holding;
    }
    double apart = log_margin_when(night, low) - log_margin_when(night, high);
    holding.common_spread = hypot(holding.common_spread, apart / SPREADS_IN_BAND);
    return holding;
}
