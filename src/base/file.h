/* File: whole files read into memory, and whole files written or not at all. */
#ifndef BASE_FILE_H
#define BASE_FILE_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct Bytes {
    uint8_t *data; /* from file_read with a NUL behind the last byte, which `length` leaves out */
    size_t length;
} Bytes;

/* Reads a file, a pipe too, of at most `most` bytes into the arena. On failure returns false and
 * sets *error, which names the path: cannot be opened, cannot be read, or larger than allowed. */
bool file_read(Arena *arena, const char *path, size_t most, Bytes *bytes, const char **error);

/* Writes a file so that it appears whole or not at all: under another name in the same folder,
 * flushed to the disk, then renamed. On failure returns false and sets *error with the path and
 * the system's reason; the unfinished file is removed and an earlier one is left as it was.
 * A symbolic link is followed. A path that is no regular file, such as a pipe or a device, is
 * written straight into. */
bool file_write(Arena *arena, const char *path, const void *data, size_t length,
                const char **error);

/* Creates a file where there is none, whole or not at all: written under another name in the same
 * folder, flushed, then given its own. What has the name already, a symbolic link that leads
 * nowhere too, stays as it is, also when it appears meanwhile; *taken then says so. On failure
 * returns false and sets *error as file_write does; nothing is left behind. */
bool file_create(Arena *arena, const char *path, const void *data, size_t length, bool *taken,
                 const char **error);

#endif
