#include "layout/path.h"

#include "base/pi.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_HATCH_LINES = 10000 };

void path_move(Arena *arena, Steps *steps, double x_mm, double y_mm) {
    LIST_ADD(arena, steps, (Step){.kind = STEP_MOVE, .to = {x_mm, y_mm}});
}

void path_line(Arena *arena, Steps *steps, double x_mm, double y_mm) {
    LIST_ADD(arena, steps, (Step){.kind = STEP_LINE, .to = {x_mm, y_mm}});
}

void path_curve(Arena *arena, Steps *steps, Point control_1, Point control_2, Point to) {
    LIST_ADD(arena, steps, (Step){.kind = STEP_CURVE, .to = to, .control = {control_1, control_2}});
}

void path_close(Arena *arena, Steps *steps) {
    LIST_ADD(arena, steps, (Step){.kind = STEP_CLOSE});
}

static Point on_circle(Point centre, double radius_mm, double angle) {
    return (Point){centre.x_mm + radius_mm * cos(angle), centre.y_mm + radius_mm * sin(angle)};
}

/* `along` is the length of the tangent from `from`, against the clock when negative. */
static Point tangent_end(Point from, double angle, double along) {
    return (Point){from.x_mm - along * sin(angle), from.y_mm + along * cos(angle)};
}

void path_arc(Arena *arena, Steps *steps, Point centre, double radius_mm, double start_deg,
              double sweep_deg) {
    double angle = start_deg * PI / 180;
    Point from = on_circle(centre, radius_mm, angle);
    if (steps->count == 0)
        path_move(arena, steps, from.x_mm, from.y_mm);
    else
        path_line(arena, steps, from.x_mm, from.y_mm);
    int pieces = (int)ceil(fmin(fabs(sweep_deg), 36000) / 90);
    double piece = pieces ? sweep_deg * PI / 180 / pieces : 0;
    double along = radius_mm * 4.0 / 3.0 * tan(piece / 4);
    for (int i = 0; i < pieces; i++) {
        Point to = on_circle(centre, radius_mm, angle + piece);
        path_curve(arena, steps, tangent_end(from, angle, along),
                   tangent_end(to, angle + piece, -along), to);
        angle += piece;
        from = to;
    }
}

void path_polygon(Arena *arena, Steps *steps, const Point *points, size_t count) {
    for (size_t i = 0; i < count; i++)
        LIST_ADD(arena, steps, (Step){.kind = i ? STEP_LINE : STEP_MOVE, .to = points[i]});
    if (count)
        path_close(arena, steps);
}

void path_rectangle(Arena *arena, Steps *steps, Box box) {
    double right = box.x_mm + box.width_mm;
    double bottom = box.y_mm + box.height_mm;
    Point corners[] = {
        {box.x_mm, box.y_mm}, {right, box.y_mm}, {right, bottom}, {box.x_mm, bottom}};
    path_polygon(arena, steps, corners, 4);
}

void path_circle(Arena *arena, Steps *steps, Point centre, double radius_mm) {
    path_move(arena, steps, centre.x_mm + radius_mm, centre.y_mm);
    Steps around = {0};
    path_arc(arena, &around, centre, radius_mm, 0, 360);
    for (size_t i = 1; i < around.count; i++)
        LIST_ADD(arena, steps, around.items[i]);
    path_close(arena, steps);
}

/* A hatch is worked out in axes turned with it: `along` its lines and `across` them. */
typedef struct Turn {
    double cosine;
    double sine;
} Turn;

static double across(Turn turn, Point point) {
    return point.y_mm * turn.cosine - point.x_mm * turn.sine;
}

static double along(Turn turn, Point point) {
    return point.x_mm * turn.cosine + point.y_mm * turn.sine;
}

static int ascending(const void *left, const void *right) {
    double a = *(const double *)left;
    double b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Where the line at `level` crosses the polygon's edges, in order along it; returns how many. */
static size_t crossings(const Point *points, size_t count, Turn turn, double level, double *at) {
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        Point from = points[i];
        Point to = points[(i + 1) % count];
        double from_across = across(turn, from);
        double to_across = across(turn, to);
        if ((from_across <= level) == (to_across <= level))
            continue;
        double share = (level - from_across) / (to_across - from_across);
        at[found++] = along(turn, from) + share * (along(turn, to) - along(turn, from));
    }
    qsort(at, found, sizeof *at, ascending);
    return found;
}

static void hatch_line(Arena *arena, Steps *steps, Turn turn, double level, const double *at) {
    for (int end = 0; end < 2; end++) {
        double x_mm = at[end] * turn.cosine - level * turn.sine;
        double y_mm = at[end] * turn.sine + level * turn.cosine;
        LIST_ADD(arena, steps, (Step){.kind = end ? STEP_LINE : STEP_MOVE, .to = {x_mm, y_mm}});
    }
}

void path_hatch(Arena *arena, Steps *steps, const Point *points, size_t count, double angle_deg,
                double spacing_mm) {
    if (count < 3 || !(spacing_mm > 0))
        return;
    Turn turn = {cos(angle_deg * PI / 180), sin(angle_deg * PI / 180)};
    double lowest = across(turn, points[0]);
    double highest = lowest;
    for (size_t i = 1; i < count; i++) {
        lowest = fmin(lowest, across(turn, points[i]));
        highest = fmax(highest, across(turn, points[i]));
    }
    double first = ceil(lowest / spacing_mm);
    double lines = floor(highest / spacing_mm) - first + 1;
    double *at = ARENA_ARRAY(arena, count, double);
    for (int i = 0; i < lines && i < MOST_HATCH_LINES; i++) {
        double level = (first + i) * spacing_mm;
        size_t found = crossings(points, count, turn, level, at);
        for (size_t pair = 0; pair + 1 < found; pair += 2)
            hatch_line(arena, steps, turn, level, at + pair);
    }
}
