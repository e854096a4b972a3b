/* Folder: the XML files of a folder. */
#ifndef COMMAND_FOLDER_H
#define COMMAND_FOLDER_H

#include "base/nearest.h"

#include <stdbool.h>

/* The paths of the files that end in .xml, in byte order whatever the locale, each with `folder`
 * before it ("" is the folder the program runs in; else it ends in a slash). False when the folder
 * can not be read. */
bool folder_files(Arena *arena, const char *folder, Names *files);

#endif
