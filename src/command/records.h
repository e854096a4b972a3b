/* Records: past batches that stand in the same folder as tonight's and were written down. What
 * they tell narrows tonight's estimate, without anybody asking for it. */
#ifndef COMMAND_RECORDS_H
#define COMMAND_RECORDS_H

#include "input/reader.h"

typedef struct Records {
    LIST_OF(const char *) folders; /* looked through already */
    LIST_OF(const Batch *) batches;
    LIST_OF(const char *) unread; /* files that may hold a record but have faults */
} Records;

typedef struct Past {
    const Batch *const *batches;
    size_t count;
} Past;

/* Adds the recorded batches of the folder in which `batch_file` lies, in the order of their names.
 * Files there that are no batch, and faulty batches without a record, are passed over in silence:
 * they were not asked for. Whatever was reported before must have been printed: the reports are
 * forgotten. */
void records_gather(Reader *reader, const char *batch_file, Records *records);

/* Those that were lit before this batch is to be, of the same workshop. */
Past records_before(Arena *arena, const Records *records, const Batch *batch);

#endif
