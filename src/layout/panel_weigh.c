/* Weigh-out and drying: what goes on the scale, and what it has to show. */
#include "layout/panel.h"

#include <math.h>

#define TICK_MM 3.4       /* box to tick */
#define CELL_GAP_MM 2.5   /* between columns */
#define NAME_GAP_MM 2.0   /* between box and name */
#define ROW_PAD_MM 0.8    /* over and under the text of a row, */
#define TIGHT_PAD_MM 0.25 /* where tables close up */
#define HAIRLINE_MM 0.15
#define TOTAL_RULE_MM 0.4

enum { NUMBERS = 3 };

/* Columns of the table: right edges and widths of the numbers, width left for the names. */
typedef struct Columns {
    double right_mm[NUMBERS];
    double name_x_mm;
    double name_mm;
} Columns;

typedef struct PartRow {
    const char *name;
    const char *numbers[NUMBERS]; /* share, to weigh, bowl shows */
} PartRow;

static const char *const HEADS[NUMBERS] = {"weigh.share", "weigh.mass", "weigh.running"};

static double row_pad_mm(const Setting *setting) {
    return setting->tight > 1 ? TIGHT_PAD_MM : ROW_PAD_MM;
}

static const char *mass(Setting *setting, double mass_kg) {
    return setting_figure(setting, QUANTITY_MASS, mass_kg, "scale");
}

static const char *part_name(Setting *setting, const PlanPart *part) {
    Text text = text_new(setting->pen.arena);
    text_add(&text, part->dust->name);
    if (part->short_of_stock)
        text_addf(&text, " – %s", setting_strong(setting, setting_words(setting, "weigh.short")));
    return text.bytes;
}

static PartRow part_row(Setting *setting, const PlanPart *part) {
    return (PartRow){part_name(setting, part),
                     {setting_figure(setting, QUANTITY_SHARE, part->wet_share, NULL),
                      mass(setting, part->wet_kg), mass(setting, part->running_kg)}};
}

static TextStyle number_style(const Setting *setting, const Panel *panel, int column) {
    TextStyle style = setting->texts[panel->text];
    return column == 1 ? style_strong(style) : style_plain(style);
}

static double number_width_mm(Setting *setting, const Panel *panel, int column, const PartRow *rows,
                              size_t count) {
    double width_mm = pen_width_mm(&setting->pen, setting->texts[TEXT_NOTE],
                                   setting_words(setting, HEADS[column]));
    for (size_t i = 0; i < count; i++)
        width_mm = fmax(width_mm, pen_width_mm(&setting->pen, number_style(setting, panel, column),
                                               rows[i].numbers[column]));
    return width_mm;
}

static Columns columns_of(Setting *setting, const Panel *panel, Box box, const PartRow *rows,
                          size_t count) {
    Columns columns = {.name_x_mm = box.x_mm + TICK_MM + NAME_GAP_MM};
    double right_mm = box.x_mm + box.width_mm;
    for (int i = NUMBERS - 1; i >= 0; i--) {
        columns.right_mm[i] = right_mm;
        right_mm -= number_width_mm(setting, panel, i, rows, count) + CELL_GAP_MM;
    }
    columns.name_mm = fmax(right_mm - columns.name_x_mm, 1);
    return columns;
}

static double draw_head(Setting *setting, const Columns *columns, double y_mm) {
    Pen *pen = &setting->pen;
    TextStyle style = setting->texts[TEXT_NOTE];
    pen_line(pen, style, ALIGN_LEFT, columns->name_x_mm, y_mm,
             setting_words(setting, "weigh.part"));
    for (int i = 0; i < NUMBERS; i++)
        pen_line(pen, style, ALIGN_RIGHT, columns->right_mm[i], y_mm,
                 setting_words(setting, HEADS[i]));
    return pen_pitch_mm(style);
}

static double draw_row(Setting *setting, const Panel *panel, const Columns *columns,
                       const PartRow *row, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = style_plain(setting->texts[panel->text]);
    double top_mm = box.y_mm + row_pad_mm(setting);
    double middle_mm = top_mm + pen_pitch_mm(style) / 2;
    pen_rule(pen, box.x_mm, box.y_mm, box.width_mm, HAIRLINE_MM, ink_black());
    pen_sign(pen, SIGN_BOX, box.x_mm, middle_mm - TICK_MM / 2, TICK_MM);
    Box place = {columns->name_x_mm, top_mm, columns->name_mm, 0};
    double height_mm = pen_paragraph(pen, style, ALIGN_LEFT, place, row->name);
    for (int i = 0; i < NUMBERS; i++)
        pen_line(pen, number_style(setting, panel, i), ALIGN_RIGHT, columns->right_mm[i], top_mm,
                 row->numbers[i]);
    return height_mm + 2 * row_pad_mm(setting);
}

