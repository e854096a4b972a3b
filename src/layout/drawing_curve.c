/* Curve: chance to last, moisture of the bed and temperature of the cabinet over the clock, one
 * strip under the other on one axis of time. What a line means is written at its end. */
#include "layout/drawing.h"
#include "layout/strip.h"

#include <math.h>

#define LEAST_MM 42.0
#define MOST_MM 90.0
#define GUTTER_GAP_MM 1.2
#define STRIP_GAP_MM 1.6
#define SMALL_PART 0.25 /* height of moisture and cabinet each, of the whole */
#define NAME_PART 0.6   /* width of the names' column, of the longest name: two lines */
#define DARK 0.90       /* grey of the hours without daylight */
#define FLOOR 0.5       /* grey of the line under a strip */
#define DOT_MM 0.8
#define HAIRLINE_MM 0.15
#define BRACKET_GAP_MM 1.0 /* over the strips */
#define DASH_MM 0.9
#define VALUE_GAP_MM 0.8 /* between a line's end and its value */
#define PATCH_MM 0.4     /* paper round such a value */

enum { STRIPS = 3 };

/* A curve under way. */
typedef struct Curve {
    Layout *layout;
    const Plan *plan;
    TextStyle note;
    TimeAxis axis;
    StripLabels labels; /* right of the strips */
} Curve;

static double chance_of(const PlanSample *sample) {
    return sample->lasting;
}

static double moisture_of(const PlanSample *sample) {
    return sample->moisture;
}

static double cabinet_of(const PlanSample *sample) {
    return sample->cabinet_temp_c;
}

/* ---- What stands beside the strips ---- */

/* What nobody measured and no oven dried is no more than an assumption. */
static const char *strip_name(Layout *layout, int strip) {
    static const char *const names[STRIPS] = {"curve.chance", "curve.moisture", "curve.cabinet"};
    const Plan *plan = layout->plan;
    bool assumed = plan->blend.moisture_assumed && !plan->drying.needed;
    return layout_words(layout, strip == 1 && assumed ? "curve.moisture_assumed" : names[strip],
                        layout->fields);
}

static double left_mm(Layout *layout, TextStyle note) {
    double width_mm = 0;
    for (int i = 0; i < STRIPS; i++) {
        const char *name = strip_name(layout, i);
        TextStyle strong = style_strong(note);
        width_mm = fmax(width_mm, pen_widest_word_mm(&layout->pen, strong, name));
        width_mm = fmax(width_mm, pen_width_mm(&layout->pen, strong, name) * NAME_PART);
    }
    return width_mm + GUTTER_GAP_MM;
}

/* The first or the last sample of the plan with something burning and its moisture known. */
static const PlanSample *end_sample(const Plan *plan, bool last) {
    for (size_t i = 0; i < plan->samples.count; i++) {
        size_t at = last ? plan->samples.count - 1 - i : i;
        const PlanSample *sample = &plan->samples.items[at];
        if (sample->fill && isfinite(sample->moisture))
            return sample;
    }
    return NULL;
}

static double right_mm(Layout *layout, TextStyle note) {
    static const char *const keys[] = {"curve.good", "curve.tend", "curve.limit", "curve.peak"};
    double width_mm = 0;
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        width_mm = fmax(width_mm, pen_width_mm(&layout->pen, note,
                                               layout_words(layout, keys[i], layout->fields)));
    return GUTTER_GAP_MM + width_mm;
}

/* A value by its line, on paper of its own; x is its left end. */
static void draw_value(const Curve *curve, const Strip *strip, double x_mm, double middle_mm,
                       const char *text) {
    Pen *pen = &curve->layout->pen;
    double capitals_mm = pen_capitals_mm(pen, curve->note);
    double half_mm = pen_pitch_mm(curve->note) / 2; /* stays in its own strip */
    middle_mm =
        fmin(fmax(middle_mm, strip->y_mm + half_mm), strip->y_mm + strip->height_mm - half_mm);
    double width_mm = pen_width_mm(pen, curve->note, text);
    x_mm = fmin(x_mm, curve->axis.x_mm + curve->axis.width_mm - width_mm - PATCH_MM);
    pen_rectangle(pen,
                  (Box){x_mm - PATCH_MM, middle_mm - capitals_mm / 2 - PATCH_MM,
                        width_mm + 2 * PATCH_MM, capitals_mm + 2 * PATCH_MM},
                  style_fill(ink_white()));
    pen_line(pen, curve->note, ALIGN_LEFT, x_mm, middle_mm - pen_pitch_mm(curve->note) / 2, text);
}

