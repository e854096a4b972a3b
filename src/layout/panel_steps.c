/* Steps: the night in order, one action a line, with clock time and a box to tick. */
#include "layout/panel.h"

#include <math.h>
#include <string.h>

#define BOX_PART 0.76    /* size of the box to tick, of a line */
#define GAP_MM 1.6       /* between number, time and text */
#define BOX_GAP_MM 1.2   /* between box and number */
#define STEP_GAP_MM 0.7  /* between steps */
#define TIGHT_GAP_MM 0.3 /* where tables close up */
#define MOST_GAP_MM 4.0  /* when there is room to spare */
#define HAIRLINE_MM 0.15

/* Where the columns of the list begin. */
typedef struct StepColumns {
    double box_mm;    /* size of the box to tick */
    double number_mm; /* right edge of the numbers */
    double time_mm;
    double text_mm;
    double text_width_mm;
} StepColumns;

static StepColumns step_columns(Setting *setting, TextStyle style, Box box) {
    const Plan *plan = setting->plan;
    TextStyle strong = style_strong(style);
    double time_mm = 0;
    for (size_t i = 0; i < plan->steps.count; i++)
        if (plan->steps.items[i].at)
            time_mm =
                fmax(time_mm, pen_width_mm(&setting->pen, strong,
                                           setting_time(setting, plan->steps.items[i].at, "bare")));
    StepColumns columns = {.box_mm = pen_pitch_mm(style) * BOX_PART};
    const char *last = arena_format(setting->pen.arena, "%zu", plan->steps.count);
    columns.number_mm = box.x_mm + columns.box_mm + BOX_GAP_MM +
                        pen_width_mm(&setting->pen, style, last);
    columns.time_mm = columns.number_mm + GAP_MM;
    columns.text_mm = columns.time_mm + (time_mm > 0 ? time_mm + GAP_MM : 0);
    columns.text_width_mm = fmax(box.x_mm + box.width_mm - columns.text_mm, 1);
    return columns;
}

/* An empty box to tick, and the step's number. */
static void draw_number(Setting *setting, TextStyle style, const StepColumns *columns, Box box,
                        size_t index) {
    Pen *pen = &setting->pen;
    double middle_mm = box.y_mm + pen_pitch_mm(style) / 2;
    pen_sign(pen, SIGN_BOX, box.x_mm, middle_mm - columns->box_mm / 2, columns->box_mm);
    pen_line(pen, style, ALIGN_RIGHT, columns->number_mm, box.y_mm,
             arena_format(pen->arena, "%zu", index + 1));
}

static const char *step_text(Setting *setting, size_t index) {
    const FieldGroup *row = field_row(setting->fields, "step", index);
    return setting_strong_words(setting, row, "text");
}

/* The first step of a day has the day over it; the list begins on the day of the headline. */
static bool starts_day(Setting *setting, size_t index, const char **day) {
    const PlanStep *steps = setting->plan->steps.items;
    if (!steps[index].at)
        return false;
    Instant before = setting->plan->burn.light_at;
    for (size_t i = 0; i < index; i++)
        before = steps[i].at ? steps[i].at : before;
    *day = setting_time(setting, steps[index].at, "day");
    return strcmp(*day, setting_time(setting, before, "day")) != 0;
}

static double draw_day(Setting *setting, Box box, const char *day) {
    TextStyle style = style_strong(setting->texts[TEXT_NOTE]);
    double width_mm = pen_line(&setting->pen, style, ALIGN_LEFT, box.x_mm, box.y_mm, day);
    double rule_y_mm = box.y_mm + pen_pitch_mm(style) / 2;
    pen_rule(&setting->pen, box.x_mm + width_mm + GAP_MM, rule_y_mm,
             fmax(box.width_mm - width_mm - GAP_MM, 0), HAIRLINE_MM, ink_black());
    return pen_pitch_mm(style);
}

static double draw_step(Setting *setting, TextStyle style, const StepColumns *columns, Box box,
                        size_t index) {
    Pen *pen = &setting->pen;
    const PlanStep *step = &setting->plan->steps.items[index];
    draw_number(setting, style, columns, box, index);
    if (step->at)
        pen_line(pen, style_strong(style), ALIGN_LEFT, columns->time_mm, box.y_mm,
                 setting_time(setting, step->at, "bare"));
    Box place = {columns->text_mm, box.y_mm, columns->text_width_mm, 0};
    return pen_paragraph(pen, style, ALIGN_LEFT, place, step_text(setting, index));
}

static double draw_steps(Setting *setting, const Panel *panel, Box box, double gap_mm) {
    TextStyle style = setting->texts[panel->text];
    StepColumns columns = step_columns(setting, style, box);
    double top_mm = box.y_mm;
    for (size_t i = 0; i < setting->plan->steps.count; i++) {
        const char *day = NULL;
        if (starts_day(setting, i, &day))
            box.y_mm += draw_day(setting, box, day) + STEP_GAP_MM / 2;
        box.y_mm += draw_step(setting, style, &columns, box, i);
        box.y_mm += i + 1 < setting->plan->steps.count ? gap_mm : 0;
    }
    return box.y_mm - top_mm;
}

static double least_gap_mm(const Setting *setting) {
    return setting->tight > 1 ? TIGHT_GAP_MM : STEP_GAP_MM;
}

/* Height with the least gaps, without leaving a mark. */
static double least_height_mm(Setting *setting, const Panel *panel, Box box) {
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    double height_mm = draw_steps(setting, panel, box, least_gap_mm(setting));
    setting->pen.page = page;
    return height_mm;
}

double steps_draw(Setting *setting, const Panel *panel, Box box) {
    double spare_mm = fmax(box.height_mm - least_height_mm(setting, panel, box), 0);
    double gaps = (double)setting->plan->steps.count - 1;
    double more_mm = gaps > 0 ? fmin(spare_mm / gaps, MOST_GAP_MM - least_gap_mm(setting)) : 0;
    return draw_steps(setting, panel, box, least_gap_mm(setting) + more_mm);
}

double steps_most(Setting *setting, const Panel *panel, double width_mm) {
    double gaps = (double)setting->plan->steps.count - 1;
    return least_height_mm(setting, panel, (Box){0, 0, width_mm, 0}) +
           fmax(gaps, 0) * (MOST_GAP_MM - least_gap_mm(setting));
}
