/* What the night does to the cabinet: warmth, oxygen, water, draught. */
#include "model/environment.h"

#include "model/fill_plan.h"
#include "model/fire_constants.h"
#include "model/vent.h"
#include "model/wall.h"

#include <math.h>

/* Saturated air for longer than this drips on the product: judgement. */
static const double CONDENSING_MOST_S = 30 * 60;

/* A state of the night: the point of a lighting's path. */
typedef struct Moment {
    const LightingRun *run;
    const BurnPoint *point;
} Moment;

/* The moments that decide. */
typedef struct Extremes {
    Moment warmest, stalest, windiest;
} Extremes;

/* Adds the time between two points in which the air is saturated, its wetness read straight between
 * them. */
static void condense(const LightingRun *run, const BurnPoint *a, const BurnPoint *b,
                     PlanCabinet *cabinet) {
    double over_a = a->air.wetness - 1, over_b = b->air.wetness - 1;
    if (over_a < 0 && over_b < 0) {
        return;
    }
    double span_s = b->time_s - a->time_s;
    bool crosses = (over_a < 0) != (over_b < 0);
    double crossing_s = crosses ? span_s * over_a / (over_a - over_b) : span_s;
    double from_s = a->time_s + (over_a < 0 ? crossing_s : 0);
    cabinet->condensing_s += over_a < 0 ? span_s - crossing_s : crossing_s;
    if (!cabinet->condensing_from) {
        cabinet->condensing_from = fill_plan_instant(run, from_s);
    }
}

static void look_at(const LightingRun *run, const BurnPoint *point, PlanCabinet *cabinet,
                    Extremes *extremes) {
    Moment now = {run, point};
    const CabinetAir *air = &point->air;
    cabinet->peak_power_w = fmax(cabinet->peak_power_w, air->power_w);
    if (air->temp_c > extremes->warmest.point->air.temp_c) {
        extremes->warmest = now;
    }
    if (air->oxygen < extremes->stalest.point->air.oxygen) {
        extremes->stalest = now;
    }
    if (air->vent_mps > extremes->windiest.point->air.vent_mps) {
        extremes->windiest = now;
    }
}

static void look_through(const LightingRun *run, PlanCabinet *cabinet, Extremes *extremes) {
    for (size_t i = 0; i < run->path.points.count; i++) {
        const BurnPoint *point = &run->path.points.items[i];
        look_at(run, point, cabinet, extremes);
        if (i > 0 && cabinet->stated) {
            condense(run, point - 1, point, cabinet);
        }
    }
}

/* The air at a moment if the front is the fast one of the 80 % band, its heat the usual or the
 * richest. */
static CabinetAir air_if_fast(const Night *night, Moment moment, bool rich) {
    BurnSetup fast = moment.run->setup;
    OutsideAir outside;
    fast.speed_factor *= night->fast;
    fast.rich = rich;
    return burn_air(&fast, moment.point, &outside);
}

static Instant instant_of(Moment moment) {
    return fill_plan_instant(moment.run, moment.point->time_s);
}

static void take(const Night *night, const Extremes *extremes, PlanCabinet *cabinet) {
    cabinet->peak_temp_c = extremes->warmest.point->air.temp_c;
    cabinet->peak_at = instant_of(extremes->warmest);
    cabinet->peak_fast_c = air_if_fast(night, extremes->warmest, false).temp_c;
    cabinet->peak_hot_c = air_if_fast(night, extremes->warmest, true).temp_c;
    cabinet->oxygen_least = extremes->stalest.point->air.oxygen;
    cabinet->oxygen_least_at = instant_of(extremes->stalest);
    cabinet->oxygen_hot = air_if_fast(night, extremes->stalest, true).oxygen;
    cabinet->vent_mps = extremes->windiest.point->air.vent_mps;
    cabinet->vent_at = instant_of(extremes->windiest);
}

/* Walls are judged by the cabinet's air, which is warmer than they are, with the fast front and the
 * richest heat at once: a wall that starts to glow is no matter of the middle estimate. */
static void judge(const Cabinet *box, PlanCabinet *cabinet) {
    double limit_c = wall_limit_c(box->wall);
    cabinet->wall_limit_c = isinf(limit_c) ? NOT_STATED : limit_c;
    cabinet->walls_burn = wall_burns(box->wall);
    cabinet->over_wall = cabinet->peak_hot_c > limit_c;
    cabinet->no_oxygen = cabinet->oxygen_least < FIRE_OXYGEN_LEAST;
    cabinet->low_oxygen = cabinet->oxygen_least < FIRE_OXYGEN_TEND ||
                          cabinet->oxygen_hot < FIRE_OXYGEN_LEAST;
    cabinet->condenses = cabinet->condensing_s > CONDENSING_MOST_S;
    cabinet->too_windy = cabinet->vent_mps > FIRE_VENT_FLAME_MPS;
}

void environment_cabinet(const Night *night, PlanCabinet *cabinet) {
    *cabinet = (PlanCabinet){.stated = night->cabinet.stated,
                             .peak_away_c = NOT_STATED,
                             .caution_temp_c = NOT_STATED,
                             .limit_temp_c = night->batch->product.limit_temp_c,
                             .wall_limit_c = NOT_STATED,
                             .oxygen_tend = FIRE_OXYGEN_TEND,
                             .oxygen_limit = FIRE_OXYGEN_LEAST,
                             .vent_limit_mps = FIRE_VENT_FLAME_MPS};
    const LightingRun *first = &night->lightings.items[0].middle;
    const Moment lit = {first, &first->path.points.items[0]};
    Extremes extremes = {.warmest = lit, .stalest = lit, .windiest = lit};
    for (size_t i = 0; i < night->lightings.count; i++) {
        look_through(&night->lightings.items[i].middle, cabinet, &extremes);
    }
    take(night, &extremes, cabinet);
    const Cabinet *box = night->batch->cabinet;
    if (night->cabinet.stated) {
        judge(box, cabinet);
        cabinet->inlet = vent_set(box->inlet_m2, box->inlet_full_m2);
        cabinet->outlet = vent_set(box->outlet_m2, box->outlet_full_m2);
    }
}
