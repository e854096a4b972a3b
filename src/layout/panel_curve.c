/* Curve: hold margin, moisture of the bed and temperature of the cabinet over the clock, one strip
 * under the other on one axis of time. What a line means is written at its end. */
#include "layout/panel.h"
#include "layout/strip.h"

#include <math.h>

#define LEAST_MM 42.0
#define TIGHT_MM 36.0 /* where the page is tight */
#define MOST_MM 60.0
#define MOST_REFUSED_MM 90.0 /* where the page holds little else */
#define GUTTER_GAP_MM 1.2
#define STRIP_GAP_MM 1.6
#define SMALL_PART 0.25 /* height of moisture and cabinet each, of the whole */
#define NAME_PART 0.6   /* width of the names' column, of the longest name: two lines */
#define DARK 0.90       /* grey of the hours without daylight */
#define DOUBT 0.72      /* grey of the uncertainty */
#define FLOOR 0.5       /* grey of the line under a strip */
#define DOT_MM 0.8
#define HAIRLINE_MM 0.15
#define BRACKET_GAP_MM 1.0 /* over the strips */
#define DASH_MM 0.9
#define VALUE_GAP_MM 0.8 /* between a line's end and its value */
#define PATCH_MM 0.4     /* paper round such a value */
#define LEAST_MARGIN 0.9 /* the strip of the margin reaches at least down to here */

enum { STRIPS = 3 };

/* A curve under way. */
typedef struct Curve {
    Setting *setting;
    const Plan *plan;
    TextStyle note;
    TimeAxis axis;
    StripLabels labels; /* right of the strips */
} Curve;

static double margin_of(const PlanSample *sample) {
    return sample->margin;
}

static double margin_low_of(const PlanSample *sample) {
    return sample->margin_low;
}

static double moisture_of(const PlanSample *sample) {
    return sample->moisture;
}

static double cabinet_of(const PlanSample *sample) {
    return sample->cabinet_temp_c;
}

/* ---- What stands beside the strips ---- */

/* What nobody measured and no oven dried is no more than an assumption. */
static const char *strip_name(Setting *setting, int strip) {
    static const char *const names[STRIPS] = {"curve.margin", "curve.moisture", "curve.cabinet"};
    const Plan *plan = setting->plan;
    bool assumed = plan->blend.moisture_assumed && !plan->drying.needed;
    return setting_words(setting, strip == 1 && assumed ? "curve.moisture_assumed" : names[strip]);
}

