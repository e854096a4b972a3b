/* Shares: one bar across a label, its parts in proportion to their share of the bag's mass, each
 * with a hatch of its own in pure black; and the swatches of the same hatches beside their names.
 * Beyond the hatches that are told apart on a cheap printer the parts have one in common. */
#include "layout/drawing.h"

#include <math.h>

/* Lines are two dots of a label printer with 203 dots an inch, or more. */
#define FINE_MM 0.25
#define BOLD_MM 0.5
#define DOT_MM 0.45
#define BAR_HIGH_MM 2.8
#define SWATCH_LINES 0.78 /* of the pitch of the line it stands beside */

/* In this order parts are hatched by falling share, so that neighbours differ most. */
typedef enum Hatch {
    HATCH_SLANTED,
    HATCH_BLACK,
    HATCH_WHITE,
    HATCH_DOTS,
    HATCH_CROSSED,
    HATCH_UPRIGHT,
    HATCH_BOLD,
    HATCH_REST,
    HATCHES
} Hatch;

/* Parallel lines; the second pair across the first. A spacing of 0: none. */
typedef struct Lines {
    double angle_deg, spacing_mm, line_mm;
} Lines;

static const Lines hatch_lines[HATCHES][2] = {
    [HATCH_SLANTED] = {{-45, 0.9, FINE_MM}},
    [HATCH_CROSSED] = {{45, 1.2, FINE_MM}, {-45, 1.2, FINE_MM}},
    [HATCH_UPRIGHT] = {{90, 0.8, FINE_MM}},
    [HATCH_BOLD] = {{45, 1.5, BOLD_MM}},
    [HATCH_REST] = {{0, 0.7, FINE_MM}},
};

static Hatch hatch_of(size_t part) {
    return part < HATCH_REST ? (Hatch)part : HATCH_REST;
}

static void add_lines(Picture *picture, Box box, Lines lines) {
    double right = box.x_mm + box.width_mm, foot = box.y_mm + box.height_mm;
    const Point corners[] = {
        {box.x_mm, box.y_mm}, {right, box.y_mm}, {right, foot}, {box.x_mm, foot}};
    Steps steps = {0};
    path_hatch(picture->arena, &steps, corners, 4, lines.angle_deg, lines.spacing_mm);
    if (steps.count)
        picture_path(picture, steps, style_line(lines.line_mm, ink_black()));
}

static double column_mm(int row, int column) {
    return DOT_MM / 2 + (row % 2) * DOT_MM + column * 2 * DOT_MM;
}

/* Small squares, every second row set off by half a step; only whole ones. */
static void add_dots(Picture *picture, Box box) {
    Steps steps = {0};
    for (int row = 0; (row + 1) * DOT_MM * 1.5 <= box.height_mm; row++)
        for (int column = 0; column_mm(row, column) + DOT_MM <= box.width_mm; column++)
            path_rectangle(picture->arena, &steps,
                           (Box){box.x_mm + column_mm(row, column),
                                 box.y_mm + (row + 0.25) * DOT_MM * 1.5, DOT_MM, DOT_MM});
    if (steps.count)
        picture_path(picture, steps, style_fill(ink_black()));
}

static void add_area(Picture *picture, Box box, Style style) {
    Steps steps = {0};
    path_rectangle(picture->arena, &steps, box);
    picture_path(picture, steps, style);
}

/* A part with its edge, whose line lies within it. */
static void add_part(Picture *picture, Box box, Hatch hatch) {
    double half_mm = fmin(FINE_MM, box.width_mm) / 2;
    Box edge = {box.x_mm + half_mm, box.y_mm + half_mm, box.width_mm - 2 * half_mm,
                box.height_mm - 2 * half_mm};
    for (int i = 0; i < 2; i++)
        add_lines(picture, edge, hatch_lines[hatch][i]);
    if (hatch == HATCH_DOTS)
        add_dots(picture, edge);
    if (hatch == HATCH_BLACK)
        add_area(picture, box, style_fill(ink_black()));
    add_area(picture, edge, style_line(2 * half_mm, ink_black()));
}

/* ---- The bar ---- */

double shares_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)block;
    (void)width_mm;
    return BAR_HIGH_MM * layout->scale;
}

static double sum_from(const PlanBag *bag, size_t first, size_t end) {
    double sum = 0;
    for (size_t i = first; i < end; i++)
        sum += bag->parts.items[i].share;
    return sum;
}

static void make_bar(Layout *layout, const Block *block, Picture *picture) {
    const PlanBag *bag = drawing_bag(layout, block);
    double whole = sum_from(bag, 0, bag->parts.count);
    double x_mm = 0;
    for (size_t i = 0; i < bag->parts.count && i <= HATCH_REST; i++) {
        size_t end = i == HATCH_REST ? bag->parts.count : i + 1;
        double width_mm = picture->width_mm * sum_from(bag, i, end) / whole;
        add_part(picture, (Box){x_mm, 0, width_mm, picture->height_mm}, hatch_of(i));
        x_mm += width_mm;
    }
}

void shares_draw(Layout *layout, const Block *block) {
    drawing_picture(layout, block, block->box, make_bar);
}

/* ---- Swatches ---- */

double swatch_mm(Layout *layout, const Block *block) {
    return SWATCH_LINES * pen_pitch_mm(block_style(layout, block));
}

double swatch_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)width_mm;
    return swatch_mm(layout, block);
}

static void make_swatch(Layout *layout, const Block *block, Picture *picture) {
    (void)layout;
    size_t part = drawing_part(block);
    add_part(picture, (Box){0, 0, picture->width_mm, picture->height_mm},
             hatch_of(part ? part - 1 : 0));
}

/* Square, in the middle of its line. */
void swatch_draw(Layout *layout, const Block *block) {
    double size_mm = fmin(swatch_mm(layout, block), block->box.width_mm);
    Box place = {block->box.x_mm, block->box.y_mm + (block->box.height_mm - size_mm) / 2, size_mm,
                 size_mm};
    drawing_picture(layout, block, place, make_swatch);
}
