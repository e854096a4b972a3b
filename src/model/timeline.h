/* Timeline: the steps of the night in their order, the looks at the smoker, what to do if
 * something goes wrong, and the dark hours. */
#ifndef MODEL_TIMELINE_H
#define MODEL_TIMELINE_H

#include "base/arena.h"
#include "domain/plan.h"

/* Adds plan->steps, look-ins, decisions and nights. Needs the plan's blend, drying, fills, burn,
 * cabinet, weather and samples.
 *
 * Steps before lighting are counted backwards from it and fall on whole five minutes; those after
 * it follow the middle estimate. All are instants, so a change of clocks between them does no
 * harm. None falls into hours when nobody is there: what comes before lighting is done before they
 * go, what comes after it when they are back. Looks: 20 minutes after each lighting and at the
 * end, which move to an end of such hours where they fall into them and are marked; and between
 * them as many look-ins as the batch allows, on whole and half hours (model/look_ins.h). Dark hours
 * are
 * 22:00 to 06:00 on the wall clock, since no place on the earth is known. */
void timeline_add(Arena *arena, const Batch *batch, Plan *plan);

/* Every key of a step (words `step.KEY`) and of a decision (`decision.KEY` and
 * `decision.KEY.then`), and how many. */
const char *const *timeline_step_keys(size_t *count);
const char *const *timeline_decision_keys(size_t *count);

/* Parts of timeline_add. */
void timeline_add_steps(Arena *arena, const Batch *batch, Plan *plan);
void timeline_add_look_ins(Arena *arena, const Batch *batch, Plan *plan);
void timeline_add_decisions(Arena *arena, Plan *plan);
void timeline_add_nights(Arena *arena, Plan *plan);

/* When the product is taken in hand, and when it is hung, for an hour of lighting. */
Instant timeline_prepare_at(const Batch *batch, Instant light_at);
Instant timeline_hang_at(const Batch *batch, Instant light_at);

/* What a look at that time would find by the plan; nothing (NAN, fill 0) when there are no
 * samples. */
PlanLookIn timeline_look_at(const Plan *plan, Instant at);

/* The away span that holds the instant (its ends not counted); NULL: none. */
const Away *timeline_away_at(const Batch *batch, Instant at);

#endif
