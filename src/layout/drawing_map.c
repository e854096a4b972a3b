/* Map: one tray drawn to scale, with the place of the glow on every full hour, or a letter where
 * each look of the night should find it. */
#include "layout/channel.h"
#include "layout/drawing.h"
#include "layout/obstacles.h"

#include <math.h>

#define SIGN_MM 4.6 /* flame and flag */
#define LEAST_SIGN_MM 3.0
#define ROOM_MM 12.0      /* beside the tray, for signs and clock times at the channel's ends */
#define LEAST_ROOM_MM 5.4 /* the same where the drawing is small: signs alone */
#define ROOMY_MM 55.0     /* width of a drawing that is not small */
#define WALL_MM 0.4       /* walls of the channel */
#define TICK_MM 0.55      /* where the glow is on the hour */
#define TICK_CLEAR_MM 0.3 /* on both sides of it */
#define ARROW_MM 1.7      /* head of an arrow that shows the way of the glow */
#define ARROWS_APART_MM 22.0
#define ARROW_CLEAR_MM 0.6 /* on all sides of it */
#define HALO_MM 0.35       /* paper round it */
#define MOST_COVERED 0.25  /* of the tray by the labels of the hours */
#define LEAST_LABELLED 0.7 /* of the hours that are due */
#define LABEL_GAP_MM 0.65
#define PAPER_MM 0.35 /* white round a label */
#define LEAST_MAP_MM 17.0
#define LEAST_LETTERED_MM 24.0
#define MOST_STRETCH 2.6
#define STRIP_MM 9.0
#define MOST_LETTERED_MM 44.0 /* height of a map that letters have to fit into */
#define ONE_PLACE_MM 1.5
#define NO_DUST 0.8 /* grey of what is not filled, as on the trays of the look-ins */

enum { SPOTS = 4, THINNINGS = 6, NUDGES = 5, LANE_SPOTS = 16 };

/* The drawing under way: the tray's plane on the paper, and what is taken there. */
typedef struct Map {
    Layout *layout;
    const PlanFill *fill;
    ChannelView view;
    double band_mm; /* width of the channel */
    double sign_mm;
    TextStyle label;
    bool letters; /* at the look-ins, in place of the hours */
    Obstacles taken;
    Obstacles lines; /* of the labels, which are higher than the paper under them */
} Map;

static double room_mm(double width_mm) {
    return width_mm < ROOMY_MM ? LEAST_ROOM_MM : ROOM_MM;
}

static double label_high_mm(const Layout *layout, TextStyle label) {
    return pen_capitals_mm(&layout->pen, label) + 2 * PAPER_MM;
}

/* Where letters are to stand in their lanes, these are as high as letters. */
double map_least_mm(Layout *layout, const Block *block, double width_mm) {
    const PlanFill *fill = drawing_fill(layout, block);
    double most_mm = map_most_mm(layout, block, width_mm);
    double least_mm =
        fmax(block->node->least_mm, block->node->of ? LEAST_LETTERED_MM : LEAST_MAP_MM);
    double lane_mm = label_high_mm(layout, style_strong(block_style(layout, block)));
    double lanes_mm = fill->map_height_m / fill->tray->channel_width_m * lane_mm + 2;
    if (block->node->of && lanes_mm <= MOST_LETTERED_MM)
        least_mm = fmax(least_mm, lanes_mm);
    return fmin(least_mm, most_mm);
}

static bool is_strip(const PlanFill *fill) {
    const Tray *tray = fill->tray;
    return tray->path == PATH_STRAIGHT || (tray->path == PATH_LANES && tray->lanes < 2);
}

/* A single lane with letters is no higher than these need. */
double map_most_mm(Layout *layout, const Block *block, double width_mm) {
    const PlanFill *fill = drawing_fill(layout, block);
    if (block->node->of && is_strip(fill))
        return STRIP_MM;
    double scale = (width_mm - 2 * room_mm(width_mm)) / fill->map_width_m;
    return fmax(fill->map_height_m * scale, 0) + 2;
}

