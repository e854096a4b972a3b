/* Tray: a drawing of one look-in: what is burnt black, the glow a white gap with an arrow, where a
 * fast and a slow night would have it as thin ticks, what holds no dust grey, a flame where it is
 * lit. All trays of one shape on a page have one size. Lanes are stretched to the width of the row,
 * so that a place along them is read at arm's length; a coil keeps its shape. */
#include "layout/channel.h"
#include "layout/drawing.h"

#include <math.h>

#define WALL_MM 0.3
#define LANE_MM 2.0       /* the open channel, while there is room */
#define LANE_LEAST_MM 1.6 /* lanes that can still be told apart */
#define LANE_MOST_MM 3.4
#define STRIP_LEAST_MM 2.6 /* a single lane */
#define STRIP_MOST_MM 4.6
#define COIL_LEAST_MM 14.0
#define COIL_MOST_MM 22.0
#define LANES_LEAST_MM 40.0 /* length of stretched lanes */
#define FLAME_MM 3.0
#define GAP_MM 0.7
#define NUMBER_OVER_MM                                                                             \
    1.0              /* that a number may be higher than its lane; less than trays are apart */
#define GLOW_PARTS 2 /* length of the glow in widths of the channel */
#define GLOW_LEAST_MM 3.4
#define GLOW_MOST_MM 5.0
#define GLOW_COIL_MM 2.4 /* round the bends of a coil */
#define HEAD_MM 2.0      /* length of the arrow's head */
#define EDGE_MM 0.6      /* where the glow eats into the dust */
#define TICK_MM 0.3      /* a fast, a slow night */
#define NO_DUST 0.72     /* grey */
#define UNFIT_MM 1000.0  /* height of what cannot be drawn into such a width */

typedef struct SmallTray {
    Layout *layout;
    const PlanFill *fill;
    const PlanLookIn *look_in;
    ChannelView view;
    double band_mm;
    Box outline;
    TextStyle label;
} SmallTray;

/* How a tray is drawn. */
typedef enum Shape { SHAPE_LANES, SHAPE_STRIP, SHAPE_COIL } Shape;

static Shape shape_of(const PlanFill *fill) {
    const Tray *tray = fill->tray;
    if (tray->path == PATH_SPIRAL)
        return SHAPE_COIL;
    return tray->path == PATH_LANES && tray->lanes > 1 ? SHAPE_LANES : SHAPE_STRIP;
}

/* Room at both ends of the lanes, for the flame and a lane's number. */
static double beside_mm(Layout *layout, const Block *block) {
    double number_mm = pen_width_mm(&layout->pen, block_style(layout, block), "00");
    return FLAME_MM + number_mm + 2 * GAP_MM;
}

/* Height for lanes, or the turns of a coil, of that width. */
static double height_mm(const PlanFill *fill, double lane_mm) {
    double pitch_mm = lane_mm + WALL_MM;
    if (shape_of(fill) == SHAPE_LANES)
        return fill->tray->lanes * pitch_mm + WALL_MM;
    return fill->map_height_m / fmax(fill->tray->pitch_m, 1e-6) * pitch_mm + WALL_MM;
}

/* The lanes' least width, as far as the page has given way. */
static double lane_mm(const Layout *layout, const Block *block) {
    double given = block->node->tighten ? layout->given[block->node->tighten] : 0;
    return LANE_MM - (LANE_MM - LANE_LEAST_MM) * given;
}

double tray_least_mm(Layout *layout, const Block *block, double width_mm) {
    const PlanFill *fill = drawing_fill(layout, block);
    if (!fill)
        return 0;
    double coil_mm = fmax(height_mm(fill, LANE_LEAST_MM), COIL_LEAST_MM);
    switch (shape_of(fill)) {
    case SHAPE_STRIP: return STRIP_LEAST_MM;
    case SHAPE_COIL:
        return coil_mm / fill->map_height_m * fill->map_width_m < width_mm ? coil_mm : UNFIT_MM;
    case SHAPE_LANES: break;
    }
    bool wide = width_mm - 2 * beside_mm(layout, block) >= LANES_LEAST_MM;
    return wide ? height_mm(fill, lane_mm(layout, block)) : UNFIT_MM;
}

