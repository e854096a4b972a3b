/* Tray map: every fill of the night, each drawn to scale with its caption. */
#include "layout/fill_map.h"
#include "layout/panel.h"

#include <math.h>

#define APART_MM 4.0
#define LEAST_MM 30.0       /* height of a single drawing, */
#define LEAST_SMALL_MM 18.0 /* and of one of several */
#define CAPTION_GAP_MM 0.8
#define PATCH_MM 4.0

enum { SEVERAL_COLUMNS = 2, MANY_COLUMNS = 4 };

static size_t columns_of(const Setting *setting) {
    size_t count = setting->plan->fills.count;
    return count < 2 ? 1 : count < 5 ? SEVERAL_COLUMNS : MANY_COLUMNS;
}

static double cell_width_mm(const Setting *setting, double width_mm) {
    double columns = (double)columns_of(setting);
    return (width_mm - APART_MM * (columns - 1)) / columns;
}

static double whole_height_mm(const Setting *setting, double width_mm) {
    double height_mm = 0;
    for (size_t i = 0; i < setting->plan->fills.count; i++)
        height_mm = fmax(height_mm, fill_map_height_mm(&setting->plan->fills.items[i],
                                                       cell_width_mm(setting, width_mm)));
    return height_mm;
}

/* "1. Mesh maze: 420 g, 20 mm deep, fill the whole channel" */
static const char *caption(Setting *setting, size_t index) {
    const PlanFill *fill = &setting->plan->fills.items[index];
    const FieldGroup *row = field_row(setting->fields, "fill", index);
    bool several = setting->plan->fills.count > 1;
    const char *what = setting_row_words(setting, several ? "map.fill_of" : "map.fill", row);
    bool whole = fill->filled_m >= fill->channel_m * 0.999;
    const char *mark = whole                            ? "map.whole"
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

/* One fill: caption, drawing of the given height, legend. Returns the height of the whole. */
static double draw_cell(Setting *setting, const Panel *panel, size_t index, Box box,
                        double drawing_mm) {
    double top_mm = box.y_mm;
    box.y_mm += pen_paragraph(&setting->pen, setting->texts[panel->text], ALIGN_LEFT, box,
                              caption(setting, index)) +
                CAPTION_GAP_MM;
    fill_map_draw(setting, &setting->plan->fills.items[index],
                  (Box){box.x_mm, box.y_mm, box.width_mm, drawing_mm});
    box.y_mm += drawing_mm + CAPTION_GAP_MM;
    box.y_mm += draw_legend(setting, panel, index, box);
    return box.y_mm - top_mm;
}

static double draw_cells(Setting *setting, const Panel *panel, Box box, double drawing_mm) {
    size_t columns = columns_of(setting);
    double width_mm = cell_width_mm(setting, box.width_mm);
    double y_mm = box.y_mm;
    for (size_t first = 0; first < setting->plan->fills.count; first += columns) {
        double height_mm = 0;
        for (size_t i = first; i < first + columns && i < setting->plan->fills.count; i++) {
            double x_mm = box.x_mm + (double)(i - first) * (width_mm + APART_MM);
            height_mm = fmax(height_mm, draw_cell(setting, panel, i, (Box){x_mm, y_mm, width_mm, 0},
                                                  drawing_mm));
        }
        y_mm += height_mm;
    }
    return y_mm - box.y_mm;
}

static double height_with(Setting *setting, const Panel *panel, double width_mm,
                          double drawing_mm) {
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    double height_mm = draw_cells(setting, panel, (Box){0, 0, width_mm, 0}, drawing_mm);
    setting->pen.page = page;
    return height_mm;
}

double tray_map_draw(Setting *setting, const Panel *panel, Box box) {
    double least_mm = setting->plan->fills.count > 1 ? LEAST_SMALL_MM : LEAST_MM;
    double whole_mm = whole_height_mm(setting, box.width_mm);
    double drawing_mm = fmin(least_mm, whole_mm);
    double rows = ceil((double)setting->plan->fills.count / (double)columns_of(setting));
    double spare_mm = box.height_mm - height_with(setting, panel, box.width_mm, drawing_mm);
    if (spare_mm > 0)
        drawing_mm = fmin(drawing_mm + spare_mm / rows, whole_mm);
    return draw_cells(setting, panel, box, drawing_mm);
}

double tray_map_most(Setting *setting, const Panel *panel, double width_mm) {
    return height_with(setting, panel, width_mm, whole_height_mm(setting, width_mm));
}
