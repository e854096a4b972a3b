/* Bag labels: what the law wants is on each and high enough, nothing leaves its label or covers
 * another text, and what cannot be printed is refused with a way out. */
#include "support/bag_maker.h"
#include "support/marks.h"

#include "input/xml.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const languages[] = {"en", "de", "pl"};

enum { LANGUAGES = sizeof languages / sizeof *languages };

/* All texts of a page, run together without blanks, as they stand in reading order. */
static const char *page_text(BagMaker *maker, size_t index) {
    const Page *page = maker->document->pages.items[index];
    Text text = text_new(maker->arena);
    for (size_t i = 0; i < page->marks.count; i++)
        if (page->marks.items[i].kind == MARK_TEXT)
            text_addf(&text, "%s\n", page->marks.items[i].as.text.string);
    return text.bytes;
}

/* Whether it is in the text, whatever kind of blanks stand there. */
static bool holds(const char *text, const char *part) {
    for (; *text; text++) {
        const char *at = text, *wanted = part;
        while (*wanted && (*at == *wanted || strncmp(at, "\u00a0", 2) == 0)) {
            bool held = strncmp(at, "\u00a0", 2) == 0;
            bool asked = strncmp(wanted, "\u00a0", 2) == 0;
            if (held && !asked && *wanted != ' ')
                break;
            at += held ? 2 : 1;
            wanted += asked ? 2 : 1;
        }
        if (!*wanted)
            return true;
    }
    return false;
}

static void assert_holds(const char *text, const char *part) {
    if (!holds(text, part))
        fail_msg("'%s' is not in:\n%s", part, text);
}

static void assert_laid_out(BagMaker *maker) {
    if (!bag_maker_lay_out(maker))
        fail_msg("%s", bag_maker_reports(maker));
}

static void assert_refused(BagMaker *maker, const char *part) {
    assert_false(bag_maker_lay_out(maker));
    assert_holds(bag_maker_reports(maker), part);
    assert_int_equal(maker->document->pages.count, 0);
}

static void what_has_to_be_on_a_bag_is_on_it(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-8", 0.25, 1, 1);
    assert_laid_out(maker);
    static const char *const parts[] = {"Beech and cherry",
                                        "Beech\xC2\xA0"
                                        "70\xE2\x80\xAF%",
                                        "Cherry\xC2\xA0"
                                        "30\xE2\x80\xAF%",
                                        "250\xE2\x80\xAFg",
                                        "310\xE2\x80\xAFµm to 1.1\xE2\x80\xAFmm",
                                        "Grain, middle 80\xE2\x80\xAF%",
                                        "Moisture on 19 Nov 2026",
                                        "8.6\xE2\x80\xAF% of dry wood",
                                        "4 Dec 2026",
                                        "L26338-7V",
                                        "Toad Ditch Smokehouse",
                                        "2 Toad Ditch, Kilbrannock",
                                        "post@toadditch.example",
                                        "Not food. For smouldering outdoors.",
                                        "WARNING",
                                        "carbon monoxide",
                                        "CAUTION",
                                        "Fine dust",
                                        "Keep dry and sealed",
                                        "Untreated wood only"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        assert_holds(page_text(maker, 0), parts[i]);
    bag_maker_free(maker);
}

static void what_was_not_declared_is_not_claimed(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    PlanBag *bag = bag_maker_add(maker, "a4-8", 0.25, 1, 1);
    bag->untreated = false;
    bag->basis = BASIS_WET;
    bag->grain_declared = true;
    bag->grain_from_m = 410e-6;
    bag->grain_to_m = 1.25e-3;
    bag->measured = (Date){0};
    maker->workshop->maker.contact = NULL;
    assert_laid_out(maker);
    assert_null(strstr(page_text(maker, 0), "80"));
    assert_null(strstr(page_text(maker, 0), "Moisture on"));
    assert_holds(page_text(maker, 0), "410\xE2\x80\xAFµm to 1.25\xE2\x80\xAFmm");
    assert_null(strstr(page_text(maker, 0), "ntreated"));
    assert_null(strstr(page_text(maker, 0), "of dry wood"));
    assert_holds(page_text(maker, 0), "8.0\xE2\x80\xAF% of the whole");
    bag_maker_free(maker);
}

/* "Untreated wood only" would say nothing about the herbs. */
static void herbs_are_declared_beside_the_wood(void **state) {
    (void)state;
    static const char *const said[] = {"wood and herbs only", "Holz und Kräuter", "drewno i zioła"};
    for (size_t i = 0; i < LANGUAGES; i++) {
        BagMaker *maker = bag_maker(languages[i]);
        PlanBag *bag = bag_maker_add(maker, "a4-8", 0.25, 1, 1);
        bag->herbs = true;
        assert_laid_out(maker);
        assert_holds(page_text(maker, 0), said[i]);
        bag_maker_free(maker);
    }
}

/* The y of the baseline of the first text that begins so. */
static double baseline_of(BagMaker *maker, const char *start) {
    const Page *page = maker->document->pages.items[0];
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && strncmp(mark->as.text.string, start, strlen(start)) == 0)
            return mark->as.text.baseline.y_mm;
    }
    fail_msg("no text '%s'", start);
    return 0;
}

