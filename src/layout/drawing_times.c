/* Times: a season's burns as points, across what was planned and up what happened. On the line
 * happened what was planned; the grey band is what was given for 8 in 10, as a usual night had it.
 * All words stand outside the square, so that none lies over a point. */
#include "layout/drawing.h"
#include "layout/season_mark.h"

#include <math.h>

#define LEAST_MM 45.0
#define MOST_MM 95.0
#define BAND 0.86 /* grey */
#define LINE_MM 0.3
#define EDGE_MM 0.15
#define TICK_MM 0.9
#define GAP_MM 0.8
#define ROOM 1.06 /* the scale ends so much beyond the longest */

enum { MANY_POINTS = 80 };
#define POINT_MM 1.8
#define SMALL_POINT_MM 1.2

typedef struct Times {
    Layout *layout;
    const Block *block;
    TextStyle style;
    double most_s; /* at the ends of both scales */
    double step_s; /* from tick to tick */
    Box box;       /* the square */
} Times;

static double value(const FieldGroup *row, const char *name) {
    const Field *field = field_find(row, name);
    return field ? field->quantity.value : NAN;
}

static const FieldGroup *point_row(const Layout *layout, size_t index) {
    return field_row(layout->fields, "point", index);
}

static double longest_s(const Layout *layout) {
    double most_s = 0;
    const FieldGroup *row;
    for (size_t i = 0; (row = point_row(layout, i)); i++)
        most_s = fmax(most_s, fmax(value(row, "planned"), value(row, "took")));
    return most_s;
}

/* So that four to eight ticks stand on a scale. */
static double tick_step_s(double most_s) {
    static const double hours[] = {0.25, 0.5, 1, 2, 4, 6, 12, 24, 48, 96};
    const double hour_s = 3600;
    size_t last = sizeof hours / sizeof *hours - 1;
    for (size_t i = 0; i < last; i++)
        if (most_s / (hours[i] * hour_s) <= 8)
            return hours[i] * hour_s;
    return most_s / 8;
}

static const char *tick_words(Layout *layout, double at_s) {
    return layout_figure(layout, QUANTITY_DURATION, at_s, "span");
}

static double gutter_mm(Layout *layout, TextStyle style, double most_s, double step_s) {
    double widest_mm = 0;
    for (int tick = 1; tick * step_s <= most_s; tick++)
        widest_mm =
            fmax(widest_mm, pen_width_mm(&layout->pen, style, tick_words(layout, tick * step_s)));
    return widest_mm + TICK_MM + GAP_MM;
}

static double right_mm(Layout *layout, TextStyle style) {
    static const char *const words[] = {"season.times_band", "season.times_line"};
    double widest_mm = 0;
    for (size_t i = 0; i < 2; i++)
        widest_mm = fmax(widest_mm, pen_width_mm(&layout->pen, style,
                                                 layout_words(layout, words[i], layout->fields)));
    return widest_mm + GAP_MM;
}

/* The square as large as room allows: the name of the upright scale over it, the ticks and the name
 * of the other under it. */
static Times times_new(Layout *layout, const Block *block) {
    Times times = {.layout = layout, .block = block, .style = block_style(layout, block)};
    times.most_s = longest_s(layout) * ROOM;
    times.step_s = tick_step_s(times.most_s);
    double left = gutter_mm(layout, times.style, times.most_s, times.step_s);
    double pitch_mm = pen_pitch_mm(times.style), height_mm = fmin(block->box.height_mm, MOST_MM);
    double across_mm = block->box.width_mm - left - right_mm(layout, times.style);
    double down_mm = height_mm - pitch_mm - GAP_MM - TICK_MM - 2 * pitch_mm;
    double side_mm = fmax(fmin(across_mm, down_mm), 5);
    times.box =
        (Box){block->box.x_mm + left, block->box.y_mm + pitch_mm + GAP_MM, side_mm, side_mm};
    return times;
}

static Point place(const Times *times, double planned_s, double took_s) {
    return (Point){times->box.x_mm + planned_s / times->most_s * times->box.width_mm,
                   times->box.y_mm + (1 - took_s / times->most_s) * times->box.height_mm};
}