/* Lanes that letters are to be read in are stretched along their length. */
static double stretch_of(const Map *map, double scale, double most_mm) {
    double room = most_mm / fmax(map->fill->map_width_m * scale, 1e-6);
    if (map->letters && is_strip(map->fill))
        return fmax(room, 1);
    bool lanes = map->fill->tray->path == PATH_LANES;
    return map->letters && lanes ? fmax(fmin(room, MOST_STRETCH), 1) : 1;
}

static Map map_new(Layout *layout, const Block *block) {
    const PlanFill *fill = drawing_fill(layout, block);
    Box box = block->box;
    double beside_mm = room_mm(box.width_mm);
    double most_mm = box.width_mm - 2 * beside_mm;
    double scale =
        fmax(fmin(most_mm / fill->map_width_m, (box.height_mm - 2) / fill->map_height_m), 0);
    Map map = {.layout = layout, .fill = fill, .letters = block->node->of != NULL};
    map.view = channel_view(box.x_mm + beside_mm, box.y_mm + 1, scale);
    map.view.across_mm_per_m *= stretch_of(&map, scale, most_mm);
    map.band_mm = fill->tray->channel_width_m * scale;
    map.sign_mm = fmax(fmin(SIGN_MM, map.band_mm * 1.1), LEAST_SIGN_MM);
    map.label = style_strong(block_style(layout, block));
    double wide_mm = fill->map_width_m * map.view.across_mm_per_m + 2 * beside_mm;
    map.taken = obstacles_new(
        layout->pen.arena, (Box){box.x_mm, box.y_mm, fmin(wide_mm, box.width_mm), box.height_mm});
    map.lines = obstacles_new(layout->pen.arena, map.taken.bounds);
    return map;
}

/* ---- The channel ---- */

static void stroke(Map *map, const ChannelPoints *points, double width_mm, Ink ink) {
    if (points->count < 2)
        return;
    Style style = style_line(width_mm, ink);
    style.join = JOIN_MITER;
    mark_polyline(map->layout->pen.page, points->items, points->count, style);
}

/* A line across the channel. */
static void draw_across(Map *map, Point at, double heading_rad, double line_mm) {
    double x_mm = -sin(heading_rad) * map->band_mm / 2;
    double y_mm = cos(heading_rad) * map->band_mm / 2;
    mark_line(map->layout->pen.page, (Point){at.x_mm - x_mm, at.y_mm - y_mm},
              (Point){at.x_mm + x_mm, at.y_mm + y_mm}, style_line(line_mm, ink_black()));
}

static void draw_end_wall(Map *map, double along_m) {
    const MapPoints *line = &map->fill->line;
    draw_across(map, channel_point(map->view, channel_at(line, along_m)),
                channel_heading(line, along_m), WALL_MM);
}

static void draw_channel(Map *map) {
    Arena *arena = map->layout->pen.arena;
    ChannelPoints whole = channel_part(arena, &map->fill->line, 0, INFINITY, map->view);
    ChannelPoints filled = channel_part(arena, &map->fill->line, 0, map->fill->filled_m, map->view);
    stroke(map, &whole, map->band_mm + 2 * WALL_MM, ink_black());
    stroke(map, &whole, map->band_mm, ink_grey(NO_DUST));
    stroke(map, &filled, map->band_mm, ink_white());
    draw_end_wall(map, 0);
    draw_end_wall(map, map->fill->channel_m);
    if (!map->fill->whole)
        draw_end_wall(map, map->fill->filled_m);
}

static Style hatch_style(void) {
    return style_line(0.25, ink_black());
}

static void draw_weak(Map *map) {
    Arena *arena = map->layout->pen.arena;
    for (size_t i = 0; i < map->fill->weak.count; i++) {
        const WeakStretch *weak = &map->fill->weak.items[i];
        ChannelPoints line =
            channel_part(arena, &map->fill->line, weak->from_m, weak->to_m, map->view);
        ChannelPoints outline = channel_outline(arena, &line, map->band_mm);
        if (outline.count > 2)
            mark_hatch(map->layout->pen.page, outline.items, outline.count, 45, 1.1, hatch_style());
    }
}

