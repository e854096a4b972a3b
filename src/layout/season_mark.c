#include "layout/season_mark.h"

#include <string.h>

#define LINE_PART 0.18 /* width of a mark's lines, of its size */

static bool is_state(const FieldGroup *row, const char *state) {
    const Field *field = field_find(row, "state");
    return field && field->text && strcmp(field->text, state) == 0;
}

SeasonMark season_mark_of(const FieldGroup *row) {
    static const struct {
        const char *state;
        SeasonMark mark;
    } marks[] = {{"season_state.lasted", SEASON_MARK_LASTED},
                 {"season_state.relit", SEASON_MARK_RELIT},
                 {"season_state.died", SEASON_MARK_DIED},
                 {"season_state.planned", SEASON_MARK_PLANNED}};
    const Field *bagging = field_find(row, "bagging");
    const Field *step = field_find(row, "preparation");
    if (bagging && bagging->quantity.value > 0)
        return SEASON_MARK_BAGS;
    if (step && step->quantity.value > 0)
        return SEASON_MARK_STEP;
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (is_state(row, marks[i].state))
            return marks[i].mark;
    return SEASON_MARK_OTHER;
}

void season_mark_draw(Page *page, SeasonMark mark, Point at, double size_mm) {
    double half_mm = size_mm / 2, line_mm = size_mm * LINE_PART;
    double ring_mm = half_mm - line_mm / 2;
    Style line = style_line(line_mm, ink_black());
    switch (mark) {
    case SEASON_MARK_LASTED:
        mark_circle(page, at, half_mm, style_both(ink_black(), 0.1, ink_white()));
        return;
    case SEASON_MARK_RELIT:
        mark_circle(page, at, half_mm * 0.4, style_fill(ink_black()));
        mark_circle(page, at, ring_mm, line);
        return;
    case SEASON_MARK_DIED:
        for (int way = -1; way <= 1; way += 2)
            mark_line(page, (Point){at.x_mm - half_mm, at.y_mm - way * half_mm},
                      (Point){at.x_mm + half_mm, at.y_mm + way * half_mm},
                      style_line(line_mm * 1.3, ink_black()));
        return;
    case SEASON_MARK_PLANNED: mark_circle(page, at, ring_mm, line); return;
    case SEASON_MARK_OTHER:
        mark_line(page, (Point){at.x_mm - half_mm, at.y_mm}, (Point){at.x_mm + half_mm, at.y_mm},
                  style_line(line_mm * 1.3, ink_black()));
        return;
    case SEASON_MARK_BAGS:
        mark_rectangle(page, (Box){at.x_mm - ring_mm, at.y_mm - ring_mm, 2 * ring_mm, 2 * ring_mm},
                       line);
        return;
    case SEASON_MARK_STEP: {
        Point corners[] = {{at.x_mm - half_mm, at.y_mm + ring_mm},
                           {at.x_mm, at.y_mm - half_mm},
                           {at.x_mm + half_mm, at.y_mm + ring_mm}};
        mark_polygon(page, corners, 3, style_fill(ink_black()));
        return;
    }
    case SEASON_MARKS: return;
    }
}
