/* Curve: hold margin, moisture of the bed and temperature of the cabinet over the clock, one strip
 * under the other on one axis of time. What a line means is written at its end. */
#include "layout/panel.h"
#include "layout/strip.h"

#include <math.h>

#define LEAST_MM 25.0
#define MOST_MM 58.0
#define GUTTER_GAP_MM 1.2
#define STRIP_GAP_MM 1.6
#define SMALL_PART 0.25 /* height of moisture and cabinet each, of the whole */
#define NAME_PART 0.6   /* width of the names' column, of the longest name: two lines */
#define DARK 0.90       /* grey of the hours without daylight */
#define DOUBT 0.72      /* grey of the uncertainty */
#define DOT_MM 0.8
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

static const char *const NAMES[STRIPS] = {"curve.margin", "curve.moisture", "curve.cabinet"};

static double left_mm(Setting *setting, TextStyle note) {
    double width_mm = 0;
    for (int i = 0; i < STRIPS; i++) {
        const char *name = setting_words(setting, NAMES[i]);
        TextStyle strong = style_strong(note);
        width_mm = fmax(width_mm, pen_widest_word_mm(&setting->pen, strong, name));
        width_mm = fmax(width_mm, pen_width_mm(&setting->pen, strong, name) * NAME_PART);
    }
    return width_mm + GUTTER_GAP_MM;
}

/* The last value of the bed's moisture. */
static const char *last_moisture(Setting *setting, double *moisture) {
    const Plan *plan = setting->plan;
    for (size_t i = plan->samples.count; i-- > 0;) {
        const PlanSample *sample = &plan->samples.items[i];
        *moisture = sample->moisture;
        if (sample->fill && isfinite(sample->moisture))
            return setting_figure(setting, QUANTITY_MOISTURE, sample->moisture, "short");
    }
    return NULL;
}

static double right_mm(Setting *setting, TextStyle note) {
    static const char *const keys[] = {"curve.good", "curve.tend", "curve.dies", "curve.limit",
                                       "curve.peak"};
    double moisture = 0;
    const char *last = last_moisture(setting, &moisture);
    double width_mm = pen_width_mm(&setting->pen, note, last ? last : "");
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        width_mm =
            fmax(width_mm, pen_width_mm(&setting->pen, note, setting_words(setting, keys[i])));
    return GUTTER_GAP_MM + width_mm;
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
                  setting_words(setting, NAMES[strip]));
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
    Point least = {axis_x_mm(&curve->axis, burn->margin_least_at),
                   strip_y_mm(&strip, burn->margin_least)};
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
    double moisture = 0;
    const char *last = last_moisture(setting, &moisture);
    if (last)
        add_label(curve, &strip, moisture, last);
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

static void draw_strips(Curve *curve, Box box) {
    int strips = curve->plan->cabinet.stated ? STRIPS : STRIPS - 1;
    double pitch_mm = pen_pitch_mm(curve->note);
    double room_mm = box.height_mm - STRIP_GAP_MM * (strips - 1);
    double small_mm = fmax(room_mm * SMALL_PART, 2 * pitch_mm - STRIP_GAP_MM);
    double large_mm = room_mm - small_mm * (strips - 1);
    double y_mm = box.y_mm;
    draw_name(curve, 0, y_mm, box.x_mm);
    draw_margin(curve, y_mm, large_mm);
    y_mm += large_mm + STRIP_GAP_MM;
    draw_name(curve, 1, y_mm, box.x_mm);
    draw_moisture(curve, y_mm, small_mm);
    if (strips == STRIPS) {
        y_mm += small_mm + STRIP_GAP_MM;
        draw_name(curve, 2, y_mm, box.x_mm);
        draw_cabinet(curve, y_mm, small_mm);
    }
}

double curve_draw(Setting *setting, const Panel *panel, Box box) {
    double height_mm = fmin(fmax(box.height_mm, LEAST_MM), MOST_MM);
    if (!setting->pen.page)
        return height_mm;
    const Plan *plan = setting->plan;
    TextStyle note = setting->texts[panel->text];
    double gutter_mm = left_mm(setting, note);
    double width_mm = fmax(box.width_mm - gutter_mm - right_mm(setting, note), box.width_mm / 4);
    Curve curve = {setting,
                   plan,
                   note,
                   {plan->samples.items[0].at, plan->samples.items[plan->samples.count - 1].at,
                    box.x_mm + gutter_mm, width_mm},
                   {0}};
    Box strips = {box.x_mm, box.y_mm, box.width_mm, height_mm - axis_height_mm(note)};
    draw_dark(&curve, strips.y_mm, strips.height_mm);
    draw_strips(&curve, strips);
    double label_x_mm = curve.axis.x_mm + curve.axis.width_mm + GUTTER_GAP_MM;
    strip_labels(&setting->pen, (Box){label_x_mm, strips.y_mm, 0, strips.height_mm}, note,
                 &curve.labels);
    axis_draw(setting, &curve.axis, note, strips);
    return height_mm;
}

double curve_most(Setting *setting, const Panel *panel, double width_mm) {
    (void)setting;
    (void)panel;
    (void)width_mm;
    return MOST_MM;
}
