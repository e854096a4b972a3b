/* What helps to use a bag, on its label where there is room: number, lots, directions, how long a
 * tray burns, how long it stays dry. */
#include "support/bag_maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static const char *const languages[] = {"en", "de", "pl"};

enum { LANGUAGES = sizeof languages / sizeof *languages };

/* The texts of a label of the first page, or of all, with plain blanks. */
static const char *text_of(BagMaker *maker, const char *owner) {
    const Page *page = maker->document->pages.items[0];
    Text text = text_new(maker->arena);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT || (owner && strcmp(mark->owner, owner) != 0))
            continue;
        for (const char *at = mark->as.text.string; *at; at++) {
            bool narrow = strncmp(at, "\u202f", 3) == 0, wide = strncmp(at, "\u00a0", 2) == 0;
            text_add_bytes(&text, narrow || wide ? " " : at, 1);
            at += narrow ? 2 : wide ? 1 : 0;
        }
        text_add(&text, " ");
    }
    return text.bytes;
}

static bool says(const char *text, const char *part) {
    return strstr(text, part) != NULL;
}

static void labels_say_which_bag_of_the_row_each_is_where_asked(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    PlanBag *bag = bag_maker_add(maker, "a4-8", 0.25, 3, 1);
    ((BagOrder *)bag->order)->numbered = true;
    bag->numbered_before = 4;
    bag->numbered_in_all = 7;
    bag_maker_add(maker, "a4-8", 0.5, 2, 1);
    assert_true(bag_maker_lay_out(maker));
    for (int number = 1; number <= 5; number++) {
        const char *text = text_of(maker, arena_format(maker->arena, "label %d", number));
        const char *mark = arena_format(maker->arena, "bag %d of 7", number + 4);
        assert_true(says(text, mark) == (number <= 3));
        assert_true(says(text, "bag") == (number <= 3));
    }
    bag_maker_free(maker);
}

/* Directions go first when there is no room, then the rest of what helps to use it. */
static void directions_stand_where_there_is_room(void **state) {
    (void)state;
    static const char *const first_words[] = {"Dry it first", "Zuerst", "Najpierw"};
    static const struct {
        const char *stock;
        bool directions, burns;
    } rows[] = {{"a4-4", true, true}, {"a4-8", false, true}, {"a4-21", false, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (size_t n = 0; n < (rows[i].burns && !rows[i].directions ? 1 : LANGUAGES); n++) {
            BagMaker *maker = bag_maker(languages[n]);
            PlanBag *bag = bag_maker_add(maker, rows[i].stock, 0.1, 1, 1);
            bag->dry_to = 0.04;
            bag->oven_c = 100;
            bag->look_after_s = 1200;
            bag->tray_channel_m = 0.821;
            bag->burns_from_s = 6.5 * 3600;
            bag->burns_to_s = 12.25 * 3600;
            assert_true(bag_maker_lay_out(maker));
            const char *text = text_of(maker, NULL);
            assert_true(says(text, first_words[n]) == rows[i].directions);
            assert_true(says(text, "20 min") == rows[i].directions);
            assert_true(says(text, "821 mm") == rows[i].burns);
            assert_true(says(text, "30 min") == rows[i].burns);
            bag_maker_free(maker);
        }
}

/* What helps to use it is there on a large label, and the first to go when there is no room. */
static void lots_and_dryness_stand_where_there_is_room(void **state) {
    (void)state;
    for (int large = 0; large < 2; large++) {
        BagMaker *maker = bag_maker("en");
        PlanBag *bag = bag_maker_add(maker, large ? "a4-4" : "a4-21", 0.25, 1, 1);
        bag->dust_lots = "B-2611, C-2609";
        bag->dry_until = (Date){2027, 6, 2};
        assert_true(bag_maker_lay_out(maker));
        assert_true(says(text_of(maker, NULL), "B-2611, C-2609") == (large > 0));
        assert_true(says(text_of(maker, NULL), "2 Jun 2027") == (large > 0));
        bag_maker_free(maker);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(labels_say_which_bag_of_the_row_each_is_where_asked),
        cmocka_unit_test(directions_stand_where_there_is_room),
        cmocka_unit_test(lots_and_dryness_stand_where_there_is_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