double tray_most_mm(Layout *layout, const Block *block, double width_mm) {
    const PlanFill *fill = drawing_fill(layout, block);
    if (!fill)
        return 0;
    switch (shape_of(fill)) {
    case SHAPE_STRIP: return STRIP_MOST_MM;
    case SHAPE_COIL: return fmax(COIL_MOST_MM, tray_least_mm(layout, block, width_mm));
    case SHAPE_LANES: break;
    }
    return height_mm(fill, LANE_MOST_MM);
}

/* ---- One size for all ---- */

/* The least height that a row of the page gives to a tray of that shape. */
typedef struct Given {
    const PlanFill *fill;
    double least_mm;
} Given;

static bool is_alike(const PlanFill *one, const PlanFill *other) {
    return one->tray == other->tray ||
           (shape_of(one) != SHAPE_COIL && shape_of(one) == shape_of(other) &&
            one->tray->lanes == other->tray->lanes);
}

static bool narrow_given(Layout *layout, Block *block, void *with) {
    Given *given = with;
    bool tray = block->node->kind == NODE_CANVAS && block->node->drawing == DRAWING_TRAY;
    const PlanFill *fill = tray ? drawing_fill(layout, block) : NULL;
    if (fill && is_alike(fill, given->fill))
        given->least_mm = fmin(given->least_mm, block->box.height_mm);
    return false;
}

static double common_height_mm(Layout *layout, const Block *block, const PlanFill *fill) {
    Given given = {fill, block->box.height_mm};
    layout_each(layout, narrow_given, &given);
    return fmin(given.least_mm, tray_most_mm(layout, block, block->box.width_mm));
}

/* ---- Where it lies ---- */

/* Least and greatest of the centre line, in the tray's plane. */
static Box line_box(const MapPoints *line) {
    double left = INFINITY, top = INFINITY, right = -INFINITY, foot = -INFINITY;
    for (size_t i = 0; i < line->count; i++) {
        left = fmin(left, line->items[i].x_m);
        right = fmax(right, line->items[i].x_m);
        top = fmin(top, line->items[i].y_m);
        foot = fmax(foot, line->items[i].y_m);
    }
    return (Box){left, top, right - left, foot - top};
}

/* Stretches the lanes over the outline, its walls included. */
static void stretch(SmallTray *tray) {
    Box line = line_box(&tray->fill->line);
    double edge_mm = tray->band_mm / 2 + WALL_MM;
    double across = (tray->outline.width_mm - 2 * edge_mm) / fmax(line.width_mm, 1e-6);
    double down = line.height_mm > 1e-6 ? (tray->outline.height_mm - 2 * edge_mm) / line.height_mm
                                        : across;
    tray->view = (ChannelView){tray->outline.x_mm + edge_mm - line.x_mm * across,
                               tray->outline.y_mm + edge_mm - line.y_mm * down, across, down};
}

static SmallTray tray_in(Layout *layout, const Block *block) {
    const PlanFill *fill = drawing_fill(layout, block);
    Box box = block->box;
    double high_mm = common_height_mm(layout, block, fill);
    double top_mm = box.y_mm + (box.height_mm - high_mm) / 2;
    double side_mm = beside_mm(layout, block);
    SmallTray tray = {.layout = layout,
                      .fill = fill,
                      .look_in = drawing_look_in(layout, block),
                      .label = block_style(layout, block)};
    tray.outline = (Box){box.x_mm + side_mm, top_mm, box.width_mm - 2 * side_mm, high_mm};
    if (shape_of(fill) != SHAPE_COIL) {
        int lanes = shape_of(fill) == SHAPE_LANES ? fill->tray->lanes : 1;
        tray.band_mm = (high_mm - WALL_MM) / lanes - WALL_MM;
        stretch(&tray);
        return tray;
    }
    double scale = (high_mm - 2 * WALL_MM) / fill->map_height_m;
    double wide_mm = fill->map_width_m * scale;
    tray.band_mm = fill->tray->channel_width_m * scale;
    tray.outline = (Box){box.x_mm + (box.width_mm - wide_mm) / 2, top_mm, wide_mm, high_mm};
    tray.view = channel_view(tray.outline.x_mm, top_mm + WALL_MM, scale);
    return tray;
}

