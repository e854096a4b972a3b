/* Season mark: the small sign that says on a season's pages how a night ended. The same in the
 * calendar, in the plot and in the key; told apart by shape, since a page may be printed in
 * grey. */
#ifndef LAYOUT_SEASON_MARK_H
#define LAYOUT_SEASON_MARK_H

#include "layout/block.h"

/* Behind the days of a weekend. */
#define SEASON_WEEKEND_GREY 0.88

typedef enum SeasonMark {
    SEASON_MARK_LASTED,  /* a full dot */
    SEASON_MARK_RELIT,   /* a ring with a dot in it */
    SEASON_MARK_DIED,    /* a cross */
    SEASON_MARK_PLANNED, /* a ring */
    SEASON_MARK_OTHER,   /* a dash: stopped, no end, not written down */
    SEASON_MARK_BAGS,    /* a small square */
    SEASON_MARK_STEP,    /* a triangle */
    SEASON_MARKS
} SeasonMark;

/* That of a row of the fields with `state` and, of the calendar, `bagging` and `preparation`. */
SeasonMark season_mark_of(const FieldGroup *row);

/* Draws it round a place, so wide and high. */
void season_mark_draw(Page *page, SeasonMark mark, Point centre, double size_mm);

#endif
