/* Tray: a small drawing of one look: what is burnt black, the glow a white gap with an arrow, where
 * a fast and a slow night would have it as ticks, and beside them when it would then be out. */
#include "layout/channel.h"
#include "layout/drawing.h"

#include <math.h>

#define LANE_LEAST_MM 1.45 /* pitch of lanes that can still be told apart */
#define LEAST_MM 7.0       /* height */
#define MOST_MM 26.0
#define TRAY_MOST_MM 62.0 /* width */
#define LABEL_GAP_MM 1.2
#define WALL_MM 0.25
#define GLOW_PARTS 1.5 /* length of the glow in widths of the channel */
#define GLOW_LEAST_MM 1.8
#define GLOW_MOST_MM 4.0
#define TICK_MM 0.35
#define NARROWEST_MM 1.4 /* channel of a single lane */
#define UNFIT_MM 1000.0  /* height of what cannot be drawn into such a width */

typedef struct SmallTray {
    Layout *layout;
    const PlanFill *fill;
    const PlanLookIn *look_in;
    ChannelView view;
    double band_mm;
    TextStyle label;
} SmallTray;

enum { EARLY, LATE };

/* When it would be out, for a place of the glow that is looked for at all. */
void tray_fill_words(Layout *layout, Block *block) {
    static const char *const keys[] = {[EARLY] = "night.out_early", [LATE] = "night.out_late"};
    const PlanLookIn *look_in = drawing_look_in(layout, block);
    const double places_m[] = {[EARLY] = look_in->early_m, [LATE] = look_in->late_m};
    for (int i = EARLY; i <= LATE; i++)
        if (isfinite(places_m[i]))
            block->labels[i] =
                block_leaf(layout, block->node, layout_words(layout, keys[i], block->row));
}

static double label_mm(Layout *layout, const Block *block) {
    int widest = 0;
    for (int i = EARLY; i <= LATE; i++)
        if (block->labels[i].string && block->labels[i].text.width > widest)
            widest = block->labels[i].text.width;
    return widest ? wrap_mm(widest, block_style(layout, block).size_pt) + LABEL_GAP_MM : 0;
}

static double tray_width_mm(Layout *layout, const Block *block, double width_mm) {
    return fmin(width_mm - 2 * label_mm(layout, block), TRAY_MOST_MM);
}

/* Distance of neighbouring stretches of the channel; the whole height where there is one. */
static double pitch_m(const PlanFill *fill) {
    const Tray *tray = fill->tray;
    return tray->path == PATH_STRAIGHT || (tray->path == PATH_LANES && tray->lanes < 2)
               ? fill->map_height_m
               : tray->pitch_m;
}

double tray_least_mm(Layout *layout, const Block *block, double width_mm) {
    const PlanLookIn *look_in = drawing_look_in(layout, block);
    const PlanFill *fill = drawing_fill(layout, block);
    if (!look_in || !fill)
        return 0;
    double across_mm = tray_width_mm(layout, block, width_mm);
    double scale = LANE_LEAST_MM / fmax(pitch_m(fill), 1e-6);
    if (scale * fill->map_width_m > across_mm || across_mm < 5)
        return pitch_m(fill) < fill->map_height_m ? UNFIT_MM : LEAST_MM;
    return fmax(scale * fill->map_height_m + 2 * WALL_MM, LEAST_MM);
}

double tray_most_mm(Layout *layout, const Block *block, double width_mm) {
    const PlanFill *fill = drawing_fill(layout, block);
    if (!fill)
        return 0;
    double across_mm = tray_width_mm(layout, block, width_mm);
    return fmin(fill->map_height_m * across_mm / fill->map_width_m + 2 * WALL_MM, MOST_MM);
}

static SmallTray tray_in(Layout *layout, const Block *block, Box box) {
    const PlanFill *fill = drawing_fill(layout, block);
    double across_mm = tray_width_mm(layout, block, box.width_mm);
    double scale = fmin((across_mm - 2 * WALL_MM) / fill->map_width_m,
                        (box.height_mm - 2 * WALL_MM) / fill->map_height_m);
    double wide_mm = fill->map_width_m * scale;
    double high_mm = fill->map_height_m * scale;
    SmallTray tray = {.layout = layout,
                      .fill = fill,
                      .look_in = drawing_look_in(layout, block),
                      .label = block_style(layout, block)};
    tray.view = (ChannelView){box.x_mm + (box.width_mm - wide_mm) / 2,
                              box.y_mm + (box.height_mm - high_mm) / 2, scale};
    tray.band_mm = fill->tray->channel_width_m * scale;
    if (pitch_m(fill) >= fill->map_height_m)
        tray.band_mm = fmax(tray.band_mm, NARROWEST_MM);
    return tray;
}

static void stroke(const SmallTray *tray, double from_m, double to_m, double width_mm, Ink ink) {
    ChannelPoints points =
        channel_part(tray->layout->pen.arena, &tray->fill->line, from_m, to_m, tray->view);
    if (points.count < 2)
        return;
    Style style = style_line(width_mm, ink);
    style.join = JOIN_MITER;
    mark_polyline(tray->layout->pen.page, points.items, points.count, style);
}

