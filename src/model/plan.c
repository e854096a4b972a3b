#include "model/plan.h"

#include "model/absence.h"
#include "model/caution.h"
#include "model/compared.h"
#include "model/finish.h"
#include "model/judge.h"
#include "model/learning.h"
#include "model/lot.h"
#include "model/remedy.h"
#include "model/timeline.h"
#include "model/window.h"

static Date local_date(const Batch *batch, Instant at) {
    return zone_civil(batch->workshop->zone, at).date;
}

/* The best hour of the window when the batch is alone; with what is told of it. */
static Instant best_alone(Arena *arena, const Batch *batch, const Belief *belief,
                          PlanChoice *choice) {
    Window window = window_of(arena, batch, belief);
    Instant light_at = 0;
    windows_choose(arena, &window, 1, choice, &light_at);
    return light_at;
}

static PlanHappened happened_of(const Record *record) {
    if (!record->stated || !record->lit) {
        return (PlanHappened){
            .burnt_m = NOT_STATED, .ash_kg = NOT_STATED, .product_kg = NOT_STATED};
    }
    return (PlanHappened){.over = true,
                          .lit_at = record->lit,
                          .out_at = record->out,
                          .died = record->went_out_early,
                          .burnt_m = record->burnt_m,
                          .relit = (int)record->relit.count,
                          .relit_at = record->relit.count > 0 ? record->relit.items[0] : 0,
                          .ash_kg = record->ash_kg,
                          .product_kg = record->product_kg > 0 ? record->product_kg : NOT_STATED,
                          .by = record->by,
                          .remark = record->remark};
}

/* Without hours to choose from nothing is worked out for the choice. */
static Instant hour_of(Arena *arena, const Batch *batch, const Belief *belief, PlanChoice *choice) {
    const Timing *timing = &batch->timing;
    choice->next.chance = NOT_STATED;
    switch (timing->kind) {
    case TIMING_FINISH_BY: return finish_light_at(arena, batch, belief, timing->at);
    case TIMING_BEST: return best_alone(arena, batch, belief, choice);
    case TIMING_LIGHT_AT: break;
    }
    return timing->at;
}

const Plan *plan_make_with_learning(Arena *arena, const Batch *batch, const Learning *learning) {
    return plan_make_at(arena, batch, learning, NULL);
}

static Plan *judged_at(Arena *arena, const Batch *batch, const Learning *learning,
                       const PlanHour *hour, Belief *belief) {
    Plan *plan = ARENA_NEW(arena, Plan);
    *belief = learning_of_burn(arena, learning, batch, &plan->learning);
    Instant light_at = hour ? hour->light_at : hour_of(arena, batch, belief, &plan->choice);
    plan->choice = hour ? hour->choice : plan->choice;
    judge_night(arena, batch, belief, light_at, SESSION_WHOLE, plan);
    plan->happened = happened_of(&batch->record);
    plan->lot = lot_of_batch(arena, batch, local_date(batch, light_at));
    return plan;
}

const Plan *plan_judged(Arena *arena, const Batch *batch, const Learning *learning) {
    Belief belief;
    return judged_at(arena, batch, learning, NULL, &belief);
}

const Plan *plan_make_at(Arena *arena, const Batch *batch, const Learning *learning,
                         const PlanHour *hour) {
    Belief belief;
    Plan *plan = judged_at(arena, batch, learning, hour, &belief);
    remedy_add(arena, batch, &belief, plan);
    if (plan->verdict == VERDICT_STAY) {
        /* who keeps to the page is there then, and looks in */
        batch = plan->batch = absence_without(arena, batch, plan->stay_from, plan->stay_to);
    }
    timeline_add(arena, batch, plan);
    caution_add(arena, batch, plan);
    plan->warmth =
        (PlanWarmth){.most_c = NOT_STATED, .over_most_s = NOT_STATED, .yield = NOT_STATED};
    if (plan->happened.over) {
        compared_add(arena, batch, plan);
    }
    return plan;
}

const Plan *plan_make_with_records(Arena *arena, const Batch *batch, const Batch *const *past,
                                   size_t count) {
    const Learning *all = learning_of(arena, batch->workshop, past, count);
    return plan_make_with_learning(arena, batch, learning_before(arena, all, INT64_MAX, batch));
}

const Plan *plan_make(Arena *arena, const Batch *batch) {
    return plan_make_with_records(arena, batch, NULL, 0);
}
