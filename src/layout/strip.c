#include "layout/strip.h"

#include <math.h>

#define TICK_MM 0.9
#define LINE_MM 0.15
#define CLOCKS_APART_MM 1.5
#define TICKS_APART_MM 1.5
#define CLEAR_PART 0.08 /* of a range, left free below and above */

enum { THINNINGS = 6 };

double axis_x_mm(const TimeAxis *axis, Instant at) {
    double span = (double)(axis->to - axis->from);
    double part = span > 0 ? (double)(at - axis->from) / span : 0;
    return axis->x_mm + axis->width_mm * fmin(fmax(part, 0), 1);
}

/* The first full hour by the wall clock at or after the instant. */
static Instant next_hour(const Zone *zone, Instant at) {
    CivilTime civil = zone_civil(zone, at);
    Instant past = (Instant)civil.minute * SECONDS_PER_MINUTE + civil.second;
    return past ? at + SECONDS_PER_HOUR - past : at;
}

/* How many hours apart the written clock times stand. */
static int hours_apart(const TimeAxis *axis, double clock_mm) {
    static const int choices[THINNINGS] = {1, 2, 3, 4, 6, 12};
    double hours = (double)(axis->to - axis->from) / SECONDS_PER_HOUR;
    for (int i = 0; i < THINNINGS; i++)
        if (axis->width_mm / fmax(hours, 1) * choices[i] >= clock_mm + CLOCKS_APART_MM)
            return choices[i];
    return 24;
}

double axis_height_mm(TextStyle style) {
    return TICK_MM + pen_pitch_mm(style);
}

void axis_draw(Layout *layout, const TimeAxis *axis, TextStyle style, Box box) {
    Pen *pen = &layout->pen;
    const Zone *zone = layout->locale->zone;
    double bottom_mm = box.y_mm + box.height_mm;
    double clock_mm = layout_hour_mm(layout, style);
    int every = hours_apart(axis, clock_mm);
    double last_mm = -INFINITY;
    double hour_mm = axis_x_mm(axis, axis->from + SECONDS_PER_HOUR) - axis->x_mm;
    pen_rule(pen, axis->x_mm, bottom_mm, axis->width_mm, LINE_MM, ink_black());
    for (Instant at = next_hour(zone, axis->from); at <= axis->to; at += SECONDS_PER_HOUR) {
        double x_mm = axis_x_mm(axis, at);
        bool labelled = zone_civil(zone, at).hour % every == 0;
        if (labelled || hour_mm >= TICKS_APART_MM)
            pen_upright(pen, x_mm, bottom_mm, TICK_MM, LINE_MM, ink_black());
        double left_mm = x_mm - clock_mm / 2;
        bool fits = left_mm >= box.x_mm && left_mm + clock_mm <= box.x_mm + box.width_mm &&
                    left_mm >= last_mm;
        if (!labelled || !fits)
            continue;
        pen_line(pen, style, ALIGN_CENTRE, x_mm, bottom_mm + TICK_MM,
                 layout_time(layout, at, "hour"));
        last_mm = left_mm + clock_mm;
    }
}

double strip_y_mm(const Strip *strip, double value) {
    double part = (value - strip->low) / (strip->high - strip->low);
    return strip->y_mm + strip->height_mm * (1 - fmin(fmax(part, 0), 1));
}

void strip_clear(Strip *strip) {
    double clear = (strip->high - strip->low) * CLEAR_PART;
    strip->low -= clear;
    strip->high += clear;
}

void strip_widen(Strip *strip, double low, double high) {
    strip->low = fmin(strip->low, low);
    strip->high = fmax(strip->high, high);
}

void strip_range(Strip *strip, const Plan *plan, SampleValue value) {
    strip->low = INFINITY;
    strip->high = -INFINITY;
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        if (sample->fill && isfinite(value(sample)))
            strip_widen(strip, value(sample), value(sample));
    }
    if (!(strip->low <= strip->high)) {
        strip->low = 0;
        strip->high = 1;
    }
    if (strip->high - strip->low < 1e-6)
        strip->high = strip->low + 1e-6;
}

/* The samples from `first` on that belong to one fill and have a value. */
static size_t run_length(const Plan *plan, size_t first, SampleValue value) {
    size_t count = 0;
    int fill = plan->samples.items[first].fill;
    while (fill && first + count < plan->samples.count &&
           plan->samples.items[first + count].fill == fill &&
           isfinite(value(&plan->samples.items[first + count])))
        count++;
    return count;
}

static Point sample_point(const Strip *strip, const PlanSample *sample, SampleValue value) {
    return (Point){axis_x_mm(&strip->axis, sample->at), strip_y_mm(strip, value(sample))};
}

void strip_line(Pen *pen, const Strip *strip, const Plan *plan, SampleValue value, Style style) {
    Point *points = ARENA_ARRAY(pen->arena, plan->samples.count, Point);
    style.join = JOIN_ROUND;
    for (size_t first = 0; first < plan->samples.count;) {
        size_t count = run_length(plan, first, value);
        for (size_t i = 0; i < count; i++)
            points[i] = sample_point(strip, &plan->samples.items[first + i], value);
        if (count > 1)
            mark_polyline(pen->page, points, count, style);
        first += count ? count : 1;
    }
}

/* The tops of the labels, from the highest on, moved down until none touches the one above, then
 * up until the last one is inside. */
static void spread(Box box, const StripLabels *labels, const size_t *order, double pitch_mm,
                   double *tops_mm) {
    double floor_mm = box.y_mm;
    for (size_t i = 0; i < labels->count; i++) {
        tops_mm[i] = fmax(labels->items[order[i]].y_mm - pitch_mm / 2, floor_mm);
        floor_mm = tops_mm[i] + pitch_mm;
    }
    double ceiling_mm = box.y_mm + box.height_mm - pitch_mm;
    for (size_t i = labels->count; i-- > 0;) {
        tops_mm[i] = fmin(tops_mm[i], ceiling_mm);
        ceiling_mm = tops_mm[i] - pitch_mm;
    }
}

static void order_by_height(const StripLabels *labels, size_t *order) {
    for (size_t i = 0; i < labels->count; i++) {
        size_t at = i;
        while (at > 0 && labels->items[order[at - 1]].y_mm > labels->items[i].y_mm) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
}

void strip_labels(Pen *pen, Box box, TextStyle style, const StripLabels *labels) {
    size_t *order = ARENA_ARRAY(pen->arena, labels->count, size_t);
    double *tops_mm = ARENA_ARRAY(pen->arena, labels->count, double);
    order_by_height(labels, order);
    spread(box, labels, order, pen_pitch_mm(style), tops_mm);
    for (size_t i = 0; i < labels->count; i++)
        pen_line(pen, style, ALIGN_LEFT, box.x_mm, tops_mm[i], labels->items[order[i]].text);
}