/* Between the lines of the two ratios, cut off at the edges of the square. */
static void draw_band(const Times *times) {
    const FieldGroup *fields = times->layout->fields;
    double low = value(fields, "compared.low_ratio"), high = value(fields, "compared.high_ratio");
    if (!(low > 0) || !(high > 1) || !(low < 1))
        return;
    double most_s = times->most_s;
    const Point corners[] = {place(times, 0, 0), place(times, most_s / high, most_s),
                             place(times, most_s, most_s), place(times, most_s, most_s * low)};
    mark_polygon(times->layout->pen.page, corners, 4, style_fill(ink_grey(BAND)));
    double middle_mm = (corners[2].y_mm + corners[3].y_mm) / 2;
    double pitch_mm = pen_pitch_mm(times->style);
    pen_line(&times->layout->pen, times->style, ALIGN_LEFT,
             times->box.x_mm + times->box.width_mm + GAP_MM,
             fmax(middle_mm - pitch_mm / 2, times->box.y_mm + pitch_mm / 2),
             layout_words(times->layout, "season.times_band", fields));
}

static void draw_line(const Times *times) {
    Pen *pen = &times->layout->pen;
    Point corner = place(times, times->most_s, times->most_s);
    mark_line(pen->page, place(times, 0, 0), corner, style_line(LINE_MM, ink_black()));
    pen_line(pen, times->style, ALIGN_LEFT, corner.x_mm + GAP_MM,
             corner.y_mm - pen_pitch_mm(times->style) / 2,
             layout_words(times->layout, "season.times_line", times->layout->fields));
}

static void draw_scales(const Times *times) {
    Pen *pen = &times->layout->pen;
    Box box = times->box;
    double pitch_mm = pen_pitch_mm(times->style), foot_mm = box.y_mm + box.height_mm;
    mark_rectangle(pen->page, box, style_line(EDGE_MM, ink_black()));
    double free_mm = box.x_mm; /* words of a tick may begin from here on */
    for (int tick = 1; tick * times->step_s <= times->most_s; tick++) {
        double at_s = tick * times->step_s;
        const char *words = tick_words(times->layout, at_s);
        Point across = place(times, at_s, 0), up = place(times, 0, at_s);
        pen_upright(pen, across.x_mm, foot_mm, TICK_MM, EDGE_MM, ink_black());
        pen_rule(pen, box.x_mm - TICK_MM, up.y_mm, TICK_MM, EDGE_MM, ink_black());
        pen_line(pen, times->style, ALIGN_RIGHT, box.x_mm - TICK_MM - GAP_MM / 2,
                 up.y_mm - pitch_mm / 2, words);
        double half_mm = pen_width_mm(pen, times->style, words) / 2;
        if (across.x_mm - half_mm >= free_mm) {
            pen_line(pen, times->style, ALIGN_CENTRE, across.x_mm, foot_mm + TICK_MM, words);
            free_mm = across.x_mm + half_mm + GAP_MM;
        }
    }
    const FieldGroup *fields = times->layout->fields;
    pen_line(pen, times->style, ALIGN_LEFT, times->block->box.x_mm, box.y_mm - GAP_MM - pitch_mm,
             layout_words(times->layout, "season.times_took", fields));
    pen_line(pen, times->style, ALIGN_LEFT, box.x_mm, foot_mm + TICK_MM + pitch_mm,
             layout_words(times->layout, "season.times_planned", fields));
}

static void draw_points(const Times *times) {
    size_t count = 0;
    while (point_row(times->layout, count))
        count++;
    double size_mm = count > MANY_POINTS ? SMALL_POINT_MM : POINT_MM;
    const FieldGroup *row;
    for (size_t i = 0; (row = point_row(times->layout, i)); i++)
        season_mark_draw(times->layout->pen.page, season_mark_of(row),
                         place(times, value(row, "planned"), value(row, "took")), size_mm);
}

double times_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)block;
    (void)width_mm;
    return LEAST_MM;
}

double times_most_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)block;
    (void)width_mm;
    return MOST_MM;
}

void times_draw(Layout *layout, const Block *block) {
    Times times = times_new(layout, block);
    draw_band(&times);
    draw_line(&times);
    draw_scales(&times);
    draw_points(&times);
}
