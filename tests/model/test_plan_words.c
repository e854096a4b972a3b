/* The words of a plan: every key that the model can give has words in every language, and the
 * rows of real plans fill them. */
#include "domain/word.h"
#include "input/reader.h"
#include "layout/phrase.h"
#include "model/care.h"
#include "model/caution.h"
#include "model/plan.h"
#include "model/preparation.h"
#include "model/timeline.h"
#include "support/every_word.h"
#include "support/language.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <ctype.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const char *const languages[] = {"en", "de", "pl"};
enum { LANGUAGES = sizeof languages / sizeof *languages };

static void assert_words(const Words *words, const char *key) {
    if (!words_find(words, key)) {
        fail_msg("'%s' has no words in language '%s'", key, words->language);
    }
}

static void assert_all(Arena *arena, const Words *words, const char *prefix, const char *ending,
                       const char *const *keys, size_t count) {
    for (size_t i = 0; i < count; i++) {
        assert_words(words, arena_format(arena, "%s%s%s", prefix, keys[i], ending));
    }
}

static void every_key_has_its_words(void **state) {
    Arena *arena = *state;
    for (size_t i = 0; i < LANGUAGES; i++) {
        const Words *words = language_words(arena, languages[i]);
        size_t count = 0;
        const char *const *keys = every_word(arena, &count);
        assert_all(arena, words, "", "", keys, count);
        keys = care_keys(&count);
        assert_all(arena, words, "care.", "", keys, count);
        keys = caution_keys(&count);
        assert_all(arena, words, "caution.", "", keys, count);
        keys = timeline_step_keys(&count);
        assert_all(arena, words, "step.", "", keys, count);
        keys = preparation_task_keys(&count);
        assert_all(arena, words, "task.", "", keys, count);
        keys = timeline_decision_keys(&count);
        assert_all(arena, words, "decision.", "", keys, count);
        assert_all(arena, words, "decision.", ".then", keys, count);
        const char *key;
        for (int cause = CAUSE_NONE; (key = word_of_cause((Cause)cause)); cause++) {
            assert_words(words, arena_format(arena, "reason%s", strchr(key, '.')));
        }
    }
}

/* Where the smoker has to stand is said whether somebody is there or not. */
static void placement_is_always_said(void **state) {
    Arena *arena = *state;
    static const char *const said[][2] = {{"stone or steel", "walls"},
                                          {"Stein oder Stahl", "Wänden"},
                                          {"kamieniu lub stali", "ścian"}};
    for (size_t i = 0; i < LANGUAGES; i++) {
        const Words *words = language_words(arena, languages[i]);
        for (size_t k = 0; k < 2; k++) {
            assert_non_null(strstr(words_fixed(words, "caution.fire"), said[i][k]));
            assert_non_null(strstr(words_fixed(words, "caution.fire_unattended"), said[i][k]));
        }
    }
}

/* A dash that stands for a figure; one between two figures is a range, as in a dust's name. */
static bool shows_nothing(const char *text) {
    for (const char *dash = strstr(text, "–"); dash; dash = strstr(dash + 1, "–")) {
        bool range = dash > text && isdigit((unsigned char)dash[-1]) &&
                     isdigit((unsigned char)dash[strlen("–")]);
        if (!range) {
            return true;
        }
    }
    return false;
}

/* Fills every word field of the group and of what it holds; returns how many. */
static size_t fill_all(Arena *arena, const Locale *locale, const FieldGroup *group) {
    size_t filled = 0;
    for (size_t i = 0; i < group->fields.count; i++) {
        const Field *field = &group->fields.items[i];
        if (field->type != FIELD_WORD || !field->text) {
            continue;
        }
        Diagnostics diagnostics = diagnostics_new(arena);
        const char *text = phrase_word(arena, locale, (Place){0}, field->text, group, &diagnostics);
        if (!text) {
            diagnostics_print(&diagnostics, stderr);
            fail_msg("'%s' can not be filled in '%s'", field->text, locale->words->language);
        }
        if (shows_nothing(text) && !strstr(field->text, "headline")) {
            fail_msg("'%s' shows a figure that is not stated: %s", field->text, text);
        }
        filled++;
    }
    for (size_t i = 0; i < group->groups.count; i++) {
        filled += fill_all(arena, locale, group->groups.items[i]);
    }
    return filled;
}

static void rows_of_real_plans_fill_their_words(void **state) {
    static const char *const samples[] = {
        "samples/butter-short.xml",    "samples/charred-oak-blend.xml",
        "samples/cold-damp-night.xml", "samples/cheese-overnight.xml",
        "samples/fish-long.xml",       "samples/herb-salt.xml",
        "samples/alder-cheese.xml",    "samples/salt-refills.xml",
        "samples/trout-brined.xml",
    };
    Arena *arena = *state;
    for (size_t i = 0; i < sizeof samples / sizeof *samples; i++) {
        Reader reader = reader_new(arena);
        const Batch *batch = read_batch(&reader, samples[i]);
        assert_non_null(batch);
        const FieldGroup *fields = plan_fields(arena, plan_make(arena, batch));
        for (size_t k = 0; k < LANGUAGES; k++) {
            Locale locale = locale_of(batch->workshop, language_words(arena, languages[k]));
            assert_true(fill_all(arena, &locale, fields) > 30);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(every_key_has_its_words),
        CASE(placement_is_always_said),
        CASE(rows_of_real_plans_fill_their_words),
    };
    const char *against = "words of a plan: the words files";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
