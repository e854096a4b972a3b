/* Look-in log and record: what was planned, with room to write down what was found. */
#include "layout/panel.h"

#include <math.h>

#define LINE_MM 7.0 /* a line for handwriting */
#define GAP_MM 2.0
#define HAIRLINE_MM 0.2
#define BASE_MM 1.6     /* print stands so far above its writing line */
#define FOUND_PART 0.45 /* of the room to spare for handwriting */
#define CABINET_PART 0.2
#define ROOMY_MM 12.0  /* of room to spare: enough to write in */
#define WRAP_PART 0.62 /* of a remark's width, where it stands on two lines */

enum { HEADS = 5, RECORD_ROWS = 2, RECORD_MOST = 5 };

/* Left edges of time, planned place, found, cabinet, remark; and the right end. */
typedef struct LogColumns {
    double x_mm[HEADS + 1];
    double spare_mm; /* beyond the least they need; negative where they do not fit */
} LogColumns;

static const char *const HEAD_KEYS[HEADS] = {"log.time", "log.place", "log.found", "log.cabinet",
                                             "log.remark"};

static const char *look_place(Setting *setting, size_t index) {
    const Plan *plan = setting->plan;
    const PlanLook *look = &plan->looks.items[index];
    const FieldGroup *row = field_row(setting->fields, "look", index);
    size_t fill = look->fill > 0 ? (size_t)look->fill - 1 : 0;
    bool lanes = fill < plan->fills.count && plan->fills.items[fill].tray->path == PATH_LANES;
    const char *place = setting_row_words(setting, lanes ? "log.lane" : "log.along", row);
    if (plan->fills.count < 2)
        return place;
    return arena_format(setting->pen.arena, "%s, %s", setting_row_words(setting, "log.fill", row),
                        place);
}

/* Width of a column: its widest text, and no word of its head broken. */
static double text_width_mm(Setting *setting, TextStyle style, const char *head,
                            const char *(*text)(Setting *, size_t)) {
    double width_mm =
        pen_widest_word_mm(&setting->pen, setting->texts[TEXT_NOTE], setting_words(setting, head));
    for (size_t i = 0; i < setting->plan->looks.count; i++)
        width_mm = fmax(width_mm, pen_width_mm(&setting->pen, style, text(setting, i)));
    return width_mm;
}

static const char *look_time(Setting *setting, size_t index) {
    return setting_time(setting, setting->plan->looks.items[index].at, "clock");
}

static const char *remark_key(const PlanLook *look) {
    if (look->alone_until)
        return "log.alone_until";
    if (look->alone_since)
        return "log.alone_since";
    return look->worst ? "log.worst" : NULL;
}

static const char *look_remark(Setting *setting, size_t index) {
    const char *key = remark_key(&setting->plan->looks.items[index]);
    return key ? setting_row_words(setting, key, field_row(setting->fields, "look", index)) : "";
}

static const char *look_cabinet(Setting *setting, size_t index) {
    double temp_c = setting->plan->looks.items[index].cabinet_temp_c;
    return is_stated(temp_c) ? setting_figure(setting, QUANTITY_TEMPERATURE, temp_c, NULL) : "";
}

/* The least width of the remarks: on one line each, or none on more than two. */
static double remark_width_mm(Setting *setting, bool wrapped) {
    TextStyle note = setting->texts[TEXT_NOTE];
    const Pen *pen = &setting->pen;
    double part = wrapped ? WRAP_PART : 1;
    double width_mm = pen_widest_word_mm(pen, note, setting_words(setting, HEAD_KEYS[4]));
    for (size_t i = 0; i < setting->plan->looks.count; i++) {
        const char *text = look_remark(setting, i);
        width_mm = fmax(width_mm, pen_widest_word_mm(pen, note, text));
        width_mm = fmax(width_mm, pen_width_mm(pen, note, text) * part);
    }
    return width_mm;
}

