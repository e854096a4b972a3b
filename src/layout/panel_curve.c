/* Curve: hold margin, moisture of the bed and temperature of the cabinet over the clock, one strip
 * under the other on one axis of time. What a line means is written at its end. */
#include "layout/panel.h"
#include "layout/strip.h"

#include <math.h>

#define LEAST_MM 28.0
#define MOST_MM 58.0
#define GUTTER_GAP_MM 1.2
#define STRIP_GAP_MM 1.6
#define DARK 0.90 /* grey of the hours without daylight */

enum { STRIPS = 3, MOST_LABELS = 6 };

/* A curve under way: what is drawn in which strip. */
typedef struct Curve {
    Setting *setting;
    const Plan *plan;
    TextStyle note;
    TimeAxis axis;
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

/* ---- Width of what stands beside the strips ---- */

static const char *const NAMES[STRIPS] = {"curve.margin", "curve.moisture", "curve.cabinet"};

static double left_mm(Setting *setting) {
    double width_mm = 0;
    for (int i = 0; i < STRIPS; i++)
        width_mm = fmax(width_mm, pen_widest_word_mm(&setting->pen, setting->texts[TEXT_NOTE],
                                                     setting_words(setting, NAMES[i])));
    return width_mm + GUTTER_GAP_MM;
}

static StripLabels margin_labels(Setting *setting) {
    const PlanBurn *burn = &setting->plan->burn;
    StripLabels labels = {0};
    Arena *arena = setting->pen.arena;
    LIST_ADD(arena, &labels, (StripLabel){burn->margin_good, setting_words(setting, "curve.good")});
    LIST_ADD(arena, &labels, (StripLabel){burn->margin_tend, setting_words(setting, "curve.tend")});
    LIST_ADD(arena, &labels, (StripLabel){1, setting_words(setting, "curve.dies")});
    return labels;
}

/* What the line stands at in the end. */
static StripLabels moisture_labels(Setting *setting) {
    StripLabels labels = {0};
    const Plan *plan = setting->plan;
    for (size_t i = plan->samples.count; i-- > 0;) {
        const PlanSample *sample = &plan->samples.items[i];
        if (!sample->fill || !is_stated(sample->moisture))
            continue;
        LIST_ADD(setting->pen.arena, &labels,
                 (StripLabel){sample->moisture, setting_figure(setting, QUANTITY_MOISTURE,
                                                               sample->moisture, "short")});
        break;
    }
    return labels;
}

static StripLabels cabinet_labels(Setting *setting) {
    StripLabels labels = {0};
    const PlanCabinet *cabinet = &setting->plan->cabinet;
    if (is_stated(cabinet->limit_temp_c))
        LIST_ADD(setting->pen.arena, &labels,
                 (StripLabel){cabinet->limit_temp_c, setting_words(setting, "curve.limit")});
    if (is_stated(cabinet->peak_temp_c))
        LIST_ADD(setting->pen.arena, &labels,
                 (StripLabel){cabinet->peak_temp_c, setting_words(setting, "curve.peak")});
    return labels;
}

static double labels_mm(Setting *setting, const StripLabels *labels) {
    double width_mm = 0;
    for (size_t i = 0; i < labels->count; i++)
        width_mm = fmax(width_mm, pen_width_mm(&setting->pen, setting->texts[TEXT_NOTE],
                                               labels->items[i].text));
    return width_mm;
}

/* ---- Strips ---- */

static Strip strip_of(const Curve *curve, double y_mm, double height_mm) {
    return (Strip){curve->axis, y_mm, height_mm, 0, 1};
}

static void draw_name(const Curve *curve, int strip, double y_mm, double left_x_mm) {
    Setting *setting = curve->setting;
    pen_paragraph(&setting->pen, style_strong(curve->note), ALIGN_LEFT,
                  (Box){left_x_mm, y_mm, curve->axis.x_mm - left_x_mm, 0},
                  setting_words(setting, NAMES[strip]));
}

static void draw_threshold(const Curve *curve, const Strip *strip, double value, double line_mm,
                           double dash_mm) {
    if (!is_stated(value))
        return;
    double y_mm = strip_y_mm(strip, value);
    mark_line(curve->setting->pen.page, (Point){curve->axis.x_mm, y_mm},
              (Point){curve->axis.x_mm + curve->axis.width_mm, y_mm},
              dash_mm > 0 ? style_dashed(line_mm, ink_black(), dash_mm, dash_mm)
                          : style_line(line_mm, ink_black()));
}

static void draw_margin(const Curve *curve, double y_mm, double height_mm) {
    Setting *setting = curve->setting;
    const PlanBurn *burn = &curve->plan->burn;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, margin_low_of);
    strip_include(&strip, curve->plan, margin_of);
    strip_widen(&strip, 0.9, burn->margin_good + 0.1);
    strip_band(&setting->pen, &strip, curve->plan, margin_low_of, margin_of, ink_grey(0.72));
    draw_threshold(curve, &strip, burn->margin_good, 0.15, 0);
    draw_threshold(curve, &strip, burn->margin_tend, 0.15, 0);
    draw_threshold(curve, &strip, 1, 0.45, 0);
    strip_line(&setting->pen, &strip, curve->plan, margin_of, style_line(0.6, ink_black()));
    StripLabels labels = margin_labels(setting);
    strip_labels(&setting->pen, &strip, curve->note, &labels);
}

