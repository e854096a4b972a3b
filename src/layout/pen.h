/* Pen: sets texts and rules on a page, and measures texts before.
 *
 * Places are millimetres from the top left corner of the paper. A line of text is handed over by
 * the top of its line box: pitch high, with the capitals standing in the middle of it.
 */
#ifndef LAYOUT_PEN_H
#define LAYOUT_PEN_H

#include "layout/mark.h"
#include "layout/sign.h"
#include "layout/wrap.h"

/* How a text looks. */
typedef struct TextStyle {
    FaceRole face;
    double size_pt;
    double leading; /* distance of lines per type size; 1.2 is usual */
} TextStyle;

typedef enum Align { ALIGN_LEFT, ALIGN_RIGHT, ALIGN_CENTRE } Align;

typedef struct Pen {
    Arena *arena;
    const FaceSet *faces;
    Page *page; /* NULL: while only measuring */
    Ink ink;
} Pen;

/* The same style in the bold face of its family. */
TextStyle style_strong(TextStyle style);

double pen_pitch_mm(TextStyle style);
double pen_capitals_mm(const Pen *pen, TextStyle style);

/* From the top of a line box to its baseline. */
double pen_baseline_mm(const Pen *pen, TextStyle style);

double pen_width_mm(const Pen *pen, TextStyle style, const char *text);
double pen_widest_word_mm(const Pen *pen, TextStyle style, const char *text);

/* One line, never broken; x is its left end, right end or middle. */
void pen_line(Pen *pen, TextStyle style, Align align, double x_mm, double top_mm, const char *text);

/* A text wrapped into the width from x on; returns its height, a whole number of pitches. */
double pen_paragraph(Pen *pen, TextStyle style, Align align, Box place, const char *text);

/* A line that was found by layout/wrap.h, set between the sides of `place` from a top edge on. */
void pen_wrapped(Pen *pen, TextStyle style, Align align, Box place, double top_mm,
                 const WrapLine *line);

void pen_rule(Pen *pen, double x_mm, double y_mm, double width_mm, double line_mm, Ink ink);
void pen_upright(Pen *pen, double x_mm, double y_mm, double height_mm, double line_mm, Ink ink);
void pen_rectangle(Pen *pen, Box box, Style style);
void pen_sign(Pen *pen, SignKind kind, double x_mm, double y_mm, double size_mm);

#endif
