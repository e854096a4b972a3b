/* Stock: what labels are printed on, by its dimensions; layout/stock.h says how it is written. */
#ifndef DOMAIN_STOCK_H
#define DOMAIN_STOCK_H

#include "base/diagnostic.h"
#include "base/list.h"

#include <stdbool.h>

typedef struct Stock {
    Place place;
    const char *name;
    bool roll;                            /* one label a page */
    bool pair;                            /* a bag takes two: what it is, and all the rest */
    double page_width_mm, page_height_mm; /* of a roll: one label; the longest when it is cut */
    double label_width_mm, label_height_mm;
    double least_height_mm; /* of a roll that is cut; equals label_height_mm otherwise */
    int columns, rows;
    double left_mm, top_mm;
    double across_mm, down_mm; /* gaps between labels */
    double edge_mm;
} Stock;

typedef struct StockSet {
    LIST_OF(Stock) stocks; /* sheets, then rolls */
} StockSet;

/* The stock of that name (NULL: no name); NULL: none. */
const Stock *stock_find(const StockSet *set, const char *name);

/* Labels on a page. */
int stock_count(const Stock *stock);

/* Labels that a bag takes, 1 or 2. */
int stock_for_bag(const Stock *stock);

/* The last label of a page, counted from 1, from which a bag's labels still go on it. */
int stock_last_first(const Stock *stock);

#endif
