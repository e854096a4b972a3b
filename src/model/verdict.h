/* Verdict: light, light and tend, or do not light; and why. */
#ifndef MODEL_VERDICT_H
#define MODEL_VERDICT_H

#include "base/arena.h"
#include "domain/plan.h"

/* Sets plan->verdict and plan->reasons, gravest first. Needs all else of the plan that a reason
 * can come from: burn, cabinet, room, blend with stock, and care. The verdict is that of the
 * gravest reason; without any it is good. */
void verdict_reach(Arena *arena, const Batch *batch, Plan *plan);

#endif
