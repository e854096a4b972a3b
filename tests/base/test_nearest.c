/* Which name was meant. Distances counted by hand: put in, leave out, change, swap. */
#include "base/nearest.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static void counts_slips(void **state) {
    (void)state;
    const struct {
        const char *one, *other;
        size_t distance;
    } cases[] = {
        {"", "", 0},
        {"beech", "beech", 0},
        {"Beech", "bEECH", 0},
        {"", "abc", 3},
        {"beach", "beech", 1},
        {"bech", "beech", 1},
        {"beeech", "beech", 1},
        {"beehc", "beech", 1},
        {"kitten", "sitting", 3},
        {"ab", "ba", 1},
        {"abcd", "badc", 2},
        {"ca", "abc", 3},
        {"oak", "ash", 3},
        {"net", "nett", 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_int_equal(name_distance(cases[i].one, cases[i].other), cases[i].distance);
        assert_int_equal(name_distance(cases[i].other, cases[i].one), cases[i].distance);
    }
}

static void finds_what_was_meant(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Names names = {0};
    const char *const known[] = {"beech", "cherry", "charred-oak", "oak", "A4"};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        LIST_ADD(arena, &names, known[i]);
    assert_string_equal(nearest_name("beach", &names), "beech");
    assert_string_equal(nearest_name("chery", &names), "cherry");
    assert_string_equal(nearest_name("chared-oka", &names), "charred-oak");
    assert_string_equal(nearest_name("a4", &names), "A4");
    assert_string_equal(nearest_name("oka", &names), "oak");
    assert_null(nearest_name("pine", &names));
    assert_null(nearest_name("", &names));
    assert_null(nearest_name("zz", &names));
    Names none = {0};
    assert_null(nearest_name("beech", &none));
    arena_free(arena);
}

static void bears_long_names(void **state) {
    (void)state;
    char name[5001];
    for (int i = 0; i < 5000; i++)
        name[i] = 'a';
    name[5000] = '\0';
    assert_int_equal(name_distance(name, name), 0);
    assert_int_equal(name_distance(name, "aa"), 62); /* only the first 64 letters count */
}

static void lists_names(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Names names = {0};
    assert_string_equal(names_listed(arena, &names), "");
    LIST_ADD(arena, &names, "a");
    LIST_ADD(arena, &names, "b");
    assert_string_equal(names_listed(arena, &names), "a, b");
    for (int i = 0; i < 12; i++)
        LIST_ADD(arena, &names, "c");
    assert_string_equal(names_listed(arena, &names),
                        "a, b, c, c, c, c, c, c, c, c, c, c and 2 more");
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_slips),
        cmocka_unit_test(finds_what_was_meant),
        cmocka_unit_test(bears_long_names),
        cmocka_unit_test(lists_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
