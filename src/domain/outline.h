/* Outline: the closed lines of a drawing, step by step, in units of the drawing's own. */
#ifndef DOMAIN_OUTLINE_H
#define DOMAIN_OUTLINE_H

#include "base/list.h"

typedef enum OutlineKind { OUTLINE_MOVE, OUTLINE_LINE, OUTLINE_CURVE, OUTLINE_CLOSE } OutlineKind;

typedef struct OutlinePoint {
    double x, y; /* right and DOWN */
} OutlinePoint;

/* The control points count for a curve (cubic Bézier) only. */
typedef struct OutlineStep {
    OutlineKind kind;
    OutlinePoint to;
    OutlinePoint control[2];
} OutlineStep;

typedef LIST_OF(OutlineStep) Outlines;

#endif
