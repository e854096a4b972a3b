/* Plan making: the whole model in one call, from a batch to everything a page can show. */
#ifndef MODEL_PLAN_H
#define MODEL_PLAN_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/belief.h"
#include "model/learning.h"

/* The plan of a batch, in the arena. Past batches with records (may be none) make the estimate of
 * the speed narrower. Never NULL; any batch that the readers accept will do.
 *
 * When to light: the hour asked for; or the latest at which 9 burns in 10 are out
 * when asked (model/finish.h); or
 * the best in the window (model/window.h). */
const Plan *plan_make_with_records(Arena *arena, const Batch *batch, const Batch *const *past,
                                   size_t count);

/* The same from what was learnt already, of which the batch's own record must be no part. */
const Plan *plan_make_with_learning(Arena *arena, const Batch *batch, const Learning *learning);

/* The same as far as the verdict: no remedies, steps, look-ins or cautions. For many nights. */
const Plan *plan_judged(Arena *arena, const Batch *batch, const Learning *learning);

/* An hour that was chosen already, together with other batches (model/window.h). */
typedef struct PlanHour {
    Instant light_at;
    PlanChoice choice;
} PlanHour;

/* The same for that hour; NULL: for the batch's timing. */
const Plan *plan_make_at(Arena *arena, const Batch *batch, const Learning *learning,
                         const PlanHour *hour);

/* The same without past batches. */
const Plan *plan_make(Arena *arena, const Batch *batch);

#endif