/* ---- Labels ---- */

/* The line of text whose capitals a label's paper is made for. */
static Box line_of(const Map *map, Box label) {
    double more_mm = pen_pitch_mm(map->label) - label.height_mm;
    return (Box){label.x_mm, label.y_mm - more_mm / 2, label.width_mm, label.height_mm + more_mm};
}

static bool is_free(const Map *map, Box label) {
    return obstacles_free(&map->taken, label) && obstacles_free(&map->lines, line_of(map, label));
}

static void take(Map *map, Box label) {
    obstacles_add(&map->taken, label);
    obstacles_add(&map->lines, line_of(map, label));
}

/* The i-th spot for a label at a place in the channel: ahead, behind, to one side, the other. */
static Box label_box(const Map *map, Point at, double heading_rad, double width_mm,
                     double height_mm, int spot) {
    double turn = spot < 2 ? 0 : acos(0.0);
    double along_x = cos(heading_rad + turn);
    double along_y = sin(heading_rad + turn);
    double from_mm = spot < 2 ? 0 : map->band_mm / 2;
    double reach_mm = from_mm + LABEL_GAP_MM +
                      (fabs(along_x) * width_mm + fabs(along_y) * height_mm) / 2;
    double sign = spot % 2 == 0 ? 1 : -1;
    return (Box){at.x_mm + sign * along_x * reach_mm - width_mm / 2,
                 at.y_mm + sign * along_y * reach_mm - height_mm / 2, width_mm, height_mm};
}

/* The tray's own outline on the paper. */
static Box tray_box(const Map *map) {
    return (Box){map->view.x_mm, map->view.y_mm, map->fill->map_width_m * map->view.across_mm_per_m,
                 map->fill->map_height_m * map->view.down_mm_per_m};
}

/* Whether a box lies over the channel. */
static bool on_channel(const Map *map, Box box) {
    double half_mm = map->band_mm / 2 + WALL_MM;
    double step_m = fmax(half_mm / 2 / map->view.across_mm_per_m, 1e-4);
    int steps = (int)(map->fill->channel_m / step_m);
    for (int i = 0; i <= steps; i++) {
        Point at = channel_point(map->view, channel_at(&map->fill->line, i * step_m));
        double x_mm = fmax(fabs(at.x_mm - box.x_mm - box.width_mm / 2) - box.width_mm / 2, 0);
        double y_mm = fmax(fabs(at.y_mm - box.y_mm - box.height_mm / 2) - box.height_mm / 2, 0);
        if (hypot(x_mm, y_mm) < half_mm)
            return true;
    }
    return false;
}

/* Finds a free spot for the text: off the channel beside the place, over the tray, or anywhere;
 * false when there is none. */
static bool find_spot(const Map *map, Point at, double heading_rad, const char *text, Box *box) {
    double width_mm = pen_width_mm(&map->layout->pen, map->label, text) + 2 * PAPER_MM;
    double height_mm = label_high_mm(map->layout, map->label);
    Obstacles taken = map->taken;
    for (int spot = 2; spot < SPOTS; spot++) {
        *box = label_box(map, at, heading_rad, width_mm, height_mm, spot);
        if (is_free(map, *box) && !on_channel(map, *box))
            return true;
    }
    for (int pass = 0; pass < 2; pass++) {
        taken.bounds = pass == 0 ? tray_box(map) : map->taken.bounds;
        for (int spot = 0; spot < SPOTS; spot++) {
            *box = label_box(map, at, heading_rad, width_mm, height_mm, spot);
            if (obstacles_free(&taken, *box) && is_free(map, *box))
                return true;
        }
    }
    return false;
}

/* Sets a label on paper of its own, so that walls behind it do not disturb. */
static void set_label(Map *map, Box box, const char *text) {
    Pen *pen = &map->layout->pen;
    double top_mm = box.y_mm + (box.height_mm - pen_pitch_mm(map->label)) / 2;
    pen_rectangle(pen, box, style_fill(ink_white()));
    pen_line(pen, map->label, ALIGN_LEFT, box.x_mm + PAPER_MM, top_mm, text);
}

