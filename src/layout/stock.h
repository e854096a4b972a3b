/* Stock: what labels are printed on, by its dimensions, read from templates/stock.xml.
 *
 *     <stock>
 *       <sheet name="a4-8" page-width="210 mm" page-height="297 mm" width="99.1 mm"
 *              height="67.7 mm" columns="2" rows="4" left="4.63 mm" top="13.1 mm"
 *              across="2.54 mm" down="0 mm" edge="5 mm"/>
 *       <roll name="roll-100x150" width="100 mm" printable="100 mm" length="150 mm"/>
 *       <roll name="roll-62" width="62 mm" printable="58.9 mm" least="40 mm" most="250 mm"/>
 *     </stock>
 *
 * The right and bottom margin of a sheet equal the left and top one; margins, labels and gaps have
 * to close to the page. `edge` is what printers leave bare along the paper's edge. pair="yes": the
 * labels are so small that a bag takes two of them. A roll with a least and a most length is cut
 * behind each label, which is as long as its text wants.
 */
#ifndef LAYOUT_STOCK_H
#define LAYOUT_STOCK_H

#include "base/diagnostic.h"
#include "base/element.h"
#include "domain/stock.h"
#include "layout/mark.h"
#include "schema/rule.h"

/* How far margins, labels and gaps may miss the page: cut positions are given to 0.01 mm. */
#define STOCK_CLOSES_MM 0.025

/* What such a file may hold. */
extern const ElementRule stock_rule;

/* Reads a file of label stock. Every fault is reported; NULL when there was one. */
const StockSet *stock_read(Arena *arena, const Element *root, Diagnostics *diagnostics);

/* The stock that a bag names, for labels from `first` on, counted from 1. NULL, and reported at the
 * place of the value that is wrong, when there is no such stock, or no room for a bag's labels from
 * that one on. */
const Stock *stock_asked(const StockSet *set, const char *name, Place name_place, long first,
                         Place first_place, Diagnostics *diagnostics);

/* The outline of a label of the page, from 0, row by row. */
Box stock_label(const Stock *stock, int index);

/* What of a label may be printed on: `margin_mm` within its outline, and so far in that on no
 * label of the page anything falls on the bare edge of the paper. */
Box stock_inside(const Stock *stock, Box label, double margin_mm);

#endif
