/* Phrases: placeholders filled from the row and what surrounds it, and no gap left silent. */
#include "layout/phrase.h"
#include "domain/field_member.h"
#include "support/language.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

#define THIN "\xE2\x80\xAF"

typedef struct Fixture {
    Arena *arena;
    Diagnostics diagnostics;
    Words words;
    Locale locale;
    FieldGroup *row;
} Fixture;

static void add_word(Fixture *fixture, const char *key, const char *text) {
    LIST_ADD(fixture->arena, &fixture->words.words, (Word){.key = key, .text = text});
}

static int set_up(void **state) {
    Arena *arena = arena_new();
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    fixture->arena = arena;
    fixture->diagnostics = diagnostics_new(arena);
    fixture->words = (Words){.language = "xx", .plurals = PLURAL_RULE_POLISH};
    add_word(fixture, "unit.g", "g");
    add_word(fixture, "a.mass", "{mass} of {name}");
    add_word(fixture, "a.outer", "{lot}: {word}");
    add_word(fixture, "a.gap", "{mas} {mass:colour} {mass");
    add_word(fixture, "a.ring", "{ring}");
    add_word(fixture, "a.braces", "{{{count}}} }");
    add_word(fixture, "a.empty", "");
    Word bags = {.key = "a.bags",
                 .count = "count",
                 .forms = {"{count} torba", "{count} torby", "{count} toreb", "{count} torby"}};
    LIST_ADD(arena, &fixture->words.words, bags);
    words_sort(&fixture->words);
    fixture->locale =
        (Locale){.words = &fixture->words, .units = UNITS_METRIC, .scale_step_kg = 0.001};

    FieldGroup *root = field_group_new(arena, NULL, "plan", 0);
    field_add_text(arena, root, "lot", "L1");
    fixture->row = field_group_new(arena, root, "bag", 1);
    field_add_number(arena, fixture->row, "mass", QUANTITY_MASS, 0.25);
    field_add_text(arena, fixture->row, "name", "beech {and} oak");
    field_add_number(arena, fixture->row, "count", QUANTITY_COUNT, 3);
    field_add_word(arena, fixture->row, "word", "a.mass");
    field_add_word(arena, fixture->row, "ring", "a.ring");
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

static const char *word(Fixture *fixture, const char *key) {
    return phrase_word(fixture->arena, &fixture->locale, (Place){.file = "sheet.xml", .line = 7},
                       key, fixture->row, &fixture->diagnostics);
}

static void assert_faults(Fixture *fixture, const char *part, size_t count) {
    Text all = text_new(fixture->arena);
    diagnostics_add_to(&fixture->diagnostics, &all);
    if (!strstr(all.bytes, part))
        fail_msg("'%s' is not in:\n%s", part, all.bytes);
    assert_int_equal(diagnostics_errors(&fixture->diagnostics, NULL), count);
}

static void figures_and_names_are_filled_in(void **state) {
    assert_string_equal(word(*state, "a.mass"), "250" THIN "g of beech {and} oak");
    assert_string_equal(word(*state, "a.bags"), "3 torby");
    assert_string_equal(word(*state, "a.braces"), "{3} }");
    assert_string_equal(word(*state, "a.empty"), "");
}

static void a_word_brings_in_another_for_the_same_row(void **state) {
    assert_string_equal(word(*state, "a.outer"), "L1: 250" THIN "g of beech {and} oak");
}

static void every_gap_is_reported(void **state) {
    Fixture *fixture = *state;
    assert_null(word(fixture, "a.gap"));
    assert_faults(fixture, "no field 'mas' here", 3);
    assert_faults(fixture, "field 'mass' has no style 'colour'", 3);
    assert_faults(fixture, "placeholder '{mass' has no end", 3);
}

static void a_missing_word_is_reported_where_it_was_asked_for(void **state) {
    assert_null(word(*state, "a.nothing"));
    assert_faults(*state, "sheet.xml:7: error: no word 'a.nothing' in language 'xx'", 1);
}

static void a_word_inside_itself_is_reported(void **state) {
    assert_null(word(*state, "a.ring"));
    assert_faults(*state, "word 'a.ring' of language 'xx' holds itself", 1);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(figures_and_names_are_filled_in),
        CASE(a_word_brings_in_another_for_the_same_row),
        CASE(every_gap_is_reported),
        CASE(a_missing_word_is_reported_where_it_was_asked_for),
        CASE(a_word_inside_itself_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
