#include "model/name_words.h"

#include <stddef.h>
#include <string.h>

typedef struct Word {
    const char *from;
    size_t length;
} Word;

static bool letter(char byte) {
    unsigned char code = (unsigned char)byte;
    return (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z') ||
           (code >= '0' && code <= '9') || code >= 0x80;
}

static char lower(char byte) {
    return byte >= 'A' && byte <= 'Z' ? (char)(byte - 'A' + 'a') : byte;
}

/* The first word at or after `at` and before `end`; length 0: there is none. */
static Word word_after(const char *at, const char *end) {
    while (at < end && !letter(*at)) {
        at++;
    }
    const char *from = at;
    while (at < end && letter(*at)) {
        at++;
    }
    return (Word){from, (size_t)(at - from)};
}

/* German writes "Fichtenholz" in one: the word without its ending, unless that is all of it. */
static Word without_holz(Word word) {
    static const char ending[] = "holz";
    const size_t length = sizeof ending - 1;
    if (word.length <= length) {
        return word;
    }
    const char *tail = word.from + word.length - length;
    for (size_t i = 0; i < length; i++) {
        if (lower(tail[i]) != ending[i]) {
            return word;
        }
    }
    return (Word){word.from, word.length - length};
}

static bool same_letters(Word a, Word b) {
    for (size_t i = 0; i < a.length && i < b.length; i++) {
        if (lower(a.from[i]) != lower(b.from[i])) {
            return false;
        }
    }
    return a.length == b.length;
}

static bool same(Word word, Word wanted) {
    return same_letters(word, wanted) || same_letters(without_holz(word), wanted);
}

/* Whether the words from here on are those of the phrase. */
static bool starts_with(Word word, const char *end, const char *phrase, const char *phrase_end) {
    Word wanted = word_after(phrase, phrase_end);
    while (wanted.length > 0) {
        if (!same(word, wanted)) {
            return false;
        }
        word = word_after(word.from + word.length, end);
        wanted = word_after(wanted.from + wanted.length, phrase_end);
    }
    return true;
}

static bool has_words(const char *name, const char *phrase, const char *phrase_end) {
    if (!name || word_after(phrase, phrase_end).length == 0) {
        return false;
    }
    const char *end = name + strlen(name);
    for (Word word = word_after(name, end); word.length > 0;
         word = word_after(word.from + word.length, end)) {
        if (starts_with(word, end, phrase, phrase_end)) {
            return true;
        }
    }
    return false;
}

bool name_has_words(const char *name, const char *phrase) {
    return phrase && has_words(name, phrase, phrase + strlen(phrase));
}

bool name_has_any(const char *name, const char *phrases) {
    while (phrases && *phrases) {
        size_t length = strcspn(phrases, "|");
        if (has_words(name, phrases, phrases + length)) {
            return true;
        }
        phrases += length + (phrases[length] == '|');
    }
    return false;
}

static bool any_word(Word word, const char *words) {
    while (*words) {
        size_t length = strcspn(words, "|");
        if (same(word, (Word){words, length})) {
            return true;
        }
        words += length + (words[length] == '|');
    }
    return false;
}

/* What a species is called besides its name. */
static bool filler(Word word, const char *besides) {
    return any_word(word, "wood|dust|sawdust|chip|chips") || any_word(word, besides);
}

static bool is_phrase(const char *name, const char *phrase, const char *phrase_end,
                      const char *besides) {
    const char *end = name + strlen(name);
    Word word = word_after(name, end);
    Word wanted = word_after(phrase, phrase_end);
    if (wanted.length == 0) {
        return false;
    }
    while (word.length > 0) {
        bool matches = same(word, wanted);
        if (!matches && !filler(word, besides)) {
            return false;
        }
        if (matches) {
            wanted = word_after(wanted.from + wanted.length, phrase_end);
        }
        word = word_after(word.from + word.length, end);
    }
    return wanted.length == 0;
}

bool name_is(const char *name, const char *phrase) {
    return name && phrase && is_phrase(name, phrase, phrase + strlen(phrase), "");
}

bool name_is_besides(const char *name, const char *phrases, const char *besides) {
    while (name && *phrases) {
        size_t length = strcspn(phrases, "|");
        if (is_phrase(name, phrases, phrases + length, besides)) {
            return true;
        }
        phrases += length + (phrases[length] == '|');
    }
    return false;
}