/* Columns with the planned places in that style; what is over is shared among the last three. */
static LogColumns log_columns(Setting *setting, TextStyle style, TextStyle place, bool wrapped,
                              Box box) {
    TextStyle note = setting->texts[TEXT_NOTE];
    double widths_mm[HEADS] = {
        text_width_mm(setting, style_strong(style), HEAD_KEYS[0], look_time) + GAP_MM,
        text_width_mm(setting, place, HEAD_KEYS[1], look_place) + GAP_MM,
        pen_widest_word_mm(&setting->pen, note, setting_words(setting, HEAD_KEYS[2])) + GAP_MM,
        text_width_mm(setting, note, HEAD_KEYS[3], look_cabinet) + GAP_MM,
        remark_width_mm(setting, wrapped)};
    LogColumns columns = {.spare_mm = box.width_mm};
    for (int i = 0; i < HEADS; i++)
        columns.spare_mm -= widths_mm[i];
    double spare_mm = fmax(columns.spare_mm, 0);
    widths_mm[2] += spare_mm * FOUND_PART;
    widths_mm[3] += spare_mm * CABINET_PART;
    columns.x_mm[0] = box.x_mm;
    for (int i = 0; i < HEADS; i++)
        columns.x_mm[i + 1] = columns.x_mm[i] + widths_mm[i];
    columns.x_mm[HEADS] = box.x_mm + box.width_mm;
    return columns;
}

static double draw_heads(Setting *setting, const LogColumns *columns, double y_mm) {
    double height_mm = 0;
    for (int i = 0; i < HEADS; i++) {
        Box place = {columns->x_mm[i], y_mm, columns->x_mm[i + 1] - columns->x_mm[i] - 0.5, 0};
        height_mm =
            fmax(height_mm, pen_paragraph(&setting->pen, setting->texts[TEXT_NOTE], ALIGN_LEFT,
                                          place, setting_words(setting, HEAD_KEYS[i])));
    }
    return height_mm;
}

/* Top of a text whose baseline stands just above the writing line. */
static double text_top_mm(Setting *setting, TextStyle style, double line_y_mm) {
    return line_y_mm - BASE_MM - pen_baseline_mm(&setting->pen, style);
}

/* A remark on one line above the writing line, or on two. */
static void draw_remark(Setting *setting, size_t index, const LogColumns *columns,
                        double line_y_mm) {
    TextStyle note = setting->texts[TEXT_NOTE];
    const char *text = look_remark(setting, index);
    if (!*text)
        return;
    double width_mm = columns->x_mm[HEADS] - columns->x_mm[4];
    double height_mm = pen_height_mm(&setting->pen, note, width_mm, text);
    if (height_mm <= pen_pitch_mm(note) * 1.5)
        pen_line(&setting->pen, note, ALIGN_RIGHT, columns->x_mm[HEADS],
                 text_top_mm(setting, note, line_y_mm), text);
    else
        pen_paragraph(&setting->pen, note, ALIGN_RIGHT,
                      (Box){columns->x_mm[4], line_y_mm - height_mm - HAIRLINE_MM, width_mm, 0},
                      text);
}

static void draw_look(Setting *setting, TextStyle style, TextStyle place, const LogColumns *columns,
                      size_t index, double line_y_mm) {
    Pen *pen = &setting->pen;
    TextStyle strong = style_strong(style);
    TextStyle note = setting->texts[TEXT_NOTE];
    pen_line(pen, strong, ALIGN_LEFT, columns->x_mm[0], text_top_mm(setting, strong, line_y_mm),
             look_time(setting, index));
    pen_line(pen, place, ALIGN_LEFT, columns->x_mm[1], text_top_mm(setting, place, line_y_mm),
             look_place(setting, index));
    const char *cabinet = look_cabinet(setting, index);
    if (*cabinet)
        pen_line(pen, note, ALIGN_RIGHT, columns->x_mm[4] - GAP_MM,
                 text_top_mm(setting, note, line_y_mm), cabinet);
    draw_remark(setting, index, columns, line_y_mm);
}

