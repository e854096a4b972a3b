/* Learning: from timed trials and recorded nights to what is believed of the next burn.
 *
 * What was burnt is a fact of the record and is never worked out again. A record whose filled
 * length nobody wrote down, whose readings and end do not go together, or that does not fit the
 * others teaches no speed, and a note says so. */
#ifndef MODEL_LEARNING_H
#define MODEL_LEARNING_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/belief.h"

/* What a record can teach of speed. */
typedef enum RecordTold {
    RECORD_TOLD_SPEED,          /* also a trial */
    RECORD_TOLD_NOTHING,        /* not lit, or neither an end nor a front that tells a speed */
    RECORD_TOLD_LENGTH_UNKNOWN, /* a tray not filled to its end, and not said how far */
    RECORD_TOLD_AT_ODDS         /* a reading and the end, or two readings, do not go together */
} RecordTold;

/* Adds an observation for every trial in the workshop's dusts. A trial without a tray is taken to
 * have been made in the reference channel; without a moisture, at the dust's own. */
void learning_add_trials(Arena *arena, const Workshop *workshop, SpeedObservations *observations);

/* Adds the recorded burn of a batch if it tells a speed: the speed factor at which the model, in
 * the weather, with the blend and over the length of that night, comes where the record says that
 * the front was, and ends when it says. Readings and end make one observation. */
RecordTold learning_add_record(Arena *arena, const Batch *past, SpeedObservations *observations);

/* What is believed of this batch's burn from its workshop's trials and from past batches with
 * records (`past` may be NULL when `count` is 0; the batch itself among them is passed over).
 * `notes`, which may be NULL, gets what could not be learnt from, in the order of the past. */
Belief learning_belief(Arena *arena, const Batch *batch, const Batch *const *past, size_t count,
                       LearningNotes *notes);

/* What the observations say of one dust alone in any tray of the smokehouse. */
SpeedFactor learning_dust_factor(const SpeedObservations *observations, const Dust *dust);

#endif
