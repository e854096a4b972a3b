#include "model/plan.h"

#include "model/absence.h"
#include "model/bag.h"
#include "model/care.h"
#include "model/caution.h"
#include "model/finish.h"
#include "model/learning.h"
#include "model/lot.h"
#include "model/preparation.h"
#include "model/printed_times.h"
#include "model/remedy.h"
#include "model/session.h"
#include "model/timeline.h"
#include "model/verdict.h"

#include <math.h>

enum { SCAN_STEP_S = 15 * 60, SCAN_MOST = 200 };

static Date local_date(const Batch *batch, Instant at) {
    return zone_civil(batch->workshop->zone, at).date;
}

/* Session, food, bags and verdict for an hour of lighting. */
static void work_out(Arena *arena, const Batch *batch, const Belief *belief, Instant light_at,
                     SessionDetail detail, Plan *plan) {
    session_work_out(arena, batch, belief, light_at, detail, plan);
    printed_times_set(plan);
    care_judge_cabinet(&batch->product, &plan->cabinet);
    bag_plan(arena, batch, local_date(batch, light_at), plan);
    preparation_plan(arena, batch, light_at, plan);
    care_add(arena, batch, plan);
    verdict_reach(arena, batch, plan);
}

/* By the verdict, then by the chance to a hundredth: of equal hours the earlier stays. */
static bool better(const Plan *plan, const Plan *than) {
    if (plan->verdict != than->verdict) {
        return plan->verdict < than->verdict;
    }
    const double hundredth = 0.01;
    return floor(plan->burn.chance / hundredth + 0.5) > floor(than->burn.chance / hundredth + 0.5);
}

/* Long windows are tried in longer steps, so that a plan stays quick. */
static Instant scan_step(Instant from, Instant to) {
    Instant step = SCAN_STEP_S;
    while ((to - from) / step > SCAN_MOST) {
        step += SCAN_STEP_S;
    }
    return step;
}

/* The first hour of the window, on its steps, at which somebody is there to light; its start when
 * there is none. */
static Instant first_attended(const Batch *batch, Instant step) {
    Instant at = batch->timing.at;
    while (at <= batch->timing.to && absence_back(batch, at) != at) {
        at += step;
    }
    return at <= batch->timing.to ? at : batch->timing.at;
}

/* The shares are found once, at the window's start: what is compared is the hours. */
static Instant best_in_window(Arena *arena, const Batch *batch, const Belief *belief) {
    Instant step = scan_step(batch->timing.at, batch->timing.to);
    Instant from = first_attended(batch, step);
    Plan *best = ARENA_NEW(arena, Plan);
    work_out(arena, batch, belief, from, SESSION_FIGURES, best);
    const Batch *fixed = session_with_blend_fixed(arena, batch, best);
    for (Instant at = from + step; at <= batch->timing.to; at += step) {
        if (absence_back(batch, at) != at) {
            continue;
        }
        Plan *plan = ARENA_NEW(arena, Plan);
        work_out(arena, fixed, belief, at, SESSION_FIGURES, plan);
        if (better(plan, best)) {
            best = plan;
        }
    }
    return best->burn.light_at;
}

Instant plan_light_at(Arena *arena, const Batch *batch, const Belief *belief) {
    switch (batch->timing.kind) {
    case TIMING_FINISH_BY: return finish_light_at(arena, batch, belief, batch->timing.at);
    case TIMING_BEST: return best_in_window(arena, batch, belief);
    case TIMING_LIGHT_AT: break;
    }
    return batch->timing.at;
}

static PlanHappened happened_of(const Record *record) {
    if (!record->stated || !record->lit) {
        return (PlanHappened){.burnt_m = NOT_STATED, .ash_kg = NOT_STATED};
    }
    return (PlanHappened){.over = true,
                          .lit_at = record->lit,
                          .out_at = record->out,
                          .died = record->went_out_early,
                          .burnt_m = record->burnt_m,
                          .relit = (int)record->relit.count,
                          .relit_at = record->relit.count > 0 ? record->relit.items[0] : 0,
                          .ash_kg = record->ash_kg,
                          .remark = record->remark};
}

const Plan *plan_make_with_learning(Arena *arena, const Batch *batch, const Learning *learning) {
    Plan *plan = ARENA_NEW(arena, Plan);
    Belief belief = learning_of_burn(arena, learning, batch, &plan->learning);
    Instant light_at = plan_light_at(arena, batch, &belief);
    work_out(arena, batch, &belief, light_at, SESSION_WHOLE, plan);
    plan->happened = happened_of(&batch->record);
    plan->lot = lot_of_batch(arena, batch, local_date(batch, light_at));
    remedy_add(arena, batch, &belief, plan);
    if (plan->verdict == VERDICT_STAY) {
        /* who keeps to the page is there then, and looks in */
        batch = plan->batch = absence_without(arena, batch, plan->stay_from, plan->stay_to);
    }
    timeline_add(arena, batch, plan);
    caution_add(arena, batch, plan);
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