/* The yellow or grey face of the triangle: the first filled path that is no line. */
static Box triangle_box(BagMaker *maker) {
    const Page *page = maker->document->pages.items[0];
    for (size_t i = 0; i < page->marks.count; i++) {
        Box box = mark_box(&page->marks.items[i], maker->request.faces);
        if (page->marks.items[i].kind == MARK_PATH && box.height_mm > 2)
            return box;
    }
    fail_msg("no triangle");
    return (Box){0};
}

/* ISO 3864-2 and ANSI Z535.4 set the sign beside the signal word, which comes first. */
static void the_warning_comes_first_with_its_triangle_beside_it(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-8", 0.25, 1, 1);
    assert_laid_out(maker);
    double warning_mm = baseline_of(maker, "WARNING");
    assert_true(warning_mm < baseline_of(maker, "CAUTION"));
    assert_true(warning_mm < baseline_of(maker, "Not food"));
    Box triangle = triangle_box(maker);
    assert_true(triangle.y_mm < warning_mm && triangle.y_mm + triangle.height_mm > warning_mm);
    bag_maker_free(maker);
}

/* The type size in which a text is set that begins so. */
static double size_of(BagMaker *maker, const char *start, FaceRole *face) {
    const Page *page = maker->document->pages.items[0];
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && strncmp(mark->as.text.string, start, strlen(start)) == 0) {
            *face = mark->as.text.face;
            return mark->as.text.size_pt;
        }
    }
    fail_msg("no text '%s'", start);
    return 0;
}

/* The bands of Directive 76/211/EEC, annex I 3.1 (looked up), on the smallest stock with the
 * longest text that it takes, so that the figures are as small as they ever get. All figures of
 * the shipped bold face reach exactly its cap height, 1456 of 2048 units (read from the file with
 * fontTools), or overshoot it. */
static void figures_are_as_high_as_the_law_asks(void **state) {
    (void)state;
    static const struct {
        double net_kg;
        const char *text;
        double height_mm;
    } rows[] = {
        {0.05, "50", 2},   {0.051, "51", 3}, {0.2, "200", 3}, {0.201, "201", 4},
        {0.999, "999", 4}, {1, "1", 6},      {2.5, "2.5", 6},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        BagMaker *maker = bag_maker("en");
        maker->batch->blend.name = "Beech and cherry for hard cheese";
        bag_maker_add(maker, "a4-14", rows[i].net_kg, 1, 1);
        assert_laid_out(maker);
        FaceRole face = FACE_REGULAR;
        double size_pt = size_of(maker, rows[i].text, &face);
        double height_mm = face_cap_height_mm(maker->request.faces->faces[face], size_pt);
        if (height_mm < rows[i].height_mm)
            fail_msg("%s: %g mm, not %g mm", rows[i].text, height_mm, rows[i].height_mm);
        bag_maker_free(maker);
    }
}

/* A quantity that the law wants higher than the stock could show it in any other way. */
static void the_height_of_the_figures_never_gives_way(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    PlanBag *bag = bag_maker_add(maker, "a4-8", 0.25, 1, 1);
    bag->figure_height_m = 0.0127;
    assert_laid_out(maker);
    FaceRole face = FACE_REGULAR;
    double size_pt = size_of(maker, "250", &face);
    assert_true(face_cap_height_mm(maker->request.faces->faces[face], size_pt) >= 12.7);
    bag_maker_free(maker);
}

