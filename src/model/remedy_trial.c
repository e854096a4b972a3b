/* Trials that change the fill, the burn, the cabinet, the hour or the room. */
#include "model/remedy_trial.h"

#include "model/bag.h"
#include "model/care.h"
#include "model/vent.h"
#include "model/preparation.h"
#include "model/verdict.h"

#include <math.h>
#include <string.h>

enum {
    SHORTEST_BURN_S = SECONDS_PER_HOUR, /* a shorter burn is no session */
    HOURS_AROUND = 6,                   /* another hour is looked for so far away */
    HOUR_STEP = 2,
    AIR_CHANGES_MOST = 32 /* more than a fan in a wall can do */
};

/* A burn cut to less than this share is another night. Judgement. */
static const double WORTH_BURNING = 0.5;

/* Vents wider than this are doors. Common practice, no source. */
static const double vent_most_m2 = 0.06;

static void *copied(Arena *arena, const void *items, size_t count, size_t size) {
    void *copy = arena_take(arena, count, size);
    if (count) {
        memcpy(copy, items, count * size);
    }
    return copy;
}

Batch *remedy_copy(const RemedyAsk *ask) {
    Batch *copy = ARENA_NEW(ask->arena, Batch);
    *copy = *ask->batch;
    copy->fills.items = copied(ask->arena, copy->fills.items, copy->fills.count, sizeof(Fill));
    copy->fills.capacity = copy->fills.count;
    copy->blend.parts.items =
        copied(ask->arena, copy->blend.parts.items, copy->blend.parts.count, sizeof(BlendPart));
    copy->blend.parts.capacity = copy->blend.parts.count;
    return copy;
}

const Plan *remedy_work_out(const RemedyAsk *ask, const Batch *changed, Instant light_at) {
    Plan *after = ARENA_NEW(ask->arena, Plan);
    session_work_out(ask->arena, changed, ask->belief, light_at, SESSION_FIGURES, after);
    care_judge_cabinet(&changed->product, &after->cabinet);
    bag_plan(ask->arena, changed, (Date){0}, after);
    preparation_plan(ask->arena, changed, light_at, after);
    after->care.items = ask->plan->care.items;
    after->care.count = after->care.capacity = ask->plan->care.count;
    verdict_reach(ask->arena, changed, after);
    return after;
}

static const Plan *tonight(const RemedyAsk *ask, const Batch *changed) {
    return remedy_work_out(ask, changed, ask->plan->burn.light_at);
}

static Remedy remedy_of(RemedyKind kind, Quantity amount, Quantity second) {
    return (Remedy){.kind = kind, .amount = amount, .second = second};
}

static double first_fill_kg(const Plan *plan) {
    return plan->fills.count > 0 ? plan->fills.items[0].wet_kg : NOT_STATED;
}

static void keep_fill(const RemedyAsk *ask, const Batch *changed, RemedyKind kind) {
    const Plan *after = tonight(ask, changed);
    Remedy remedy = remedy_of(kind, quantity(QUANTITY_MASS, first_fill_kg(after)), no_quantity());
    remedy.name = changed->fills.items[0].tray->name;
    remedy_keep(ask, after, remedy);
}

void remedy_try_heap(const RemedyAsk *ask) {
    Batch *changed = remedy_copy(ask);
    bool any = false;
    for (size_t i = 0; i < changed->fills.count; i++) {
        Fill *fill = &changed->fills.items[i];
        any = any || !fill->heaped;
        fill->heaped = true;
        fill->level = 1;
    }
    if (any) {
        keep_fill(ask, changed, REMEDY_HEAP);
    }
}

void remedy_try_lighter_fill(const RemedyAsk *ask) {
    Batch *changed = remedy_copy(ask);
    bool any = false;
    for (size_t i = 0; i < changed->fills.count; i++) {
        Fill *fill = &changed->fills.items[i];
        any = any || fill->packing != PACKING_SPRINKLED;
        fill->packing = fill->packing == PACKING_TAMPED ? PACKING_LEVELLED : PACKING_SPRINKLED;
    }
    if (any) {
        keep_fill(ask, changed, REMEDY_LIGHTER_FILL);
    }
}

