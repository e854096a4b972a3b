#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_CAPACITY = 64 };

Text text_new(Arena *arena) {
    return (Text){.arena = arena,
                  .bytes = arena_take(arena, FIRST_CAPACITY, 1),
                  .length = 0,
                  .capacity = FIRST_CAPACITY};
}

static void make_room(Text *text, size_t more) {
    if (text->capacity - text->length > more)
        return;
    size_t capacity = text->capacity;
    while (capacity - text->length <= more)
        capacity *= 2;
    char *moved = arena_take(text->arena, capacity, 1);
    memcpy(moved, text->bytes, text->length + 1);
    text->bytes = moved;
    text->capacity = capacity;
}

void text_add_bytes(Text *text, const char *bytes, size_t length) {
    make_room(text, length);
    if (length)
        memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    text->bytes[text->length] = '\0';
}

void text_add(Text *text, const char *string) {
    text_add_bytes(text, string, strlen(string));
}

void text_addf(Text *text, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    va_list again;
    va_copy(again, arguments);
    size_t room = text->capacity - text->length;
    int length = vsnprintf(text->bytes + text->length, room, format, arguments);
    va_end(arguments);
    if (length > 0 && (size_t)length >= room) {
        make_room(text, (size_t)length);
        vsnprintf(text->bytes + text->length, (size_t)length + 1, format, again);
    }
    text->length += length > 0 ? (size_t)length : 0;
    va_end(again);
}

bool text_same(const char *one, const char *other) {
    return one && other && strcmp(one, other) == 0;
}
