/* Check: whether a document can be printed faithfully, before any of it reaches the library.
 *
 * libharu accepts a coordinate that is no number, a broken UTF-8 sequence and a character that the
 * face lacks, and makes a damaged or silently wrong page of them. Here each is an error.
 */
#ifndef PRINT_CHECK_H
#define PRINT_CHECK_H

#include "layout/mark.h"

#include <stdbool.h>

/* Checks every page and mark: finite numbers within what PDF can hold, paths that begin with a
 * move, valid UTF-8, a glyph for every character, texts that begin and end on the paper. Returns
 * false at the first fault; *error then names page, panel and fault. */
bool document_check(Arena *arena, const Document *document, const FaceSet *faces,
                    const char **error);

#endif
