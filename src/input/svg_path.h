/* SVG path: the outlines that the path data of an SVG drawing describe (SVG 1.1, chapter 8.3):
 * M L H V C S Q T A Z, absolute and relative, all made into lines and cubic curves. */
#ifndef INPUT_SVG_PATH_H
#define INPUT_SVG_PATH_H

#include "base/arena.h"
#include "domain/outline.h"

#include <stdbool.h>
#include <stddef.h>

/* More than a drawing that is a centimetre wide can show (judgement); it bounds what each document
 * carries. */
enum { SVG_STEPS_MAX = 2000 };

/* What is wrong with a text, and where in it. */
typedef struct SvgFault {
    size_t at, length; /* bytes */
    const char *problem;
    const char *remedy; /* NULL: none */
} SvgFault;

/* Reads path data. Every outline begins with a move and ends closed, as it is filled. False, and
 * *fault set in the arena, for what is no path data, or has more than SVG_STEPS_MAX steps; the
 * steps then are of no use. Empty data has no outlines. */
bool svg_path_read(Arena *arena, const char *data, Outlines *outlines, SvgFault *fault);

/* Reads exactly `count` numbers with blanks or a comma between them, as a viewBox has. */
bool svg_numbers_read(Arena *arena, const char *text, double *numbers, size_t count,
                      SvgFault *fault);

#endif
