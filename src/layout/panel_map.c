/* Tray map: every fill of the night, each drawn to scale with its caption. */
#include "layout/fill_map.h"
#include "layout/panel.h"

#include <math.h>

#define APART_MM 4.0
#define LEAST_MM 37.0       /* height of a single drawing, */
#define LEAST_SMALL_MM 23.0 /* of one of several, */
#define TIGHT_MM 28.0       /* and of both where the page is tight */
#define TIGHT_SMALL_MM 17.0
#define CAPTION_GAP_MM 0.8
#define PATCH_MM 4.0
#define BESIDE_MM 26.0 /* room for caption and legend beside a drawing */
#define BESIDE_GAP_MM 3.0

enum { SEVERAL_COLUMNS = 2, MANY_COLUMNS = 4, HALVINGS = 12 };

/* Which fills are drawn, and which only named. */
typedef struct Drawn {
    size_t count;
    size_t *indices;
    size_t named_count;
    size_t *named;
} Drawn;

static bool same_shape(const PlanFill *one, const PlanFill *other) {
    return one->tray == other->tray && one->both_ends == other->both_ends &&
           fabs(one->filled_m - other->filled_m) < 1e-6;
}

/* All fills are drawn; of those that look alike only the first once the panel gave way. */
static Drawn drawn_of(Setting *setting, const Panel *panel) {
    const Plan *plan = setting->plan;
    Arena *arena = setting->pen.arena;
    Drawn drawn = {.indices = ARENA_ARRAY(arena, plan->fills.count, size_t),
                   .named = ARENA_ARRAY(arena, plan->fills.count, size_t)};
    for (size_t i = 0; i < plan->fills.count; i++) {
        bool again = false;
        for (size_t j = 0; j < i; j++)
            again = again || same_shape(&plan->fills.items[i], &plan->fills.items[j]);
        if (again && setting->dropped[panel->index])
            drawn.named[drawn.named_count++] = i;
        else
            drawn.indices[drawn.count++] = i;
    }
    return drawn;
}

static size_t columns_of(const Drawn *drawn) {
    size_t count = drawn->count;
    return count < 2 ? 1 : count < 5 ? SEVERAL_COLUMNS : MANY_COLUMNS;
}

static double cell_width_mm(size_t columns, double width_mm) {
    return (width_mm - APART_MM * (double)(columns - 1)) / (double)columns;
}

static double whole_height_mm(const Setting *setting, const Drawn *drawn, size_t columns,
                              double width_mm) {
    double height_mm = 0;
    for (size_t i = 0; i < drawn->count; i++)
        height_mm =
            fmax(height_mm, fill_map_height_mm(&setting->plan->fills.items[drawn->indices[i]],
                                               cell_width_mm(columns, width_mm)));
    return height_mm;
}

/* "1. Mesh maze: 420 g, 20 mm deep, fill the whole channel" */
static const char *caption(Setting *setting, size_t index) {
    const PlanFill *fill = &setting->plan->fills.items[index];
    const FieldGroup *row = field_row(setting->fields, "fill", index);
    bool several = setting->plan->fills.count > 1;
    const char *what = setting_row_words(setting, several ? "map.fill_of" : "map.fill", row);
    const char *mark = fill->whole                      ? "map.whole"
                       : fill->tray->path == PATH_LANES ? "map.part"
                                                        : "map.part_along";
    return arena_format(setting->pen.arena, "%s, %s", what,
                        setting_strong(setting, setting_row_words(setting, mark, row)));
}

static double draw_legend(Setting *setting, const Panel *panel, size_t index, Box box) {
    const PlanFill *fill = &setting->plan->fills.items[index];
    const FieldGroup *row = field_row(setting->fields, "fill", index);
    TextStyle style = setting->texts[panel->text];
    double top_mm = box.y_mm;
    for (size_t i = 0; i < fill->weak.count; i++) {
        double pitch_mm = pen_pitch_mm(style);
        fill_map_patch(&setting->pen,
                       (Box){box.x_mm, box.y_mm + pitch_mm * 0.15, PATCH_MM, pitch_mm * 0.7});
        Box place = {box.x_mm + PATCH_MM + 1, box.y_mm, fmax(box.width_mm - PATCH_MM - 1, 1), 0};
        box.y_mm +=
            pen_paragraph(&setting->pen, style, ALIGN_LEFT, place,
                          setting_row_words(setting, "map.weak", field_row(row, "weak", i)));
    }
    if (fill->dies)
        box.y_mm += pen_paragraph(&setting->pen, style_strong(style), ALIGN_LEFT, box,
                                  setting_row_words(setting, "map.dies", row));
    return box.y_mm - top_mm;
}

/* Where the caption begins when it stands beside the drawing; 0 when there is no room for it. */
static double beside_mm(Setting *setting, size_t index, double width_mm, double drawing_mm) {
    double map_mm = fill_map_width_mm(&setting->plan->fills.items[index], width_mm, drawing_mm);
    return map_mm + BESIDE_GAP_MM + BESIDE_MM <= width_mm ? map_mm + BESIDE_GAP_MM : 0;
}

/* One fill: its drawing of the given height, caption and legend beside it where there is room,
 * else above and below. Returns the height of the whole. */