static bool clamp(Box inner, Box outer, double slip_mm) {
    return inner.x_mm >= outer.x_mm - slip_mm && inner.y_mm >= outer.y_mm - slip_mm &&
           inner.x_mm + inner.width_mm <= outer.x_mm + outer.width_mm + slip_mm &&
           inner.y_mm + inner.height_mm <= outer.y_mm + outer.height_mm + slip_mm;
}

/* Nothing leaves its label or what may be printed on, no two texts touch, none is under its least
 * size. */
static void check_page(BagMaker *maker, const Page *page, const Stock *stock) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        int number = 0;
        if (sscanf(mark->owner, "label %d", &number) != 1)
            continue;
        Box label = stock_label(stock, number - 1);
        label.height_mm = stock->roll ? page->height_mm : label.height_mm;
        const LabelPatterns *patterns = &maker->request.patterns;
        const Pattern *pattern = stock->pair ? patterns->second : patterns->whole;
        Box inside = stock_inside(stock, label, pattern->least_margin_mm);
        double line_mm = mark->kind == MARK_PATH ? mark->as.path.style.line_mm : 0;
        if (!clamp(mark_box(mark, maker->request.faces), label, 0) ||
            !clamp(bag_maker_ink(maker, mark), inside, 0.05 + line_mm / 2))
            fail_msg("%s: mark %zu of label %d leaves it: %s", stock->name, i, number,
                     mark->kind == MARK_TEXT ? mark->as.text.string : "path");
        if (mark->kind != MARK_TEXT)
            continue;
        double least_pt = stock->pair ? LABEL_SECOND_LEAST_PT : LABEL_LEAST_PT;
        assert_true(mark->as.text.size_pt >= least_pt - 1e-9);
        for (size_t j = 0; j < i; j++)
            if (page->marks.items[j].kind == MARK_TEXT &&
                !boxes_apart(bag_maker_ink(maker, mark),
                             bag_maker_ink(maker, &page->marks.items[j])))
                fail_msg("%s: '%s' covers '%s'", stock->name, mark->as.text.string,
                         page->marks.items[j].as.text.string);
    }
}

static void check_stock(const char *language, size_t index, double net_kg, const char *name,
                        UnitSystem units, int *laid_out) {
    BagMaker *maker = bag_maker(units == UNITS_US ? "en" : language); /* US labels are in English */
    const Stock *stock = &maker->request.stocks->stocks.items[index];
    maker->batch->blend.name = name;
    maker->locale.units = units;
    maker->workshop->market = units == UNITS_US ? MARKET_US : MARKET_EU;
    bag_maker_add(maker, stock->name, net_kg, 2, 1);
    if (bag_maker_lay_out(maker)) {
        ++*laid_out;
        for (size_t i = 0; i < maker->document->pages.count; i++)
            check_page(maker, maker->document->pages.items[i], stock);
    } else {
        assert_holds(bag_maker_reports(maker), "does not fit on stock");
        assert_int_equal(maker->document->pages.count, 0);
    }
    bag_maker_free(maker);
}

static void every_stock_holds_its_labels_or_says_that_it_cannot(void **state) {
    (void)state;
    static const char *const names[] = {
        "Oak", "Beech and cherry",
        "Beech, apple, cherry and a little charred oak residue for hard cheese that ages long"};
    BagMaker *maker = bag_maker("en");
    size_t stocks = maker->request.stocks->stocks.count;
    bag_maker_free(maker);
    int tried = 0, laid_out = 0;
    for (size_t stock = 0; stock < stocks; stock++)
        for (size_t name = 0; name < sizeof names / sizeof *names; name++, tried++)
            check_stock(languages[(stock + name) % LANGUAGES], stock, name == 1 ? 1.25 : 0.05,
                        names[name], (stock + name) % 4 ? UNITS_METRIC : UNITS_US, &laid_out);
    assert_true(laid_out > tried * 3 / 4);
}

