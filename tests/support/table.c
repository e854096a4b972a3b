#include "support/table.h"

#include "base/list.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static TableRow read_row(const char *line) {
    TableRow row;
    for (size_t i = 0; i < TABLE_COLUMNS_MAX; i++) {
        char *end;
        row.cell[i] = strtod(line, &end);
        if (end == line)
            row.cell[i] = NAN;
        line = strchr(end, ',');
        line = line ? line + 1 : "";
    }
    return row;
}

Table table_read(Arena *arena, const char *path) {
    LIST_OF(TableRow) rows = {0};
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("cannot open %s", path);
    char line[512];
    bool heading = true;
    while (fgets(line, sizeof line, file)) {
        if (line[0] == '#')
            continue;
        if (!heading)
            LIST_ADD(arena, &rows, read_row(line));
        heading = false;
    }
    fclose(file);
    if (rows.count == 0)
        fail_msg("no rows in %s", path);
    return (Table){rows.items, rows.count};
}
