/* Path: places on a page in millimetres from its top left corner, y DOWN, and the steps of an
 * outline through them. Steps live in the arena that is handed in; a list starts as {0}. */
#ifndef LAYOUT_PATH_H
#define LAYOUT_PATH_H

#include "base/arena.h"
#include "base/list.h"

#include <stddef.h>

typedef struct Point {
    double x_mm;
    double y_mm;
} Point;

typedef struct Box {
    double x_mm;
    double y_mm;
    double width_mm;
    double height_mm;
} Box;

typedef enum StepKind { STEP_MOVE, STEP_LINE, STEP_CURVE, STEP_CLOSE } StepKind;

/* One step of a path; the control points count for a curve (cubic Bézier) only. */
typedef struct Step {
    StepKind kind;
    Point to;
    Point control[2];
} Step;

typedef LIST_OF(Step) Steps;

void path_move(Arena *arena, Steps *steps, double x_mm, double y_mm);
void path_line(Arena *arena, Steps *steps, double x_mm, double y_mm);
void path_curve(Arena *arena, Steps *steps, Point control_1, Point control_2, Point to);
void path_close(Arena *arena, Steps *steps);

/* An arc about a centre. Degrees run clockwise on the page from 3 o'clock, `sweep_deg` may be
 * negative. Begins with a line to its start, or a move when the path is empty. The curves stay
 * within 0.03 % of the radius. */
void path_arc(Arena *arena, Steps *steps, Point centre, double radius_mm, double start_deg,
              double sweep_deg);

/* Closed outlines. */
void path_polygon(Arena *arena, Steps *steps, const Point *points, size_t count);
void path_rectangle(Arena *arena, Steps *steps, Box box);
void path_circle(Arena *arena, Steps *steps, Point centre, double radius_mm);

/* The parts inside a polygon of any shape (even-odd) of parallel lines `spacing_mm` > 0 apart.
 * `angle_deg` is their slope, clockwise on the page from level. One of them would run through the
 * corner of the paper, so that the lines of neighbouring areas meet. Adds nothing for a spacing
 * that is not positive. */
void path_hatch(Arena *arena, Steps *steps, const Point *points, size_t count, double angle_deg,
                double spacing_mm);

#endif