/* A common bag on every stock, by every market's law and in every language. */
static void no_text_covers_another_on_any_stock_market_or_language(void **state) {
    (void)state;
    static const Market markets[] = {MARKET_EU, MARKET_UK, MARKET_US, MARKET_AU};
    BagMaker *all = bag_maker("en");
    for (size_t i = 0; i < all->request.stocks->stocks.count; i++)
        for (size_t n = 0; n < LANGUAGES * 4; n++) {
            if (markets[n / LANGUAGES] == MARKET_US && n % LANGUAGES > 0)
                continue; /* US labels are in English */
            BagMaker *maker = bag_maker(languages[n % LANGUAGES]);
            const Stock *stock = &maker->request.stocks->stocks.items[i];
            maker->workshop->market = markets[n / LANGUAGES];
            bag_maker_add(maker, stock->name, 0.25, 1, 1);
            if (bag_maker_lay_out(maker))
                check_page(maker, maker->document->pages.items[0], stock);
            else
                assert_holds(bag_maker_reports(maker), "does not fit on stock");
            bag_maker_free(maker);
        }
    bag_maker_free(all);
}

/* Every position of every stock: each mark within its own label, and so over no other. */
static void no_label_leaves_its_place_on_any_stock(void **state) {
    (void)state;
    BagMaker *all = bag_maker("en");
    size_t pages = 0;
    for (size_t i = 0; i < all->request.stocks->stocks.count; i++) {
        BagMaker *maker = bag_maker(languages[i % LANGUAGES]);
        const Stock *stock = &maker->request.stocks->stocks.items[i];
        PlanBag *bag =
            bag_maker_add(maker, stock->name, 0.1, stock_count(stock) / stock_for_bag(stock), 1);
        ((BagOrder *)bag->order)->numbered = true;
        bag->numbered_in_all = bag->count;
        bag->e_mark = true;
        bag->dust_lots = "B-2611, C-2609";
        bag->dry_until = (Date){2027, 6, 2};
        if (bag_maker_lay_out(maker)) {
            assert_int_equal(maker->document->pages.count, 1);
            check_page(maker, maker->document->pages.items[0], stock);
            pages++;
        } else
            assert_holds(bag_maker_reports(maker), "does not fit on stock");
        bag_maker_free(maker);
    }
    assert_true(pages >= all->request.stocks->stocks.count * 3 / 4);
    bag_maker_free(all);
}

static void usual_stock_takes_usual_bags_in_every_language(void **state) {
    (void)state;
    static const char *const usual[] = {"a4-8",      "a4-21",   "a4-14",
                                        "letter-10", "roll-62", "roll-100x150"};
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        for (size_t language = 0; language < LANGUAGES; language++) {
            BagMaker *maker = bag_maker(languages[language]);
            bag_maker_add(maker, usual[i], 0.25, 1, 1);
            assert_laid_out(maker);
            bag_maker_free(maker);
        }
    }
}

