#include "model/judge.h"

#include "model/bag.h"
#include "model/care.h"
#include "model/preparation.h"
#include "model/printed_times.h"
#include "model/verdict.h"

void judge_night(Arena *arena, const Batch *batch, const Belief *belief, Instant light_at,
                 SessionDetail detail, Plan *plan) {
    session_work_out(arena, batch, belief, light_at, detail, plan);
    printed_times_set(plan);
    care_judge_cabinet(&batch->product, &plan->cabinet);
    bag_plan(arena, batch, zone_civil(batch->workshop->zone, light_at).date, plan);
    preparation_plan(arena, batch, light_at, plan);
    care_add(arena, batch, plan);
    verdict_reach(arena, batch, plan);
}
