/* Subset: a TrueType face cut down to the glyphs of the characters that are used, so that a page
 * carries them alone. libharu drops unused outlines but keeps the tables of the whole face. */
#ifndef PRINT_SUBSET_H
#define PRINT_SUBSET_H

#include "base/file.h"
#include "layout/face.h"

#include <stdbool.h>

enum { SUBSET_CODES = 0x10000 };

/* Makes a face of the glyphs for the code points in `has`, with the parts that those are composed
 * of, in the arena. Advances, heights and names are those of the whole face; hinting and layout
 * tables are left out. False when the face has no outlines or lacks a table. */
bool subset_face(Arena *arena, const Face *face, const bool has[SUBSET_CODES], Bytes *bytes);

#endif
