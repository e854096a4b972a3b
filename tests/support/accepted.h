/* Accepted: whether a file of any kind that people write has no fault. */
#ifndef SUPPORT_ACCEPTED_H
#define SUPPORT_ACCEPTED_H

#include "input/reader.h"

/* Reports what it has; sets the reader's could_not_open as reading a batch does. */
bool file_accepted(Reader *reader, const char *path);

#endif