static bool all_fills_take(const Batch *batch, const Tray *tray) {
    for (size_t i = 0; i < batch->fills.count; i++) {
        if (strcmp(batch->fills.items[i].tray->id, tray->id) != 0) {
            return false;
        }
    }
    return true;
}

/* Whether its smoke ends too early. */
static bool too_short(const Plan *plan) {
    for (size_t i = 0; i < plan->reasons.count; i++) {
        if (plan->reasons.items[i].cause == CAUSE_TOO_SHORT) {
            return true;
        }
    }
    return false;
}

/* The best of the other trays for all fills; what was asked of fill and heap stays. A tray that
 * lasts only because it is small is no help. */
void remedy_try_tray(const RemedyAsk *ask) {
    const Workshop *workshop = ask->batch->workshop;
    const Plan *best = NULL;
    const Tray *tray = NULL;
    for (size_t i = 0; i < workshop->trays.count; i++) {
        if (all_fills_take(ask->batch, &workshop->trays.items[i])) {
            continue;
        }
        Batch *changed = remedy_copy(ask);
        for (size_t k = 0; k < changed->fills.count; k++) {
            changed->fills.items[k].tray = &workshop->trays.items[i];
        }
        const Plan *after = tonight(ask, changed);
        bool shorter = too_short(after) && !too_short(ask->plan);
        if (!shorter && (!best || remedy_better(after, best))) {
            best = after;
            tray = &workshop->trays.items[i];
        }
    }
    if (best) {
        Remedy remedy = remedy_of(REMEDY_OTHER_TRAY, quantity(QUANTITY_MASS, first_fill_kg(best)),
                                  no_quantity());
        remedy.name = tray->name;
        remedy_keep(ask, best, remedy);
    }
}

/* How long that lighting burns while as many nights last as in a good one; nothing if it was not
 * sampled. */
static double good_time_s(const Plan *plan, const PlanFill *fill) {
    double good_s = 0;
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        if (sample->fill == fill->number && sample->lasting >= plan->burn.chance_good) {
            good_s = (double)(sample->at - fill->light_at);
        }
    }
    return good_s;
}

/* Shortens each fill to its good time, rounded down to ten minutes; returns the shortest, s, or 0
 * if that is none to speak of. Repeats of one fill share the shortest of theirs. */
static double shorten(const RemedyAsk *ask, Batch *changed) {
    const double round_s = 600;
    double shortest_s = INFINITY;
    size_t at = 0;
    for (size_t i = 0; i < changed->fills.count; i++) {
        Fill *fill = &changed->fills.items[i];
        for (int k = 0; k < fill->repeat && at < ask->plan->fills.count; k++, at++) {
            const PlanFill *planned = &ask->plan->fills.items[at];
            double good_s = floor(good_time_s(ask->plan, planned) / round_s) * round_s;
            double planned_s = (double)(planned->out_at - planned->light_at);
            bool enough = good_s >= planned_s * WORTH_BURNING;
            fill->burn_time_s = enough ? fmin(fill->burn_time_s, good_s) : 0;
        }
        shortest_s = fmin(shortest_s, fill->burn_time_s);
    }
    return shortest_s >= SHORTEST_BURN_S && isfinite(shortest_s) ? shortest_s : 0;
}

void remedy_try_shorter_burn(const RemedyAsk *ask) {
    Batch *changed = remedy_copy(ask);
    double burn_s = shorten(ask, changed);
    if (burn_s > 0) {
        remedy_keep(
            ask, tonight(ask, changed),
            remedy_of(REMEDY_SHORTER_BURN, quantity(QUANTITY_DURATION, burn_s), no_quantity()));
    }
}

static bool try_vents(const RemedyAsk *ask, const Cabinet *wider) {
    const Cabinet *now = ask->batch->cabinet;
    bool is_wider = wider->inlet_m2 > now->inlet_m2 || wider->outlet_m2 > now->outlet_m2;
    if (!is_wider || fmax(wider->inlet_m2, wider->outlet_m2) > vent_most_m2) {
        return false;
    }
    Batch *changed = remedy_copy(ask);
    changed->cabinet = wider;
    const Plan *after = tonight(ask, changed);
    if (!remedy_helps(ask->plan, after)) {
        return false;
    }
    Remedy remedy = remedy_of(REMEDY_WIDER_VENT, quantity(QUANTITY_AREA, wider->inlet_m2),
                              quantity(QUANTITY_AREA, wider->outlet_m2));
    remedy.inlet = after->cabinet.inlet;
    remedy.outlet = after->cabinet.outlet;
    remedy_keep(ask, after, remedy);
    return true;
}

