/* Preparation: what is to be done to the product in the days before, worked back from the lighting:
 * freezing, thawing, salting, rinsing, drying.
 *
 * Salting, rinsing and, as a rule, drying take exactly their time, for what stays longer in salt
 * gets saltier; freezing and thawing take theirs at the least. Every step begins when somebody is
 * up and there: between PREPARATION_UP and PREPARATION_DOWN on the wall clock, and out of the
 * hours when nobody is there. Lengths are real hours, whatever the clocks do between. The last is
 * over when the product is hung (model/timeline.h), or what was only frozen is taken in hand.
 */
#ifndef MODEL_PREPARATION_H
#define MODEL_PREPARATION_H

#include "base/arena.h"
#include "domain/plan.h"

/* Hours of the day at which people begin something, from the first on and not after the last
 * (judgement). */
enum { PREPARATION_UP = 7, PREPARATION_DOWN = 22 };

/* Sets plan->preparation for an hour of lighting. A batch that plans nothing, or has it all behind
 * it, gets no task. With begun parts the rest follows from when they had begun; if they can not be
 * done in time there is no task and not_ready. `late` needs batch->planned_at; a night with a
 * record never is. */
void preparation_plan(Arena *arena, const Batch *batch, Instant light_at, Plan *plan);

/* Every key of a task (words `task.KEY`), and how many. */
const char *const *preparation_task_keys(size_t *count);

#endif