/* A place in the channel that has a tick and perhaps a label. */
typedef struct Spot {
    MapPoint place;
    double heading_rad;
    Instant at;
    const char *text;
} Spot;

typedef LIST_OF(Spot) Spots;

static bool alike(const PlanFill *one, const PlanFill *other) {
    return one->tray == other->tray && one->both_ends == other->both_ends &&
           fabs(one->filled_m - other->filled_m) < 1e-6;
}

static Spot spot_at(const Map *map, double along_m, Instant at, const char *text) {
    const MapPoints *line = &map->fill->line;
    return (Spot){channel_at(line, along_m), channel_heading(line, along_m), at, text};
}

/* Adds a look-in's letter; at a place that has one already it stands beside that. */
static void add_letter(const Map *map, Spots *spots, const PlanLookIn *look_in,
                       const char *letter) {
    Arena *arena = map->layout->pen.arena;
    for (size_t i = 0; i < spots->count; i++) {
        Spot *spot = &spots->items[i];
        Point here = channel_point(map->view, channel_at(&map->fill->line, look_in->along_m));
        Point there = channel_point(map->view, spot->place);
        if (hypot(here.x_mm - there.x_mm, here.y_mm - there.y_mm) > ONE_PLACE_MM)
            continue;
        spot->text = arena_format(arena, "%s %s", spot->text, letter);
        return;
    }
    LIST_ADD(arena, spots, spot_at(map, look_in->along_m, look_in->at, letter));
}

/* The hours of the fill; or the look-ins, also those of fills that look like it. */
static Spots spots_of(const Map *map) {
    Layout *layout = map->layout;
    Arena *arena = layout->pen.arena;
    const Plan *plan = layout->plan;
    Spots spots = {0};
    for (size_t i = 0; !map->letters && i < map->fill->hours.count; i++) {
        const HourMark *mark = &map->fill->hours.items[i];
        LIST_ADD(arena, &spots,
                 (Spot){mark->place, mark->heading_rad, mark->at,
                        layout_time(layout, mark->at, "hour")});
    }
    for (size_t i = 0; map->letters && i < plan->look_ins.count; i++) {
        const PlanLookIn *look_in = &plan->look_ins.items[i];
        const FieldGroup *row = field_row(layout->fields, "look", i);
        bool here = look_in->fill > 0 && (size_t)look_in->fill <= plan->fills.count &&
                    alike(map->fill, &plan->fills.items[look_in->fill - 1]) &&
                    look_in->at != plan->burn.out_at;
        if (here)
            add_letter(map, &spots, look_in, field_find(row, "letter")->text);
    }
    return spots;
}

/* Whether a stretch so long about a place lies in one level lane. */
static bool is_level(const Map *map, double along_m, double length_mm) {
    const MapPoints *line = &map->fill->line;
    for (int end = -1; end <= 1; end++) {
        double at_m = channel_onward(line, along_m, end * length_mm / 2, map->view);
        if (fabs(sin(channel_heading(line, at_m))) > 1e-3)
            return false;
    }
    double from_m = channel_onward(line, along_m, -length_mm / 2, map->view);
    double to_m = channel_onward(line, along_m, length_mm / 2, map->view);
    return fabs(channel_at(line, from_m).y_m - channel_at(line, to_m).y_m) < 1e-9;
}

