/* Compared: a night that is over, what was planned of it beside what was written down. */
#ifndef MODEL_COMPARED_H
#define MODEL_COMPARED_H

#include "base/arena.h"
#include "domain/plan.h"

/* Adds plan->compared, plan->checks and plan->warmth for the batch's record, which says when it was
 * lit. Needs all the plan else holds.
 *
 * A planned look and one that was written down are one row when each is the nearest to the other
 * and they are no further apart than look-ins are (model/look_ins.h). A front is held against where
 * the plan had it so long after lighting, and warmth against the plan by the clock. */
void compared_add(Arena *arena, const Batch *batch, Plan *plan);

#endif
