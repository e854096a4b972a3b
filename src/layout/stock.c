#include "layout/stock.h"

#include "base/nearest.h"
#include "base/text.h"
#include "schema/form.h"

#include <math.h>
#include <string.h>

#include "schema/rows.h"

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

/* A name stands for one stock. */
static void check_name(Form *form, const Stock *stock) {
    if (stock->name && stock_find(form->outer, stock->name))
        error_at(form, stock, NULL, "stock '%s' is there twice", stock->name);
}

static void check_sheet(Form *form, const Element *element, void *into) {
    (void)element;
    Stock *stock = into;
    stock->least_height_mm = stock->label_height_mm;
    check_closes(form->diagnostics, stock, stock->left_mm, stock->label_width_mm, stock->across_mm,
                 stock->columns, stock->page_width_mm, "across");
    check_closes(form->diagnostics, stock, stock->top_mm, stock->label_height_mm, stock->down_mm,
                 stock->rows, stock->page_height_mm, "down");
    if (stock->pair && stock_count(stock) < 2)
        error_at_value(form, element, "pair", NULL, "a pair of labels needs two on a page");
    check_name(form, stock);
}

/* One label a page, as long as `length` or cut to between `least` and `most`. */
static void check_roll(Form *form, const Element *element, void *into) {
    Stock *stock = into;
    double printable_mm = form_number(form, element, "printable");
    bool cut = form_has(element, "least") && form_has(element, "most");
    bool fixed = form_has(element, "length");
    if (fixed)
        stock->least_height_mm = stock->page_height_mm = form_number(form, element, "length");
    if (fixed ? form_has(element, "least") || form_has(element, "most") : !cut)
        error_at(form, element, "write length=\"150 mm\", or least=\"40 mm\" most=\"250 mm\"",
                 "'roll' has a length, or a least and a most");
    if (stock->least_height_mm > stock->page_height_mm)
        error_at_value(form, element, "least", NULL, "'least' is more than 'most'");
    if (printable_mm > stock->page_width_mm)
        error_at_value(form, element, "printable", NULL, "'printable' is more than 'width'");
    stock->roll = true;
    stock->columns = stock->rows = 1;
    stock->left_mm = stock->top_mm = stock->across_mm = stock->down_mm = 0;
    stock->edge_mm = (stock->page_width_mm - printable_mm) / 2;
    stock->label_width_mm = stock->page_width_mm;
    stock->label_height_mm = stock->page_height_mm;
    check_name(form, stock);
}

static const AttributeRule sheet_attributes[] = {
    ROW("name", ID, Stock, name, "name that bags refer to", MUST),
    ROW("page-width", PAPER("20 mm", "450 mm"), Stock, page_width_mm, "width of the page", MUST),
    ROW("page-height", PAPER("20 mm", "450 mm"), Stock, page_height_mm, "height of the page", MUST),
    ROW("width", PAPER("10 mm", "450 mm"), Stock, label_width_mm, "width of a label", MUST),
    ROW("height", PAPER("10 mm", "450 mm"), Stock, label_height_mm, "height of a label", MUST),
    ROW("columns", COUNT("1", "40"), Stock, columns, "labels side by side", MUST, .usual = "1"),
    ROW("rows", COUNT("1", "40"), Stock, rows, "labels below each other", MUST, .usual = "1"),
    ROW("left", PAPER("0 mm", "100 mm"), Stock, left_mm, "margin on the left and right", MUST),
    ROW("top", PAPER("0 mm", "100 mm"), Stock, top_mm, "margin above and below", MUST),
    ROW("across", PAPER("0 mm", "50 mm"), Stock, across_mm, "gap between columns", MUST),
    ROW("down", PAPER("0 mm", "50 mm"), Stock, down_mm, "gap between rows", MUST),
    ROW("edge", PAPER("0 mm", "20 mm"), Stock, edge_mm, "what printers leave bare", MUST),
    ROW("pair", YES_NO, Stock, pair, "a bag takes two: what it is, and all the rest",
        .usual = "no"),
};
static ELEMENT(sheet, "Die-cut labels on a page, which they have to close to.", OWN_STRUCT(Stock),
               .check = check_sheet);

static const AttributeRule roll_attributes[] = {
    ROW("name", ID, Stock, name, "name that bags refer to", MUST),
    ROW("width", PAPER("10 mm", "450 mm"), Stock, page_width_mm, "width of the roll", MUST),
    CHECKED("printable", PAPER("10 mm", "450 mm"), "width that is printed on", MUST),
    CHECKED("length", PAPER("10 mm", "1000 mm"), "length of every label"),
    ROW("least", PAPER("10 mm", "1000 mm"), Stock, least_height_mm, "shortest label that is cut"),
    ROW("most", PAPER("10 mm", "1000 mm"), Stock, page_height_mm, "longest label that is cut"),
};
static ELEMENT(roll, "Labels on a roll: of one length, or cut behind each.", OWN_STRUCT(Stock),
               .check = check_roll);

static const ChildRule stock_children[] = {SEVERAL(sheet, 0, 200, StockSet, stocks),
                                           SEVERAL(roll, 0, 200, StockSet, stocks)};
const ElementRule stock_rule = {.name = "stock",
                                .help = "What labels are printed on.",
                                CHILDREN(stock_children),
                                .size = sizeof(StockSet)};

const StockSet *stock_read(Arena *arena, const Element *root, Diagnostics *diagnostics) {
    static const ElementRule *const roots[] = {&stock_rule, NULL};
    size_t before = diagnostics_errors(diagnostics, NULL);
    StockSet *set = ARENA_NEW(arena, StockSet);
    Form form = {.arena = arena, .diagnostics = diagnostics, .roots = roots};
    if (!form_check_root(&form, root))
        return NULL;
    form_read(&form, &stock_rule, root, set);
    return diagnostics_errors(diagnostics, NULL) == before ? set : NULL;
}

/* All of them, since they are kinds to choose from and not names to remember. */
static const char *remedy_for(const StockSet *set, const char *name, Diagnostics *diagnostics) {
    Names names = {0};
    Text all = text_new(diagnostics->arena);
    for (size_t i = 0; i < set->stocks.count; i++) {
        LIST_ADD(diagnostics->arena, &names, set->stocks.items[i].name);
        text_addf(&all, "%s%s", i ? ", " : "", set->stocks.items[i].name);
    }
    const char *nearest = nearest_name(name, &names);
    return nearest ? arena_format(diagnostics->arena, "did you mean '%s'? there are %s", nearest,
                                  all.bytes)
                   : arena_format(diagnostics->arena, "there are %s", all.bytes);
}

const Stock *stock_asked(const StockSet *set, const char *name, Place name_place, long first,
                         Place first_place, Diagnostics *diagnostics) {
    const Stock *stock = stock_find(set, name);
    if (!stock)
        report_error(diagnostics, name_place, remedy_for(set, name, diagnostics),
                     "unknown label stock '%s'", name);
    if (!stock || first <= stock_last_first(stock))
        return stock;
    const char *range = arena_format(diagnostics->arena, "from 1 to %d", stock_last_first(stock));
    if (first <= stock_count(stock))
        report_error(diagnostics, first_place, range,
                     "a bag takes two labels of stock '%s', and label %ld is the page's last",
                     stock->name, first);
    else
        report_error(diagnostics, first_place, range, "a page of stock '%s' has no label %ld",
                     stock->name, first);
    return NULL;
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
