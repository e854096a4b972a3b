/* Text: a growing string in an arena. `bytes` is always NUL-ended and never NULL after text_new. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

typedef struct Text {
    Arena *arena;
    char *bytes;
    size_t length;
    size_t capacity;
} Text;

/* An empty text that grows in `arena`. */
Text text_new(Arena *arena);

/* Appends `length` bytes. */
void text_add_bytes(Text *text, const char *bytes, size_t length);

/* Appends a NUL-ended string. */
void text_add(Text *text, const char *string);

/* Appends as printf does, in the C locale. */
void text_addf(Text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Whether both strings are there and alike. */
bool text_same(const char *one, const char *other);

#endif