static Point point_of(const SmallTray *tray, double along_m) {
    return channel_point(tray->view, channel_at(&tray->fill->line, along_m));
}

static void draw_across(const SmallTray *tray, double along_m, double line_mm, Ink ink) {
    Point at = point_of(tray, along_m);
    double heading = channel_heading(&tray->fill->line, along_m);
    double x_mm = -sin(heading) * tray->band_mm / 2;
    double y_mm = cos(heading) * tray->band_mm / 2;
    mark_line(tray->layout->pen.page, (Point){at.x_mm - x_mm, at.y_mm - y_mm},
              (Point){at.x_mm + x_mm, at.y_mm + y_mm}, style_line(line_mm, ink));
}

/* Length of the glow along the channel. */
static double glow_m(const SmallTray *tray) {
    double length_mm = fmin(fmax(tray->band_mm * GLOW_PARTS, GLOW_LEAST_MM), GLOW_MOST_MM);
    return length_mm / tray->view.mm_per_m;
}

static bool is_second(const SmallTray *tray) {
    return tray->fill->both_ends && isfinite(tray->look_in->second_m);
}

static void draw_channel(const SmallTray *tray) {
    const PlanFill *fill = tray->fill;
    const PlanLookIn *look_in = tray->look_in;
    tray->layout->pen.page->owner = "tray";
    stroke(tray, 0, INFINITY, tray->band_mm + 2 * WALL_MM, ink_black());
    stroke(tray, 0, INFINITY, tray->band_mm, ink_white());
    if (!fill->whole)
        stroke(tray, fill->filled_m, INFINITY, tray->band_mm, ink_grey(0.8));
    tray->layout->pen.page->owner = "burnt";
    stroke(tray, 0, look_in->along_m, tray->band_mm, ink_black());
    if (is_second(tray))
        stroke(tray, look_in->second_m, fill->filled_m, tray->band_mm, ink_black());
}

/* A white gap at the edge of what is burnt, an arrow in it where the glow goes. */
static void draw_glow(const SmallTray *tray, double along_m, bool back) {
    double end_m = back ? fmin(along_m + glow_m(tray), tray->fill->filled_m)
                        : fmax(along_m - glow_m(tray), 0);
    tray->layout->pen.page->owner = "glow";
    stroke(tray, fmin(along_m, end_m), fmax(along_m, end_m), tray->band_mm, ink_white());
    draw_across(tray, along_m, TICK_MM, ink_black()); /* where it eats into the dust */
    double middle_m = (along_m + end_m) / 2;
    double heading = channel_heading(&tray->fill->line, middle_m) + (back ? 2 * acos(0.0) : 0);
    Point at = point_of(tray, middle_m);
    double size_mm = fmin(tray->band_mm * 0.8, 1.6);
    double x = cos(heading) * size_mm / 2;
    double y = sin(heading) * size_mm / 2;
    const Point head[] = {{at.x_mm + x, at.y_mm + y},
                          {at.x_mm - x - y, at.y_mm - y + x},
                          {at.x_mm - x + y, at.y_mm - y - x}};
    mark_polygon(tray->layout->pen.page, head, 3, style_fill(ink_black()));
}

static bool is_burnt(const SmallTray *tray, double along_m) {
    return along_m < tray->look_in->along_m - glow_m(tray);
}

/* The hour at which it is out if the glow is there, beside the tray at the height of the place. */
static void draw_label(const SmallTray *tray, Box box, double along_m, bool right,
                       const Leaf *label) {
    Pen *pen = &tray->layout->pen;
    if (!label->string)
        return;
    pen->page->owner = right ? "early" : "late";
    bool burnt = is_burnt(tray, along_m);
    draw_across(tray, along_m, TICK_MM, burnt ? ink_white() : ink_black());
    double pitch_mm = pen_pitch_mm(tray->label);
    double top_mm = point_of(tray, along_m).y_mm - pitch_mm / 2;
    top_mm = fmin(fmax(top_mm, box.y_mm), box.y_mm + box.height_mm - pitch_mm);
    double wide_mm = tray->fill->map_width_m * tray->view.mm_per_m;
    double x_mm = right ? tray->view.x_mm + wide_mm + LABEL_GAP_MM : tray->view.x_mm - LABEL_GAP_MM;
    pen_line(pen, tray->label, right ? ALIGN_LEFT : ALIGN_RIGHT, x_mm, top_mm, label->string);
}

void tray_draw(Layout *layout, const Block *block) {
    const char *owner = layout->pen.page->owner;
    SmallTray tray = tray_in(layout, block, block->box);
    draw_channel(&tray);
    draw_glow(&tray, tray.look_in->along_m, false);
    if (is_second(&tray))
        draw_glow(&tray, tray.look_in->second_m, true);
    draw_label(&tray, block->box, tray.look_in->early_m, true, &block->labels[EARLY]);
    draw_label(&tray, block->box, tray.look_in->late_m, false, &block->labels[LATE]);
    layout->pen.page->owner = owner;
}
