/* Folder: whether there is one, and its XML files. */
#ifndef COMMAND_FOLDER_H
#define COMMAND_FOLDER_H

#include "base/nearest.h"

#include <stdbool.h>

bool folder_there(const char *path);

/* The path with a slash at its end. */
const char *folder_path(Arena *arena, const char *folder);

/* The paths of the files that end in .xml, in byte order whatever the locale, each with `folder`
 * before it ("" is the folder the program runs in; else it ends in a slash). False when the folder
 * can not be read. */
bool folder_files(Arena *arena, const char *folder, Names *files);

#endif
