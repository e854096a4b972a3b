/* Days: a month as a row of days, a mark for what fell on each; without a month the numbers of the
 * days. Figures come from the rows of the season (domain/season.h). */
#include "layout/drawing.h"
#include "layout/season_mark.h"

#include <math.h>

#define CELLS 31
#define MARK_PART 0.62 /* size of a mark, of the smaller side of its cell */
#define EDGE_MM 0.12
#define CLASH_MM 0.7 /* bar under a day on which two nights want the same */

enum { STACK_MOST = 3 }; /* marks in one cell; more are a number */

static double cell_mm(Box box) {
    return box.width_mm / CELLS;
}

static const FieldGroup *month_of(const Block *block) {
    for (const FieldGroup *row = block->row; row; row = row->parent)
        if (row->number && field_find(row, "days") && field_find(row, "first"))
            return row;
    return NULL;
}

double days_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)width_mm;
    double pitch_mm = pen_pitch_mm(block_style(layout, block));
    return month_of(block) ? pitch_mm * 1.15 : pitch_mm;
}

/* Every fifth, and the ends: more would not stand apart. */
static void draw_numbers(Layout *layout, const Block *block) {
    TextStyle style = block_style(layout, block);
    double each_mm = cell_mm(block->box);
    for (int day = 1; day <= CELLS; day++) {
        bool wanted = day == 1 || (day % 5 == 0 && day < 30) || day == CELLS;
        double x_mm = block->box.x_mm + (day - 0.5) * each_mm;
        if (wanted)
            pen_line(&layout->pen, style, ALIGN_CENTRE, x_mm, block->box.y_mm,
                     format_number(layout->pen.arena, layout->locale, day, 0));
    }
}

static void draw_cells(Page *page, Box box, Date first, int days) {
    double each_mm = cell_mm(box);
    for (int day = 1; day <= days; day++) {
        Date date = {first.year, first.month, day};
        Box cell = {box.x_mm + (day - 1) * each_mm, box.y_mm, each_mm, box.height_mm};
        if (date_weekday(date) > 5)
            mark_rectangle(page, cell, style_fill(ink_grey(SEASON_WEEKEND_GREY)));
    }
    mark_rectangle(page, (Box){box.x_mm, box.y_mm, days * each_mm, box.height_mm},
                   style_line(EDGE_MM, ink_black()));
}

/* What stands on a day. */
typedef struct Day {
    const FieldGroup *rows[STACK_MOST];
    int count;
    bool clash;
} Day;

static Day day_of(const FieldGroup *month, int number) {
    Day day = {0};
    for (size_t i = 0; i < month->groups.count; i++) {
        const FieldGroup *row = month->groups.items[i];
        const Field *date = field_find(row, "date"), *clash = field_find(row, "clash");
        if (!date || date->date.day != number)
            continue;
        if (day.count < STACK_MOST)
            day.rows[day.count] = row;
        day.count++;
        day.clash = day.clash || (clash && clash->quantity.value > 0);
    }
    return day;
}

/* Several stand under one another, smaller. */
static void draw_day(Layout *layout, const Block *block, Box cell, const Day *day) {
    Page *page = layout->pen.page;
    if (day->count > STACK_MOST) {
        TextStyle style = block_style(layout, block);
        pen_line(&layout->pen, style, ALIGN_CENTRE, cell.x_mm + cell.width_mm / 2,
                 cell.y_mm + (cell.height_mm - pen_pitch_mm(style)) / 2,
                 format_number(layout->pen.arena, layout->locale, day->count, 0));
    }
    double each_mm = cell.height_mm / day->count;
    double size_mm = fmin(fmin(cell.width_mm, each_mm), cell.height_mm * 0.8) * MARK_PART;
    for (int i = 0; day->count <= STACK_MOST && i < day->count; i++) {
        Point at = {cell.x_mm + cell.width_mm / 2, cell.y_mm + (i + 0.5) * each_mm};
        season_mark_draw(page, season_mark_of(day->rows[i]), at,
                         size_mm * (day->count > 1 ? 1.3 : 1));
    }
    if (day->clash)
        pen_rule(&layout->pen, cell.x_mm, cell.y_mm + cell.height_mm, cell.width_mm, CLASH_MM,
                 ink_black());
}

void days_draw(Layout *layout, const Block *block) {
    const FieldGroup *month = month_of(block);
    if (!month) {
        draw_numbers(layout, block);
        return;
    }
    const Field *first = field_find(month, "first"), *days = field_find(month, "days");
    int count = (int)days->quantity.value;
    draw_cells(layout->pen.page, block->box, first->date, count);
    double each_mm = cell_mm(block->box);
    for (int number = 1; number <= count; number++) {
        Day day = day_of(month, number);
        Box cell = {block->box.x_mm + (number - 1) * each_mm, block->box.y_mm, each_mm,
                    block->box.height_mm};
        if (day.count)
            draw_day(layout, block, cell, &day);
    }
}