static double left_mm(Setting *setting, TextStyle note) {
    double width_mm = 0;
    for (int i = 0; i < STRIPS; i++) {
        const char *name = strip_name(setting, i);
        TextStyle strong = style_strong(note);
        width_mm = fmax(width_mm, pen_widest_word_mm(&setting->pen, strong, name));
        width_mm = fmax(width_mm, pen_width_mm(&setting->pen, strong, name) * NAME_PART);
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

static double right_mm(Setting *setting, TextStyle note) {
    static const char *const keys[] = {"curve.good", "curve.tend", "curve.dies", "curve.limit",
                                       "curve.peak"};
    double width_mm = 0;
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        width_mm =
            fmax(width_mm, pen_width_mm(&setting->pen, note, setting_words(setting, keys[i])));
    return GUTTER_GAP_MM + width_mm;
}

/* A value by its line, on paper of its own; x is its left end. */
static void draw_value(const Curve *curve, double x_mm, double middle_mm, const char *text) {
    Pen *pen = &curve->setting->pen;
    double capitals_mm = pen_capitals_mm(pen, curve->note);
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
    double away_mm = pen_capitals_mm(&curve->setting->pen, curve->note) / 2 + VALUE_GAP_MM;
    draw_value(curve, curve->axis.x_mm + VALUE_GAP_MM,
               strip_y_mm(strip, value) + (falls ? away_mm + VALUE_GAP_MM : -away_mm), text);
}

/* The value at the end of a line, behind it. */
static void draw_last(const Curve *curve, Instant at, double line_y_mm, const char *text) {
    draw_value(curve, axis_x_mm(&curve->axis, at) + VALUE_GAP_MM + DOT_MM, line_y_mm, text);
}

static void add_label(Curve *curve, const Strip *strip, double value, const char *text) {
    LIST_ADD(curve->setting->pen.arena, &curve->labels,
             (StripLabel){strip_y_mm(strip, value), text});
}

/* ---- Strips ---- */

static Strip strip_of(const Curve *curve, double y_mm, double height_mm) {
    return (Strip){curve->axis, y_mm, height_mm, 0, 1};
}

static void draw_name(const Curve *curve, int strip, double y_mm, double left_x_mm) {
    Setting *setting = curve->setting;
    pen_paragraph(&setting->pen, style_strong(curve->note), ALIGN_LEFT,
                  (Box){left_x_mm, y_mm, curve->axis.x_mm - GUTTER_GAP_MM - left_x_mm, 0},
                  strip_name(setting, strip));
}

/* A level line with its meaning at its end. */
static void draw_threshold(Curve *curve, const Strip *strip, double value, double line_mm,
                           const char *key) {
    if (!is_stated(value))
        return;
    pen_rule(&curve->setting->pen, curve->axis.x_mm, strip_y_mm(strip, value), curve->axis.width_mm,
             line_mm, ink_black());
    add_label(curve, strip, value, setting_words(curve->setting, key));
}

static void draw_margin(Curve *curve, double y_mm, double height_mm) {
    Pen *pen = &curve->setting->pen;
    const PlanBurn *burn = &curve->plan->burn;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, margin_low_of);
    strip_include(&strip, curve->plan, margin_of);
    strip_widen(&strip, LEAST_MARGIN, burn->margin_good);
    strip_clear(&strip);
    strip_band(pen, &strip, curve->plan, margin_low_of, margin_of, ink_grey(DOUBT));
    draw_threshold(curve, &strip, burn->margin_good, 0.15, "curve.good");
    draw_threshold(curve, &strip, burn->margin_tend, 0.15, "curve.tend");
    draw_threshold(curve, &strip, 1, 0.45, "curve.dies");
    strip_line(pen, &strip, curve->plan, margin_of, style_line(0.6, ink_black()));
    draw_first(curve, &strip, burn->margin_at_start, true,
               setting_figure(curve->setting, QUANTITY_RATIO, burn->margin_at_start, NULL));
    Point least = {axis_x_mm(&curve->axis, burn->margin_least_at),
                   strip_y_mm(&strip, burn->margin_least)};
    draw_last(curve, burn->margin_least_at, least.y_mm,
              setting_figure(curve->setting, QUANTITY_RATIO, burn->margin_least, NULL));
    mark_circle(pen->page, least, DOT_MM, style_both(ink_white(), 0.4, ink_black()));
}

static void draw_moisture(Curve *curve, double y_mm, double height_mm) {
    Setting *setting = curve->setting;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, moisture_of);
    strip_widen(&strip, 0, strip.high);
    strip_clear(&strip);
    strip_line(&setting->pen, &strip, curve->plan, moisture_of,
               style_dashed(0.45, ink_black(), 1.6, 0.7));
    const PlanSample *first = end_sample(curve->plan, false);
    const PlanSample *last = end_sample(curve->plan, true);
    if (!first)
        return;
    draw_first(curve, &strip, first->moisture, false,
               setting_figure(setting, QUANTITY_MOISTURE, first->moisture, "short"));
    draw_last(curve, last->at, strip_y_mm(&strip, last->moisture),
              setting_figure(setting, QUANTITY_MOISTURE, last->moisture, "short"));
}

static void draw_cabinet(Curve *curve, double y_mm, double height_mm) {
    Setting *setting = curve->setting;
    const PlanCabinet *cabinet = &curve->plan->cabinet;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, cabinet_of);
    if (is_stated(cabinet->limit_temp_c))
        strip_widen(&strip, cabinet->limit_temp_c, cabinet->limit_temp_c);
    strip_clear(&strip);
    draw_threshold(curve, &strip, cabinet->limit_temp_c, 0.3, "curve.limit");
    strip_line(&setting->pen, &strip, curve->plan, cabinet_of,
               style_dashed(0.45, ink_black(), 0.5, 0.5));
    if (is_stated(cabinet->peak_temp_c))
        add_label(curve, &strip, cabinet->peak_temp_c, setting_words(setting, "curve.peak"));
}

/* ---- The whole ---- */

