/* Plural forms against the sample numbers that the Unicode Common Locale Data Repository prints
 * beside its rules (supplemental/plurals.xml, integer and decimal samples; from memory), and
 * against the forms that another implementation of those rules gives (tests/reference). */
#include "layout/plural.h"
#include "layout/words.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdio.h>
#include <string.h>

typedef struct Sample {
    PluralRule rule;
    Plural form;
    double from, to, step;
    int decimals;
} Sample;

static const Sample samples[] = {
    {PLURAL_RULE_GERMANIC, PLURAL_ONE, 1, 1, 1, 0},
    {PLURAL_RULE_GERMANIC, PLURAL_OTHER, 0, 0, 1, 0},
    {PLURAL_RULE_GERMANIC, PLURAL_OTHER, 2, 16, 1, 0},
    {PLURAL_RULE_GERMANIC, PLURAL_OTHER, 100, 1000000, 99990, 0},
    {PLURAL_RULE_GERMANIC, PLURAL_OTHER, 0, 1.5, 0.1, 1},
    {PLURAL_RULE_POLISH, PLURAL_ONE, 1, 1, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_FEW, 2, 4, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_FEW, 22, 24, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_FEW, 32, 34, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_FEW, 62, 62, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_FEW, 102, 1002, 900, 0},
    {PLURAL_RULE_POLISH, PLURAL_MANY, 0, 0, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_MANY, 5, 19, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_MANY, 21, 21, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_MANY, 100, 1000, 900, 0},
    {PLURAL_RULE_POLISH, PLURAL_MANY, 112, 114, 1, 0},
    {PLURAL_RULE_POLISH, PLURAL_OTHER, 0, 1.5, 0.1, 1},
    {PLURAL_RULE_POLISH, PLURAL_OTHER, 10, 1000, 990, 1},
    {PLURAL_RULE_EAST_SLAVIC, PLURAL_ONE, 1, 101, 20, 0},
    {PLURAL_RULE_EAST_SLAVIC, PLURAL_FEW, 22, 24, 1, 0},
    {PLURAL_RULE_EAST_SLAVIC, PLURAL_MANY, 5, 19, 1, 0},
    {PLURAL_RULE_EAST_SLAVIC, PLURAL_OTHER, 0, 1.5, 0.1, 1},
    {PLURAL_RULE_CZECH, PLURAL_ONE, 1, 1, 1, 0},
    {PLURAL_RULE_CZECH, PLURAL_FEW, 2, 4, 1, 0},
    {PLURAL_RULE_CZECH, PLURAL_OTHER, 5, 19, 1, 0},
    {PLURAL_RULE_CZECH, PLURAL_MANY, 0, 1.5, 0.1, 1},
    {PLURAL_RULE_FRENCH, PLURAL_ONE, 0, 1, 1, 0},
    {PLURAL_RULE_FRENCH, PLURAL_ONE, 0, 1.5, 0.1, 1},
    {PLURAL_RULE_FRENCH, PLURAL_OTHER, 2, 17, 1, 0},
    {PLURAL_RULE_NONE, PLURAL_OTHER, 0, 15, 1, 0},
};

static void samples_of_the_rules(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof samples / sizeof *samples; i++) {
        const Sample *sample = &samples[i];
        for (double value = sample->from; value <= sample->to + 1e-9; value += sample->step)
            if (plural_form(sample->rule, value, sample->decimals) != sample->form)
                fail_msg("rule %d: %g with %d decimals is not '%s'", (int)sample->rule, value,
                         sample->decimals, plural_name(sample->form));
    }
}

static void a_form_that_comes_out_is_one_that_is_needed(void **state) {
    (void)state;
    for (int rule = 0; rule < PLURAL_RULE_COUNT; rule++)
        for (int tenths = 0; tenths < 2000; tenths++) {
            Plural whole = plural_form((PluralRule)rule, tenths, 0);
            Plural part = plural_form((PluralRule)rule, tenths / 10.0, 1);
            assert_true(plural_needed((PluralRule)rule, whole));
            assert_true(plural_needed((PluralRule)rule, part));
        }
}

static Plural lettered(char letter) {
    static const char letters[] = "ofmx";
    const char *found = strchr(letters, letter);
    assert_non_null(found);
    return (Plural)(found - letters);
}

static void check_line(char *line) {
    char *rule_name = strtok(line, ",");
    char *language = strtok(NULL, ",");
    char *whole = strtok(NULL, ",");
    char *tenths = strtok(NULL, ",");
    int found = rule_word(attribute_rule(&words_rule, "plurals"), rule_name);
    assert_true(found >= 0 && found < PLURAL_RULE_COUNT);
    PluralRule rule = (PluralRule)found;
    for (int i = 0; whole[i]; i++)
        if (plural_form(rule, i, 0) != lettered(whole[i]))
            fail_msg("%s: %d has another form", language, i);
    for (int i = 0; tenths[i]; i++)
        if (plural_form(rule, i / 10.0, 1) != lettered(tenths[i]))
            fail_msg("%s: %d.%d has another form", language, i / 10, i % 10);
}

static void forms_of_another_implementation(void **state) {
    (void)state;
    FILE *file = fopen("tests/reference/plural_forms.csv", "r");
    assert_non_null(file);
    char line[1024];
    int languages = 0;
    while (fgets(line, sizeof line, file)) {
        line[strcspn(line, "\n")] = '\0';
        if (line[0] == '#' || strncmp(line, "rule,", 5) == 0)
            continue;
        check_line(line);
        languages++;
    }
    fclose(file);
    assert_int_equal(languages, 6);
}

static void the_sign_does_not_count(void **state) {
    (void)state;
    assert_int_equal(plural_form(PLURAL_RULE_GERMANIC, -1, 0), PLURAL_ONE);
    assert_int_equal(plural_form(PLURAL_RULE_POLISH, -3, 0), PLURAL_FEW);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(samples_of_the_rules),
        cmocka_unit_test(a_form_that_comes_out_is_one_that_is_needed),
        cmocka_unit_test(forms_of_another_implementation),
        cmocka_unit_test(the_sign_does_not_count),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
