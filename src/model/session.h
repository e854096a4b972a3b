/* Session: one night's fuel, drying, burn, cabinet, room and weather, worked out for an hour of
 * lighting. This is the model's entry: everything that knows wood, fire and air stands behind it;
 * what to do about it (verdict, remedies, steps, care, bags) is worked out from its figures. */
#ifndef MODEL_SESSION_H
#define MODEL_SESSION_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/belief.h"
#include "model/night.h"

typedef enum SessionDetail {
    SESSION_TIMES,   /* middle figures and the band: no map, hour marks, weak stretches, samples or
                        survival, and the chance is NAN */
    SESSION_FIGURES, /* middle figures and the chance: no band (its ends are out_at), map, hour
                        marks, weak stretches, samples or survival */
    SESSION_WHOLE
} SessionDetail;

/* Fills blend, drying, fills, burn, cabinet, room, weather and (whole) samples of *plan, and sets
 * plan->batch and plan->workshop. The rest of *plan is left as it is.
 *
 * `belief`: what is known of such burns (model/learning.h); NULL: nothing was measured.
 * `light_at`: when the first fill is lit. Any batch that the reader accepts will do; every figure
 * is finite, and NAN only where domain/plan.h says so. Memory comes from the arena. */
void session_work_out(Arena *arena, const Batch *batch, const Belief *belief, Instant light_at,
                      SessionDetail detail, Plan *plan);

/* The lightings alone, middle estimate, of the same night. */
const Night *session_night(Arena *arena, const Batch *batch, const Belief *belief,
                           Instant light_at);

/* A copy of the batch whose carrier shares are fixed at what the plan found, so that working out
 * a variant of it (drier, fuller, later) changes one thing only and need not search again. */
Batch *session_with_blend_fixed(Arena *arena, const Batch *batch, const Plan *plan);

#endif
