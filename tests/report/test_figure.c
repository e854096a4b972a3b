/* Figures as XML and lists write them: dates and instants in the forms of ISO 8601, numbers in SI,
 * nothing for what is not stated. */
#include "report/figure.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

static Arena *arena;

static int begin(void **state) {
    (void)state;
    arena = arena_new();
    return 0;
}

static int end(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

/* NULL: there was nothing to show, and nothing was added. */
static const char *shown(Field field) {
    Text text = text_new(arena);
    bool something = figure_add(&text, &field, zone_load(arena, "UTC"));
    assert_true(something || text.length == 0);
    return something ? text.bytes : NULL;
}

static const char *shown_quantity(QuantityKind kind, double value) {
    return shown((Field){.type = FIELD_QUANTITY, .quantity = quantity(kind, value)});
}

static void dates_and_instants_are_written_by_the_standard(void **state) {
    (void)state;
    assert_string_equal(shown((Field){.type = FIELD_DATE, .date = {2026, 2, 4}}), "2026-02-04");
    assert_null(shown((Field){.type = FIELD_DATE}));
    /* date -u -d @1796419800 */
    assert_string_equal(shown_quantity(QUANTITY_INSTANT, 1796419800), "2026-12-04T21:30:00+00:00");
    assert_null(shown_quantity(QUANTITY_INSTANT, 0));
}

static void numbers_carry_seven_digits_and_their_unit(void **state) {
    (void)state;
    assert_string_equal(shown_quantity(QUANTITY_MASS, 1.0 / 3), "0.3333333 kg");
    assert_string_equal(shown_quantity(QUANTITY_MASS, 10), "10 kg");
    assert_string_equal(shown_quantity(QUANTITY_MASS, 1234567.8), "1234568 kg");
    assert_string_equal(shown_quantity(QUANTITY_MASS, -0.25), "-0.25 kg");
    assert_string_equal(shown_quantity(QUANTITY_MASS, 0), "0 kg");
    assert_null(shown_quantity(QUANTITY_MASS, NAN));
    assert_null(shown_quantity(QUANTITY_NONE, 1));
}

static void texts_and_answers_are_themselves(void **state) {
    (void)state;
    assert_string_equal(shown((Field){.type = FIELD_TEXT, .text = "Oak"}), "Oak");
    assert_string_equal(shown((Field){.type = FIELD_WORD, .text = "good"}), "good");
    assert_null(shown((Field){.type = FIELD_TEXT}));
    Field yes = {.type = FIELD_YES, .quantity = quantity(QUANTITY_COUNT, 1)};
    assert_string_equal(shown(yes), "yes");
    yes.quantity.value = 0;
    assert_string_equal(shown(yes), "no");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dates_and_instants_are_written_by_the_standard),
        cmocka_unit_test(numbers_carry_seven_digits_and_their_unit),
        cmocka_unit_test(texts_and_answers_are_themselves),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