/* A free spot for a letter in the lane of its place, as near to that as can be. */
static bool find_in_lane(const Map *map, const Spot *spot, Box *box) {
    double width_mm = pen_width_mm(&map->layout->pen, map->label, spot->text) + 2 * PAPER_MM;
    double height_mm = label_high_mm(map->layout, map->label);
    if (height_mm > map->band_mm + WALL_MM)
        return false;
    for (int i = 0; i < LANE_SPOTS; i++) {
        int pair = i / 2; /* one onward, one back */
        double away_mm = width_mm / 2 + LABEL_GAP_MM + pair * width_mm / 3;
        double along_m = channel_onward(&map->fill->line, spot->place.along_m,
                                        i % 2 ? -away_mm : away_mm, map->view);
        Point at = channel_point(map->view, channel_at(&map->fill->line, along_m));
        *box = (Box){at.x_mm - width_mm / 2, at.y_mm - height_mm / 2, width_mm, height_mm};
        double lane_y_mm = channel_point(map->view, spot->place).y_mm;
        if (is_level(map, along_m, width_mm) && fabs(at.y_mm - lane_y_mm) < 1e-6 &&
            is_free(map, *box))
            return true;
    }
    return false;
}

static Point spot_point(const Map *map, const Spot *spot) {
    return channel_point(map->view, spot->place);
}

/* The room of a tick, which no label may cover. */
static Box tick_box(const Map *map, const Spot *spot) {
    Point at = spot_point(map, spot);
    double thick_mm = TICK_MM / 2 + TICK_CLEAR_MM;
    double x_mm = fmax(fabs(sin(spot->heading_rad)) * map->band_mm / 2, thick_mm);
    double y_mm = fmax(fabs(cos(spot->heading_rad)) * map->band_mm / 2, thick_mm);
    return (Box){at.x_mm - x_mm, at.y_mm - y_mm, 2 * x_mm, 2 * y_mm};
}

static void draw_ticks(Map *map, const Spots *spots) {
    for (size_t i = 0; i < spots->count; i++) {
        draw_across(map, spot_point(map, &spots->items[i]), spots->items[i].heading_rad, TICK_MM);
        obstacles_add(&map->taken, tick_box(map, &spots->items[i]));
    }
}

static bool is_due(const Map *map, const Spot *spot, int every) {
    return map->letters || zone_civil(map->layout->locale->zone, spot->at).hour % every == 0;
}

/* Whether so many labels leave most of the tray to be seen. */
static bool is_clear(const Map *map, size_t labels) {
    Box tray = tray_box(map);
    double label_mm2 = pen_width_mm(&map->layout->pen, map->label, "00:00") *
                       pen_capitals_mm(&map->layout->pen, map->label);
    return (double)labels * label_mm2 <= tray.width_mm * tray.height_mm * MOST_COVERED;
}

/* Places the labels of every so-manieth hour; false, and none placed, when too few find a spot. */
static bool place_labels(Map *map, const Spots *spots, int every, Box *boxes, bool *placed) {
    size_t before = map->taken.boxes.count;
    size_t lines = map->lines.boxes.count;
    size_t due = 0;
    size_t count = 0;
    for (size_t i = 0; i < spots->count; i++) {
        const Spot *spot = &spots->items[i];
        placed[i] = false;
        if (!is_due(map, spot, every))
            continue;
        due++;
        placed[i] = (map->letters && find_in_lane(map, spot, &boxes[i])) ||
                    find_spot(map, spot_point(map, spot), spot->heading_rad, spot->text, &boxes[i]);
        count += placed[i];
        if (placed[i])
            take(map, boxes[i]);
    }
    bool enough = is_clear(map, count) && (double)count >= (double)due * LEAST_LABELLED;
    if (enough || map->letters)
        return true;
    map->taken.boxes.count = before;
    map->lines.boxes.count = lines;
    for (size_t i = 0; i < spots->count; i++)
        placed[i] = false;
    return false;
}

/* Labels every hour where there is room, else every second, third, fourth … */
static void label_spots(Map *map, const Spots *spots) {
    static const int every[THINNINGS] = {1, 2, 3, 4, 6, 12};
    Box *boxes = ARENA_ARRAY(map->layout->pen.arena, spots->count, Box);
    bool *placed = ARENA_ARRAY(map->layout->pen.arena, spots->count, bool);
    for (int i = 0; i < THINNINGS; i++)
        if (place_labels(map, spots, every[i], boxes, placed))
            break;
    for (size_t i = 0; i < spots->count; i++)
        if (placed[i])
            set_label(map, boxes[i], spots->items[i].text);
}

