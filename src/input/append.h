/* Append: one more element written into an XML file that a person keeps, behind what its root
 * holds. Nothing else of the file changes by a byte: comments, layout, order, line ends and a byte
 * order mark stay. */
#ifndef INPUT_APPEND_H
#define INPUT_APPEND_H

#include "base/file.h"

/* The bytes of `file` with `element` before the end tag of its root, in the arena, NUL-ended. The
 * file has to be one that xml_parse took; else, or when its root is one tag alone, the data is
 * NULL.
 *
 * `element` is lines that end with '\n'. Each starts with two blanks for every level it stands
 * deeper than what the root holds: these become the file's own indentation, and the line ends its
 * own. */
Bytes xml_append(Arena *arena, Bytes file, const char *element);

#endif
