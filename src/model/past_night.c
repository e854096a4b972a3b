#include "model/past_night.h"

#include "model/night.h"
#include "model/speed_constants.h"
#include "model/session.h"

#include <math.h>
#include <string.h>

BurnKind past_night_kind_of_dust(const Dust *dust, const Tray *tray) {
    return (BurnKind){.tray = tray, .count = 1, .dusts = {dust}, .dry_shares = {1}};
}

BurnKind past_night_kind(const Plan *plan) {
    BurnKind kind = {.tray = plan->fills.items[0].tray};
    for (size_t i = 0; i < plan->blend.parts.count && i < KIND_DUSTS_MAX; i++) {
        kind.dusts[i] = plan->blend.parts.items[i].dust;
        kind.dry_shares[i] = plan->blend.parts.items[i].dry_share;
        kind.count++;
    }
    return kind;
}

/* The length that the record says was filled, by itself or by the dust used; NAN: it does not.
 * One kind of fill, however often it was lit. */
static double recorded_length_m(const Record *record, const Batch *batch, const Plan *plan) {
    const PlanFill *first = &plan->fills.items[0];
    if (batch->fills.count != 1) {
        return NAN;
    }
    if (record->filled_m > 0) {
        return fmin(record->filled_m, first->channel_m);
    }
    double each_kg = record->used_kg / (double)plan->fills.count;
    double all_kg = first->dry_kg * (1 + plan->blend.moisture);
    return each_kg > 0 ? fmin(first->filled_m * each_kg / all_kg, first->channel_m) : NAN;
}

/* Whether the plan, and not the tray, decided how far a fill went: then it goes by a belief. */
static bool length_was_chosen(const Batch *batch, const Plan *plan) {
    bool chosen = night_chooses_length(batch);
    for (size_t i = 0; i < plan->fills.count; i++) {
        const PlanFill *fill = &plan->fills.items[i];
        chosen = chosen || fill->filled_m < fill->channel_m * (1 - 1e-6);
    }
    return chosen;
}

/* A copy whose fills have a length that no speed factor changes any more. */
static Batch *with_lengths_fixed(Arena *arena, const Batch *batch, const Plan *plan,
                                 double length_m) {
    Batch *copy = ARENA_NEW(arena, Batch);
    *copy = *batch;
    Fill *fills = ARENA_ARRAY(arena, batch->fills.count, Fill);
    size_t lighting = 0;
    for (size_t i = 0; i < batch->fills.count; i++) {
        fills[i] = batch->fills.items[i];
        fills[i].filled_m = length_m > 0 ? length_m : plan->fills.items[lighting].filled_m;
        lighting += fills[i].repeat > 1 ? (size_t)fills[i].repeat : 1;
    }
    copy->fills.items = fills;
    copy->fills.capacity = batch->fills.count;
    return copy;
}

PastNight past_night_of(Arena *arena, const Batch *past) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, past, NULL, past->record.lit, SESSION_TIMES, &plan);
    double length_m = recorded_length_m(&past->record, past, &plan);
    const Batch *settled = session_with_blend_fixed(arena, past, &plan);
    return (PastNight){.batch = with_lengths_fixed(arena, settled, &plan, length_m),
                       .record = &past->record,
                       .kind = past_night_kind(&plan),
                       .length_known = length_m > 0 || !length_was_chosen(past, &plan)};
}

const Night *past_night_run(Arena *arena, const PastNight *past, double speed_factor) {
    Belief belief = {.speed = {.middle = speed_factor, .log_spread = SPEED_LOG_SPREAD},
                     .holding = holding_unmeasured()};
    return session_night(arena, past->batch, &belief, past->record->lit);
}

double past_night_end_s(const Night *night) {
    const LightingRun *last = &night->lightings.items[night->lightings.count - 1].middle;
    return last->setup.start - (double)night->light_at + last->path.time_s;
}

double past_night_time_to_s(const Night *night, double burnt_m) {
    const LightingRun *first = &night->lightings.items[0].middle;
    return burn_time_at_s(&first->path, burnt_m / first->setup.fronts);
}
