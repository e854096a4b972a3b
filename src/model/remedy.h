/* Remedy: which single change would help tonight, and by how much. */
#ifndef MODEL_REMEDY_H
#define MODEL_REMEDY_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/belief.h"

/* How much better the margin has to get, or how much cooler the cabinet, for a remedy to count. */
extern const double remedy_least_margin_gain;
extern const double remedy_least_cooling_k;

/* Adds to plan->remedies every change that helps, best first: by the verdict after it, then by
 * the margin after it. Each is worked out by the whole model on a changed copy of the batch, with
 * shares held as found, lighting at the plan's hour. Nothing is added to a good plan. Needs all
 * of the plan but its steps. */
void remedy_add(Arena *arena, const Batch *batch, const Belief *belief, Plan *plan);

#endif
