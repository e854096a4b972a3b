/* The net quantity by law: its figures, and by US law its letters, are as high as asked on every
 * stock, measured on their outlines; by US law nothing is printed near them. */
#include "support/bag_maker.h"
#include "support/marks.h"

#include "model/net_quantity.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static uint32_t at_offset(const uint8_t *bytes, size_t offset, int count) {
    uint32_t value = 0;
    for (int i = 0; i < count; i++)
        value = value << 8 | bytes[offset + (size_t)i];
    return value;
}

/* The highest point of a letter's outline, mm, read from the box that `glyf` gives it. */
static double outline_mm(const Face *face, char letter, double size_pt) {
    size_t length = 0;
    const uint8_t *head = face_table(face, "head", &length);
    const uint8_t *loca = face_table(face, "loca", &length);
    const uint8_t *glyf = face_table(face, "glyf", &length);
    size_t glyph = face_glyph(face, (uint32_t)letter);
    bool wide = at_offset(head, 50, 2) == 1;
    size_t at = wide ? at_offset(loca, glyph * 4, 4) : at_offset(loca, glyph * 2, 2) * 2;
    double units = at_offset(head, 18, 2);
    return (int16_t)at_offset(glyf, at + 8, 2) / units * size_pt * 25.4 / 72;
}

static bool is_quantity(const Mark *mark) {
    const char *string = mark->kind == MARK_TEXT ? mark->as.text.string : "";
    return mark->kind == MARK_TEXT && mark->as.text.face == FACE_BOLD &&
           (strstr(string, "NET") || strstr(string, "OZ") || strchr(string, '('));
}

/* Of the two labels that a bag takes on small stock, the first has the quantity. */
static bool on_first(const Mark *mark) {
    return strcmp(mark->owner, "label 1") == 0;
}

/* 16 CFR 500.21: small letters, where there are any, are as high as asked, and no other print is
 * nearer than the height of the lettering above and below, twice the width of its N beside. */
static void check_us_quantity(BagMaker *maker, const Page *page, const char *stock,
                              double asked_mm) {
    const Face *face = maker->request.faces->faces[FACE_BOLD];
    int found = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (!is_quantity(mark))
            continue;
        found++;
        double size_pt = mark->as.text.size_pt;
        assert_true(outline_mm(face, 'x', size_pt) >= asked_mm);
        assert_true(outline_mm(face, 'o', size_pt) >= asked_mm);
        assert_true(outline_mm(face, 'N', size_pt) >= asked_mm);
        double up_mm = outline_mm(face, 'N', size_pt),
               beside_mm = 2 * face_width_mm(face, "N", size_pt);
        Box ink = bag_maker_ink(maker, mark);
        Box clear = {ink.x_mm - beside_mm, ink.y_mm - up_mm, ink.width_mm + 2 * beside_mm,
                     2 * up_mm + mark->as.text.baseline.y_mm - ink.y_mm};
        for (size_t j = 0; j < page->marks.count; j++) {
            const Mark *other = &page->marks.items[j];
            if (other->kind == MARK_TEXT && !is_quantity(other) && on_first(other) &&
                !boxes_apart(bag_maker_ink(maker, other), clear))
                fail_msg("%s: '%s' is too near to '%s'", stock, other->as.text.string,
                         mark->as.text.string);
        }
    }
    assert_true(found > 0);
}

/* Faces of a bag by their area: 16 CFR 500.21, in the metric twins of NIST Handbook 130. */
static void us_quantities_stand_clear_and_high_enough_on_every_stock(void **state) {
    (void)state;
    static const double heights_mm[] = {1.6, 3.2, 4.8, 6.4};
    BagMaker *all = bag_maker("en");
    int laid_out[4] = {0};
    for (size_t stock = 0; stock < all->request.stocks->stocks.count; stock++)
        for (size_t i = 0; i < sizeof heights_mm / sizeof *heights_mm; i++) {
            BagMaker *maker = bag_maker("en");
            const char *name = all->request.stocks->stocks.items[stock].name;
            maker->workshop->market = MARKET_US;
            bag_maker_add(maker, name, 0.25, 1, 1)->figure_height_m = heights_mm[i] / 1000;
            if (bag_maker_lay_out(maker)) {
                laid_out[i]++;
                check_us_quantity(maker, maker->document->pages.items[0], name, heights_mm[i]);
            }
            bag_maker_free(maker);
        }
    bag_maker_free(all);
    assert_true(laid_out[0] >= 15 && laid_out[3] >= 10);
}

