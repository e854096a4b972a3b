/* Wrap: a text broken into lines of a measured width. Nothing is ever cut: a word longer than the
 * line is broken between characters, and every character but the blank at a break comes back.
 *
 * A text may hold strong stretches, set in a second face: the character WRAP_STRONG begins one and
 * WRAP_PLAIN ends it. Both take no room and stay in the lines, each line complete in itself.
 */
#ifndef LAYOUT_WRAP_H
#define LAYOUT_WRAP_H

#include "base/arena.h"
#include "base/list.h"
#include "layout/face.h"

#define WRAP_STRONG '\x01'
#define WRAP_PLAIN '\x02'

/* The faces and the size a text is measured in. */
typedef struct WrapType {
    const Face *plain;
    const Face *strong;
    double size_pt;
} WrapType;

typedef struct WrappedLine {
    const char *string;
    double width_mm;
} WrappedLine;

typedef LIST_OF(WrappedLine) WrappedLines;

/* Breaks valid UTF-8 so that each line is at most `width_mm` wide, or holds a single character.
 * Lines break at a space, after a hyphen, dash or slash between letters, at U+200B (which is left
 * out) and always at a newline; never at a no-break space. An empty text gives one empty line. */
WrappedLines wrap_text(Arena *arena, WrapType type, const char *text, double width_mm);

/* Width of the text on one line, strong stretches and all. */
double wrap_width_mm(WrapType type, const char *text);

/* Width of the widest unbreakable piece of the text: a column narrower than this breaks words. */
double wrap_widest_word_mm(WrapType type, const char *text);

#endif
