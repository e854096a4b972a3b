/* Outside: what tests need of the world around them: a folder of their own, outside programs. */
#ifndef SUPPORT_OUTSIDE_H
#define SUPPORT_OUTSIDE_H

#include "base/arena.h"

/* Where the tests find the faces: the folder fonts/ of the source tree they are run from. */
#define OUTSIDE_FONTS "fonts"

/* A new, empty folder under /tmp for one test program; outside_remove takes it away. */
const char *outside_folder(Arena *arena);
void outside_remove(const char *folder);

/* Runs a shell command and returns what it wrote to standard output and error, whole. Its exit
 * status goes to *status, when that is not NULL. */
const char *outside_run(Arena *arena, int *status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
