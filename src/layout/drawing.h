/* Drawing: what is drawn in C into the room that a pattern gives it. */
#ifndef LAYOUT_DRAWING_H
#define LAYOUT_DRAWING_H

#include "layout/block.h"

enum { DRAWING_KINDS = 0 };

/* Name of a kind in patterns: "curve". */
const char *drawing_name(int kind);

/* Whether there is anything to draw. */
bool drawing_shown(const Layout *layout, const Block *block);

/* Width it takes where it may choose; least and most useful height at a width. */
double drawing_natural_mm(Layout *layout, const Block *block);
double drawing_least_mm(Layout *layout, const Block *block, double width_mm);
double drawing_most_mm(Layout *layout, const Block *block, double width_mm);

/* Draws it into its box. */
void drawing_draw(Layout *layout, const Block *block);

#endif
