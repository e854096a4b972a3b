/* Small stock, on which a bag takes two labels: between them they say all that a bag has to, both
 * carry the lot, they follow each other on one sheet, and nothing leaves its label or covers
 * another text. */
#include "support/bag_maker.h"
#include "support/marks.h"

#include "model/net_quantity.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const char *const languages[] = {"en", "de", "pl"};
static const Market markets[] = {MARKET_EU, MARKET_UK, MARKET_US, MARKET_AU};
static const char *const longest_name =
    "Beech, apple, cherry and a little charred oak residue for hard cheese that ages long";

enum { LANGUAGES = 3, MARKETS = 4 };

/* The texts of a label run together, every blank a plain one. */
static const char *label_text(BagMaker *maker, const Page *page, int number) {
    const char *owner = arena_format(maker->arena, "label %d", number);
    Text text = text_new(maker->arena);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT || strcmp(mark->owner, owner) != 0)
            continue;
        for (const char *at = mark->as.text.string; *at; at++) {
            bool held = !strncmp(at, "\u00a0", 2);
            bool narrow = !strncmp(at, "\u202f", 3);
            text_add_bytes(&text, held || narrow ? " " : at, 1);
            at += narrow ? 2 : held ? 1 : 0;
        }
        text_add(&text, " ");
    }
    return text.bytes;
}

/* Blanks in a row count once; at a line's end one may stand or not. */
static bool says(const char *text, const char *part) {
    for (; *text; text++) {
        const char *at = text, *wanted = part;
        for (;;) {
            while (*at == ' ')
                at++;
            while (*wanted == ' ')
                wanted++;
            if (!*wanted)
                return true;
            if (*at != *wanted)
                break;
            at++, wanted++;
        }
    }
    return false;
}

/* What is said of the words, in full or in few. */
static bool says_word(BagMaker *maker, const char *text, const char *key) {
    const Words *words = maker->locale.words;
    const char *brief = words_fixed(words, arena_format(maker->arena, "%s_brief", key));
    return says(text, words_fixed(words, key)) || (brief && says(text, brief));
}

static bool says_any(const char *text, const char *const *parts, size_t count) {
    bool said = false;
    for (size_t i = 0; i < count; i++)
        said = said || says(text, parts[i]);
    return said;
}

static void assert_says(const char *text, const char *part) {
    if (!says(text, part))
        fail_msg("'%s' is not in: %s", part, text);
}

/* All cautions on the second label, what it is, quantity and maker on the first, the lot on both;
 * and however few the words, that carbon monoxide kills. */
static void check_pair(BagMaker *maker, const Page *page, int first, const char *name) {
    static const char *const cautions[] = {"label.monoxide", "label.fine_dust", "label.use",
                                           "label.keep",     "label.untreated", "signal.warning",
                                           "signal.caution"};
    static const char *const deadly[] = {"kills", "tötet", "tödlich", "zabija", "zabójczy"};
    const char *front = label_text(maker, page, first);
    const char *second = label_text(maker, page, first + 1);
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++)
        if (!says_word(maker, second, cautions[i]))
            fail_msg("'%s' is not on the second label: %s", cautions[i], second);
    assert_says(front, "L26338-7V");
    assert_says(second, "L26338-7V");
    assert_says(front, name);
    /* the identity of the commodity on the principal display panel: 16 CFR 500.4 */
    assert_true(says_word(maker, front, "label.kind"));
    assert_true(says_any(second, deadly, sizeof deadly / sizeof *deadly));
    assert_says(front, "Toad Ditch Smokehouse");
    assert_says(front, "post@toadditch.example");
    assert_says(second, "30");
}