/* The value at the start of a line, over it or, when the line falls, under it. */
static void draw_first(const Curve *curve, const Strip *strip, double value, bool falls,
                       const char *text) {
    double away_mm = pen_capitals_mm(&curve->layout->pen, curve->note) / 2 + VALUE_GAP_MM;
    draw_value(curve, strip, curve->axis.x_mm + VALUE_GAP_MM,
               strip_y_mm(strip, value) + (falls ? away_mm + VALUE_GAP_MM : -away_mm), text);
}

/* The value at the end of a line, behind it. */
static void draw_last(const Curve *curve, const Strip *strip, Instant at, double value,
                      const char *text) {
    double line_y_mm = strip_y_mm(strip, value);
    draw_value(curve, strip, axis_x_mm(&curve->axis, at) + VALUE_GAP_MM + DOT_MM, line_y_mm, text);
}

static void add_label(Curve *curve, const Strip *strip, double value, const char *text) {
    LIST_ADD(curve->layout->pen.arena, &curve->labels,
             (StripLabel){strip_y_mm(strip, value), text});
}

/* ---- Strips ---- */

static Strip strip_of(const Curve *curve, double y_mm, double height_mm) {
    return (Strip){curve->axis, y_mm, height_mm, 0, 1};
}

static void draw_name(const Curve *curve, int strip, double y_mm, double left_x_mm) {
    Layout *layout = curve->layout;
    pen_paragraph(&layout->pen, style_strong(curve->note), ALIGN_LEFT,
                  (Box){left_x_mm, y_mm, curve->axis.x_mm - GUTTER_GAP_MM - left_x_mm, 0},
                  strip_name(layout, strip));
}

/* A level line with its meaning at its end. */
static void draw_threshold(Curve *curve, const Strip *strip, double value, double line_mm,
                           const char *key) {
    if (!is_stated(value))
        return;
    pen_rule(&curve->layout->pen, curve->axis.x_mm, strip_y_mm(strip, value), curve->axis.width_mm,
             line_mm, ink_black());
    add_label(curve, strip, value, layout_words(curve->layout, key, curve->layout->fields));
}

/* From none to all: the curve cannot look better than it is. */
static void draw_chance(Curve *curve, double y_mm, double height_mm) {
    Layout *layout = curve->layout;
    const PlanBurn *burn = &curve->plan->burn;
    Strip strip = strip_of(curve, y_mm, height_mm);
    draw_threshold(curve, &strip, burn->chance_good, 0.15, "curve.good");
    draw_threshold(curve, &strip, burn->chance_tend, 0.15, "curve.tend");
    strip_line(&layout->pen, &strip, curve->plan, chance_of, style_line(0.6, ink_black()));
    const PlanSample *last = end_sample(curve->plan, true);
    if (last && isfinite(last->lasting))
        draw_last(curve, &strip, last->at, last->lasting,
                  layout_figure(layout, QUANTITY_SHARE, last->lasting, NULL));
}

static void draw_moisture(Curve *curve, double y_mm, double height_mm) {
    Layout *layout = curve->layout;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, moisture_of);
    strip_widen(&strip, 0, strip.high);
    strip_clear(&strip);
    strip_line(&layout->pen, &strip, curve->plan, moisture_of,
               style_dashed(0.45, ink_black(), 1.6, 0.7));
    const PlanSample *first = end_sample(curve->plan, false);
    const PlanSample *last = end_sample(curve->plan, true);
    if (!first)
        return;
    draw_first(curve, &strip, first->moisture, false,
               layout_figure(layout, QUANTITY_MOISTURE, first->moisture, "short"));
    draw_last(curve, &strip, last->at, last->moisture,
              layout_figure(layout, QUANTITY_MOISTURE, last->moisture, "short"));
}

static void draw_cabinet(Curve *curve, double y_mm, double height_mm) {
    Layout *layout = curve->layout;
    const PlanCabinet *cabinet = &curve->plan->cabinet;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, cabinet_of);
    if (is_stated(cabinet->limit_temp_c))
        strip_widen(&strip, cabinet->limit_temp_c, cabinet->limit_temp_c);
    strip_clear(&strip);
    draw_threshold(curve, &strip, cabinet->limit_temp_c, 0.3, "curve.limit");
    strip_line(&layout->pen, &strip, curve->plan, cabinet_of,
               style_dashed(0.45, ink_black(), 0.5, 0.5));
    if (is_stated(cabinet->peak_temp_c))
        add_label(curve, &strip, cabinet->peak_temp_c,
                  layout_words(layout, "curve.peak", layout->fields));
}

/* ---- The whole ---- */

static void draw_dark(const Curve *curve, double y_mm, double height_mm) {
    for (size_t i = 0; i < curve->plan->nights.count; i++) {
        double from_mm = axis_x_mm(&curve->axis, curve->plan->nights.items[i].from);
        double to_mm = axis_x_mm(&curve->axis, curve->plan->nights.items[i].to);
        if (to_mm > from_mm)
            pen_rectangle(&curve->layout->pen, (Box){from_mm, y_mm, to_mm - from_mm, height_mm},
                          style_fill(ink_grey(DARK)));
    }
}