/* ---- Ends ---- */

static void draw_end(Map *map, SignKind kind, Point at) {
    Page *page = map->layout->pen.page;
    double half_mm = map->sign_mm / 2;
    mark_circle(page, at, half_mm + 0.3, style_fill(ink_white()));
    sign_draw(page, kind, (Point){at.x_mm - half_mm, at.y_mm - half_mm}, map->sign_mm, ink_black(),
              ink_white());
    obstacles_add(&map->taken, (Box){at.x_mm - half_mm - 0.3, at.y_mm - half_mm - 0.3,
                                     map->sign_mm + 0.6, map->sign_mm + 0.6});
}

/* The sign of an end stands outside the channel, against the heading that leads into it. */
static Point end_place(const Map *map, MapPoint end, double heading_rad) {
    Point at = channel_point(map->view, end);
    double away_mm = map->sign_mm / 2 + 0.5;
    return (Point){at.x_mm - cos(heading_rad) * away_mm, at.y_mm - sin(heading_rad) * away_mm};
}

/* The i-th spot for the clock time of a sign: right, left, below, above. */
static Box beside_sign(const Map *map, Point sign, double width_mm, double height_mm, int spot) {
    double way = spot % 2 == 0 ? 1 : -1;
    double x_mm = spot > 1 ? 0 : way * (map->sign_mm / 2 + 0.3 + width_mm / 2);
    double y_mm = spot > 1 ? way * (map->sign_mm / 2 + 0.3 + height_mm / 2) : 0;
    return (Box){sign.x_mm + x_mm - width_mm / 2, sign.y_mm + y_mm - height_mm / 2, width_mm,
                 height_mm};
}

/* The clock time of an end stands by its sign: off the channel if it can, else where there is
 * room. */
static void label_end(Map *map, Point sign, Point at, double heading_rad, Instant when) {
    const char *text = layout_time(map->layout, when, "clock");
    double width_mm = pen_width_mm(&map->layout->pen, map->label, text) + 2 * PAPER_MM;
    double height_mm = label_high_mm(map->layout, map->label);
    Box box = {0};
    bool found = false;
    for (int pass = 0; pass < 2 && !found; pass++)
        for (int spot = 0; spot < SPOTS && !found; spot++) {
            box = beside_sign(map, sign, width_mm, height_mm, spot);
            found = is_free(map, box) && (pass > 0 || !on_channel(map, box));
        }
    if (!found && !find_spot(map, at, heading_rad, text, &box))
        return;
    take(map, box);
    set_label(map, box, text);
}

static void draw_ends(Map *map) {
    const PlanFill *fill = map->fill;
    double start_rad = channel_heading(&fill->line, 0);
    double end_rad = channel_heading(&fill->line, fill->filled_m) + 2 * acos(0.0);
    Point lit = end_place(map, fill->lit_end, start_rad);
    Point second = end_place(map, fill->fill_mark, end_rad);
    Point finish = fill->both_ends ? channel_point(map->view, fill->finish) : second;
    draw_end(map, SIGN_FLAME, lit);
    if (fill->both_ends)
        draw_end(map, SIGN_FLAME, second);
    draw_end(map, SIGN_FINISH, finish);
    if (map->letters) /* the rows beside it say when */
        return;
    label_end(map, lit, channel_point(map->view, fill->lit_end), start_rad, fill->light_at);
    label_end(map, finish, channel_point(map->view, fill->finish), end_rad, fill->out_about);
}

/* ---- The way ---- */

