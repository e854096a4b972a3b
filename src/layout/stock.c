#include "layout/stock.h"

#include "base/nearest.h"
#include "layout/attribute.h"

#include <math.h>
#include <string.h>

enum { LABELS_MOST = 40 }; /* a row or column of a page */

static double length(Diagnostics *diagnostics, const Element *element, const char *name,
                     double least, double most) {
    if (!attribute_required(diagnostics, element, name))
        return NOT_STATED;
    return attribute_length(diagnostics, element, name, LENGTH_MM, least, most, NOT_STATED);
}

static int count(Diagnostics *diagnostics, const Element *element, const char *name) {
    if (!attribute_required(diagnostics, element, name))
        return 1;
    double number = attribute_length(diagnostics, element, name, LENGTH_NONE, 1, LABELS_MOST, 1);
    if (number != floor(number))
        report_error(diagnostics, element_value_place(element, name), "a whole number",
                     "'%s' is no count", element_value(element, name));
    return (int)number;
}

/* Reports when margins, labels and gaps in one direction do not add up to the page. */
static void check_closes(Diagnostics *diagnostics, const Stock *stock, double margin_mm,
                         double label_mm, double gap_mm, int labels, double page_mm,
                         const char *direction) {
    double sum_mm = 2 * margin_mm + labels * label_mm + (labels - 1) * gap_mm;
    if (fabs(sum_mm - page_mm) > STOCK_CLOSES_MM)
        report_error(diagnostics, stock->place, NULL,
                     "'%s' does not close %s: 2 margins of %g mm, %d labels of %g mm and gaps of "
                     "%g mm make %.2f mm, the page has %g mm",
                     stock->name, direction, margin_mm, labels, label_mm, gap_mm, sum_mm, page_mm);
}

static Stock read_sheet(Diagnostics *diagnostics, const Element *element) {
    attribute_only(diagnostics, element,
                   "name page-width page-height width height columns rows left top across down "
                   "edge");
    Stock stock = {.place = element->place,
                   .name = attribute_required(diagnostics, element, "name"),
                   .page_width_mm = length(diagnostics, element, "page-width", 20, 450),
                   .page_height_mm = length(diagnostics, element, "page-height", 20, 450),
                   .label_width_mm = length(diagnostics, element, "width", 10, 450),
                   .label_height_mm = length(diagnostics, element, "height", 10, 450),
                   .columns = count(diagnostics, element, "columns"),
                   .rows = count(diagnostics, element, "rows"),
                   .left_mm = length(diagnostics, element, "left", 0, 100),
                   .top_mm = length(diagnostics, element, "top", 0, 100),
                   .across_mm = length(diagnostics, element, "across", 0, 50),
                   .down_mm = length(diagnostics, element, "down", 0, 50),
                   .edge_mm = length(diagnostics, element, "edge", 0, 20)};
    stock.least_height_mm = stock.label_height_mm;
    check_closes(diagnostics, &stock, stock.left_mm, stock.label_width_mm, stock.across_mm,
                 stock.columns, stock.page_width_mm, "across");
    check_closes(diagnostics, &stock, stock.top_mm, stock.label_height_mm, stock.down_mm,
                 stock.rows, stock.page_height_mm, "down");
    return stock;
}

static Stock read_roll(Diagnostics *diagnostics, const Element *element) {
    attribute_only(diagnostics, element, "name width printable length least most");
    Stock stock = {.place = element->place,
                   .name = attribute_required(diagnostics, element, "name"),
                   .roll = true,
                   .page_width_mm = length(diagnostics, element, "width", 10, 450),
                   .columns = 1,
                   .rows = 1};
    double printable_mm = length(diagnostics, element, "printable", 10, stock.page_width_mm);
    stock.edge_mm = (stock.page_width_mm - printable_mm) / 2;
    if (element_attribute(element, "length")) {
        stock.page_height_mm = length(diagnostics, element, "length", 10, 1000);
        stock.least_height_mm = stock.page_height_mm;
    } else {
        stock.page_height_mm = length(diagnostics, element, "most", 10, 1000);
        stock.least_height_mm = length(diagnostics, element, "least", 10, stock.page_height_mm);
    }
    stock.label_width_mm = stock.page_width_mm;
    stock.label_height_mm = stock.page_height_mm;
    return stock;
}

const StockSet *stock_read(Arena *arena, const Element *root, Diagnostics *diagnostics) {
    size_t before = diagnostics_errors(diagnostics, NULL);
    StockSet *set = ARENA_NEW(arena, StockSet);
    if (strcmp(root->name, "stock") != 0)
        element_unknown(diagnostics, root, "stock");
    for (const Element *child = root->first; child; child = child->next) {
        bool sheet = strcmp(child->name, "sheet") == 0;
        if (!sheet && strcmp(child->name, "roll") != 0) {
            element_unknown(diagnostics, child, "sheet roll");
            continue;
        }
        Stock stock = sheet ? read_sheet(diagnostics, child) : read_roll(diagnostics, child);
        if (stock.name && stock_find(set, stock.name))
            report_error(diagnostics, stock.place, NULL, "stock '%s' is there twice", stock.name);
        if (stock.name)
            LIST_ADD(arena, &set->stocks, stock);
    }
    return diagnostics_errors(diagnostics, NULL) == before ? set : NULL;
}

const Stock *stock_find(const StockSet *set, const char *name) {
    for (size_t i = 0; name && i < set->stocks.count; i++)
        if (strcmp(set->stocks.items[i].name, name) == 0)
            return &set->stocks.items[i];
    return NULL;
}

const char *stock_remedy(const StockSet *set, const char *name, Diagnostics *diagnostics) {
    Names names = {0};
    for (size_t i = 0; i < set->stocks.count; i++)
        LIST_ADD(diagnostics->arena, &names, set->stocks.items[i].name);
    const char *all = names_listed(diagnostics->arena, &names);
    const char *nearest = nearest_name(name, &names);
    return nearest
               ? arena_format(diagnostics->arena, "did you mean '%s'? there are %s", nearest, all)
               : arena_format(diagnostics->arena, "there are %s", all);
}

int stock_count(const Stock *stock) {
    return stock->columns * stock->rows;
}

Box stock_label(const Stock *stock, int index) {
    int column = index % stock->columns;
    int row = index / stock->columns;
    return (Box){stock->left_mm + column * (stock->label_width_mm + stock->across_mm),
                 stock->top_mm + row * (stock->label_height_mm + stock->down_mm),
                 stock->label_width_mm, stock->label_height_mm};
}

Box stock_inside(const Stock *stock, Box label, double margin_mm) {
    double across_mm = fmax(margin_mm, stock->edge_mm - stock->left_mm);
    double down_mm = stock->roll ? margin_mm : fmax(margin_mm, stock->edge_mm - stock->top_mm);
    return (Box){label.x_mm + across_mm, label.y_mm + down_mm, label.width_mm - 2 * across_mm,
                 label.height_mm - 2 * down_mm};
}
