/* Absence: the hours in which nobody is there, and how what is to be done keeps out of them. */
#ifndef MODEL_ABSENCE_H
#define MODEL_ABSENCE_H

#include "domain/batch.h"

/* The span that holds the instant (its ends not counted), with all that touch it. Returns false if
 * somebody is there. */
bool absence_at(const Batch *batch, Instant at, Away *span);

/* That span with all that touch it. */
Away absence_whole(const Batch *batch, Away span);

/* The instant itself if somebody is there, else when they are back. */
Instant absence_back(const Batch *batch, Instant at);

/* The latest instant up to `until` at which something that takes `length_s` can be finished with
 * somebody there all the while; on whole multiples of `step_s` if it has to move. */
Instant absence_done_by(const Batch *batch, Instant until, Instant length_s, Instant step_s);

/* A copy of the batch in which somebody is there from `from` to `to`: its absences less that
 * span. */
const Batch *absence_without(Arena *arena, const Batch *batch, Instant from, Instant to);

#endif