/* The least type size of the figures that stand on the page in bold before a unit. */
static double figures_pt(BagMaker *maker, const char *figures) {
    const Page *page = maker->document->pages.items[0];
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && mark->as.text.face == FACE_BOLD &&
            strncmp(mark->as.text.string, figures, strlen(figures)) == 0)
            return mark->as.text.size_pt;
    }
    fail_msg("no figures '%s'", figures);
    return 0;
}

/* Rows of Directive 76/211/EEC, annex I 3.1, and of National Trade Measurement Regulations 2009,
 * 4.12 (by the longest side of the pack). */
static void figures_are_high_enough_on_every_stock(void **state) {
    (void)state;
    static const struct {
        Market market;
        double net_kg, side_m;
        const char *figures;
        double asked_mm;
    } rows[] = {{MARKET_EU, 0.05, NOT_STATED, "50", 2},  {MARKET_UK, 0.2, NOT_STATED, "200", 3},
                {MARKET_EU, 0.5, NOT_STATED, "500", 4},  {MARKET_UK, 2, NOT_STATED, "2", 6},
                {MARKET_AU, 0.5, 0.12, "500", 2},        {MARKET_AU, 0.5, 0.3, "500", 3.3},
                {MARKET_AU, 0.5, NOT_STATED, "500", 4.8}};
    BagMaker *all = bag_maker("en");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (size_t stock = 0; stock < all->request.stocks->stocks.count; stock++) {
            BagMaker *maker = bag_maker("en");
            maker->workshop->market = rows[i].market;
            bag_maker_add(maker, all->request.stocks->stocks.items[stock].name, rows[i].net_kg, 1,
                          1)
                ->figure_height_m = net_quantity_figure_height_m(rows[i].market, rows[i].net_kg,
                                                                 rows[i].side_m, rows[i].side_m);
            const Face *face = maker->request.faces->faces[FACE_BOLD];
            if (bag_maker_lay_out(maker))
                for (const char *at = rows[i].figures; *at; at++)
                    assert_true(outline_mm(face, *at, figures_pt(maker, rows[i].figures)) >=
                                rows[i].asked_mm);
            bag_maker_free(maker);
        }
    bag_maker_free(all);
}

/* NIST Handbook 130, UPLR 8.1: what has to be on a package is on it in English. */
static void a_us_label_is_refused_in_another_language(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("de");
    maker->workshop->market = MARKET_US;
    bag_maker_add(maker, "letter-6", 0.25, 1, 1);
    assert_false(bag_maker_lay_out(maker));
    assert_non_null(strstr(bag_maker_reports(maker), "in English, not in 'de'"));
    assert_non_null(strstr(bag_maker_reports(maker), "language=\"en\""));
    bag_maker_free(maker);
}

/* 2 mm from any other print and from the limits of the package: Western Australia's Trade
 * Measurement Regulations 2007, regulation 77, which the national ones of 2009 took over in 4.11
 * (from memory). */
