/* Learning: from timed trials and recorded nights to what is believed of the next burn.
 *
 * What was burnt is a fact of the record and is never worked out again. A record whose filled
 * length nobody wrote down, whose readings and end do not go together, or that does not fit the
 * others teaches no speed, and a note says so. A night of which only the weather that is usual was
 * written counts for as much less as that is less known. */
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

/* What trials and recorded nights told, each worked out once: what it costs grows with their
 * number, and what is believed of one burn after another then costs little. */
typedef struct Learning Learning;

/* The trials of the workshop and, of the past batches, those that were its own and have records, by
 * date; `past` may be NULL when `count` is 0. Held by the arena; the batches have to outlive it. */
const Learning *learning_of(Arena *arena, const Workshop *workshop, const Batch *const *past,
                            size_t count);

/* The trials, and of the nights those that were lit before that time; `but`, which may be NULL, is
 * left out: a batch is known by its file. */
const Learning *learning_before(Arena *arena, const Learning *learning, Instant lit_before,
                                const Batch *but);

/* The same of the nights that were over by then, as far as their end was written down: what could
 * be known at that time. */
const Learning *learning_over_by(Arena *arena, const Learning *learning, Instant then,
                                 const Batch *but);

/* Adds what could not be learnt from, by date. */
void learning_notes(Arena *arena, const Learning *learning, LearningNotes *notes);

/* A past night that was lit, whether or not it told anything. */
typedef struct LearningNight {
    const Batch *batch;
    BurnKind kind;
} LearningNight;

size_t learning_nights(const Learning *learning);
LearningNight learning_night(const Learning *learning, size_t index);

/* How many timed trials told a speed. */
size_t learning_trials(const Learning *learning);

/* The same, and a burn of that kind that would go exactly as is believed now: what is believed then
 * tells what measuring it is worth, since how sure one gets hardly depends on what comes out. */
const Learning *learning_with(Arena *arena, const Learning *learning, const BurnKind *kind,
                              bool trial);

/* What is believed of a burn of that kind. `notes`, which may be NULL, gets what could not be
 * learnt from, by date. */
Belief learning_of_kind(Arena *arena, const Learning *learning, const BurnKind *kind,
                        LearningNotes *notes);

/* The same of a batch's burn, whose own record must be no part of what was learnt. */
Belief learning_of_burn(Arena *arena, const Learning *learning, const Batch *batch,
                        LearningNotes *notes);

#endif
