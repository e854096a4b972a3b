/* Judge: one night with its food and what is done to it before, its bags and its verdict, for an
 * hour of lighting. */
#ifndef MODEL_JUDGE_H
#define MODEL_JUDGE_H

#include "model/session.h"

/* Fills *plan as model/session.h does, and bags, preparation,
 * care, reasons and verdict. The rest of *plan,
 * zeroed before, is left as it is. */
void judge_night(Arena *arena, const Batch *batch, const Belief *belief, Instant light_at,
                 SessionDetail detail, Plan *plan);

#endif