/* Nothing leaves what may be printed of its label, no two texts have ink in common. */
static void check_marks(BagMaker *maker, const Page *page, const Stock *stock) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        int number = 0;
        assert_int_equal(sscanf(mark->owner, "label %d", &number), 1);
        Box label = stock_label(stock, number - 1);
        Box inside = stock_inside(stock, label, maker->request.patterns.front->least_margin_mm);
        Box ink = bag_maker_ink(maker, mark);
        if (ink.x_mm < inside.x_mm - 0.2 || ink.y_mm < inside.y_mm - 0.2 ||
            ink.x_mm + ink.width_mm > inside.x_mm + inside.width_mm + 0.2 ||
            ink.y_mm + ink.height_mm > inside.y_mm + inside.height_mm + 0.2)
            fail_msg("%s: a mark of label %d leaves it", stock->name, number);
        for (size_t j = 0; mark->kind == MARK_TEXT && j < i; j++)
            if (page->marks.items[j].kind == MARK_TEXT &&
                !boxes_apart(ink, bag_maker_ink(maker, &page->marks.items[j])))
                fail_msg("%s: '%s' covers '%s'", stock->name, mark->as.text.string,
                         page->marks.items[j].as.text.string);
    }
}

typedef struct Case {
    const char *language, *name;
    Market market;
    double net_kg, side_m; /* longest side of a square face */
    int first;
} Case;

/* Whether the two labels of a bag fit; when they do, that they are right. US labels are in
 * English. */
static bool check_case(size_t index, Case it) {
    BagMaker *maker = bag_maker(it.market == MARKET_US ? "en" : it.language);
    const Stock *stock = &maker->request.stocks->stocks.items[index];
    maker->batch->blend.name = it.name;
    maker->workshop->market = it.market;
    bag_maker_add(maker, stock->name, it.net_kg, 1, it.first)->figure_height_m =
        net_quantity_figure_height_m(it.market, it.net_kg, it.side_m, it.side_m);
    bool good = bag_maker_lay_out(maker);
    if (good) {
        const Page *page = maker->document->pages.items[0];
        check_marks(maker, page, stock);
        check_pair(maker, page, it.first, it.name);
    } else {
        assert_says(bag_maker_reports(maker), "of a bag's two labels does not fit on stock");
        assert_int_equal(maker->document->pages.count, 0);
    }
    bag_maker_free(maker);
    return good;
}

/* The pair stock among the shipped ones: as indices. */
static size_t pair_stocks(size_t *indices, size_t most) {
    BagMaker *maker = bag_maker("en");
    size_t count = 0;
    for (size_t i = 0; i < maker->request.stocks->stocks.count && count < most; i++)
        if (maker->request.stocks->stocks.items[i].pair)
            indices[count++] = i;
    bag_maker_free(maker);
    return count;
}

/* A bag of 50 to 250 g in a face of 10 by 10 cm is what such stock is for. Where the US law counts
 * the letters, of 3.2 mm there, and wants room about them, the two smallest may refuse. */
static void every_small_stock_takes_small_bags_in_every_language_and_market(void **state) {
    (void)state;
    size_t stocks[8];
    size_t count = pair_stocks(stocks, 8);
    assert_int_equal(count, 3);
    for (size_t i = 0; i < count; i++)
        for (size_t n = 0; n < LANGUAGES * MARKETS; n++) {
            Case it = {languages[n % LANGUAGES],
                       "Beech and cherry",
                       markets[n / LANGUAGES],
                       i == 1 ? 0.05 : 0.25,
                       0.1,
                       1};
            if (!check_case(stocks[i], it) && it.market != MARKET_US)
                fail_msg("stock %zu refuses a usual bag, language %s, market %d", i, it.language,
                         it.market);
        }
}

static void longest_texts_fit_or_are_refused(void **state) {
    (void)state;
    size_t stocks[8];
    size_t count = pair_stocks(stocks, 8), laid_out = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t n = 0; n < LANGUAGES * MARKETS; n++)
            laid_out += check_case(stocks[i], (Case){languages[n % LANGUAGES], longest_name,
                                                     markets[n / LANGUAGES], 1.25, 0.1, 3});
    assert_true(laid_out >= 12);
}

