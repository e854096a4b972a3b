/* The words that ship are the words that are asked for: every key of the words files is named in
 * the program or in a template, and every key named there has its words. */
#include "support/language.h"
#include "support/arena_case.h"

#include "base/file.h"
#include "model/wood.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glob.h>
#include <string.h>

/* All texts that match a pattern, one behind the other. */
static void add_files(Text *text, const char *pattern) {
    glob_t found;
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        Bytes bytes = {0};
        const char *error = NULL;
        assert_true(file_read(text->arena, found.gl_pathv[i], 1 << 20, &bytes, &error));
        text_add_bytes(text, (const char *)bytes.data, bytes.length);
    }
    globfree(&found);
}

static const char *everything(Arena *arena) {
    Text text = text_new(arena);
    add_files(&text, "src/*/*.[ch]");
    add_files(&text, "templates/*.xml");
    add_files(&text, "templates/starter/*.xml");
    return text.bytes;
}

static bool quoted(Arena *arena, const char *everything_said, const char *key) {
    return strstr(everything_said, arena_format(arena, "\"%s\"", key)) != NULL;
}

/* Families whose keys the plan carries without their family: a step is named "weigh" there. */
static bool by_its_end(const char *family) {
    static const char *const families[] = {"step",     "care",    "caution", "decision", "signal",
                                           "learning", "species", "task",    "compared"};
    for (size_t i = 0; i < sizeof families / sizeof *families; i++)
        if (strcmp(family, families[i]) == 0)
            return true;
    return false;
}

static bool is_used(Arena *arena, const char *said, const char *key) {
    const char *dot = strchr(key, '.');
    assert_non_null(dot);
    const char *family = arena_copy(arena, key, (size_t)(dot - key));
    const char *rest = dot + 1;
    size_t length = strlen(rest);
    bool then = length > 5 && strcmp(rest + length - 5, ".then") == 0;
    if (quoted(arena, said, key))
        return true;
    if (then)
        return is_used(arena, said, arena_copy(arena, key, strlen(key) - 5));
    if (strcmp(family, "reason") == 0)
        return quoted(arena, said, arena_format(arena, "cause.%s", rest));
    if (strcmp(family, "season_step") == 0) /* named as the task of the sheet is */
        return quoted(arena, said, rest);
    if (strcmp(family, "season_verdict") == 0)
        return quoted(arena, said, arena_format(arena, "verdict.%s", rest));
    return by_its_end(family) && quoted(arena, said, rest);
}

static void every_word_is_asked_for(void **state) {
    Arena *arena = *state;
    const char *said = everything(arena);
    const Words *words = language_words(arena, "en");
    Text unused = text_new(arena);
    for (size_t i = 0; i < words->words.count; i++)
        if (!is_used(arena, said, words->words.items[i].key))
            text_addf(&unused, " %s", words->words.items[i].key);
    if (unused.length)
        fail_msg("nobody asks for:%s", unused.bytes);
}

/* Whether a word's family is one that no field of the plan shares, so that every such name in the
 * program means words. */
static bool only_words(const char *name) {
    static const char *const families[] = {
        "unit.",        "basis.",  "word.",   "verdict.",  "cause.",        "panel.",
        "headline.",    "weigh.",  "map.",    "curve.",    "log.",          "signal.",
        "remedy.",      "rule.",   "trace.",  "season.",   "season_state.", "season_shared.",
        "season_step.", "label.",  "form.",   "product.",  "packing.",      "channel.",
        "wall.",        "solver.", "footer.", "terminal.", "care_level.",   "limit.",
        "starter."};
    for (size_t i = 0; i < sizeof families / sizeof *families; i++)
        if (strncmp(name, families[i], strlen(families[i])) == 0)
            return true;
    return false;
}

static bool is_key(const char *name) {
    return name[strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789_.")] == '\0' &&
           name[strlen(name) - 1] != '.';
}

/* Fields of the product that a template may name like a word. */
static bool is_field(const char *name) {
    return strncmp(name, "product.", 8) == 0;
}

static void every_word_that_is_asked_for_is_there(void **state) {
    Arena *arena = *state;
    const Words *words = language_words(arena, "en");
    const char *at = everything(arena);
    Text missing = text_new(arena);
    int asked = 0;
    while ((at = strchr(at, '"')) != NULL) {
        size_t length = strcspn(++at, "\"\n");
        const char *name = arena_copy(arena, at, length);
        if (length == 0 || !only_words(name) || !is_key(name) || is_field(name))
            continue;
        asked++;
        if (!words_find(words, name))
            text_addf(&missing, " %s", name);
    }
    if (missing.length)
        fail_msg("no words for:%s", missing.bytes);
    assert_true(asked > 100);
}

/* What model/bag.c relies on: a wood whose name is one word has its word. */
static void every_wood_of_one_word_has_its_word(void **state) {
    Arena *arena = *state;
    static const char *const languages[] = {"en", "de", "pl"};
    for (size_t i = 0; i < sizeof languages / sizeof *languages; i++) {
        const Words *words = language_words(arena, languages[i]);
        for (size_t row = 0; row < wood_count(); row++) {
            const char *key = arena_format(arena, "species.%s", wood_at(row)->name);
            if (!strchr(key, ' ') && !words_find(words, key))
                fail_msg("no '%s' in %s", key, languages[i]);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(every_word_is_asked_for),
        CASE(every_word_that_is_asked_for_is_there),
        CASE(every_wood_of_one_word_has_its_word),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