double log_draw(Setting *setting, const Panel *panel, Box box) {
    TextStyle style = style_plain(setting->texts[panel->text]);
    TextStyle place = style;
    LogColumns columns = log_columns(setting, style, place, false, box);
    if (columns.spare_mm < ROOMY_MM)
        columns = log_columns(setting, style, place, true, box);
    if (columns.spare_mm < 0) {
        place = setting->texts[TEXT_BODY];
        columns = log_columns(setting, style, place, true, box);
    }
    size_t count = setting->plan->looks.count;
    double line_mm = fmax(LINE_MM, pen_pitch_mm(style));
    double head_mm = draw_heads(setting, &columns, box.y_mm);
    double y_mm = box.y_mm + head_mm;
    for (size_t i = 0; i < count; i++) {
        y_mm += line_mm;
        draw_look(setting, style, place, &columns, i, y_mm);
        pen_rule(&setting->pen, box.x_mm, y_mm, box.width_mm, HAIRLINE_MM, ink_black());
    }
    for (int i = 2; i < HEADS; i++)
        pen_upright(&setting->pen, columns.x_mm[i] - GAP_MM / 2, box.y_mm + head_mm,
                    line_mm * (double)count, HAIRLINE_MM / 2, ink_black());
    return y_mm - box.y_mm;
}

/* ---- Record ---- */

/* A label and its writing line. */
static void draw_blank(Setting *setting, const char *key, Box box, double line_mm) {
    TextStyle style = setting->texts[TEXT_BODY];
    double line_y_mm = box.y_mm + line_mm;
    double label_mm = pen_line(&setting->pen, style, ALIGN_LEFT, box.x_mm,
                               text_top_mm(setting, style, line_y_mm), setting_words(setting, key));
    pen_rule(&setting->pen, box.x_mm + label_mm + 1, line_y_mm,
             fmax(box.width_mm - label_mm - 1, 0), HAIRLINE_MM, ink_black());
}

/* A row of blanks whose writing lines are equally long. */
static void draw_blanks(Setting *setting, const char *const *keys, size_t count, Box box) {
    TextStyle style = setting->texts[TEXT_BODY];
    double line_mm = box.width_mm - GAP_MM * (double)(count - 1);
    for (size_t i = 0; i < count; i++)
        line_mm -= pen_width_mm(&setting->pen, style, setting_words(setting, keys[i]));
    line_mm = fmax(line_mm / (double)count, 1);
    for (size_t i = 0; i < count; i++) {
        box.width_mm = pen_width_mm(&setting->pen, style, setting_words(setting, keys[i])) +
                       line_mm;
        draw_blank(setting, keys[i], box, LINE_MM);
        box.x_mm += box.width_mm + GAP_MM;
    }
}

double record_draw(Setting *setting, const Panel *panel, Box box) {
    (void)panel;
    static const char *const first[] = {"record.lit", "record.out", "record.relit"};
    static const char *const second[] = {"record.ash", "record.remarks"};
    double top_mm = box.y_mm;
    double height_mm = fmax(box.height_mm, LINE_MM * RECORD_ROWS);
    draw_blanks(setting, first, sizeof first / sizeof *first, box);
    box.y_mm += LINE_MM;
    draw_blanks(setting, second, sizeof second / sizeof *second, box);
    int lines = (int)((top_mm + height_mm - box.y_mm + 0.01) / LINE_MM);
    for (int i = 2; i <= lines; i++)
        pen_rule(&setting->pen, box.x_mm, box.y_mm + i * LINE_MM, box.width_mm, HAIRLINE_MM,
                 ink_black());
    return height_mm;
}

double record_most(Setting *setting, const Panel *panel, double width_mm) {
    (void)setting;
    (void)panel;
    (void)width_mm;
    return LINE_MM * RECORD_MOST;
}
