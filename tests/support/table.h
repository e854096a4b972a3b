/* Table: the numbers of a CSV file under tests/reference/. */
#ifndef SUPPORT_TABLE_H
#define SUPPORT_TABLE_H

#include "base/arena.h"

#include <stddef.h>

enum { TABLE_COLUMNS_MAX = 12 };

typedef struct TableRow {
    double cell[TABLE_COLUMNS_MAX]; /* NAN where the cell is empty */
} TableRow;

typedef struct Table {
    TableRow *rows;
    size_t count;
} Table;

/* Reads the file whole, without its # lines and its heading. Fails the running test if it is
 * missing or has no rows. */
Table table_read(Arena *arena, const char *path);

#endif
