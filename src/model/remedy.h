/* Remedy: which change, or which two together, would help tonight, and by how much. */
#ifndef MODEL_REMEDY_H
#define MODEL_REMEDY_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/belief.h"

/* How much the chance has to rise, or how much cooler the cabinet has to get, for a remedy to
 * count. Judgement: less than one night in fifty is not worth the work. */
extern const double remedy_least_chance_gain;
extern const double remedy_least_cooling_k;

/* Adds to plan->remedies every change that helps, best first: by the verdict after it, then by
 * the chance after it to a hundredth, then one change before two. Where no single change makes the
 * night good, the best few are also tried together by twos, and the best two pairs that do better
 * than each of their halves are added. Each is worked out by the whole model on a changed copy of
 * the batch, with shares held as found, lighting at the plan's hour. What cannot be done with the
 * dust at hand, or ends in "do not light", is not offered. Nothing is added to a good plan. Needs
 * all of the plan but its steps. */
void remedy_add(Arena *arena, const Batch *batch, const Belief *belief, Plan *plan);

#endif
