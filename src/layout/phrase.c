#include "layout/phrase.h"

#include <math.h>
#include <string.h>

typedef struct Filling {
    Arena *arena;
    const Locale *locale;
    Place place; /* where the text stands */
    const FieldGroup *row;
    Diagnostics *diagnostics;
    int depth;          /* words inside words */
    const char *before; /* put before and after figures */
    const char *after;
} Filling;

enum { DEPTH_MAX = 4 };

static const char *fill_word(const Filling *outer, const char *key);

/* What stands between two braces, "path" or "path:style"; NULL and a report when it can't. */
static const char *placeholder(Filling *filling, const char *path, const char *style) {
    const Field *field = filling->row ? field_find(filling->row, path) : NULL;
    if (!field) {
        report_error(filling->diagnostics, filling->place,
                     "'burnsheet plan --as fields' lists every field", "no field '%s' here", path);
        return NULL;
    }
    if (field->type == FIELD_WORD && field->text && !style)
        return fill_word(filling, field->text);
    const char *text = format_field(filling->arena, filling->locale, field, style);
    if (!text)
        report_error(filling->diagnostics, filling->place, NULL, "field '%s' has no style '%s'",
                     path, style ? style : "");
    if (text && field->type == FIELD_QUANTITY)
        return arena_format(filling->arena, "%s%s%s", filling->before, text, filling->after);
    return text;
}

/* Appends the placeholder at *at, an opening brace, and moves behind its end. */
static bool add_placeholder(Filling *filling, Text *text, const char **at) {
    const char *start = *at + 1;
    size_t length = strcspn(start, "{}");
    if (start[length] != '}') {
        report_error(filling->diagnostics, filling->place, "{{ stands for a brace itself",
                     "placeholder '{%.*s' has no end", (int)length, start);
        *at = start + length;
        return false;
    }
    char *path = arena_copy(filling->arena, start, length);
    char *style = strchr(path, ':');
    if (style)
        *style++ = '\0';
    const char *filled = placeholder(filling, path, style);
    if (filled)
        text_add(text, filled);
    *at = start + length + 1;
    return filled != NULL;
}

static const char *fill(Filling *filling, const char *pattern) {
    Text text = text_new(filling->arena);
    bool good = true;
    const char *at = pattern;
    while (*at) {
        size_t plain = strcspn(at, "{}");
        text_add_bytes(&text, at, plain);
        at += plain;
        if (!*at)
            break;
        if (at[0] == at[1] || at[0] == '}') {
            text_add_bytes(&text, at, 1);
            at += at[0] == at[1] ? 2 : 1;
        } else if (!add_placeholder(filling, &text, &at)) {
            good = false;
        }
    }
    return good ? text.bytes : NULL;
}

/* The form of a counted word for the figure of the row; NULL and a report when there is none. */
static const char *counted(Filling *filling, const Word *word) {
    const Field *field = filling->row ? field_find(filling->row, word->count) : NULL;
    if (!field || field->type != FIELD_QUANTITY || isnan(field->quantity.value)) {
        report_error(filling->diagnostics, word->place, NULL,
                     "no field '%s' to count by in word '%s'", word->count, word->key);
        return NULL;
    }
    double value = field->quantity.value;
    return words_form(filling->locale->words, word, value, value == floor(value) ? 0 : 1);
}

/* The word of that key, filled for the same row, on behalf of a text that asks for it. */
static const char *fill_word(const Filling *outer, const char *key) {
    const Words *words = outer->locale->words;
    const Word *word = words_find(words, key);
    if (!word || outer->depth >= DEPTH_MAX) {
        report_error(outer->diagnostics, outer->place, NULL,
                     word ? "word '%s' of language '%s' holds itself"
                          : "no word '%s' in language '%s'",
                     key, words->language);
        return NULL;
    }
    Filling filling = *outer;
    filling.place = word->place;
    filling.depth++;
    const char *pattern = word->count ? counted(&filling, word) : word->text;
    return pattern ? fill(&filling, pattern) : NULL;
}

const char *phrase_word(Arena *arena, const Locale *locale, Place place, const char *key,
                        const FieldGroup *row, Diagnostics *diagnostics) {
    return phrase_word_marked(arena, locale, place, key, row, "", "", diagnostics);
}

const char *phrase_word_marked(Arena *arena, const Locale *locale, Place place, const char *key,
                               const FieldGroup *row, const char *before, const char *after,
                               Diagnostics *diagnostics) {
    Filling filling = {arena, locale, place, row, diagnostics, 0, before, after};
    return fill_word(&filling, key ? key : "");
}
