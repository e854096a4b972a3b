/* Records: past batches that stand in the same folder as tonight's and were written down. What
 * they tell narrows tonight's estimate, without anybody asking for it. */
#ifndef COMMAND_RECORDS_H
#define COMMAND_RECORDS_H

#include "command/taught.h"
#include "input/reader.h"

typedef struct Records {
    Arena *arena;                  /* of all below */
    LIST_OF(const char *) folders; /* looked through already */
    LIST_OF(const Batch *) batches;
    LIST_OF(const char *) unread; /* files that may hold a record but have faults */
    Taught taught;
} Records;

/* Adds the recorded batches of the folder in which `batch_file` lies, in the order of their names.
 * Files there that are no batch, and faulty batches without a record, are passed over in silence:
 * they were not asked for. Whatever was reported before must have been printed: the reports are
 * forgotten. */
void records_gather(Reader *reader, const char *batch_file, Records *records);

/* What those taught that were lit before this batch is to be, of the same workshop. All folders
 * have to be gathered by then. */
const Learning *records_learning(Arena *arena, Records *records, const Batch *batch);

#endif
