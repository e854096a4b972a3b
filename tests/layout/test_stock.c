/* Label stock: every one closes to its page, stays clear of the paper's edge, and has the
 * published dimensions. */
#include "layout/stock.h"

#include "input/xml.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static const StockSet *shipped(Arena *arena) {
    Diagnostics diagnostics = diagnostics_new(arena);
    const Element *root = xml_read(&diagnostics, "templates/stock.xml", NULL);
    assert_non_null(root);
    const StockSet *set = stock_read(arena, root, &diagnostics);
    diagnostics_print(&diagnostics, stderr);
    assert_non_null(set);
    return set;
}

/* Nominal sizes of die-cut sheets as sold by dimensions (A4 3 by 7 and Letter 2 by 5 looked up,
 * the others from memory); the printable widths of rolls from memory. */
static void dimensions_are_the_published_ones(void **state) {
    static const struct {
        const char *name;
        int count;
        double page_width_mm, width_mm, height_mm;
    } rows[] = {
        {"a4-21", 21, 210, 63.5, 38.1},
        {"a4-8", 8, 210, 99.1, 67.7},
        {"a4-14", 14, 210, 99.1, 38.1},
        {"a4-10", 10, 210, 99.1, 57},
        {"a4-6", 6, 210, 99.1, 93.1},
        {"a4-4", 4, 210, 99.1, 139},
        {"a4-12", 12, 210, 63.5, 72},
        {"a4-24", 24, 210, 70, 37},
        {"a4-65", 65, 210, 38.1, 21.2},
        {"a4-4-whole", 4, 210, 105, 148},
        {"a4-1", 1, 210, 199.6, 289.1},
        {"letter-30", 30, 215.9, 66.675, 25.4},
        {"letter-10", 10, 215.9, 101.6, 50.8},
        {"letter-6", 6, 215.9, 101.6, 84.667},
        {"letter-14", 14, 215.9, 101.6, 33.867},
        {"roll-62", 1, 62, 62, 250},
        {"roll-100x150", 1, 100, 100, 150},
        {"roll-102x152", 1, 101.6, 101.6, 152.4},
    };
    const StockSet *set = shipped(*state);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const Stock *stock = stock_find(set, rows[i].name);
        assert_non_null(stock);
        assert_int_equal(stock_count(stock), rows[i].count);
        assert_true(fabs(stock->page_width_mm - rows[i].page_width_mm) < 1e-9);
        assert_true(fabs(stock->label_width_mm - rows[i].width_mm) < 1e-9);
        assert_true(fabs(stock->label_height_mm - rows[i].height_mm) < 1e-9);
    }
}

static bool apart(Box one, Box other) {
    double slip_mm = 1e-6;
    return one.x_mm + one.width_mm <= other.x_mm + slip_mm ||
           other.x_mm + other.width_mm <= one.x_mm + slip_mm ||
           one.y_mm + one.height_mm <= other.y_mm + slip_mm ||
           other.y_mm + other.height_mm <= one.y_mm + slip_mm;
}

static void check_stock(const Stock *stock) {
    Box first = stock_label(stock, 0);
    Box last = stock_label(stock, stock_count(stock) - 1);
    double right_mm = stock->page_width_mm - last.x_mm - last.width_mm;
    double foot_mm = stock->page_height_mm - last.y_mm - last.height_mm;
    if (fabs(right_mm - first.x_mm) > STOCK_CLOSES_MM ||
        fabs(foot_mm - first.y_mm) > STOCK_CLOSES_MM)
        fail_msg("'%s' does not close to its page", stock->name);
    for (int i = 0; i < stock_count(stock); i++) {
        Box inside = stock_inside(stock, stock_label(stock, i), 2);
        double over_mm = STOCK_CLOSES_MM;
        assert_true(inside.x_mm >= stock->edge_mm - over_mm);
        assert_true(inside.x_mm + inside.width_mm <=
                    stock->page_width_mm - stock->edge_mm + over_mm);
        assert_true(stock->roll || inside.y_mm >= stock->edge_mm - over_mm);
        assert_true(stock->roll || inside.y_mm + inside.height_mm <=
                                       stock->page_height_mm - stock->edge_mm + over_mm);
        for (int j = 0; j < i; j++)
            assert_true(apart(stock_label(stock, i), stock_label(stock, j)));
    }
}

static void every_stock_closes_and_keeps_clear_of_the_edge(void **state) {
    const StockSet *set = shipped(*state);
    assert_true(set->stocks.count >= 20);
    for (size_t i = 0; i < set->stocks.count; i++)
        check_stock(&set->stocks.items[i]);
}

static void faults_are_reported(void **state) {
    Arena *arena = *state;
    static const char text[] =
        "<stock><sheet/><sheet name=\"a\" page-width=\"210 mm\" page-height=\"297 mm\" "
        "width=\"63.5 mm\" "
        "height=\"38.1 mm\" columns=\"3\" rows=\"7.5\" left=\"8 mm\" top=\"15.15 mm\" "
        "across=\"2.54 mm\" down=\"0\" edge=\"5 mm\" colour=\"red\"/>"
        "<roll name=\"r\" width=\"62 mm\" printable=\"70 mm\" length=\"90 mm\"/>"
        "<roll name=\"r\" width=\"62 mm\" printable=\"58 mm\" length=\"90 mm\"/>"
        "<roll name=\"s\" width=\"62 mm\" printable=\"58 mm\" most=\"90 mm\"/>"
        "<roll name=\"t\" width=\"62 mm\" printable=\"58 mm\" least=\"9 cm\" most=\"2 in\"/>"
        "<tape/></stock>";
    Diagnostics diagnostics = diagnostics_new(arena);
    const Element *root = xml_parse(&diagnostics, "stock.xml", text, strlen(text));
    assert_non_null(root);
    assert_null(stock_read(arena, root, &diagnostics));
    Text all = text_new(arena);
    diagnostics_add_to(&diagnostics, &all);
    static const char *const parts[] = {
        "'a' does not close across: 2 margins of 8 mm, 3 labels of 63.5 mm",
        "211.58 mm, the page has 210 mm",
        "'7.5' is not a whole number",
        "'0' has no unit",
        "unknown attribute 'colour' in 'sheet'",
        "'printable' is more than 'width'",
        "'roll' has a length, or a least and a most",
        "'least' is more than 'most'",
        "'sheet' without its 'name'",
        "stock 'r' is there twice",
        "unknown element 'tape' in 'stock'"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (!strstr(all.bytes, parts[i]))
            fail_msg("'%s' is not in:\n%s", parts[i], all.bytes);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(dimensions_are_the_published_ones),
        CASE(every_stock_closes_and_keeps_clear_of_the_edge),
        CASE(faults_are_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
