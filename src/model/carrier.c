#include "model/carrier.h"

#include "model/bounds.h"
#include "model/doubt.h"
#include "model/survival.h"

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
        double asked = clamp(part->at_least, 0, 1);
        if (part->kind == SHARE_LEAST) {
            low = fmax(low, asked > 0 ? asked * weights / part->share : 0);
        } else if (asked > 0) {
            high = fmin(high, 1 - asked * fixed / part->share);
        }
    }
    bool possible = low <= high + WHISKER && high >= -WHISKER && low <= 1 + WHISKER;
    *least = (int)ceil(clamp(low, 0, 1) * CARRIER_STEPS - 1e-6);
    *most = (int)floor(clamp(high, 0, 1) * CARRIER_STEPS + 1e-6);
    if (*least > *most) {
        *most = *least;
    }
    return possible;
}

/* The night with so much carrier, and the dry shares it has then. */
static const Night *night_with(const CarrierSearch *search, int steps, NightDepth depth,
                               const double **dry_shares) {
    const Blend *blend = &search->batch->blend;
    size_t count = blend->parts.count;
    double *shares = ARENA_ARRAY(search->arena, 2 * count, double);
    double *dry = shares + count;
    *dry_shares = dry;
    double moisture = 0;
    carrier_shares(blend, steps, shares);
    blend_dry_shares(search->dusts, shares, count, blend->by_volume, dry);
    for (size_t i = 0; i < count; i++) {
        moisture += dry[i] * search->dusts[i].moisture;
    }
    Fuel fuel = blend_fuel(search->dusts, dry, count);
    return night_of(search->arena, search->batch, &fuel, moisture, search->belief, search->light_at,
                    depth);
}

double carrier_margin(const CarrierSearch *search, int steps) {
    const double *dry_shares;
    return night_least_margin(night_with(search, steps, NIGHT_MIDDLE, &dry_shares)).margin;
}

static CarrierFound tried_with(const CarrierSearch *search, int steps) {
    const double *dry_shares;
    const Night *night = night_with(search, steps, NIGHT_CHANCE, &dry_shares);
    Holding holding = doubt_of_moisture(night, search->dusts, dry_shares,
                                        search->batch->blend.parts.count, search->belief->holding);
    holding = doubt_of_judged(night, search->dusts, dry_shares, search->batch->blend.parts.count,
                              holding);
    return (CarrierFound){SOLVER_INFEASIBLE, steps, night_least_margin(night).margin,
                          chance_lasts(chance_of(search->arena, night, &holding))};
}

double carrier_chance(const CarrierSearch *search, int steps) {
    return tried_with(search, steps).chance;
}

/* How far over what is asked for: a chance by its quantile, which goes about straight with the
 * logarithm of the margin. */
static double over(const CarrierSearch *search, const CarrierFound *tried) {
    double target = search->batch->blend.target_margin;
    if (!isnan(target)) {
        return tried->margin - target;
    }
    double apart = speed_normal_quantile(tried->chance) - speed_normal_quantile(survival_good);
    return tried->chance >= survival_good ? fmax(apart, 0) : fmin(apart, -WHISKER);
}

static bool holds(const CarrierSearch *search, const CarrierFound *tried) {
    return over(search, tried) >= 0;
}

/* A share between one that fails and one that does: where a straight line between them crosses what
 * is asked for, or the middle. */
static int share_between(const CarrierSearch *search, const CarrierFound *fails,
                         const CarrierFound *does, bool straight) {
    int apart = does->steps - fails->steps;
    double under = over(search, fails);
    double share = straight ? under / (under - over(search, does)) : 0.5;
    return fails->steps + (int)clamp(round(share * apart), 1, apart - 1);
}

/* Closes in between a share that fails and one that does, to the thousandth: along the straight
 * line and by halves in turn, so that a bent curve costs little and always ends. */
static CarrierFound close_in(const CarrierSearch *search, CarrierFound fails, CarrierFound does) {
    for (int turn = 0; does.steps - fails.steps > 1; turn++) {
        int steps = share_between(search, &fails, &does, turn % 3 != 2);
        CarrierFound tried = tried_with(search, steps);
        *(holds(search, &tried) ? &does : &fails) = tried;
    }
    does.outcome = SOLVER_FOUND;
    return does;
}

/* Looks through the range by tenths for a share that holds, and else for the best. */
static CarrierFound look_through(const CarrierSearch *search, CarrierFound first, int most) {
    CarrierFound best = first, before = first;
    for (int i = 1; i <= COARSE_STEPS; i++) {
        int steps = first.steps + (most - first.steps) * i / COARSE_STEPS;
        if (steps == before.steps) {
            continue;
        }
        CarrierFound tried = tried_with(search, steps);
        if (holds(search, &tried)) {
            return close_in(search, before, tried);
        }
        best = over(search, &tried) > over(search, &best) ? tried : best;
        before = tried;
    }
    return best;
}

CarrierFound carrier_find(const CarrierSearch *search) {
    int least, most;
    bool possible = carrier_range(&search->batch->blend, &least, &most);
    CarrierFound first = tried_with(search, least);
    if (possible && holds(search, &first)) {
        first.outcome = SOLVER_FOUND;
        return first;
    }
    if (!possible || most == least) {
        return first;
    }
    CarrierFound end = tried_with(search, most);
    return holds(search, &end) ? close_in(search, first, end) : look_through(search, first, most);
}
