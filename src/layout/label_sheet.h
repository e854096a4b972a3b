/* Label sheets: which labels of a stock are used, and which is free next.
 *
 * Orders follow one another on the sheets of their stock, whatever blend, batch or language they
 * are of, and whatever was printed on another stock between them. An order that names the first
 * free label itself (a half-used sheet) starts there. Labels are counted from 0 here. */
#ifndef LAYOUT_LABEL_SHEET_H
#define LAYOUT_LABEL_SHEET_H

#include "layout/mark.h"
#include "layout/stock.h"

/* The sheet of a stock that is being filled. */
typedef struct LabelSheet {
    const Stock *stock;
    Page *page; /* NULL: the next label starts one */
    int next;   /* first free label of the page */
} LabelSheet;

typedef struct LabelSheets {
    LIST_OF(LabelSheet) sheets; /* one a stock, in the order of first use */
} LabelSheets;

/* The sheet of that stock, a new one when there is none. It may move when another is added. */
LabelSheet *label_sheet(Arena *arena, LabelSheets *sheets, const Stock *stock);

/* Gets the sheet ready for an order that asks for label `first`, counted from 1; up to 1, for the
 * next that is free. On another label than that, a new page begins. */
void label_sheet_start(LabelSheet *sheet, int first);

/* Takes one label; what begins a page is told by `page` being NULL. Returns its number. */
int label_sheet_take(LabelSheet *sheet);

#endif
