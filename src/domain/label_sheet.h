/* Label sheets: which labels of a stock are used, and which is free next. Printing and the slip
 * both count here, so that they can not differ.
 *
 * Orders follow one another on the sheets of their stock, whatever blend, batch or language they
 * are of, and whatever was put on another stock between them. An order that names the first free
 * label itself (a half-used sheet) starts there. The labels of a bag are next to each other in
 * reading order and on one sheet: a last label that is too few for a bag stays free. */
#ifndef DOMAIN_LABEL_SHEET_H
#define DOMAIN_LABEL_SHEET_H

#include "base/arena.h"
#include "domain/batch.h"
#include "domain/stock.h"

/* What whoever prints says about half-used sheets, before what the orders say. */
typedef struct FirstLabel {
    const char *stock; /* NULL: that of the first order */
    int number;        /* from 1 */
} FirstLabel;

typedef struct FirstLabels {
    const FirstLabel *items;
    size_t count;
} FirstLabels;

/* The sheet of a stock that is being filled. */
typedef struct LabelSheet {
    const Stock *stock;
    bool open;  /* false: the next label begins a sheet */
    int next;   /* label of the sheet that is taken next, from 0 */
    int sheets; /* begun so far; of a roll: labels */
    int labels; /* taken so far */
} LabelSheet;

typedef struct LabelSheets {
    LIST_OF(LabelSheet) sheets; /* one a stock, in the order of first use */
} LabelSheets;

/* The first free label that is said for an order which would be the next of `sheets`; 1 or 0: the
 * next that is free. */
int label_sheet_first(const LabelSheets *sheets, FirstLabels firsts, const Stock *stock,
                      const BagOrder *order);

/* The sheet of that stock, a new one when there is none, ready for an order that begins at label
 * `first`, counted from 1; up to 1: at the next that is free. On another label than that, a sheet
 * begins. What is returned may move when another stock is added. */
LabelSheet *label_sheet_start(Arena *arena, LabelSheets *sheets, const Stock *stock, int first);

/* Takes the labels of one bag. Returns the number of the first, from 0. */
int label_sheet_take(LabelSheet *sheet);

/* The label from which the next bag's go, counted from 1; 0: the sheet has no room for them. */
int label_sheet_free(const LabelSheet *sheet);

#endif
