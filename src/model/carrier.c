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
    const Night *night = night_of(search->arena, search->batch, &fuel, moisture, search->belief,
                                  search->light_at, NIGHT_MIDDLE);
    return night_least_margin(night).margin;
}

/* A share between one that fails and one that does: where a straight line between their margins
 * crosses the target, or the middle. */
static int share_between(double target, const CarrierFound *fails, const CarrierFound *holds,
                         bool straight) {
    int apart = holds->steps - fails->steps;
    double share = straight ? (target - fails->margin) / (holds->margin - fails->margin) : 0.5;
    return fails->steps + (int)within(round(share * apart), 1, apart - 1);
}

/* Closes in between a share that fails and one that does, to the thousandth: along the straight
 * line and by halves in turn, so that a bent curve costs little and always ends. */
static CarrierFound close_in(const CarrierSearch *search, double target, CarrierFound fails,
                             CarrierFound holds) {
    for (int turn = 0; holds.steps - fails.steps > 1; turn++) {
        int steps = share_between(target, &fails, &holds, turn % 3 != 2);
        CarrierFound tried = {SOLVER_FOUND, steps, carrier_margin(search, steps)};
        *(tried.margin >= target ? &holds : &fails) = tried;
    }
    return holds;
}

/* Looks through the range by tenths for a share that holds, and else for the best. */
static CarrierFound look_through(const CarrierSearch *search, double target, CarrierFound first,
                                 int most) {
    CarrierFound best = first, before = first;
    for (int i = 1; i <= COARSE_STEPS; i++) {
        int steps = first.steps + (most - first.steps) * i / COARSE_STEPS;
        if (steps == before.steps) {
            continue;
        }
        CarrierFound tried = {SOLVER_INFEASIBLE, steps, carrier_margin(search, steps)};
        if (tried.margin >= target) {
            tried.outcome = SOLVER_FOUND;
            return close_in(search, target, before, tried);
        }
        best = tried.margin > best.margin ? tried : best;
        before = tried;
    }
    return best;
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
    if (!possible || most == least) {
        return best;
    }
    CarrierFound end = {SOLVER_FOUND, most, carrier_margin(search, most)};
    return end.margin >= target ? close_in(search, target, best, end)
                                : look_through(search, target, best, most);
}
