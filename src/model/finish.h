/* Finish: when to light so that the night is over by a wanted hour. */
#ifndef MODEL_FINISH_H
#define MODEL_FINISH_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/belief.h"

/* The latest whole five minutes at which to light so that 9 burns in 10 are out by `finish`: the
 * late end of the band, as it is printed, is no later. Nobody lights in hours of absence, and a
 * further lighting waits for somebody, so that a later hour may end much later; the hour is found
 * whatever the absences are. A carrier's shares are those found for the hour itself. */
Instant finish_light_at(Arena *arena, const Batch *batch, const Belief *belief, Instant finish);

#endif