static double draw_cell(Setting *setting, const Panel *panel, size_t index, Box box,
                        double drawing_mm) {
    double top_mm = box.y_mm;
    double beside = beside_mm(setting, index, box.width_mm, drawing_mm);
    Box words = {box.x_mm + beside, box.y_mm, box.width_mm - beside, 0};
    words.y_mm += pen_paragraph(&setting->pen, setting->texts[panel->text], ALIGN_LEFT, words,
                                caption(setting, index)) +
                  CAPTION_GAP_MM;
    double drawing_y_mm = beside > 0 ? top_mm : words.y_mm;
    fill_map_draw(setting, &setting->plan->fills.items[index],
                  (Box){box.x_mm, drawing_y_mm, box.width_mm, drawing_mm});
    words.y_mm += beside > 0 ? CAPTION_GAP_MM : drawing_mm + CAPTION_GAP_MM;
    words.y_mm += draw_legend(setting, panel, index, words);
    return fmax(words.y_mm, drawing_y_mm + drawing_mm) - top_mm;
}

/* The fills that are not drawn, one under the other. */
static double draw_named(Setting *setting, const Panel *panel, const Drawn *drawn, Box box) {
    double top_mm = box.y_mm;
    for (size_t i = 0; i < drawn->named_count; i++)
        box.y_mm += pen_paragraph(&setting->pen, setting->texts[panel->text], ALIGN_LEFT, box,
                                  caption(setting, drawn->named[i]));
    return box.y_mm - top_mm;
}

static double draw_cells(Setting *setting, const Panel *panel, const Drawn *drawn, size_t columns,
                         Box box, double drawing_mm) {
    double width_mm = cell_width_mm(columns, box.width_mm);
    double y_mm = box.y_mm;
    for (size_t first = 0; first < drawn->count; first += columns) {
        double height_mm = 0;
        for (size_t i = first; i < first + columns && i < drawn->count; i++) {
            double x_mm = box.x_mm + (double)(i - first) * (width_mm + APART_MM);
            height_mm = fmax(height_mm, draw_cell(setting, panel, drawn->indices[i],
                                                  (Box){x_mm, y_mm, width_mm, 0}, drawing_mm));
        }
        y_mm += height_mm;
    }
    y_mm += draw_named(setting, panel, drawn, (Box){box.x_mm, y_mm, box.width_mm, 0});
    return y_mm - box.y_mm;
}

static double height_with(Setting *setting, const Panel *panel, const Drawn *drawn, size_t columns,
                          double width_mm, double drawing_mm) {
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    double height_mm =
        draw_cells(setting, panel, drawn, columns, (Box){0, 0, width_mm, 0}, drawing_mm);
    setting->pen.page = page;
    return height_mm;
}

static double least_height_mm(const Setting *setting, const Drawn *drawn, size_t columns,
                              double width_mm) {
    bool single = drawn->count < 2;
    double least_mm = single ? LEAST_MM : LEAST_SMALL_MM;
    if (setting->tight)
        least_mm = single ? TIGHT_MM : TIGHT_SMALL_MM;
    return fmin(least_mm, whole_height_mm(setting, drawn, columns, width_mm));
}

/* The height of drawings with which the panel fills its box, found by halving. */
static double fitting_mm(Setting *setting, const Panel *panel, const Drawn *drawn, size_t columns,
                         Box box) {
    double low_mm = least_height_mm(setting, drawn, columns, box.width_mm);
    double high_mm = whole_height_mm(setting, drawn, columns, box.width_mm);
    if (height_with(setting, panel, drawn, columns, box.width_mm, high_mm) <= box.height_mm)
        return high_mm;
    for (int i = 0; i < HALVINGS; i++) {
        double middle_mm = (low_mm + high_mm) / 2;
        if (height_with(setting, panel, drawn, columns, box.width_mm, middle_mm) <= box.height_mm)
            low_mm = middle_mm;
        else
            high_mm = middle_mm;
    }
    return low_mm;
}

/* Several fills stand beside each other, but one under the other where that makes them larger. */
double tray_map_draw(Setting *setting, const Panel *panel, Box box) {
    Drawn drawn = drawn_of(setting, panel);
    size_t columns = columns_of(&drawn);
    if (box.height_mm <= 0)
        return draw_cells(setting, panel, &drawn, columns, box,
                          least_height_mm(setting, &drawn, columns, box.width_mm));
    double drawing_mm = fitting_mm(setting, panel, &drawn, columns, box);
    double stacked_mm = fitting_mm(setting, panel, &drawn, 1, box);
    if (stacked_mm > drawing_mm &&
        height_with(setting, panel, &drawn, 1, box.width_mm, stacked_mm) <= box.height_mm) {
        columns = 1;
        drawing_mm = stacked_mm;
    }
    return draw_cells(setting, panel, &drawn, columns, box, drawing_mm);
}

double tray_map_most(Setting *setting, const Panel *panel, double width_mm) {
    Drawn drawn = drawn_of(setting, panel);
    double most_mm = 0;
    for (size_t columns = 1; columns <= columns_of(&drawn); columns++)
        most_mm = fmax(most_mm, height_with(setting, panel, &drawn, columns, width_mm,
                                            whole_height_mm(setting, &drawn, columns, width_mm)));
    return most_mm;
}
