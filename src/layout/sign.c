#include "layout/sign.h"

/* Signs are drawn on a grid of 24 by 24 units, y down, and scaled to their size. */
static const double GRID = 24;

typedef enum Paint {
    PAINT_END, /* closes a sign's list of shapes */
    PAINT_INK,
    PAINT_PAPER,
    PAINT_LINE,          /* a stroke of `width` units with round ends */
    PAINT_PAPER_AND_LINE /* filled with paper, outlined */
} Paint;

enum { MOST_STEPS = 14, MOST_SHAPES = 9 };

typedef struct Shape {
    Paint paint;
    double width;
    Step steps[MOST_STEPS]; /* closed by a move to 0, 0, which is what a zeroed step is */
} Shape;

typedef struct Sign {
    const char *name;
    Shape shapes[MOST_SHAPES];
} Sign;

#define TO(x, y)                                                                                   \
    {                                                                                              \
        .kind = STEP_LINE, .to = {(x), (y) }                                                       \
    }
#define FROM(x, y)                                                                                 \
    {                                                                                              \
        .kind = STEP_MOVE, .to = {(x), (y) }                                                       \
    }
#define BEND(x1, y1, x2, y2, x, y)                                                                 \
    {                                                                                              \
        .kind = STEP_CURVE, .to = {(x), (y)}, .control = { {(x1), (y1)}, {(x2), (y2)} }            \
    }
#define SHUT                                                                                       \
    { .kind = STEP_CLOSE }
#define RECTANGLE(left, top, right, bottom)                                                        \
    FROM(left, top), TO(right, top), TO(right, bottom), TO(left, bottom), SHUT
/* 0.5523 of the radius is the usual handle of a quarter circle (four-piece Bézier circle). */
#define DISC(x, y, r)                                                                              \
    FROM((x) + (r), y),                                                                            \
        BEND((x) + (r), (y) + 0.5523 * (r), (x) + 0.5523 * (r), (y) + (r), x, (y) + (r)),          \
        BEND((x)-0.5523 * (r), (y) + (r), (x) - (r), (y) + 0.5523 * (r), (x) - (r), y),            \
        BEND((x) - (r), (y)-0.5523 * (r), (x)-0.5523 * (r), (y) - (r), x, (y) - (r)),              \
        BEND((x) + 0.5523 * (r), (y) - (r), (x) + (r), (y)-0.5523 * (r), (x) + (r), y), SHUT

