#include "layout/words.h"

#include <stdlib.h>
#include <string.h>

static int compare_words(const void *one, const void *other) {
    return strcmp(((const Word *)one)->key, ((const Word *)other)->key);
}

void words_sort(Words *words) {
    if (words->words.count)
        qsort(words->words.items, words->words.count, sizeof(Word), compare_words);
}

const Word *words_find(const Words *words, const char *key) {
    if (!key || words->words.count == 0)
        return NULL;
    Word wanted = {.key = key};
    return bsearch(&wanted, words->words.items, words->words.count, sizeof(Word), compare_words);
}

const char *words_fixed(const Words *words, const char *key) {
    const Word *word = words_find(words, key);
    return word ? word->text : NULL;
}

const char *words_form(const Words *words, const Word *word, double value, int decimals) {
    if (!word->count)
        return word->text;
    const char *form = word->forms[plural_form(words->plurals, value, decimals)];
    return form ? form : word->forms[PLURAL_OTHER];
}

/* The path of the placeholder that starts behind `at`, and where it ends; NULL: no more. */
static const char *next_path(Arena *arena, const char **at) {
    for (const char *c = *at; *c; c++) {
        if (c[0] != '{')
            continue;
        if (c[1] == '{') {
            c++;
            continue;
        }
        size_t length = strcspn(c + 1, ":}");
        *at = c + 1 + length;
        return arena_copy(arena, c + 1, length);
    }
    return NULL;
}

static bool text_uses(Arena *arena, const char *text, const char *path) {
    const char *at = text;
    for (const char *found = NULL; text && (found = next_path(arena, &at));)
        if (strcmp(found, path) == 0)
            return true;
    return false;
}

static bool word_uses(Arena *arena, const Word *word, const char *path) {
    if (text_uses(arena, word->text, path))
        return true;
    for (int i = 0; i < PLURAL_COUNT; i++)
        if (text_uses(arena, word->forms[i], path))
            return true;
    return false;
}

static void check_text(const Word *model, const Word *word, const char *text,
                       Diagnostics *diagnostics) {
    const char *at = text;
    for (const char *path = NULL; text && (path = next_path(diagnostics->arena, &at));)
        if (!word_uses(diagnostics->arena, model, path))
            report_error(diagnostics, word->place, NULL,
                         "placeholder '{%s}' of '%s' is not used in the other language", path,
                         word->key);
}

static void check_word(const Word *model, const Word *word, Diagnostics *diagnostics) {
    check_text(model, word, word->text, diagnostics);
    for (int i = 0; i < PLURAL_COUNT; i++)
        check_text(model, word, word->forms[i], diagnostics);
}

bool words_agree(const Words *model, const Words *words, Diagnostics *diagnostics) {
    size_t before = diagnostics->list.count;
    for (size_t i = 0; i < model->words.count; i++) {
        const Word *wanted = &model->words.items[i];
        const Word *word = words_find(words, wanted->key);
        if (word)
            check_word(wanted, word, diagnostics);
        else
            report_error(diagnostics, wanted->place, NULL, "word '%s' is missing in language '%s'",
                         wanted->key, words->language);
    }
    for (size_t i = 0; i < words->words.count; i++) {
        const Word *word = &words->words.items[i];
        if (!words_find(model, word->key))
            report_error(diagnostics, word->place, NULL, "word '%s' is not in language '%s'",
                         word->key, model->language);
    }
    return diagnostics->list.count == before;
}
