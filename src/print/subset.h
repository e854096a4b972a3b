/* Subset: a TrueType face cut down to the glyphs of the characters that are used, so that a page
 * carries them alone. libharu drops unused outlines but keeps the tables of the whole face. */
#ifndef PRINT_SUBSET_H
#define PRINT_SUBSET_H

#include "base/file.h"
#include "base/list.h"
#include "layout/face.h"

#include <stdbool.h>
#include <stdint.h>

/* Code points below U+FFFF, ascending, each once. */
typedef LIST_OF(uint16_t) Codes;

/* Makes a face of the glyphs for those code points, with the parts that those are composed of, in
 * the arena. Advances, heights and names are those of the whole face; hinting and layout
 * tables are left out. False when the face has no outlines or lacks a table. */
bool subset_face(Arena *arena, const Face *face, const Codes *codes, Bytes *bytes);

#endif