static void draw_moisture(const Curve *curve, double y_mm, double height_mm) {
    Setting *setting = curve->setting;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, moisture_of);
    strip_widen(&strip, 0, 0.08);
    strip_line(&setting->pen, &strip, curve->plan, moisture_of,
               style_dashed(0.45, ink_black(), 1.6, 0.7));
    StripLabels labels = moisture_labels(setting);
    strip_labels(&setting->pen, &strip, curve->note, &labels);
}

static void draw_cabinet(const Curve *curve, double y_mm, double height_mm) {
    Setting *setting = curve->setting;
    const PlanCabinet *cabinet = &curve->plan->cabinet;
    Strip strip = strip_of(curve, y_mm, height_mm);
    strip_range(&strip, curve->plan, cabinet_of);
    if (is_stated(cabinet->limit_temp_c))
        strip_widen(&strip, cabinet->limit_temp_c, cabinet->limit_temp_c + 1);
    draw_threshold(curve, &strip, cabinet->limit_temp_c, 0.3, 0);
    strip_line(&setting->pen, &strip, curve->plan, cabinet_of,
               style_dashed(0.45, ink_black(), 0.5, 0.5));
    StripLabels labels = cabinet_labels(setting);
    strip_labels(&setting->pen, &strip, curve->note, &labels);
}

/* ---- The whole ---- */

static bool has_cabinet(const Plan *plan) {
    return plan->cabinet.stated;
}

static void draw_dark(const Curve *curve, double y_mm, double height_mm) {
    for (size_t i = 0; i < curve->plan->nights.count; i++) {
        double from_mm = axis_x_mm(&curve->axis, curve->plan->nights.items[i].from);
        double to_mm = axis_x_mm(&curve->axis, curve->plan->nights.items[i].to);
        if (to_mm > from_mm)
            pen_rectangle(&curve->setting->pen, (Box){from_mm, y_mm, to_mm - from_mm, height_mm},
                          style_fill(ink_grey(DARK)));
    }
}

static double right_mm(Setting *setting) {
    StripLabels margin = margin_labels(setting);
    StripLabels moisture = moisture_labels(setting);
    StripLabels cabinet = cabinet_labels(setting);
    return GUTTER_GAP_MM + fmax(labels_mm(setting, &margin),
                                fmax(labels_mm(setting, &moisture), labels_mm(setting, &cabinet)));
}

static void draw_strips(const Curve *curve, Box box) {
    double axis_mm = pen_pitch_mm(curve->note) + 0.8;
    int strips = has_cabinet(curve->plan) ? STRIPS : STRIPS - 1;
    double room_mm = box.height_mm - axis_mm - STRIP_GAP_MM * (strips - 1);
    double small_mm = room_mm * 0.25;
    double large_mm = room_mm - small_mm * (strips - 1);
    double y_mm = box.y_mm;
    draw_dark(curve, y_mm, box.height_mm - axis_mm);
    draw_name(curve, 0, y_mm, box.x_mm);
    draw_margin(curve, y_mm, large_mm);
    y_mm += large_mm + STRIP_GAP_MM;
    draw_name(curve, 1, y_mm, box.x_mm);
    draw_moisture(curve, y_mm, small_mm);
    y_mm += small_mm + STRIP_GAP_MM;
    if (strips == STRIPS) {
        draw_name(curve, 2, y_mm, box.x_mm);
        draw_cabinet(curve, y_mm, small_mm);
    }
    axis_draw(curve->setting, &curve->axis, curve->note,
              (Box){box.x_mm, box.y_mm, box.width_mm, box.height_mm - axis_mm});
}

double curve_draw(Setting *setting, const Panel *panel, Box box) {
    box.height_mm = fmin(fmax(box.height_mm, LEAST_MM), MOST_MM);
    if (!setting->pen.page)
        return box.height_mm;
    const Plan *plan = setting->plan;
    double gutter_mm = left_mm(setting);
    Curve curve = {setting, plan, setting->texts[panel->text],
                   {plan->samples.items[0].at, plan->samples.items[plan->samples.count - 1].at,
                    box.x_mm + gutter_mm,
                    fmax(box.width_mm - gutter_mm - right_mm(setting), box.width_mm / 4)}};
    draw_strips(&curve, box);
    return box.height_mm;
}

double curve_most(Setting *setting, const Panel *panel, double width_mm) {
    (void)setting;
    (void)panel;
    (void)width_mm;
    return MOST_MM;
}