/* The hours in which it will be out, eight times in ten: between dashed lines, a word above. */
static void draw_doubt(const Curve *curve, Box strips) {
    Pen *pen = &curve->layout->pen;
    const PlanBurn *burn = &curve->plan->burn;
    double left_mm = axis_x_mm(&curve->axis, burn->out_early);
    double right_mm = axis_x_mm(&curve->axis, burn->out_late);
    double bracket_mm = strips.y_mm - BRACKET_GAP_MM;
    pen_rule(pen, left_mm, bracket_mm, right_mm - left_mm, HAIRLINE_MM * 2, ink_black());
    for (int end = 0; end < 2; end++)
        mark_line(pen->page, (Point){end ? right_mm : left_mm, bracket_mm},
                  (Point){end ? right_mm : left_mm, strips.y_mm + strips.height_mm},
                  style_dashed(HAIRLINE_MM * 2, ink_black(), DASH_MM, DASH_MM));
    const char *text = layout_words(curve->layout, "curve.band", curve->layout->fields);
    double width_mm = pen_width_mm(pen, curve->note, text);
    double x_mm = fmin((left_mm + right_mm - width_mm) / 2,
                       curve->axis.x_mm + curve->axis.width_mm - width_mm);
    pen_line(pen, curve->note, ALIGN_LEFT, fmax(x_mm, curve->axis.x_mm),
             bracket_mm - pen_pitch_mm(curve->note), text);
}

static void draw_floor(const Curve *curve, double y_mm) {
    pen_rule(&curve->layout->pen, curve->axis.x_mm, y_mm, curve->axis.width_mm, HAIRLINE_MM,
             ink_grey(FLOOR));
}

static void draw_strips(Curve *curve, Box box) {
    int strips = curve->plan->cabinet.stated ? STRIPS : STRIPS - 1;
    double pitch_mm = pen_pitch_mm(curve->note);
    double room_mm = box.height_mm - STRIP_GAP_MM * (strips - 1);
    double small_mm = fmax(room_mm * SMALL_PART, 2 * pitch_mm - STRIP_GAP_MM);
    double large_mm = room_mm - small_mm * (strips - 1);
    double y_mm = box.y_mm;
    draw_name(curve, 0, y_mm, box.x_mm);
    draw_chance(curve, y_mm, large_mm);
    draw_floor(curve, y_mm + large_mm);
    y_mm += large_mm + STRIP_GAP_MM;
    draw_name(curve, 1, y_mm, box.x_mm);
    draw_moisture(curve, y_mm, small_mm);
    if (strips == STRIPS) {
        draw_floor(curve, y_mm + small_mm);
        y_mm += small_mm + STRIP_GAP_MM;
        draw_name(curve, 2, y_mm, box.x_mm);
        draw_cabinet(curve, y_mm, small_mm);
    }
}

static Curve curve_new(Layout *layout, TextStyle note, Box box) {
    const Plan *plan = layout->plan;
    Instant from = plan->samples.items[0].at;
    Instant to = plan->samples.items[plan->samples.count - 1].at;
    double gutter_mm = left_mm(layout, note);
    double width_mm = fmax(box.width_mm - gutter_mm - right_mm(layout, note), box.width_mm / 4);
    to = plan->burn.out_late > to ? plan->burn.out_late : to;
    return (Curve){.layout = layout,
                   .plan = plan,
                   .note = note,
                   .axis = {from, to, box.x_mm + gutter_mm, width_mm}};
}

double curve_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)block;
    (void)width_mm;
    return LEAST_MM;
}

double curve_most_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)block;
    (void)width_mm;
    return MOST_MM;
}

void curve_draw(Layout *layout, const Block *block) {
    Box box = block->box;
    Curve curve = curve_new(layout, block_style(layout, block), box);
    double head_mm = pen_pitch_mm(curve.note) + BRACKET_GAP_MM;
    Box strips = {box.x_mm, box.y_mm + head_mm, box.width_mm,
                  fmin(box.height_mm, MOST_MM) - axis_height_mm(curve.note) - head_mm};
    draw_dark(&curve, strips.y_mm, strips.height_mm);
    draw_doubt(&curve, strips);
    draw_strips(&curve, strips);
    double label_x_mm = curve.axis.x_mm + curve.axis.width_mm + GUTTER_GAP_MM;
    strip_labels(&layout->pen, (Box){label_x_mm, strips.y_mm, 0, strips.height_mm}, curve.note,
                 &curve.labels);
    axis_draw(layout, &curve.axis, curve.note, strips);
}
