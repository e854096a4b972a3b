#include "model/session.h"

#include "model/attendance.h"
#include "model/doubt.h"
#include "model/fill_plan.h"
#include "model/fire_constants.h"
#include "model/look_ins.h"
#include "model/plausible.h"
#include "model/recipe.h"
#include "model/room_night.h"
#include "model/survival.h"
#include "model/environment.h"
#include "model/wood_use.h"

#include <math.h>
#include <string.h>

/* The blend of a batch, settled: dusts, shares, mix. */
typedef struct Settled {
    DustFigures *dusts;
    double *dry_shares;
    Mix mix;
    bool searched;
    CarrierFound found;
} Settled;

static bool has_carrier(const Blend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        if (blend->parts.items[i].kind == SHARE_LEAST) {
            return true;
        }
    }
    return false;
}

static Settled settle(Arena *arena, const Batch *batch, const Belief *belief, Instant light_at) {
    const Blend *blend = &batch->blend;
    size_t count = blend->parts.count;
    const Workshop *workshop = batch->workshop;
    Date day = workshop->zone ? zone_civil(workshop->zone, batch->timing.at).date : (Date){0};
    Settled settled = {.dusts = recipe_dusts(arena, blend, &workshop->store, day)};
    double *shares = ARENA_ARRAY(arena, count, double);
    settled.dry_shares = ARENA_ARRAY(arena, count, double);
    settled.searched = has_carrier(blend);
    if (settled.searched) {
        CarrierSearch search = {arena, batch, settled.dusts, belief, light_at};
        settled.found = carrier_find(&search);
    }
    carrier_shares(blend, settled.found.steps, shares);
    blend_dry_shares(settled.dusts, shares, count, blend->by_volume, settled.dry_shares);
    settled.mix = blend_mix(settled.dusts, settled.dry_shares, count);
    return settled;
}

static void fill_burn(const SpeedFactor *speed, Plan *plan) {
    const PlanFill *first = &plan->fills.items[0];
    const PlanFill *last = &plan->fills.items[plan->fills.count - 1];
    PlanBurn burn = {.light_at = first->light_at,
                     .first_look_in_at = first->light_at + LOOK_INS_FIRST_S,
                     .out_at = last->out_at,
                     .out_early = last->out_early,
                     .out_late = last->out_late,
                     .speed_factor = speed->middle,
                     .log_spread = speed->log_spread,
                     .trials = speed->trials,
                     .records = speed->records,
                     .margin_at_start = first->margin_at_start,
                     .margin_least = INFINITY};
    for (size_t i = 0; i < plan->fills.count; i++) {
        const PlanFill *fill = &plan->fills.items[i];
        burn.dry_burnt_kg += fill->dry_kg;
        if (fill->margin_least < burn.margin_least) {
            burn.margin_least = fill->margin_least;
            burn.margin_least_at = fill->margin_least_at;
            burn.cause = fill->cause;
        }
        if (fill->dies && !burn.dies) {
            burn.dies = true;
            burn.dies_at = fill->dies_at;
        }
    }
    plan->burn = burn;
}

/* Times that rounding to seconds must not touch. */
static void fill_times(const Night *night, Plan *plan) {
    PlanBurn *burn = &plan->burn;
    for (size_t i = 0; i < night->lightings.count; i++) {
        burn->smoking_s += night->lightings.items[i].middle.path.time_s;
    }
    const LightingRun *last = &night->lightings.items[night->lightings.count - 1].middle;
    burn->duration_s = last->setup.start - (double)night->light_at + last->path.time_s;
    const LightingRun *first = &night->lightings.items[0].middle;
    burn->speed_mps = first->setup.length_m / first->setup.fronts / first->path.time_s;
    burn->fuel_kg_per_h = burn->dry_burnt_kg / (burn->smoking_s / SECONDS_PER_HOUR);
}

/* The air of a room is judged by the fast front as well. */
static NightDepth depth_of(const Batch *batch, SessionDetail detail) {
    const Room *room = &batch->workshop->room;
    if (detail != SESSION_FIGURES) {
        return detail == SESSION_WHOLE ? NIGHT_BAND : NIGHT_TIMES;
    }
    return room->stated && !room->outdoors ? NIGHT_FAST : NIGHT_CHANCE;
}

void session_work_out(Arena *arena, const Batch *batch, const Belief *belief, Instant light_at,
                      SessionDetail detail, Plan *plan) {
    Belief known = belief ? *belief : belief_unmeasured();
    Settled settled = settle(arena, batch, &known, light_at);
    const Night *night = night_of(arena, batch, &settled.mix.fuel, settled.mix.moisture, &known,
                                  light_at, depth_of(batch, detail));
    known.holding = doubt_of_moisture(night, settled.dusts, settled.dry_shares,
                                      batch->blend.parts.count, known.holding);
    known.holding = doubt_of_forecast(night, known.holding);
    known.holding = doubt_of_judged(night, settled.dusts, settled.dry_shares,
                                    batch->blend.parts.count, known.holding);
    const Chance *chance = detail == SESSION_TIMES ? NULL : chance_of(arena, night, &known.holding);
    plan->batch = batch;
    plan->workshop = batch->workshop;
    recipe_fill(arena, night, settled.dusts, settled.dry_shares, &settled.mix,
                settled.searched ? &settled.found : NULL, &plan->blend);
    if (detail != SESSION_TIMES) {
        wood_use_name(arena, &plan->blend);
    }
    recipe_drying(night, &plan->drying);
    memset(&plan->fills, 0, sizeof plan->fills);
    memset(&plan->samples, 0, sizeof plan->samples);
    memset(&plan->survival, 0, sizeof plan->survival);
    for (size_t i = 0; i < night->lightings.count; i++) {
        PlanFill fill = fill_plan_figures(night, i, settled.mix.moisture);
        if (detail == SESSION_WHOLE) {
            fill_plan_map(arena, night, i, &fill);
        }
        LIST_ADD(arena, &plan->fills, fill);
    }
    recipe_on_scale(arena, plan);
    fill_burn(&known.speed, plan);
    fill_times(night, plan);
    survival_burn(night, chance, &known.holding, &plan->burn);
    environment_cabinet(night, &plan->cabinet);
    attendance_judge(night, chance, &plan->burn, &plan->cabinet);
    room_night_figures(arena, night, &plan->room);
    environment_weather(night, &plan->weather);
    plausible_figures(batch, plan);
    if (detail == SESSION_WHOLE) {
        environment_samples(arena, night, plan);
        survival_add(arena, night, chance, plan);
    }
}

const Night *session_night(Arena *arena, const Batch *batch, const Belief *belief,
                           Instant light_at) {
    Settled settled = settle(arena, batch, belief, light_at);
    return night_of(arena, batch, &settled.mix.fuel, settled.mix.moisture, belief, light_at,
                    NIGHT_MIDDLE);
}

Batch *session_with_blend_fixed(Arena *arena, const Batch *batch, const Plan *plan) {
    Batch *copy = ARENA_NEW(arena, Batch);
    *copy = *batch;
    size_t count = batch->blend.parts.count;
    BlendPart *parts = ARENA_ARRAY(arena, count, BlendPart);
    for (size_t i = 0; i < count; i++) {
        const PlanPart *part = &plan->blend.parts.items[i];
        parts[i] = batch->blend.parts.items[i];
        parts[i].kind = SHARE_FIXED;
        parts[i].share = batch->blend.by_volume ? part->volume_share : part->wet_share;
        parts[i].at_least = 0;
    }
    copy->blend.parts.items = parts;
    copy->blend.parts.capacity = count;
    return copy;
}