/* ---- Drawing ---- */

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

static bool is_second(const SmallTray *tray) {
    return tray->fill->both_ends && isfinite(tray->look_in->second_m);
}

/* The walls stand on over the ends, so that they close them. */
static void draw_walls(const SmallTray *tray) {
    const MapPoints *line = &tray->fill->line;
    stroke(tray, 0, INFINITY, tray->band_mm + 2 * WALL_MM, ink_black());
    const double ends_m[] = {0, line->items[line->count - 1].along_m};
    for (int i = 0; i < 2; i++)
        draw_across(tray, ends_m[i], 2 * WALL_MM, ink_black());
    stroke(tray, 0, INFINITY, tray->band_mm, ink_white());
}

static void draw_channel(const SmallTray *tray) {
    const PlanFill *fill = tray->fill;
    const PlanLookIn *look_in = tray->look_in;
    tray->layout->pen.page->owner = "tray";
    draw_walls(tray);
    if (!fill->whole)
        stroke(tray, fill->filled_m, INFINITY, tray->band_mm, ink_grey(NO_DUST));
    tray->layout->pen.page->owner = "burnt";
    stroke(tray, 0, look_in->along_m, tray->band_mm, ink_black());
    if (is_second(tray))
        stroke(tray, look_in->second_m, fill->filled_m, tray->band_mm, ink_black());
}

/* The end of the glow that is nearer to where it was lit. */
static double glow_tail_m(const SmallTray *tray, double along_m, bool back) {
    double long_mm = fmin(fmax(tray->band_mm * GLOW_PARTS, GLOW_LEAST_MM), GLOW_MOST_MM);
    double length_mm = shape_of(tray->fill) == SHAPE_COIL ? GLOW_COIL_MM : long_mm;
    double tail_m =
        channel_onward(&tray->fill->line, along_m, back ? length_mm : -length_mm, tray->view);
    return back ? fmin(tail_m, tray->fill->filled_m) : fmax(tail_m, 0);
}

/* A white gap at the edge of what is burnt, an arrow in it where the glow goes. */
static void draw_glow(const SmallTray *tray, double along_m, bool back) {
    double tail_m = glow_tail_m(tray, along_m, back);
    tray->layout->pen.page->owner = "glow";
    stroke(tray, fmin(along_m, tail_m), fmax(along_m, tail_m), tray->band_mm, ink_white());
    draw_across(tray, along_m, EDGE_MM, ink_black());
    double middle_m = (along_m + tail_m) / 2;
    double heading = channel_heading(&tray->fill->line, middle_m) + (back ? acos(-1.0) : 0);
    Point at = point_of(tray, middle_m);
    double long_mm = shape_of(tray->fill) == SHAPE_COIL ? tray->band_mm * 0.8 : HEAD_MM;
    double x = cos(heading), y = sin(heading);
    double ahead_mm = long_mm / 2, aside_mm = tray->band_mm * 0.4;
    const Point head[] = {
        {at.x_mm + x * ahead_mm, at.y_mm + y * ahead_mm},
        {at.x_mm - x * ahead_mm - y * aside_mm, at.y_mm - y * ahead_mm + x * aside_mm},
        {at.x_mm - x * ahead_mm + y * aside_mm, at.y_mm - y * ahead_mm - x * aside_mm}};
    mark_polygon(tray->layout->pen.page, head, 3, style_fill(ink_black()));
}

