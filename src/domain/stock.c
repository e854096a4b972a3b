#include "domain/stock.h"

#include <string.h>

const Stock *stock_find(const StockSet *set, const char *name) {
    for (size_t i = 0; name && i < set->stocks.count; i++) {
        if (set->stocks.items[i].name && strcmp(set->stocks.items[i].name, name) == 0) {
            return &set->stocks.items[i];
        }
    }
    return NULL;
}

int stock_count(const Stock *stock) {
    return stock->columns * stock->rows;
}

int stock_for_bag(const Stock *stock) {
    return stock->pair ? 2 : 1;
}

int stock_last_first(const Stock *stock) {
    return stock_count(stock) - stock_for_bag(stock) + 1;
}
