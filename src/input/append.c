#include "input/append.h"

#include "base/text.h"
#include "input/tags.h"

#include <string.h>

static bool blank(char letter) {
    return letter == ' ' || letter == '\t';
}

static bool line_end(char letter) {
    return letter == '\n' || letter == '\r';
}

/* Where the line begins, if nothing but blanks stands before `at` in it; else `at`. */
static size_t line_start(const char *bytes, size_t at) {
    size_t start = at;
    while (start > 0 && blank(bytes[start - 1]))
        start--;
    return start == 0 || line_end(bytes[start - 1]) ? start : at;
}

/* What stands before the first child of the root, in its line; two blanks when it is not alone. */
static const char *indentation(Arena *arena, const char *bytes, const Tags *tags) {
    if (tags->count > 1 && tags->items[1].opens) {
        size_t at = tags->items[1].name.from - 1;
        size_t start = line_start(bytes, at);
        if (start < at)
            return arena_copy(arena, bytes + start, at - start);
    }
    return "  ";
}

static const char *line_end_of(const char *bytes) {
    size_t first = strcspn(bytes, "\r\n");
    return bytes[first] != '\r' ? "\n" : bytes[first + 1] == '\n' ? "\r\n" : "\r";
}

static void add_lines(Text *text, const char *element, const char *indent, const char *end) {
    while (*element) {
        size_t length = strcspn(element, "\n");
        const char *line = element;
        text_add(text, indent);
        for (; length > 1 && line[0] == ' ' && line[1] == ' '; line += 2, length -= 2)
            text_add(text, indent);
        text_add_bytes(text, line, length);
        text_add(text, end);
        element = line + length + (line[length] == '\n');
    }
}

Bytes xml_append(Arena *arena, Bytes file, const char *element) {
    const char *bytes = arena_copy(arena, (const char *)file.data, file.length);
    Tags tags = tags_scan(arena, bytes, file.length);
    const Tag *last = tags.count ? &tags.items[tags.count - 1] : NULL;
    if (!last || last->opens || last->name.from < 2 || bytes[last->name.from - 1] != '/')
        return (Bytes){0};
    size_t tag = last->name.from - 2;
    size_t at = line_start(bytes, tag);
    const char *end = line_end_of(bytes);
    Text text = text_new(arena);
    text_add_bytes(&text, bytes, at);
    if (at == tag && tag > 0 && !line_end(bytes[tag - 1]))
        text_add(&text, end);
    add_lines(&text, element, indentation(arena, bytes, &tags), end);
    text_add_bytes(&text, bytes + at, file.length - at);
    return (Bytes){(uint8_t *)text.bytes, text.length};
}
