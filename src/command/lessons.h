/* Lessons: telling on the terminal what past nights could not teach, and why. */
#ifndef COMMAND_LESSONS_H
#define COMMAND_LESSONS_H

#include "command/records.h"
#include "domain/plan.h"

typedef struct Lessons {
    LIST_OF(LearningNote) told; /* each is told once a run */
} Lessons;

/* Reports the notes, where it was written. */
void lessons_report(Reader *reader, const LearningNotes *notes, Lessons *lessons);

/* Reports past nights beside the batches that could not be read; those among `files` were reported
 * when they were read. */
void lessons_report_unread(Reader *reader, const Records *records, char *const *files,
                           size_t count);

#endif
