/* Numbers to text: rounding as a person does it, signs, groups, and the way back. */
#include "base/number.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define MINUS "\xE2\x88\x92"
#define THIN "\xE2\x80\xAF" /* U+202F narrow no-break space */

static const NumberStyle paper = {.group_sign = THIN};
static const NumberStyle german = {.decimal_sign = ",", .group_sign = "."};

static void fixed_decimals(void **state) {
    (void)state;
    const struct {
        double value;
        int decimals;
        const char *text;
    } cases[] = {
        {0, 0, "0"},
        {0, 2, "0.00"},
        {1, 0, "1"},
        {1.5, 0, "2"},
        {2.5, 0, "3"},
        {-2.5, 0, "-3"},
        {0.15, 1, "0.2"},
        {0.25, 1, "0.3"},
        {1.005, 2, "1.01"},
        {2.675, 2, "2.68"},
        {0.05, 1, "0.1"},
        {0.049, 1, "0.0"},
        {0.5, 0, "1"},
        {0.4999999999999999, 0, "0"},
        {-0.04, 1, "0.0"},
        {-0.0, 1, "0.0"},
        {-0.05, 1, "-0.1"},
        {9.96, 1, "10.0"},
        {99.95, 1, "100.0"},
        {999999.5, 0, "1000000"},
        {1234.5678, 3, "1234.568"},
        {12, 3, "12.000"},
        {1e-9, 3, "0.000"},
        {6e-4, 3, "0.001"},
        {1e21, 0, "1000000000000000000000"},
        {123456789012345680.0, 1, "123456789012345680.0"},
        {0.1, 15, "0.100000000000000"},
        {0.007, 2, "0.01"},
        {100, -3, "100"},
        {0.3, 99, "0.300000000000000"},
    };
    Arena *arena = arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_string_equal(number_text(arena, cases[i].value, cases[i].decimals, number_plain),
                            cases[i].text);
    arena_free(arena);
}

static void signs_and_groups(void **state) {
    (void)state;
    Arena *arena = arena_new();
    assert_string_equal(number_text(arena, -3.25, 1, paper), MINUS "3.3");
    assert_string_equal(number_text(arena, -0.01, 1, paper), "0.0");
    assert_string_equal(number_text(arena, 9999, 0, paper), "9999");
    assert_string_equal(number_text(arena, 10000, 0, paper), "10" THIN "000");
    assert_string_equal(number_text(arena, 9999.96, 1, paper), "10" THIN "000.0");
    assert_string_equal(number_text(arena, -1234567.891, 2, german), MINUS "1.234.567,89");
    NumberStyle from_four = {.group_sign = ",", .group_from_digits = 4};
    assert_string_equal(number_text(arena, 1234, 0, from_four), "1,234");
    assert_string_equal(number_text(arena, 123, 1, from_four), "123.0");
    arena_free(arena);
}

static void what_is_no_number_is_a_question_mark(void **state) {
    (void)state;
    Arena *arena = arena_new();
    assert_string_equal(number_text(arena, NAN, 1, paper), "?");
    assert_string_equal(number_text(arena, -INFINITY, 0, paper), "?");
    assert_true(isnan(number_round(NAN, 1)));
    arena_free(arena);
}

static void appended_to_what_is_there(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Text text = text_new(arena);
    text_add(&text, "mass ");
    number_add(&text, 12.34, 1, number_plain);
    text_add(&text, " g");
    assert_string_equal(text.bytes, "mass 12.3 g");
    arena_free(arena);
}

static uint64_t next_random(uint64_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

/* Laws: the text of a rounded number is the rounded text; rounding is never off by more than
 * half a step; it is odd and does not change what is already round. */
static void rounding_laws(void **state) {
    (void)state;
    Arena *arena = arena_new();
    uint64_t seed = 99;
    for (int i = 0; i < 20000; i++) {
        double value = ((double)(next_random(&seed) >> 11) / 9007199254740992.0 - 0.5) * 2e5;
        value *= pow(10, -(double)(next_random(&seed) % 14)); /* far below the last place too */
        int decimals = (int)(next_random(&seed) % 6);
        double rounded = number_round(value, decimals);
        double step = pow(10, -decimals);
        assert_true(fabs(rounded - value) <= step / 2 * (1 + 1e-9) + 1e-11);
        assert_true(number_round(rounded, decimals) == rounded);
        assert_true(number_round(-value, decimals) == -rounded);
        char *text = number_text(arena, value, decimals, number_plain);
        assert_true(strtod(text, NULL) == rounded);
        assert_true(strcmp(text, "-0") != 0);
    }
    assert_false(signbit(number_round(-0.2, 0)));
    assert_true(number_round(-12.5, 0) == -13);
    assert_true(number_round(INFINITY, 0) == INFINITY);
    arena_free(arena);
}

/* In a locale with a decimal comma nothing changes. Skipped in effect, not in name, where the
 * machine has none: the C locale then gives the same answers. */
static void the_locale_does_not_matter(void **state) {
    (void)state;
    Arena *arena = arena_new();
    if (!setlocale(LC_NUMERIC, "de_DE.UTF-8"))
        setlocale(LC_NUMERIC, "C.UTF-8");
    assert_string_equal(number_text(arena, 1234.56, 1, number_plain), "1234.6");
    assert_true(number_round(1.25, 1) == 1.3);
    setlocale(LC_NUMERIC, "C");
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fixed_decimals),
        cmocka_unit_test(signs_and_groups),
        cmocka_unit_test(what_is_no_number_is_a_question_mark),
        cmocka_unit_test(appended_to_what_is_there),
        cmocka_unit_test(rounding_laws),
        cmocka_unit_test(the_locale_does_not_matter),
    };
    return cmocka_run_group_tests_name("number", tests, NULL, NULL);
}
