/* Drawing: what is drawn in C into the room that a pattern's <canvas> gives it. Each kind stands in
 * the file of its name and in the table of drawing.c. */
#ifndef LAYOUT_DRAWING_H
#define LAYOUT_DRAWING_H

#include "layout/block.h"

typedef enum DrawingKind {
    DRAWING_CURVE,
    DRAWING_MAP,
    DRAWING_RIBBON,
    DRAWING_TRAY,
    DRAWING_DAYS,
    DRAWING_KEY,
    DRAWING_TIMES,
    DRAWING_GRAINS,
    DRAWING_LOGO,
    DRAWING_SHARES,
    DRAWING_SWATCH,
    DRAWING_KINDS
} DrawingKind;

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

/* The look, the fill, the bag, and its part, that a block's row is about; NULL, or 0: none. */
const PlanLookIn *drawing_look_in(const Layout *layout, const Block *block);
const PlanFill *drawing_fill(const Layout *layout, const Block *block);
const PlanBag *drawing_bag(const Layout *layout, const Block *block);
size_t drawing_part(const Block *block);

/* Puts a picture at the block's place, made at its first drawing and again only for another size:
 * what a page repeats is laid out and written once. */
void drawing_picture(Layout *layout, const Block *block, Box place,
                     void (*make)(Layout *layout, const Block *block, Picture *picture));

/* The kinds. */
double curve_least_mm(Layout *layout, const Block *block, double width_mm);
double curve_most_mm(Layout *layout, const Block *block, double width_mm);
void curve_draw(Layout *layout, const Block *block);
double grains_least_mm(Layout *layout, const Block *block, double width_mm);
void grains_draw(Layout *layout, const Block *block);
double logo_least_mm(Layout *layout, const Block *block, double width_mm);
double logo_natural_mm(Layout *layout, const Block *block);
bool logo_shown(const Layout *layout);
void logo_draw(Layout *layout, const Block *block);
double map_least_mm(Layout *layout, const Block *block, double width_mm);
double map_most_mm(Layout *layout, const Block *block, double width_mm);
void map_draw(Layout *layout, const Block *block);
double ribbon_least_mm(Layout *layout, const Block *block, double width_mm);
void ribbon_draw(Layout *layout, const Block *block);
double shares_least_mm(Layout *layout, const Block *block, double width_mm);
void shares_draw(Layout *layout, const Block *block);
double swatch_mm(Layout *layout, const Block *block);
double swatch_least_mm(Layout *layout, const Block *block, double width_mm);
void swatch_draw(Layout *layout, const Block *block);
double tray_least_mm(Layout *layout, const Block *block, double width_mm);
double tray_most_mm(Layout *layout, const Block *block, double width_mm);
void tray_draw(Layout *layout, const Block *block);
double days_least_mm(Layout *layout, const Block *block, double width_mm);
void days_draw(Layout *layout, const Block *block);
double key_least_mm(Layout *layout, const Block *block, double width_mm);
void key_draw(Layout *layout, const Block *block);
double times_least_mm(Layout *layout, const Block *block, double width_mm);
double times_most_mm(Layout *layout, const Block *block, double width_mm);
void times_draw(Layout *layout, const Block *block);

#endif
