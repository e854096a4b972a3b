/* Output: where a run's files go, what they are called, and how they get there whole. */
#ifndef COMMAND_OUTPUT_H
#define COMMAND_OUTPUT_H

#include "base/arena.h"
#include "command/options.h"

#include <stdbool.h>
#include <stdint.h>

/* The folder PDFs go to unless told otherwise, made when it is missing. */
#define OUTPUT_FOLDER "out"

/* Whether `-o` names one file rather than a folder: it is no folder, and ends in .pdf or is there
 * already. */
bool output_is_file(const char *path);

/* Whether everything that is made goes into one file that -o names. */
bool output_together(const Options *options);

/* Path of NAME.KIND.pdf for a batch, in the folder that -o names (NULL: OUTPUT_FOLDER). */
const char *output_path(Arena *arena, const char *folder, const char *batch_path, const char *kind);

/* Makes the folder that the path lies in, one level, when it is missing. Says on standard error why
 * it can not, and returns false. */
bool output_make_folder(Arena *arena, const char *path);

/* Writes the bytes whole or not at all, making the last folder of the path when it is missing. What
 * is read in this run, and a file that is no PDF, is not written over, behind a symbolic link
 * neither; an empty one, a device and a pipe are written to. Says on standard error what went wrong
 * and returns false; an earlier file is then as it was. */
bool output_write(Arena *arena, const Options *options, const char *path, const uint8_t *bytes,
                  size_t length);

/* Seconds since 1970 to print as the day of printing: SOURCE_DATE_EPOCH when it is set to a whole
 * number, else now. */
int64_t output_date(void);

#endif