/* An arrow head in the channel, pointing where the glow goes; false when there is no room. */
static bool draw_arrow(Map *map, double along_m) {
    const PlanFill *fill = map->fill;
    bool back = fill->both_ends && along_m > fill->finish.along_m;
    Point at = channel_point(map->view, channel_at(&fill->line, along_m));
    double way = back ? -1 : 1;
    double heading_rad = channel_heading(&fill->line, along_m);
    double x = way * cos(heading_rad) * ARROW_MM / 2;
    double y = way * sin(heading_rad) * ARROW_MM / 2;
    double half_mm = ARROW_MM / 2 + ARROW_CLEAR_MM;
    Box box = {at.x_mm - half_mm, at.y_mm - half_mm, 2 * half_mm, 2 * half_mm};
    if (!obstacles_free(&map->taken, box))
        return false;
    obstacles_add(&map->taken, box);
    const Point head[] = {{at.x_mm + x, at.y_mm + y},
                          {at.x_mm - x - y, at.y_mm - y + x},
                          {at.x_mm - x + y, at.y_mm - y - x}};
    mark_polygon(map->layout->pen.page, head, 3, style_line(2 * HALO_MM, ink_white()));
    mark_polygon(map->layout->pen.page, head, 3, style_fill(ink_black()));
    return true;
}

/* One arrow head every so often, moved a little where a label is in its way. */
static void draw_arrows(Map *map) {
    static const double nudges[NUDGES] = {0, 0.15, -0.15, 0.3, -0.3};
    double apart_m = ARROWS_APART_MM / map->view.across_mm_per_m;
    if (map->band_mm < ARROW_MM + 0.6)
        return;
    int arrows = (int)ceil(map->fill->filled_m / apart_m - 0.6);
    for (int arrow = 0; arrow < arrows; arrow++)
        for (int i = 0; i < NUDGES; i++) {
            double to_m = (arrow + 0.6 + nudges[i]) * apart_m;
            if (to_m < map->fill->filled_m && draw_arrow(map, to_m))
                break;
        }
}

/* A cross where the glow is likely to die. */
static void draw_death(Map *map) {
    if (!map->fill->dies)
        return;
    Point at = channel_point(map->view, channel_at(&map->fill->line, map->fill->dies_along_m));
    double arm_mm = 1.5;
    Page *page = map->layout->pen.page;
    mark_circle(page, at, arm_mm + 0.8, style_both(ink_white(), 0.3, ink_black()));
    for (int way = -1; way <= 1; way += 2)
        mark_line(page, (Point){at.x_mm - arm_mm, at.y_mm - way * arm_mm},
                  (Point){at.x_mm + arm_mm, at.y_mm + way * arm_mm}, style_line(0.6, ink_black()));
    obstacles_add(&map->taken, (Box){at.x_mm - 2.3, at.y_mm - 2.3, 4.6, 4.6});
}

/* An eye where to look in the weakest hour, when there is room for it in the channel. */
static void draw_look_in(Map *map) {
    const Plan *plan = map->layout->plan;
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        const PlanLookIn *look_in = &plan->look_ins.items[i];
        if (!look_in->worst || look_in->fill != map->fill->number || map->band_mm < LEAST_SIGN_MM)
            continue;
        Point at = channel_point(map->view, channel_at(&map->fill->line, look_in->along_m));
        double size_mm = fmin(SIGN_MM, map->band_mm);
        Box box = {at.x_mm - size_mm / 2, at.y_mm - size_mm / 2, size_mm, size_mm};
        if (!obstacles_free(&map->taken, box))
            continue;
        obstacles_add(&map->taken, box);
        mark_circle(map->layout->pen.page, at, size_mm / 2, style_fill(ink_white()));
        sign_draw(map->layout->pen.page, SIGN_LOOK, (Point){box.x_mm, box.y_mm}, size_mm,
                  ink_black(), ink_white());
    }
}

void map_draw(Layout *layout, const Block *block) {
    Map map = map_new(layout, block);
    if (map.fill->line.count < 2 || map.view.across_mm_per_m <= 0)
        return;
    Spots spots = spots_of(&map);
    draw_channel(&map);
    if (!map.letters)
        draw_weak(&map);
    draw_ticks(&map, &spots);
    draw_death(&map);
    draw_ends(&map);
    if (!map.letters)
        draw_look_in(&map);
    label_spots(&map, &spots);
    draw_arrows(&map);
}
