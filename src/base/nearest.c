#include "base/nearest.h"

#include "base/text.h"

#include <string.h>

enum { NAME_BYTES_MAX = 64, LETTERS_A_SLIP = 3, NAMES_LISTED_MAX = 12 };

static char small_letter(char letter) {
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static size_t least(size_t a, size_t b) {
    return a < b ? a : b;
}

static size_t length_of(const char *name) {
    return least(strlen(name), NAME_BYTES_MAX);
}

size_t name_distance(const char *one, const char *other) {
    /* Three rows of the table of distances between beginnings are enough to see swaps. */
    size_t rows[3][NAME_BYTES_MAX + 1];
    size_t rows_count = length_of(one), columns = length_of(other);
    for (size_t j = 0; j <= columns; j++)
        rows[0][j] = j;
    for (size_t i = 1; i <= rows_count; i++) {
        size_t *row = rows[i % 3], *above = rows[(i + 2) % 3], *second = rows[(i + 1) % 3];
        row[0] = i;
        for (size_t j = 1; j <= columns; j++) {
            char a = small_letter(one[i - 1]), b = small_letter(other[j - 1]);
            row[j] = least(above[j - 1] + (a != b), least(above[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && a == small_letter(other[j - 2]) && b == small_letter(one[i - 2]))
                row[j] = least(row[j], second[j - 2] + 1);
        }
    }
    return rows[rows_count % 3][columns];
}

const char *nearest_name(const char *written, const Names *names) {
    const char *nearest = NULL;
    size_t nearest_distance = 0;
    for (size_t i = 0; i < names->count; i++) {
        const char *name = names->items[i];
        size_t letters = length_of(written) > length_of(name) ? length_of(written)
                                                              : length_of(name);
        size_t allowed = letters < LETTERS_A_SLIP ? 1 : letters / LETTERS_A_SLIP;
        size_t distance = name_distance(written, name);
        if (distance > allowed || distance >= letters)
            continue;
        if (!nearest || distance < nearest_distance) {
            nearest = name;
            nearest_distance = distance;
        }
    }
    return nearest;
}

char *names_listed(Arena *arena, const Names *names) {
    Text text = text_new(arena);
    size_t shown = least(names->count, NAMES_LISTED_MAX);
    for (size_t i = 0; i < shown; i++) {
        text_add(&text, i ? ", " : "");
        text_add(&text, names->items[i]);
    }
    if (names->count > shown)
        text_addf(&text, " and %zu more", names->count - shown);
    return text.bytes;
}
