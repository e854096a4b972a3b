/* Follow: the text of the next batch, made from the file of the last one.
 *
 * Comments and layout stay; what is changed is changed by the byte. What was of that night alone
 * is left out: its lots, record, days of packing, and what was found out about that product
 * (cured, salt, water, a freezing that was done, when salting or freezing was begun), which of the
 * next is not so until somebody has seen to it. Hours move by whole days. Weather becomes what is
 * usual, but for a forecast file, which is for its owner to renew.
 */
#ifndef COMMAND_FOLLOW_H
#define COMMAND_FOLLOW_H

#include "base/file.h"
#include "base/text.h"
#include "domain/batch.h"

typedef struct Following {
    Arena *arena;
    const char *bytes; /* of the last one, well formed, NUL-ended */
    size_t length;
    const Batch *batch;  /* the same, read without fault */
    const char *name;    /* on paper; NULL: that of the last one */
    const char *weather; /* the attributes of usual weather on that day, as written in XML */
    int days;            /* by which the hours move */
} Following;

/* Whole days, at least one, by which the hours of the last batch move so that there is time to
 * prepare: four hours and what salting and freezing take before lighting, and before a wanted end a
 * long night more (common practice, no source). */
int follow_days(const Batch *batch, Instant now);

Text follow_text(const Following *following);

#endif
