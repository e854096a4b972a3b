/* Ribbon: the night down the page in proportion to the hours: black while it is dark, hatched while
 * nobody is there, the hours in which it ends as a bracket, a leader to each row of the night. */
#include "layout/drawing.h"

#include <math.h>

#define DARK_MM 6.0
#define AWAY_MM 4.0
#define BRACKET_MM 1.4
#define GAP_MM 1.0
#define EDGE_MM 0.2
#define LEADER_MM 0.2
#define HATCH_MM 1.2
#define LEAST_MM 60.0

enum { HOUR_S = 3600 };

typedef struct Ribbon {
    Layout *layout;
    TextStyle style;
    Box box; /* of the ribbon itself */
    Instant from, to;
} Ribbon;

static double y_of(const Ribbon *ribbon, Instant at) {
    double part = (double)(at - ribbon->from) / (double)(ribbon->to - ribbon->from);
    return ribbon->box.y_mm + fmin(fmax(part, 0), 1) * ribbon->box.height_mm;
}

static Instant event_at(const Block *row) {
    const Field *at = field_find(row->row, "event_at");
    return at && isfinite(at->quantity.value) ? (Instant)at->quantity.value : 0;
}

/* From lighting, or what comes first, to the late end of the band, or what comes last. */
static Ribbon ribbon_new(Layout *layout, const Block *block) {
    const PlanBurn *burn = &layout->plan->burn;
    TextStyle style = block_style(layout, block);
    double label_mm = layout_hour_mm(layout, style);
    Ribbon ribbon = {.layout = layout, .style = style, .from = burn->light_at};
    double half_mm = pen_pitch_mm(style) / 2;
    ribbon.box = (Box){block->box.x_mm + label_mm + 2 * GAP_MM + BRACKET_MM,
                       block->box.y_mm + half_mm, DARK_MM + AWAY_MM,
                       block->box.height_mm - 2 * half_mm};
    ribbon.to = burn->out_late > burn->out_at ? burn->out_late : burn->out_at;
    ribbon.to = ribbon.to > ribbon.from ? ribbon.to : ribbon.from + HOUR_S;
    return ribbon;
}

/* The part of a span on the ribbon, so wide from so far in. */
static Box part_of(const Ribbon *ribbon, Away span, double in_mm, double width_mm) {
    double top_mm = y_of(ribbon, span.from);
    return (Box){ribbon->box.x_mm + in_mm, top_mm, width_mm, y_of(ribbon, span.to) - top_mm};
}

static void draw_spans(const Ribbon *ribbon) {
    Page *page = ribbon->layout->pen.page;
    const Plan *plan = ribbon->layout->plan;
    for (size_t i = 0; i < plan->nights.count; i++) {
        Box dark = part_of(ribbon, plan->nights.items[i], 0, DARK_MM);
        if (dark.height_mm > 0)
            mark_rectangle(page, dark, style_fill(ink_black()));
    }
    for (size_t i = 0; i < plan->batch->timing.away.count; i++) {
        Box away = part_of(ribbon, plan->batch->timing.away.items[i], DARK_MM, AWAY_MM);
        double right_mm = away.x_mm + away.width_mm;
        double foot_mm = away.y_mm + away.height_mm;
        const Point corners[] = {{away.x_mm, away.y_mm},
                                 {right_mm, away.y_mm},
                                 {right_mm, foot_mm},
                                 {away.x_mm, foot_mm}};
        if (away.height_mm > 0)
            mark_hatch(page, corners, 4, 45, HATCH_MM, style_line(0.25, ink_black()));
    }
    mark_rectangle(page, ribbon->box, style_line(EDGE_MM, ink_black()));
}

/* Every full hour, or every second, third … so that the labels stand apart. */
static void draw_hours(const Ribbon *ribbon) {
    Pen *pen = &ribbon->layout->pen;
    double pitch_mm = pen_pitch_mm(ribbon->style);
    double hour_mm = ribbon->box.height_mm * HOUR_S / (double)(ribbon->to - ribbon->from);
    int every = (int)ceil(pitch_mm / fmax(hour_mm, 0.05));
    double x_mm = ribbon->box.x_mm - 2 * GAP_MM - BRACKET_MM;
    int count = 0;
    for (Instant at = (ribbon->from / HOUR_S + 1) * HOUR_S; at < ribbon->to; at += HOUR_S) {
        double y_mm = y_of(ribbon, at);
        mark_line(pen->page, (Point){ribbon->box.x_mm - GAP_MM / 2, y_mm},
                  (Point){ribbon->box.x_mm, y_mm}, style_line(EDGE_MM, ink_black()));
        if (count++ % every == 0)
            pen_line(pen, ribbon->style, ALIGN_RIGHT, x_mm, y_mm - pitch_mm / 2,
                     layout_time(ribbon->layout, at, "hour"));
    }
}

static void draw_band(const Ribbon *ribbon) {
    const PlanBurn *burn = &ribbon->layout->plan->burn;
    double right_mm = ribbon->box.x_mm - GAP_MM;
    double left_mm = right_mm - BRACKET_MM;
    double top_mm = y_of(ribbon, burn->out_early);
    double foot_mm = y_of(ribbon, burn->out_late);
    const Point bracket[] = {
        {right_mm, top_mm}, {left_mm, top_mm}, {left_mm, foot_mm}, {right_mm, foot_mm}};
    mark_polyline(ribbon->layout->pen.page, bracket, 4, style_line(0.5, ink_black()));
}

static void draw_leaders(const Ribbon *ribbon, const Block *block) {
    Layout *layout = ribbon->layout;
    Block *night = block->node->of ? block_named(layout, layout->root, block->node->of) : NULL;
    double from_mm = ribbon->box.x_mm + ribbon->box.width_mm;
    double to_mm = block->box.x_mm + block->box.width_mm;
    for (size_t i = 0; night && i < night->blocks.count; i++) {
        Block *row = night->blocks.items[i];
        if (!block_shown(layout, row) || !event_at(row))
            continue;
        double y_mm = y_of(ribbon, event_at(row));
        double row_mm = row->box.y_mm + row->box.height_mm / 2;
        const Point leader[] = {
            {from_mm, y_mm}, {from_mm + 1, y_mm}, {to_mm - 1, row_mm}, {to_mm, row_mm}};
        mark_polyline(layout->pen.page, leader, 4, style_line(LEADER_MM, ink_black()));
    }
}

double ribbon_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)block;
    (void)width_mm;
    return LEAST_MM;
}

void ribbon_draw(Layout *layout, const Block *block) {
    Ribbon ribbon = ribbon_new(layout, block);
    draw_spans(&ribbon);
    draw_hours(&ribbon);
    draw_band(&ribbon);
    draw_leaders(&ribbon, block);
}
