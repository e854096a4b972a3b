/* File name: a name for a file that any system takes, made from what people call a thing. */
#ifndef COMMAND_FILE_NAME_H
#define COMMAND_FILE_NAME_H

#include "base/arena.h"

/* "Räucherkäse am Montag" becomes "raeucherkaese-am-montag": small letters a to z, digits, and a
 * hyphen for each run of anything else, at most 60. NULL when no letter and no digit is left, or
 * the words are no UTF-8. */
const char *file_name_of(Arena *arena, const char *words);

#endif