static double draw_total(Setting *setting, const Panel *panel, const Columns *columns, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = style_strong(setting->texts[panel->text]);
    pen_rule(pen, box.x_mm, box.y_mm, box.width_mm, TOTAL_RULE_MM, ink_black());
    double top_mm = box.y_mm + row_pad_mm(setting);
    pen_line(pen, style, ALIGN_LEFT, columns->name_x_mm, top_mm,
             setting_words(setting, "weigh.total"));
    pen_line(pen, style, ALIGN_RIGHT, columns->right_mm[1], top_mm,
             mass(setting, setting->plan->blend.wet_kg));
    return pen_pitch_mm(style) + row_pad_mm(setting);
}

double weigh_out_draw(Setting *setting, const Panel *panel, Box box) {
    const PlanBlend *blend = &setting->plan->blend;
    size_t count = blend->parts.count;
    PartRow *rows = ARENA_ARRAY(setting->pen.arena, count, PartRow);
    for (size_t i = 0; i < count; i++)
        rows[i] = part_row(setting, &blend->parts.items[i]);
    Columns columns = columns_of(setting, panel, box, rows, count);
    double top_mm = box.y_mm;
    box.y_mm += draw_head(setting, &columns, box.y_mm) + row_pad_mm(setting) / 2;
    for (size_t i = 0; i < count; i++)
        box.y_mm += draw_row(setting, panel, &columns, &rows[i], box);
    if (count > 1)
        box.y_mm += draw_total(setting, panel, &columns, box);
    return box.y_mm - top_mm;
}

/* ---- Drying ---- */

/* A line to tick like those of the weigh-out: what the scale shows when the dust is dry. */
static double draw_check(Setting *setting, const Panel *panel, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = style_plain(setting->texts[panel->text]);
    TextStyle strong = style_strong(style);
    const PlanDrying *drying = &setting->plan->drying;
    bool range = drying->assumed && drying->scale_can_tell;
    const char *figure = range ? setting_words(setting, "drying.end_range")
                               : mass(setting, drying->end_kg);
    double figure_mm = pen_width_mm(pen, strong, figure);
    double text_x_mm = box.x_mm + TICK_MM + NAME_GAP_MM;
    double middle_mm = box.y_mm + pen_pitch_mm(style) / 2;
    pen_sign(pen, SIGN_BOX, box.x_mm, middle_mm - TICK_MM / 2, TICK_MM);
    Box place = {text_x_mm, box.y_mm,
                 fmax(box.x_mm + box.width_mm - figure_mm - CELL_GAP_MM - text_x_mm, 1), 0};
    double height_mm =
        pen_paragraph(pen, style, ALIGN_LEFT, place,
                      setting_words(setting, range ? "drying.check_again" : "drying.check"));
    pen_line(pen, strong, ALIGN_RIGHT, box.x_mm + box.width_mm,
             box.y_mm + height_mm - pen_pitch_mm(style), figure);
    return height_mm;
}

double drying_draw(Setting *setting, const Panel *panel, Box box) {
    const PlanDrying *drying = &setting->plan->drying;
    TextStyle body = setting->texts[TEXT_BODY];
    double top_mm = box.y_mm;
    if (!drying->needed)
        return pen_paragraph(&setting->pen, body, ALIGN_LEFT, box,
                             setting_words(setting, drying->assumed ? "drying.not_needed_assumed"
                                                                    : "drying.not_needed"));
    box.y_mm += draw_check(setting, panel, box);
    double indent_mm = TICK_MM + NAME_GAP_MM;
    Box place = {box.x_mm + indent_mm, box.y_mm, fmax(box.width_mm - indent_mm, 1), 0};
    box.y_mm += pen_paragraph(
        &setting->pen, setting->texts[TEXT_NOTE], ALIGN_LEFT, place,
        setting_words(setting, drying->assumed ? "drying.note_assumed" : "drying.note"));
    if (!drying->scale_can_tell)
        box.y_mm += pen_paragraph(&setting->pen, body, ALIGN_LEFT, box,
                                  setting_words(setting, "drying.cannot_tell"));
    return box.y_mm - top_mm;
}