static const Sign SIGNS[SIGN_COUNT] = {
    [SIGN_BOX] = {"box", {{PAINT_PAPER_AND_LINE, 1.4, {RECTANGLE(2, 2, 22, 22)}}}},
    [SIGN_TICK] = {"tick", {{PAINT_LINE, 3.2, {FROM(3.5, 13), TO(9.5, 19), TO(20.5, 5)}}}},
    [SIGN_WARNING] = {"warning",
                      {{PAINT_PAPER_AND_LINE, 2.6, {FROM(12, 3), TO(22.4, 21), TO(1.6, 21), SHUT}},
                       {PAINT_INK,
                        0,
                        {FROM(10.4, 9.3), BEND(10.4, 7.3, 13.6, 7.3, 13.6, 9.3), TO(13, 14.6),
                         BEND(12.9, 15.5, 11.1, 15.5, 11, 14.6), SHUT}},
                       {PAINT_INK, 0, {DISC(12, 17.7, 1.35)}}}},
    [SIGN_FLAME] = {"flame",
                    {{PAINT_INK,
                      0,
                      {FROM(12.8, 1), BEND(13.6, 5, 19.6, 8.4, 19.6, 15.2),
                       BEND(19.6, 20, 16.2, 23.2, 12, 23.2), BEND(7.8, 23.2, 4.4, 20, 4.4, 15.4),
                       BEND(4.4, 11.8, 6.4, 10, 7.6, 7.4), BEND(8.4, 9, 8.8, 9.6, 9.8, 10.4),
                       BEND(10, 7, 10.4, 3.4, 12.8, 1), SHUT}},
                     {PAINT_PAPER,
                      0,
                      {FROM(12.4, 12.2), BEND(13, 14.4, 15.6, 15.4, 15.6, 18.2),
                       BEND(15.6, 20.2, 14, 21.4, 12, 21.4), BEND(10, 21.4, 8.4, 20.2, 8.4, 18.2),
                       BEND(8.4, 15.8, 11.4, 15, 12.4, 12.2)}}}},
    [SIGN_FINISH] =
        {"finish",
         {{PAINT_LINE, 2, {FROM(4, 2), TO(4, 23)}},
          {PAINT_PAPER_AND_LINE, 0.9, {RECTANGLE(4, 2, 22, 15.5)}},
          {PAINT_INK, 0, {RECTANGLE(4, 2, 8.5, 6.5), RECTANGLE(13, 2, 17.5, 6.5)}},
          {PAINT_INK, 0, {RECTANGLE(8.5, 6.5, 13, 11), RECTANGLE(17.5, 6.5, 22, 11)}},
          {PAINT_INK, 0, {RECTANGLE(4, 11, 8.5, 15.5), RECTANGLE(13, 11, 17.5, 15.5)}}}},
    [SIGN_ARROW] = {"arrow",
                    {{PAINT_LINE, 3, {FROM(3, 12), TO(15, 12)}},
                     {PAINT_INK, 0, {FROM(13, 5), TO(23, 12), TO(13, 19), SHUT}}}},
    [SIGN_TURN] =
        {"turn",
         {{PAINT_LINE, 3, {FROM(3, 6), TO(14, 6), BEND(22, 6, 22, 17, 14, 17), TO(11, 17)}},
          {PAINT_INK, 0, {FROM(12, 10.5), TO(2, 17), TO(12, 23.5), SHUT}}}},
    [SIGN_LOOK] = {"look",
                   {{PAINT_PAPER_AND_LINE,
                     1.9,
                     {FROM(1.2, 12), BEND(6.4, 3.4, 17.6, 3.4, 22.8, 12),
                      BEND(17.6, 20.6, 6.4, 20.6, 1.2, 12), SHUT}},
                    {PAINT_INK, 0, {DISC(12, 12, 4.2)}}}},
    [SIGN_E_MARK] = {"e-mark",
                     {{PAINT_INK,
                       0,
                       {FROM(24, 12.6), BEND(24, 5.4, 18.6, 0, 12, 0), BEND(5.4, 0, 0, 5.4, 0, 12),
                        BEND(0, 18.6, 5.4, 24, 12, 24), BEND(16.4, 24, 20.3, 21.6, 22.4, 18),
                        TO(21.6, 17.6), BEND(19.4, 21.2, 16, 23, 12.2, 23),
                        BEND(9.8, 23, 7.6, 22.3, 6.2, 21.2), TO(6.2, 12.6), SHUT}},
                      {PAINT_PAPER,
                       0,
                       {FROM(6.2, 11.4), TO(6.2, 2.8), BEND(7.6, 1.7, 9.8, 1, 12, 1),
                        BEND(14.2, 1, 16.4, 1.7, 17.8, 2.8), TO(17.8, 11.4), SHUT}}}},
};

static bool closes(const Step *step) {
    return step->kind == STEP_MOVE && step->to.x_mm <= 0 && step->to.y_mm <= 0;
}

static Point scaled(Point point, Point corner, double scale) {
    return (Point){corner.x_mm + point.x_mm * scale, corner.y_mm + point.y_mm * scale};
}

static Style shape_style(const Shape *shape, double scale, Ink ink, Ink paper) {
    Style style = {0};
    style.filled = shape->paint != PAINT_LINE;
    style.fill = shape->paint == PAINT_INK ? ink : paper;
    style.line = ink;
    style.line_mm = shape->width * scale;
    style.cap = CAP_ROUND;
    style.join = JOIN_ROUND;
    return style;
}

void sign_draw(Page *page, SignKind kind, Point corner, double size_mm, Ink ink, Ink paper) {
    double scale = size_mm / GRID;
    for (const Shape *shape = SIGNS[kind].shapes; shape->paint != PAINT_END; shape++) {
        Steps steps = {0};
        for (int i = 0; i < MOST_STEPS && !closes(&shape->steps[i]); i++) {
            Step step = shape->steps[i];
            step.to = scaled(step.to, corner, scale);
            step.control[0] = scaled(step.control[0], corner, scale);
            step.control[1] = scaled(step.control[1], corner, scale);
            LIST_ADD(page->arena, &steps, step);
        }
        mark_path(page, &steps, shape_style(shape, scale, ink, paper));
    }
}

const char *sign_name(SignKind kind) {
    return SIGNS[kind].name;
}