/* Where a slow night has the glow, white in what is burnt, or a fast one, ahead. */
static void draw_tick(const SmallTray *tray, const char *owner, double along_m) {
    if (!isfinite(along_m))
        return;
    tray->layout->pen.page->owner = owner;
    bool burnt = along_m < glow_tail_m(tray, tray->look_in->along_m, false);
    draw_across(tray, along_m, TICK_MM, burnt ? ink_white() : ink_black());
}

/* ---- Beside it ---- */

/* Whether the channel goes to the right at a length; where it goes down, whence it came. */
static bool goes_right(const SmallTray *tray, double along_m) {
    return cos(channel_heading(&tray->fill->line, along_m)) > -0.5;
}

static void draw_flame(const SmallTray *tray, double along_m, bool right_of_it, double away_mm) {
    Point at = point_of(tray, along_m);
    double size_mm = FLAME_MM;
    double x_mm = right_of_it ? tray->outline.x_mm + tray->outline.width_mm + away_mm
                              : tray->outline.x_mm - away_mm - size_mm;
    tray->layout->pen.page->owner = "lit";
    sign_draw(tray->layout->pen.page, SIGN_FLAME, (Point){x_mm, at.y_mm - size_mm / 2}, size_mm,
              ink_black(), ink_white());
}

/* Each lane's number where the glow comes into it: odd ones on one side, even on the other. */
static void draw_numbers(const SmallTray *tray) {
    Layout *layout = tray->layout;
    double pitch_mm = tray->band_mm + WALL_MM;
    TextStyle style = tray->label; /* as large as the lanes of a side let it be */
    double room_mm = fmin(2 * pitch_mm, pitch_mm + NUMBER_OVER_MM);
    style.size_pt =
        fmax(fmin(style.size_pt, style.size_pt * room_mm / pen_pitch_mm(style)), LEAST_TYPE_PT);
    double line_mm = pen_pitch_mm(style);
    int every = (int)ceil(line_mm / (2 * pitch_mm) - 1e-6);
    layout->pen.page->owner = "lanes";
    for (int lane = 1; lane <= tray->fill->tray->lanes; lane++) {
        if ((lane - 1) / 2 % every != 0)
            continue;
        bool left = lane % 2 == 1;
        double middle_mm = tray->outline.y_mm + WALL_MM + (lane - 1) * pitch_mm + tray->band_mm / 2;
        double x_mm = left ? tray->outline.x_mm - GAP_MM
                           : tray->outline.x_mm + tray->outline.width_mm + GAP_MM;
        pen_line(&layout->pen, style, left ? ALIGN_RIGHT : ALIGN_LEFT, x_mm,
                 middle_mm - line_mm / 2, arena_format(layout->pen.arena, "%d", lane));
    }
}

static void draw_beside(const SmallTray *tray, const Block *block) {
    double number_mm = beside_mm(tray->layout, block) - FLAME_MM - 0.01;
    bool lanes = shape_of(tray->fill) == SHAPE_LANES;
    if (lanes)
        draw_numbers(tray);
    draw_flame(tray, 0, shape_of(tray->fill) == SHAPE_COIL, lanes ? number_mm : GAP_MM);
    if (!tray->fill->both_ends)
        return;
    bool right = shape_of(tray->fill) == SHAPE_COIL ? false
                                                    : goes_right(tray, tray->fill->filled_m);
    draw_flame(tray, tray->fill->filled_m, right, lanes ? number_mm : GAP_MM);
}

void tray_draw(Layout *layout, const Block *block) {
    const char *owner = layout->pen.page->owner;
    SmallTray tray = tray_in(layout, block);
    draw_channel(&tray);
    draw_tick(&tray, "late", tray.look_in->late_m);
    draw_tick(&tray, "early", tray.look_in->early_m);
    draw_glow(&tray, tray.look_in->along_m, false);
    if (is_second(&tray))
        draw_glow(&tray, tray.look_in->second_m, true);
    draw_beside(&tray, block);
    layout->pen.page->owner = owner;
}
