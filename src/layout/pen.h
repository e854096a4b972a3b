/* Pen: sets texts and rules on a page, or only measures what they would take.
 *
 * A panel is written once, as a function that draws from a top edge downwards with a pen and
 * returns the height it used. With no page in the pen the same function measures. Places are
 * millimetres from the top left corner of the paper. A line of text is handed over by the top of
 * its line box: pitch high, with the capitals standing in the middle of it.
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

/* The text that took most room, for the message when a page does not fit. */
typedef struct LongText {
    const char *owner;
    const char *string;
    double height_mm;
} LongText;

typedef struct Pen {
    Arena *arena;
    const FaceSet *faces;
    Page *page; /* NULL: only measures */
    const char *owner;
    Ink ink;
    LongText longest;
} Pen;

/* The same style in the bold face of its family, or the plain one, or at another size. */
TextStyle style_strong(TextStyle style);
TextStyle style_plain(TextStyle style);
TextStyle style_sized(TextStyle style, double size_pt);

double pen_pitch_mm(TextStyle style);
double pen_capitals_mm(const Pen *pen, TextStyle style);

/* From the top of a line box to its baseline. */
double pen_baseline_mm(const Pen *pen, TextStyle style);

double pen_width_mm(const Pen *pen, TextStyle style, const char *text);
double pen_widest_word_mm(const Pen *pen, TextStyle style, const char *text);

/* One line, never broken; x is its left end, right end or middle. Returns its width. */
double pen_line(Pen *pen, TextStyle style, Align align, double x_mm, double top_mm,
                const char *text);

/* A text wrapped into the width from x on; returns its height, a whole number of pitches. */
double pen_paragraph(Pen *pen, TextStyle style, Align align, Box place, const char *text);

/* A line that was found by layout/wrap.h, set between the sides of `place` from a top edge on. */
void pen_wrapped(Pen *pen, TextStyle style, Align align, Box place, double top_mm,
                 const WrapLine *line);

/* Height of a text wrapped into that width. */
double pen_height_mm(const Pen *pen, TextStyle style, double width_mm, const char *text);

void pen_rule(Pen *pen, double x_mm, double y_mm, double width_mm, double line_mm, Ink ink);
void pen_upright(Pen *pen, double x_mm, double y_mm, double height_mm, double line_mm, Ink ink);
void pen_rectangle(Pen *pen, Box box, Style style);
void pen_sign(Pen *pen, SignKind kind, double x_mm, double y_mm, double size_mm);

#endif
