/* Marks: what a page of marks holds, measured and written down. */
#ifndef SUPPORT_MARKS_H
#define SUPPORT_MARKS_H

#include "base/text.h"
#include "layout/mark.h"

/* Height of the tallest and depth of the deepest strokes of a face. */
double type_ascent_mm(const Face *face, double size_pt);
double type_descent_mm(const Face *face, double size_pt);

/* The extent of the steps, control points included; all zero for none. */
Box path_box(const Steps *steps);

/* The room a mark takes: the type's ascent and descent by its width, or a path's extent (control
 * points included, which can only be wider) with half the line width on each side. */
Box mark_box(const Mark *mark, const FaceSet *faces);

/* Prints the marks one a line, with two decimals. */
void marks_print(Text *text, const Page *page);

#endif
