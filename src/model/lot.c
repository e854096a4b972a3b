#include "model/lot.h"

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

enum { WORD_MAX = 10 };

/* The file's name without folders and ending. */
static const char *stem_of(Arena *arena, const char *file) {
    const char *slash = strrchr(file, '/');
    const char *name = slash ? slash + 1 : file;
    const char *dot = strrchr(name, '.');
    size_t length = dot && dot != name ? (size_t)(dot - name) : strlen(name);
    return arena_copy(arena, name, length);
}

/* Small letter or digit of that byte; 0 for any other. */
static char plain(char byte) {
    if (byte >= 'A' && byte <= 'Z') {
        return (char)(byte - 'A' + 'a');
    }
    bool kept = (byte >= 'a' && byte <= 'z') || (byte >= '0' && byte <= '9');
    return kept ? byte : '\0';
}

/* Copies the first word; returns whether it is the whole stem, letter for letter. */
static bool first_word(const char *stem, char word[WORD_MAX + 1]) {
    size_t length = 0;
    const char *at = stem;
    for (; *at && length < WORD_MAX; at++) {
        char letter = plain(*at);
        if (!letter && length > 0) {
            break;
        }
        if (letter) {
            word[length++] = letter;
        }
    }
    word[length] = '\0';
    return strcmp(word, stem) == 0;
}

/* Two signs out of the whole name (FNV-1a, 32 bit); no 0, 1, i, l, o, which are misread. */
static void check_signs(const char *stem, char signs[3]) {
    static const char alphabet[] = "23456789abcdefghjkmnpqrstuvwxyz";
    const uint32_t base = sizeof alphabet - 1;
    uint32_t hash = 2166136261u;
    for (const char *at = stem; *at; at++) {
        hash = (hash ^ (unsigned char)*at) * 16777619u;
    }
    hash ^= hash >> 16;
    signs[0] = alphabet[hash % base];
    signs[1] = alphabet[hash / base % base];
    signs[2] = '\0';
}

const char *lot_of_batch(Arena *arena, const Batch *batch, Date date) {
    if (batch->lot) {
        return batch->lot;
    }
    const char *stem = stem_of(arena, batch->file ? batch->file : "batch");
    char word[WORD_MAX + 1];
    char signs[3] = "";
    char day[ORDINAL_TEXT_SIZE] = "";
    bool whole = first_word(stem, word);
    if (!whole) {
        check_signs(stem, signs);
    }
    if (date.year) {
        date_format_ordinal(date, day);
    }
    const char *dash = word[0] && day[0] ? "-" : "";
    const char *second_dash = whole ? "" : (word[0] || day[0] ? "-" : "");
    return arena_format(arena, "L%s%s%s%s%s", day, dash, word, second_dash, signs);
}

const char *lot_short(Arena *arena, Date date, const char *file, int number) {
    char signs[3];
    check_signs(arena_format(arena, "%s %d", stem_of(arena, file), number), signs);
    for (int i = 0; i < 2; i++) {
        signs[i] = (char)(signs[i] >= 'a' ? signs[i] - 'a' + 'A' : signs[i]);
    }
    return arena_format(arena, "L%02d%03d-%s", date.year % 100, date_ordinal(date), signs);
}
