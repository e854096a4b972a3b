/* Record write: the record to fill in, put into the batch's own file. */
#ifndef COMMAND_RECORD_WRITE_H
#define COMMAND_RECORD_WRITE_H

#include "command/run.h"

/* Writes the element before `</batch>`, with the file's own indentation, line ends and rights; all
 * else in it stays to the byte. The file is read again first: one that got a record or a fault in
 * between, one that is no plain file or may not be written, and one that could not be read
 * afterwards, is left as it is. Says on standard error what went wrong. */
ExitStatus record_write(Run *run, const Job *job, const char *element);

#endif