static uint32_t next_random(uint32_t *state) {
    *state = *state * 1664525u + 1013904223u;
    return *state >> 8;
}

static void random_bags_fit_or_are_refused(void **state) {
    (void)state;
    static const char *const names[] = {"Oak", "Beech and cherry", "Oak, apple, plum, no bark"};
    size_t stocks[8];
    size_t count = pair_stocks(stocks, 8), laid_out = 0;
    uint32_t seed = 65;
    for (int i = 0; i < 120; i++) {
        Case it = {
            languages[next_random(&seed) % LANGUAGES], names[next_random(&seed) % 3],
            markets[next_random(&seed) % MARKETS],     0.005 * (1 + next_random(&seed) % 300),
            0.03 + 0.01 * (next_random(&seed) % 20),   1 + (int)(next_random(&seed) % 20)};
        laid_out += check_case(stocks[next_random(&seed) % count], it);
    }
    assert_true(laid_out > 80);
}

/* 65 labels are 32 pairs: the last label stays free, and bag 33 begins a sheet. */
static void both_labels_of_a_bag_are_on_one_sheet(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    LabelRun run = {0};
    maker->request.run = &run;
    bag_maker_add(maker, "a4-65", 0.05, 33, 1);
    if (!bag_maker_lay_out(maker))
        fail_msg("%s", bag_maker_reports(maker));
    assert_int_equal(maker->document->pages.count, 2);
    const Page *page = maker->document->pages.items[0];
    for (int number = 1; number < 65; number += 2)
        check_pair(maker, page, number, "Beech and cherry");
    assert_string_equal(label_text(maker, page, 65), "");
    check_pair(maker, maker->document->pages.items[1], 1, "Beech and cherry");
    assert_int_equal(run.sheets.sheets.items[0].sheets, 2);
    assert_int_equal(run.sheets.sheets.items[0].labels, 66);
    assert_int_equal(label_sheet_free(&run.sheets.sheets.items[0]), 3);
    bag_maker_free(maker);
}

static uint32_t at_offset(const uint8_t *bytes, size_t offset, int count) {
    uint32_t value = 0;
    for (int i = 0; i < count; i++)
        value = value << 8 | bytes[offset + (size_t)i];
    return value;
}

/* The floor of Regulation (EU) 1169/2011, article 13 (3) (from memory), for packs whose largest
 * side is under 80 cm2, measured on the outline of the small x, which `glyf` gives. */
static void the_least_type_has_an_x_height_of_nine_tenths_of_a_millimetre(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    const FaceRole roles[] = {FACE_CONDENSED, FACE_CONDENSED_BOLD};
    for (size_t i = 0; i < 2; i++) {
        const Face *face = maker->request.faces->faces[roles[i]];
        size_t length = 0, glyph = face_glyph(face, 'x');
        const uint8_t *head = face_table(face, "head", &length);
        const uint8_t *loca = face_table(face, "loca", &length);
        const uint8_t *glyf = face_table(face, "glyf", &length);
        bool wide = at_offset(head, 50, 2) == 1;
        size_t at = wide ? at_offset(loca, glyph * 4, 4) : at_offset(loca, glyph * 2, 2) * 2;
        double x_height_em = (int16_t)at_offset(glyf, at + 8, 2) / (double)at_offset(head, 18, 2);
        assert_true(x_height_em * LABEL_SECOND_LEAST_PT * MM_PER_PT >= 0.9);
    }
    bag_maker_free(maker);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_small_stock_takes_small_bags_in_every_language_and_market),
        cmocka_unit_test(longest_texts_fit_or_are_refused),
        cmocka_unit_test(random_bags_fit_or_are_refused),
        cmocka_unit_test(both_labels_of_a_bag_are_on_one_sheet),
        cmocka_unit_test(the_least_type_has_an_x_height_of_nine_tenths_of_a_millimetre),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