static void check_au_quantity(BagMaker *maker, const Page *page, const Stock *stock) {
    const double clear_mm = 2;
    Box label = stock_label(stock, 0);
    label.height_mm = stock->roll ? page->height_mm : label.height_mm;
    int found = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT || strncmp(mark->as.text.string, "250", 3) != 0)
            continue;
        found++;
        Box ink = bag_maker_ink(maker, mark);
        assert_true(ink.x_mm - label.x_mm >= clear_mm - 1e-6);
        assert_true(label.x_mm + label.width_mm - ink.x_mm - ink.width_mm >= clear_mm - 1e-6);
        assert_true(label.y_mm + label.height_mm - mark->as.text.baseline.y_mm >= clear_mm);
        Box clear = {ink.x_mm - clear_mm, ink.y_mm - clear_mm, ink.width_mm + 2 * clear_mm,
                     ink.height_mm + 2 * clear_mm};
        for (size_t j = 0; j < page->marks.count; j++) {
            const Mark *other = &page->marks.items[j];
            if (j != i && on_first(other) && !boxes_apart(bag_maker_ink(maker, other), clear))
                fail_msg("%s: '%s' is too near to the quantity", stock->name,
                         other->kind == MARK_TEXT ? other->as.text.string : "a line");
        }
    }
    assert_int_equal(found, 1);
}

static void an_australian_quantity_stands_clear_on_every_stock(void **state) {
    (void)state;
    static const char *const spoken[] = {"en", "de", "pl"};
    BagMaker *all = bag_maker("en");
    size_t laid_out = 0;
    for (size_t n = 0; n < all->request.stocks->stocks.count; n++) {
        BagMaker *maker = bag_maker(spoken[n % 3]);
        const Stock *stock = &maker->request.stocks->stocks.items[n];
        maker->workshop->market = MARKET_AU;
        bag_maker_add(maker, stock->name, 0.25, 1, 1)->figure_height_m = 0.0025;
        if (bag_maker_lay_out(maker)) {
            laid_out++;
            check_au_quantity(maker, maker->document->pages.items[0], stock);
        }
        bag_maker_free(maker);
    }
    assert_true(laid_out >= all->request.stocks->stocks.count * 3 / 4);
    bag_maker_free(all);
}

/* The e-mark's box, the only sign beside the figures; height 0: there is none. */
static Box e_mark_box(BagMaker *maker) {
    const Page *page = maker->document->pages.items[0];
    Box figures = {0}, found = {0};
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        Box box = mark_box(mark, maker->request.faces);
        if (mark->kind == MARK_TEXT && strncmp(mark->as.text.string, "250", 3) == 0)
            figures = bag_maker_ink(maker, mark);
        bool beside = mark->kind == MARK_PATH && on_first(mark) && figures.width_mm > 0 &&
                      box.x_mm >= figures.x_mm + figures.width_mm && box.width_mm < 6;
        if (beside && box.height_mm > found.height_mm)
            found = box;
    }
    /* in one field of view: on the line of the figures, right beside them */
    if (found.height_mm > 0) {
        assert_true(found.x_mm - figures.x_mm - figures.width_mm < figures.height_mm);
        assert_true(found.y_mm < figures.y_mm + figures.height_mm &&
                    found.y_mm + found.height_mm > figures.y_mm);
    }
    return found;
}

/* At least 3 mm high: Directive 76/211/EEC, annex I 3.3 (net_quantity_height.csv, e_mark). */
static void the_e_mark_is_3_mm_high_on_every_stock_and_only_where_asked(void **state) {
    (void)state;
    BagMaker *all = bag_maker("en");
    size_t marked = 0;
    for (size_t n = 0; n < 2 * all->request.stocks->stocks.count; n++) {
        BagMaker *maker = bag_maker("en");
        bag_maker_add(maker, all->request.stocks->stocks.items[n / 2].name, 0.25, 1, 1)->e_mark =
            n % 2 == 1;
        if (bag_maker_lay_out(maker)) {
            Box box = e_mark_box(maker);
            assert_true(n % 2 == 1 ? box.height_mm >= 3 : box.height_mm == 0);
            marked += n % 2;
        }
        bag_maker_free(maker);
    }
    assert_true(marked >= all->request.stocks->stocks.count * 3 / 4);
    bag_maker_free(all);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_are_high_enough_on_every_stock),
        cmocka_unit_test(a_us_label_is_refused_in_another_language),
        cmocka_unit_test(an_australian_quantity_stands_clear_on_every_stock),
        cmocka_unit_test(the_e_mark_is_3_mm_high_on_every_stock_and_only_where_asked),
        cmocka_unit_test(us_quantities_stand_clear_and_high_enough_on_every_stock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
