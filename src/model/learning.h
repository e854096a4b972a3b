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

/* What a trial of a dust tells of speed. One without a tray is taken to have been made in the
 * reference channel; one without a moisture, at the dust's own. False: nothing was measured. */
bool learning_of_trial(const Workshop *workshop, const Dust *dust, const Trial *trial,
                       SpeedObservation *observation);

/* What is believed of this batch's burn from its workshop's trials and from past batches with
 * records (`past` may be NULL when `count` is 0; the batch itself among them is passed over).
 * `notes`, which may be NULL, gets what could not be learnt from, in the order of the past. */
Belief learning_belief(Arena *arena, const Batch *batch, const Batch *const *past, size_t count,
                       LearningNotes *notes);

#endif