/* Wider vents cool the cabinet, give the glow its air, and dry the cabinet where the burn's own
 * steam makes it damp. */
void remedy_try_vent(const RemedyAsk *ask) {
    const Cabinet *cabinet = ask->batch->cabinet;
    const PlanCabinet *air = &ask->plan->cabinet;
    bool wanted = air->over_caution || air->over_limit || air->over_wall || air->low_oxygen ||
                  air->condenses || ask->plan->burn.cause == CAUSE_DAMP_AIR;
    if (!cabinet || !wanted) {
        return;
    }
    const double factors[] = {1.5, 2, 3, 5, 8};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        Cabinet *wider = ARENA_NEW(ask->arena, Cabinet);
        *wider = *cabinet;
        double area_m2 = factors[i] * fmax(cabinet->inlet_m2, cabinet->outlet_m2);
        wider->inlet_m2 = vent_widened_m2(cabinet->inlet_m2, area_m2, cabinet->inlet_full_m2);
        wider->outlet_m2 = vent_widened_m2(cabinet->outlet_m2, area_m2, cabinet->outlet_full_m2);
        if (try_vents(ask, wider)) {
            return;
        }
    }
}

void remedy_try_hour(const RemedyAsk *ask) {
    const Weather *weather = &ask->batch->weather;
    if (weather->readings.count < 2 || ask->batch->timing.kind == TIMING_BEST) {
        return;
    }
    Instant first = weather->readings.items[0].at;
    Instant last = weather->readings.items[weather->readings.count - 1].at;
    const Plan *best = NULL;
    for (int hours = -HOURS_AROUND; hours <= HOURS_AROUND; hours += HOUR_STEP) {
        Instant at = ask->plan->burn.light_at + (Instant)hours * SECONDS_PER_HOUR;
        if (hours == 0 || at < first || at > last) {
            continue;
        }
        const Plan *after = remedy_work_out(ask, ask->batch, at);
        if (!best || remedy_better(after, best)) {
            best = after;
        }
    }
    if (best) {
        Quantity amount = quantity(QUANTITY_INSTANT, (double)best->burn.light_at);
        remedy_keep(ask, best, remedy_of(REMEDY_OTHER_HOUR, amount, no_quantity()));
    }
}

static const Plan *with_room(const RemedyAsk *ask, Room room) {
    Workshop *workshop = ARENA_NEW(ask->arena, Workshop);
    *workshop = *ask->batch->workshop;
    workshop->room = room;
    Batch *changed = remedy_copy(ask);
    changed->workshop = workshop;
    return tonight(ask, changed);
}

static void try_airing(const RemedyAsk *ask) {
    Room room = ask->batch->workshop->room;
    for (int changes = 1; changes <= AIR_CHANGES_MOST; changes *= 2) {
        if (changes <= room.air_changes_per_h) {
            continue;
        }
        room.air_changes_per_h = changes;
        const Plan *after = with_room(ask, room);
        if (!after->room.over_limit && !after->room.near_limit) {
            remedy_keep(
                ask, after,
                remedy_of(REMEDY_AIR_ROOM, quantity(QUANTITY_AIR_CHANGES, changes), no_quantity()));
            return;
        }
    }
}

void remedy_try_room(const RemedyAsk *ask) {
    const PlanRoom *now = &ask->plan->room;
    if (now->stated && !now->over_limit && !now->near_limit) {
        return;
    }
    Room outdoors = ask->batch->workshop->room;
    outdoors.stated = outdoors.outdoors = true;
    remedy_keep(ask, with_room(ask, outdoors),
                remedy_of(REMEDY_OUTDOORS, no_quantity(), no_quantity()));
    if (ask->plan->room.stated) {
        try_airing(ask);
    }
}
