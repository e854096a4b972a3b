/* Wrap: a text broken into lines of a measured width. Nothing is ever cut: a word longer than the
 * line is broken between characters, and every character but the blank at a break comes back; and
 * but a middle dot there that a no-break space ties to what it follows.
 *
 * A text is measured once, in thousandths of its own type size, into the pieces that no line
 * breaks; lines for any width and size are then found by adding. A line of more than one is never
 * a single word at the end where two fit.
 *
 * A text may hold strong stretches, set in a second face: the character WRAP_STRONG begins one and
 * WRAP_PLAIN ends it. Both take no room and stay in the lines.
 */
#ifndef LAYOUT_WRAP_H
#define LAYOUT_WRAP_H

#include "base/arena.h"
#include "base/list.h"
#include "layout/face.h"

#define WRAP_STRONG '\x01'
#define WRAP_PLAIN '\x02'

/* A stretch that no line breaks unless it is wider than the line. */
typedef struct WrapPiece {
    const char *from;
    const char *end; /* without the blank behind it */
    int width;       /* thousandths of the type size */
    int blank;       /* of the blank behind it, which goes where a line breaks */
    bool strong;     /* set so at its start */
    bool newline;    /* a line ends behind it */
} WrapPiece;

typedef struct WrapText {
    const Face *plain;
    const Face *strong;
    LIST_OF(WrapPiece) pieces; /* at least one */
    int widest;                /* piece */
    int width;                 /* on one line; of several lines by newlines: the widest */
} WrapText;

/* A line as a part of the text it is from. */
typedef struct WrapLine {
    const char *from;
    const char *end;
    bool strong;        /* set so at its start */
    int width;          /* thousandths of the type size */
    size_t first, last; /* pieces */
} WrapLine;

typedef LIST_OF(WrapLine) WrapLines;

/* Measures valid UTF-8; the text is not copied. Lines may break at a space, after a hyphen, dash
 * or slash between letters, at U+200B (which is left out) and always at a newline; never at a
 * no-break space. An empty text is one empty line. */
WrapText wrap_measure(Arena *arena, const Face *plain, const Face *strong, const char *text);

/* The width in thousandths of the type size that a line of `width_mm` has room for. */
int wrap_room(double width_mm, double size_pt);

/* How many lines of that room it takes; and the lines. */
size_t wrap_count(const WrapText *text, int room);
WrapLines wrap_lines(Arena *arena, const WrapText *text, int room);

/* Millimetres of a width in thousandths of a type size. */
double wrap_mm(int width, double size_pt);

/* The start of a text for a message, without switches of face: at most 60 characters, with "…" when
 * there are more. */
const char *excerpt(Arena *arena, const char *string);

#endif