static void labels_fill_pages_from_the_first_free_one(void **state) {
    (void)state;
    static const struct {
        const char *stock;
        int count, first;
        size_t pages;
        int on_first; /* labels on the first page */
    } rows[] = {
        {"a4-8", 6, 3, 1, 6},  {"a4-8", 6, 4, 2, 5},   {"a4-8", 16, 1, 2, 8},
        {"a4-8", 17, 1, 3, 8}, {"a4-21", 1, 21, 1, 1}, {"roll-62", 3, 1, 3, 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        BagMaker *maker = bag_maker("en");
        bag_maker_add(maker, rows[i].stock, 0.25, rows[i].count, rows[i].first);
        assert_laid_out(maker);
        assert_int_equal(maker->document->pages.count, rows[i].pages);
        int found = 0;
        const char *text = page_text(maker, 0);
        for (const char *at = text; (at = strstr(at, "L26338-7V")) != NULL; at++)
            found++;
        assert_int_equal(found, rows[i].on_first);
        bag_maker_free(maker);
    }
}

static void orders_on_the_same_stock_share_a_page(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-8", 0.25, 3, 1);
    bag_maker_add(maker, "a4-8", 0.5, 5, 1);
    bag_maker_add(maker, "a4-8", 1, 1, 1);
    bag_maker_add(maker, "a4-8", 1, 1, 5);
    bag_maker_add(maker, "a4-21", 0.5, 1, 1);
    assert_laid_out(maker);
    assert_int_equal(maker->document->pages.count, 4);
    assert_holds(page_text(maker, 0), "500\xE2\x80\xAFg");
    assert_string_equal(maker->document->pages.items[0]->bookmark, "250\xE2\x80\xAFg");
    bag_maker_free(maker);
}

static void the_offset_moves_every_mark_alike(void **state) {
    (void)state;
    BagMaker *still = bag_maker("en");
    BagMaker *moved = bag_maker("en");
    bag_maker_add(still, "a4-21", 0.25, 21, 1);
    bag_maker_add(moved, "a4-21", 0.25, 21, 1);
    moved->request.options.offset_x_mm = 1.5;
    moved->request.options.offset_y_mm = -0.75;
    assert_laid_out(still);
    assert_laid_out(moved);
    const Page *one = still->document->pages.items[0];
    const Page *other = moved->document->pages.items[0];
    assert_int_equal(one->marks.count, other->marks.count);
    for (size_t i = 0; i < one->marks.count; i++) {
        Box from = mark_box(&one->marks.items[i], still->request.faces);
        Box to = mark_box(&other->marks.items[i], moved->request.faces);
        assert_true(fabs(to.x_mm - from.x_mm - 1.5) < 1e-9);
        assert_true(fabs(to.y_mm - from.y_mm + 0.75) < 1e-9);
    }
    bag_maker_free(still);
    bag_maker_free(moved);
}

static void outlines_are_drawn_when_asked_for(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-8", 0.25, 8, 1);
    maker->request.options.outlines = true;
    assert_laid_out(maker);
    const Page *page = maker->document->pages.items[0];
    int outlines = 0;
    for (size_t i = 0; i < page->marks.count; i++)
        outlines += strcmp(page->marks.items[i].owner, "outline") == 0 ? 1 : 0;
    assert_int_equal(outlines, 8);
    bag_maker_free(maker);
}

static void a_us_quantity_is_in_capitals_with_both_systems(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    maker->workshop->market = MARKET_US;
    bag_maker_add(maker, "letter-10", 0.25, 1, 1);
    assert_laid_out(maker);
    assert_holds(page_text(maker, 0), "NET WT 8.8\xE2\x80\xAFOZ (250\xE2\x80\xAFg)");
    bag_maker_free(maker);
}

static void what_cannot_be_printed_is_refused_with_a_way_out(void **state) {
    (void)state;
    static const struct {
        const char *stock, *name, *part;
        int first;
        double offset_mm;
    } rows[] = {
        {"a4-14",
         "Beech, apple, cherry, pear, plum, oak, alder and ash of the long hedge behind the lower "
         "meadow, felled in the winter before last, split, stacked and dried under a roof, milled "
         "in small lots and sieved twice, for hard cheese that is to be kept for a long time",
         "stock 'a4-24' (two labels a bag of 70 × 37 mm) would do", 1, 0},
        {"a4-65", "Oak", "takes two labels of stock 'a4-65', and label 65 is the page's last", 65,
         0},
        {"a4-9", "Oak", "did you mean 'a4-", 1, 0},
        {"a4-8", "Oak", "a page of stock 'a4-8' has no label 9", 9, 0},
        {"a4-8", "Oak", "moves the labels of stock 'a4-8' off the paper", 1, 12},
        {"a4-8", "Oak \xE6\x9C\xA8", "no character U+6728", 1, 0},
        {"a4-21", "Beechandcherryandappleandpearandplumandoakandalderandashwood",
         "word wider than it", 1, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        BagMaker *maker = bag_maker("en");
        maker->batch->blend.name = rows[i].name;
        maker->request.options.offset_x_mm = rows[i].offset_mm;
        bag_maker_add(maker, "a4-8", 0.25, 1, 1);
        bag_maker_add(maker, rows[i].stock, 0.25, 1, rows[i].first);
        assert_refused(maker, rows[i].part);
        bag_maker_free(maker);
    }
}

static void assert_faults(const char *text, const char *const *parts, size_t count) {
    BagMaker *maker = bag_maker("en");
    const Element *root = xml_parse(&maker->diagnostics, "label.xml", text, strlen(text));
    assert_non_null(root);
    assert_null(
        pattern_read(maker->arena, root, "label", maker->request.faces, &maker->diagnostics));
    for (size_t i = 0; i < count; i++)
        assert_holds(bag_maker_reports(maker), parts[i]);
    bag_maker_free(maker);
}

static void a_broken_template_is_reported_whole(void **state) {
    (void)state;
    static const char text[] =
        "<label margin=\"4 cm\"><style name=\"net\" size=\"3 pt\"/>"
        "<column><text words=\"label.name\" style=\"nam\"/><text txt=\"name\"/><row/>"
        "<canvas kind=\"moon\" style=\"net\"/><sign kind=\"sun\"/><vanish/></column></label>";
    static const char *const parts[] = {"'4 cm'",
                                        "type of '3 pt'",
                                        "unknown style 'nam'",
                                        "no attribute 'txt'",
                                        "'row' is empty",
                                        "unknown canvas 'moon'",
                                        "unknown sign 'sun'",
                                        "unexpected element 'vanish'"};
    assert_faults(text, parts, sizeof parts / sizeof *parts);
}

/* Each in a pattern that is whole but for it. */
static void what_the_law_wants_cannot_be_left_out_or_dropped(void **state) {
    (void)state;
    static const char text[] =
        "<label><style name=\"a\" size=\"9 pt\"/><column><text words=\"label.use\" style=\"a\""
        " drop=\"1\"/><text words=\"label.keep\" style=\"a\" when=\"lit\"/>"
        "<text words=\"label.quantity\" style=\"a\"/></column></label>";
    static const char *const parts[] = {
        "the words 'label.monoxide' have to be on every bag",
        "the words 'label.part' have to be on every bag",
        ("the words 'label.use' have to be on every bag: they are not when the night is lit, "
         "or are dropped"),
        "the words 'label.keep' have to be on every bag: they are not when the night is refused",
        "the figures of the quantity have to be as high as the law asks"};
    assert_faults(text, parts, sizeof parts / sizeof *parts);
}

/* The marks of one page as they were last accepted. */
static void marks_are_those_accepted(void **state) {
    (void)state;
    static const char accepted[] = "tests/layout/label-a4-8.marks";
    static const char made[] = ".build/label-a4-8.marks";
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-8", 0.25, 1, 1);
    assert_laid_out(maker);
    Text marks = text_new(maker->arena);
    marks_print(&marks, maker->document->pages.items[0]);
    FILE *file = fopen(made, "w");
    assert_non_null(file);
    fputs(marks.bytes, file);
    fclose(file);
    char command[200];
    snprintf(command, sizeof command, "diff -u %s %s >&2", accepted, made);
    if (system(command) != 0)
        fail_msg("the label looks otherwise; if it should: cp %s %s", made, accepted);
    bag_maker_free(maker);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_has_to_be_on_a_bag_is_on_it),
        cmocka_unit_test(what_was_not_declared_is_not_claimed),
        cmocka_unit_test(herbs_are_declared_beside_the_wood),
        cmocka_unit_test(the_warning_comes_first_with_its_triangle_beside_it),
        cmocka_unit_test(figures_are_as_high_as_the_law_asks),
        cmocka_unit_test(the_height_of_the_figures_never_gives_way),
        cmocka_unit_test(every_stock_holds_its_labels_or_says_that_it_cannot),
        cmocka_unit_test(no_text_covers_another_on_any_stock_market_or_language),
        cmocka_unit_test(no_label_leaves_its_place_on_any_stock),
        cmocka_unit_test(usual_stock_takes_usual_bags_in_every_language),
        cmocka_unit_test(labels_fill_pages_from_the_first_free_one),
        cmocka_unit_test(orders_on_the_same_stock_share_a_page),
        cmocka_unit_test(the_offset_moves_every_mark_alike),
        cmocka_unit_test(outlines_are_drawn_when_asked_for),
        cmocka_unit_test(a_us_quantity_is_in_capitals_with_both_systems),
        cmocka_unit_test(what_cannot_be_printed_is_refused_with_a_way_out),
        cmocka_unit_test(a_broken_template_is_reported_whole),
        cmocka_unit_test(what_the_law_wants_cannot_be_left_out_or_dropped),
        cmocka_unit_test(marks_are_those_accepted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
