/* Learning: from timed trials and recorded burns to the pace of the next burn. */
#ifndef MODEL_LEARNING_H
#define MODEL_LEARNING_H

#include "base/arena.h"
#include "domain/batch.h"
#include "model/belief.h"

/* Adds an observation for every trial in the workshop's dusts. A trial without a tray is taken to
 * have been made in the reference channel; without a moisture, at the dust's own. */
void learning_add_trials(Arena *arena, const Workshop *workshop, PaceObservations *observations);

/* Adds the recorded burn of a batch: the pace at which the model, in the weather and with the blend
 * of that batch, takes as long as was recorded. Returns false, and adds nothing, if the record has
 * no lit or no out time, was relit (its dead time is not known), or went out early without saying
 * where. A burnt length is that of a batch with one fill. */
bool learning_add_record(Arena *arena, const Batch *past, PaceObservations *observations);

/* What is believed of this batch's burn from its workshop's trials and from past batches with
 * records (`past` may be NULL when `count` is 0; the batch itself among them is passed over). */
Belief learning_belief(Arena *arena, const Batch *batch, const Batch *const *past, size_t count);

/* What the observations say of one dust alone in any tray of the smokehouse. */
Pace learning_dust_pace(const PaceObservations *observations, const Dust *dust);

#endif