static void draw_dark(const Curve *curve, double y_mm, double height_mm) {
    for (size_t i = 0; i < curve->plan->nights.count; i++) {
        double from_mm = axis_x_mm(&curve->axis, curve->plan->nights.items[i].from);
        double to_mm = axis_x_mm(&curve->axis, curve->plan->nights.items[i].to);
        if (to_mm > from_mm)
            pen_rectangle(&curve->setting->pen, (Box){from_mm, y_mm, to_mm - from_mm, height_mm},
                          style_fill(ink_grey(DARK)));
    }
}

/* The hours in which it will be out, eight times in ten: between dashed lines, a word above. */
static void draw_doubt(const Curve *curve, Box strips) {
    Pen *pen = &curve->setting->pen;
    const PlanBurn *burn = &curve->plan->burn;
    double left_mm = axis_x_mm(&curve->axis, burn->out_early);
    double right_mm = axis_x_mm(&curve->axis, burn->out_late);
    double bracket_mm = strips.y_mm - BRACKET_GAP_MM;
    pen_rule(pen, left_mm, bracket_mm, right_mm - left_mm, HAIRLINE_MM * 2, ink_black());
    for (int end = 0; end < 2; end++)
        mark_line(pen->page, (Point){end ? right_mm : left_mm, bracket_mm},
                  (Point){end ? right_mm : left_mm, strips.y_mm + strips.height_mm},
                  style_dashed(HAIRLINE_MM * 2, ink_black(), DASH_MM, DASH_MM));
    const char *text = setting_words(curve->setting, "curve.band");
    double width_mm = pen_width_mm(pen, curve->note, text);
    double x_mm = fmin((left_mm + right_mm - width_mm) / 2,
                       curve->axis.x_mm + curve->axis.width_mm - width_mm);
    pen_line(pen, curve->note, ALIGN_LEFT, fmax(x_mm, curve->axis.x_mm),
             bracket_mm - pen_pitch_mm(curve->note), text);
}

static void draw_floor(const Curve *curve, double y_mm) {
    pen_rule(&curve->setting->pen, curve->axis.x_mm, y_mm, curve->axis.width_mm, HAIRLINE_MM,
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
    draw_margin(curve, y_mm, large_mm);
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

static double most_height_mm(const Setting *setting) {
    return setting_refused(setting) ? MOST_REFUSED_MM : MOST_MM;
}

static Curve curve_new(Setting *setting, const Panel *panel, Box box) {
    const Plan *plan = setting->plan;
    TextStyle note = setting->texts[panel->text];
    Instant from = plan->samples.items[0].at;
    Instant to = plan->samples.items[plan->samples.count - 1].at;
    double gutter_mm = left_mm(setting, note);
    double width_mm = fmax(box.width_mm - gutter_mm - right_mm(setting, note), box.width_mm / 4);
    to = plan->burn.out_late > to ? plan->burn.out_late : to;
    return (Curve){.setting = setting,
                   .plan = plan,
                   .note = note,
                   .axis = {from, to, box.x_mm + gutter_mm, width_mm}};
}

double curve_draw(Setting *setting, const Panel *panel, Box box) {
    double height_mm =
        fmin(fmax(box.height_mm, setting->tight ? TIGHT_MM : LEAST_MM), most_height_mm(setting));
    if (!setting->pen.page)
        return height_mm;
    Curve curve = curve_new(setting, panel, box);
    double head_mm = pen_pitch_mm(curve.note) + BRACKET_GAP_MM;
    Box strips = {box.x_mm, box.y_mm + head_mm, box.width_mm,
                  height_mm - axis_height_mm(curve.note) - head_mm};
    draw_dark(&curve, strips.y_mm, strips.height_mm);
    draw_doubt(&curve, strips);
    draw_strips(&curve, strips);
    double label_x_mm = curve.axis.x_mm + curve.axis.width_mm + GUTTER_GAP_MM;
    strip_labels(&setting->pen, (Box){label_x_mm, strips.y_mm, 0, strips.height_mm}, curve.note,
                 &curve.labels);
    axis_draw(setting, &curve.axis, curve.note, strips);
    return height_mm;
}

double curve_most(Setting *setting, const Panel *panel, double width_mm) {
    (void)panel;
    (void)width_mm;
    return most_height_mm(setting);
}
