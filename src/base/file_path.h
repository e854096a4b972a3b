/* File path: a path taken apart at its last slash. */
#ifndef BASE_FILE_PATH_H
#define BASE_FILE_PATH_H

#include "base/arena.h"

/* Bytes of the folder, its slash counted; 0 when there is none. */
size_t file_path_folder_length(const char *path);

/* The folder with its slash; "" when there is none. */
const char *file_path_folder(Arena *arena, const char *path);

/* What stands behind the folder. */
const char *file_path_last(const char *path);

/* The same without its ending. */
const char *file_path_stem(Arena *arena, const char *path);

#endif
