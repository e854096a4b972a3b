/* Sheet: one page about a plan: the session sheet, or the desk page. */
#ifndef LAYOUT_SHEET_H
#define LAYOUT_SHEET_H

#include "layout/block.h"

#include <stdbool.h>

/* Lays the plan out on one page of the workshop's paper, added to the document. False, and
 * reported, when a word is missing, when the page is too long (by how many millimetres, and which
 * text is the longest), or when a caution or a grave condition of the product would not be on it;
 * the document is then as it was. */
bool sheet_lay_out(const Pattern *pattern, const Plan *plan, const FieldGroup *fields,
                   const Locale *locale, const FaceSet *faces, Document *document,
                   Diagnostics *diagnostics);

/* Whether it would fit on the page. Nothing is drawn or reported; `arena` may be freed then. */
bool sheet_fits(Arena *arena, const Pattern *pattern, const Plan *plan, const FieldGroup *fields,
                const Locale *locale, const FaceSet *faces);

#endif
