/* Resource: where the program's own data (templates/ and fonts/) lies. */
#ifndef COMMAND_RESOURCE_H
#define COMMAND_RESOURCE_H

#include "base/nearest.h"

/* The folder that holds templates/ and fonts/: what the environment variable BURNSHEET_DATA names;
 * else ../share/burnsheet beside the running program, where `make install` puts it; else the source
 * tree the program was built from. Ends without a slash. */
const char *resource_folder(Arena *arena);

/* The names of the XML files of a folder without their ending, in the order of the alphabet;
 * none when there is no such folder. */
Names resource_names(Arena *arena, const char *folder);

#endif
