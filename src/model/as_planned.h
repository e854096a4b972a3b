/* As planned: a night that was written down as it was planned before it, so that what happened can
 * be held against it. */
#ifndef MODEL_AS_PLANNED_H
#define MODEL_AS_PLANNED_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/learning.h"

/* The batch as it was before its record: without it, without what lies on the shelf today, and then
 * not judged by the clock of today. A copy in the arena. */
const Batch *as_planned_batch(Arena *arena, const Batch *batch);

/* The plan of that batch as far as its verdict (plan_judged), with what was known before it: the
 * trials, and the nights that were over when this one was lit, by its record or else its timing.
 * `learning` may know later nights, and the batch itself. Never NULL.
 *
 * Nobody writes down when a trial of a dust was timed, nor when a file of weather or workshop was
 * changed: these count as they stand today. */
const Plan *as_planned(Arena *arena, const Batch *batch, const Learning *learning);

#endif
