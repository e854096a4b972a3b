#include "model/carrier.h"

#include "model/bounds.h"
#include "model/fire_constants.h"

#include <math.h>

static const double WHISKER = 1e-9;
enum { COARSE_STEPS = 10 };

/* Sums of the fixed shares and of the carriers' weights. */
static void sums_of(const Blend *blend, double *fixed, double *weights) {
    *fixed = 0;
    *weights = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const BlendPart *part = &blend->parts.items[i];
        *(part->kind == SHARE_LEAST ? weights : fixed) += part->share;
    }
}

void carrier_shares(const Blend *blend, int steps, double *shares) {
    double fixed, weights;
    sums_of(blend, &fixed, &weights);
    double carrier = weights > 0 ? (fixed > 0 ? (double)steps / CARRIER_STEPS : 1) : 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const BlendPart *part = &blend->parts.items[i];
        shares[i] = part->kind == SHARE_LEAST ? carrier * part->share / weights
                    : fixed > 0               ? (1 - carrier) * part->share / fixed
                                              : 0;
    }
}

bool carrier_range(const Blend *blend, int *least, int *most) {
    double fixed, weights;
    double low = 0, high = 1;
    sums_of(blend, &fixed, &weights);
    for (size_t i = 0; i < blend->parts.count; i++) {
        const BlendPart *part = &blend->parts.items[i];
        double asked = within(part->at_least, 0, 1);
        if (part->kind == SHARE_LEAST) {
            low = fmax(low, asked > 0 ? asked * weights / part->share : 0);
        } else if (asked > 0) {
            high = fmin(high, 1 - asked * fixed / part->share);
        }
    }
    bool possible = low <= high + WHISKER && high >= -WHISKER && low <= 1 + WHISKER;
    *least = (int)ceil(within(low, 0, 1) * CARRIER_STEPS - 1e-6);
    *most = (int)floor(within(high, 0, 1) * CARRIER_STEPS + 1e-6);
    if (*least > *most) {
        *most = *least;
    }
    return possible;
}

double carrier_margin(const CarrierSearch *search, int steps) {
    const Blend *blend = &search->batch->blend;
    size_t count = blend->parts.count;
    double *shares = ARENA_ARRAY(search->arena, 2 * count, double);
    double *dry = shares + count;
    double moisture = 0;
    carrier_shares(blend, steps, shares);
    blend_dry_shares(search->dusts, shares, count, blend->by_volume, dry);
    for (size_t i = 0; i < count; i++) {
        moisture += dry[i] * search->dusts[i].moisture;
    }
    Fuel fuel = blend_fuel(search->dusts, dry, count);
    const Night *night = night_of(search->arena, search->batch, &fuel, moisture, search->pace,
                                  search->light_at, NIGHT_MIDDLE);
    return night_least_margin(night).margin;
}

/* Bisects between a share that fails and one that does, to the thousandth. */
static CarrierFound bisect(const CarrierSearch *search, double target, int fails,
                           CarrierFound holds) {
    while (holds.steps - fails > 1) {
        int middle = fails + (holds.steps - fails) / 2;
        double margin = carrier_margin(search, middle);
        if (margin >= target) {
            holds.steps = middle;
            holds.margin = margin;
        } else {
            fails = middle;
        }
    }
    return holds;
}

CarrierFound carrier_find(const CarrierSearch *search) {
    const Blend *blend = &search->batch->blend;
    double target = isnan(blend->target_margin) ? FIRE_MARGIN_GOOD : blend->target_margin;
    int least, most;
    bool possible = carrier_range(blend, &least, &most);
    CarrierFound best = {SOLVER_INFEASIBLE, least, carrier_margin(search, least)};
    if (possible && best.margin >= target) {
        best.outcome = SOLVER_FOUND;
        return best;
    }
    int before = least;
    for (int i = 1; i <= COARSE_STEPS && possible; i++) {
        int steps = least + (most - least) * i / COARSE_STEPS;
        double margin = steps > before ? carrier_margin(search, steps) : best.margin;
        if (margin >= target) {
            return bisect(search, target, before, (CarrierFound){SOLVER_FOUND, steps, margin});
        }
        if (margin > best.margin) {
            best = (CarrierFound){SOLVER_INFEASIBLE, steps, margin};
        }
        before = steps;
    }
    return best;
}
