/* The test page of every stock: outlines, numbers and crosses where stock.h has the labels, rulers
 * true to the millimetre, everything on the paper, no text over another. */
#include "layout/test_page.h"
#include "support/bag_maker.h"
#include "support/marks.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const languages[] = {"en", "de", "pl"};

/* The page of a stock in a document of its own. */
static const Page *page_of(BagMaker *maker, const Stock *stock, double x_mm, double y_mm) {
    Document *document = document_new(maker->arena, "test", "en");
    TestPage test = {stock, &maker->locale, maker->request.faces, x_mm, y_mm};
    assert_true(test_page_lay_out(&test, document, &maker->diagnostics));
    assert_int_equal(document->pages.count, 1);
    return document->pages.items[0];
}

static bool same(Box one, Box other) {
    return fabs(one.x_mm - other.x_mm) < 0.2 && fabs(one.y_mm - other.y_mm) < 0.2 &&
           fabs(one.width_mm - other.width_mm) < 0.4 && fabs(one.height_mm - other.height_mm) < 0.4;
}

static bool owned(const Mark *mark, const char *owner) {
    return strcmp(mark->owner, owner) == 0;
}

/* A rectangle as large as the label, crosses' lines, and its number within it. */
static void check_label(BagMaker *maker, const Page *page, const Stock *stock, int index) {
    const char *owner = arena_format(maker->arena, "label %d", index + 1);
    Box label = stock_label(stock, index);
    int outlines = 0, lines = 0, numbers = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (!owned(mark, owner))
            continue;
        Box box = mark_box(mark, maker->request.faces);
        if (mark->kind == MARK_TEXT) {
            assert_int_equal(atoi(mark->as.text.string), index + 1);
            assert_true(box.x_mm > label.x_mm && box.y_mm > label.y_mm &&
                        box.x_mm + box.width_mm < label.x_mm + label.width_mm &&
                        box.y_mm + box.height_mm < label.y_mm + label.height_mm);
            numbers++;
        } else {
            outlines += same(box, label);
            lines += !same(box, label);
        }
    }
    assert_int_equal(numbers, 1);
    assert_true(stock->roll || outlines == 1);
    assert_true(stock->roll || lines == 8);
}

static void check_texts(BagMaker *maker, const Page *page, const char *stock) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        Box ink = bag_maker_ink(maker, mark);
        if (ink.x_mm < -0.1 || ink.y_mm < -0.1 || ink.x_mm + ink.width_mm > page->width_mm + 0.1 ||
            ink.y_mm + ink.height_mm > page->height_mm + 0.1)
            fail_msg("%s: a mark of '%s' leaves the paper", stock, mark->owner);
        for (size_t j = 0; mark->kind == MARK_TEXT && j < i; j++) {
            const Mark *other = &page->marks.items[j];
            if (other->kind == MARK_TEXT && !boxes_apart(ink, bag_maker_ink(maker, other)))
                fail_msg("%s: '%s' covers '%s'", stock, mark->as.text.string,
                         other->as.text.string);
        }
    }
}

static void every_stock_shows_its_labels(void **state) {
    (void)state;
    for (size_t n = 0; n < 3; n++) {
        BagMaker *maker = bag_maker(languages[n]);
        for (size_t i = 0; i < maker->request.stocks->stocks.count; i++) {
            const Stock *stock = &maker->request.stocks->stocks.items[i];
            const Page *page = page_of(maker, stock, 0, 0);
            for (int label = 0; label < stock_count(stock); label++)
                check_label(maker, page, stock, label);
            check_texts(maker, page, stock->name);
        }
        bag_maker_free(maker);
    }
}

/* Offsets of a printer that feeds askew move all marks alike and are said, in 1/10 mm. */
static void the_offset_is_said_and_moves_the_labels(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    const Stock *stock = stock_find(maker->request.stocks, "a4-8");
    const Page *page = page_of(maker, stock, 1.5, -2);
    Box label = stock_label(stock, 2);
    label.x_mm += 1.5;
    label.y_mm -= 2;
    int found = 0, said = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        found += owned(mark, "label 3") && same(mark_box(mark, maker->request.faces), label);
        said += mark->kind == MARK_TEXT &&
                strstr(mark->as.text.string, "Offset 1.5 mm right, \u22122 mm down") != NULL;
    }
    assert_int_equal(found, 1);
    assert_int_equal(said, 1);
    bag_maker_free(maker);
}

/* The n-th line of a ruler stands n millimetres from the first; the first is a whole millimetre
 * from the paper's edge. */
static void check_ruler(const Page *page, BagMaker *maker, const char *owner, bool across) {
    double first_mm = NAN;
    int ticks = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (!owned(mark, owner) || mark->kind != MARK_PATH)
            continue;
        Box box = mark_box(mark, maker->request.faces);
        double at_mm = across ? box.x_mm + box.width_mm / 2 : box.y_mm + box.height_mm / 2;
        if (!ticks)
            first_mm = at_mm;
        assert_true(fabs(at_mm - first_mm - ticks) < 1e-6);
        ticks++;
    }
    assert_true(fabs(first_mm - round(first_mm)) < 1e-6);
    assert_true(ticks >= 35);
}

static void rulers_are_true(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    for (size_t i = 0; i < maker->request.stocks->stocks.count; i++) {
        const Page *page = page_of(maker, &maker->request.stocks->stocks.items[i], 0, 0);
        check_ruler(page, maker, "ruler across", true);
        check_ruler(page, maker, "ruler down", false);
        for (size_t k = 0; k < page->marks.count; k++) {
            const Mark *mark = &page->marks.items[k];
            if (!owned(mark, "ruler across") || mark->kind != MARK_TEXT)
                continue;
            Box box = mark_box(mark, maker->request.faces);
            double middle_mm = box.x_mm + box.width_mm / 2;
            assert_true(fabs(middle_mm - atoi(mark->as.text.string)) < 0.3);
        }
    }
    bag_maker_free(maker);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_stock_shows_its_labels),
        cmocka_unit_test(the_offset_is_said_and_moves_the_labels),
        cmocka_unit_test(rulers_are_true),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
