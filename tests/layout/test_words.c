/* The words files: read with every fault reported, the same in all languages, and exactly what
 * the program asks for. */
#include "layout/phrase.h"
#include "support/language.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const languages[] = {"en", "de", "pl"};

enum { LANGUAGES = sizeof languages / sizeof *languages };

#define HEAD "<words language=\"xx\" plurals=\"polish\">"

static const char *faults_of(Arena *arena, const char *text) {
    Diagnostics diagnostics = diagnostics_new(arena);
    const Words *words = language_parse(arena, text, &diagnostics);
    assert_null(words);
    Text all = text_new(arena);
    diagnostics_add_to(&diagnostics, &all);
    return all.bytes;
}

static void assert_holds(const char *text, const char *part) {
    if (!strstr(text, part))
        fail_msg("'%s' is not in:\n%s", part, text);
}

static void faults_are_all_reported(void **state) {
    const char *faults = faults_of(
        *state, HEAD "<numbers decimal=\",\" group-from=\"x\" percent-space=\"maybe\"/>"
                     "<month number=\"13\" short=\"a\" long=\"b\"/>"
                     "<wrod id=\"a\">text</wrod><word>text</word><word id=\"empty\"></word>"
                     "<word id=\"twice\">1</word><word id=\"twice\">2</word>"
                     "<word id=\"bags\" count=\"n\"><one>bag</one><lots>bags</lots></word>"
                     "</words>");
    assert_holds(faults, "'x' is not a whole number");
    assert_holds(faults, "unknown 'maybe' for 'percent-space'");
    assert_holds(faults, "'13' is too much for 'number'");
    assert_holds(faults, "did you mean 'word'?");
    assert_holds(faults, "'word' without its 'id'");
    assert_holds(faults, "'empty' has no text");
    assert_holds(faults, "word 'twice' is there twice");
    assert_holds(faults, "unknown element 'lots' in 'word'");
    assert_holds(faults, "'bags' has no plural form <few>");
    assert_holds(faults, "'words' without its 'dates'");
    assert_holds(faults, "month 12 is missing");
    assert_holds(faults, "weekday 7 is missing");
}

static void a_file_of_another_kind_is_refused(void **state) {
    assert_holds(faults_of(*state, "<sheet/>"), "not a words file");
    assert_holds(faults_of(*state, "<words language=\"xx\" plurals=\"some\"/>"),
                 "unknown 'some' for 'plurals'");
}

static void the_languages_say_the_same_things(void **state) {
    Arena *arena = *state;
    const Words *english = language_words(arena, "en");
    for (size_t i = 1; i < LANGUAGES; i++) {
        Diagnostics diagnostics = diagnostics_new(arena);
        const Words *other = language_words(arena, languages[i]);
        if (!words_agree(english, other, &diagnostics)) {
            diagnostics_print(&diagnostics, stderr);
            fail_msg("language '%s' does not agree with English", languages[i]);
        }
    }
}

static void what_does_not_agree_is_named(void **state) {
    Arena *arena = *state;
    Words model = {.language = "en"};
    Words other = {.language = "xx"};
    LIST_ADD(arena, &model.words, (Word){.key = "a", .text = "{mass} {{"});
    LIST_ADD(arena, &model.words, (Word){.key = "b", .text = "text"});
    LIST_ADD(arena, &other.words, (Word){.key = "a", .text = "{mass:g} {length}"});
    LIST_ADD(arena, &other.words, (Word){.key = "c", .text = "text"});
    Diagnostics diagnostics = diagnostics_new(arena);
    assert_false(words_agree(&model, &other, &diagnostics));
    Text all = text_new(arena);
    diagnostics_add_to(&diagnostics, &all);
    assert_holds(all.bytes, "placeholder '{length}' of 'a'");
    assert_holds(all.bytes, "word 'b' is missing in language 'xx'");
    assert_holds(all.bytes, "word 'c' is not in language 'en'");
    assert_null(strstr(all.bytes, "{mass"));
}

/* By the Unicode CLDR, through tests/reference/date_names.csv. */
static void names_of_months_and_weekdays(void **state) {
    Arena *arena = *state;
    FILE *file = fopen("tests/reference/date_names.csv", "r");
    assert_non_null(file);
    char line[256];
    int rows = 0;
    while (fgets(line, sizeof line, file)) {
        line[strcspn(line, "\n")] = '\0';
        if (line[0] == '#' || strncmp(line, "language,", 9) == 0)
            continue;
        const char *language = strtok(line, ",");
        bool month = strcmp(strtok(NULL, ","), "month") == 0;
        long index = strtol(strtok(NULL, ","), NULL, 10) - 1;
        const char *shorter = strtok(NULL, ",");
        const char *longer = strtok(NULL, ",");
        const DateWords *dates = &language_words(arena, language)->dates;
        assert_string_equal(month ? dates->month_long[index] : dates->weekday_long[index], longer);
        assert_string_equal(month ? dates->month_short[index] : dates->weekday_short[index],
                            shorter);
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 3 * (MONTHS + WEEKDAYS));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(faults_are_all_reported),           CASE(a_file_of_another_kind_is_refused),
        CASE(the_languages_say_the_same_things), CASE(what_does_not_agree_is_named),
        CASE(names_of_months_and_weekdays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
