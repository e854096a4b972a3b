/* CSV: cells as RFC 4180 wants them, numbers in the units of their heading, nothing that a
 * spreadsheet would take for a formula. */
#include "report/csv.h"

#include "domain/field_member.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

/* Sections 2.5 to 2.7: quotes where there is a comma, a quote or a line end; a quote doubled. */
static void cells_are_quoted_by_the_standard(void **state) {
    Arena *arena = *state;
    static const char *const texts[][2] = {
        {"plain", "plain"},
        {"", ""},
        {"two, words", "\"two, words\""},
        {"a \"b\" c", "\"a \"\"b\"\" c\""},
        {"two\nlines", "\"two\nlines\""},
        {"=1+1", "\"'=1+1\""},
        {"-3", "\"'-3\""},
        {"a=1", "a=1"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        FieldGroup *row = field_group_new(arena, NULL, "row", 1);
        field_add_text(arena, row, "text", texts[i][0]);
        Text text = text_new(arena);
        csv_row(&text, row, zone_load(arena, "UTC"));
        assert_string_equal(text.bytes, arena_format(arena, "%s\r\n", texts[i][1]));
    }
}

static void numbers_are_in_the_units_of_their_heading(void **state) {
    Arena *arena = *state;
    FieldGroup *row = field_group_new(arena, NULL, "row", 1);
    field_add_number(arena, row, "took", QUANTITY_DURATION, 5400);
    field_add_number(arena, row, "mass", QUANTITY_MASS, 0.025);
    field_add_number(arena, row, "chance", QUANTITY_SHARE, 0.9);
    field_add_number(arena, row, "none", QUANTITY_MASS, NOT_STATED);
    field_add_instant(arena, row, "at", 1796421600);
    field_add_date(arena, row, "date", (Date){2026, 12, 4});
    field_add_date(arena, row, "no_date", (Date){0});
    field_add_yes(arena, row, "died", true);
    field_add_text(arena, row, "nothing", NULL);
    Text text = text_new(arena);
    csv_heading(&text, row);
    csv_row(&text, row, zone_load(arena, "Europe/Dublin"));
    assert_string_equal(text.bytes,
                        "took_h,mass_kg,chance_percent,none_kg,at,date,no_date,died,nothing\r\n"
                        "1.5,0.025,90,,2026-12-04T22:00:00+00:00,2026-12-04,,yes,\r\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(cells_are_quoted_by_the_standard),
        CASE(numbers_are_in_the_units_of_their_heading),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
