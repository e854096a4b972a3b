#include "layout/wrap.h"

#include "base/text.h"
#include "base/utf8.h"

#include <stdbool.h>
#include <stdint.h>

enum {
    ZERO_WIDTH_SPACE = 0x200B,
    HYPHEN = 0x2010,
    EN_DASH = 0x2013,
    EM_DASH = 0x2014,
    UNITS_PER_EM = 1000
};

/* What may happen behind a character. */
typedef enum Break {
    BREAK_NEVER,
    BREAK_AFTER,  /* the character stays at the end of the line */
    BREAK_INSTEAD /* the character goes when the line breaks here */
} Break;

typedef struct Wrapper {
    Arena *arena;
    WrapType type;
    double width_mm;
    bool strong; /* at the start of the line being set */
    WrappedLines lines;
} Wrapper;

static bool is_switch(uint32_t code) {
    return code == (uint32_t)WRAP_STRONG || code == (uint32_t)WRAP_PLAIN;
}

/* Reads a character; a stray byte counts as one, so that nothing can hang. */
static uint32_t take(const char **at) {
    uint32_t code = 0;
    if (utf8_next(at, &code))
        return code;
    ++*at;
    return '?';
}

/* The next character that takes room. */
static uint32_t peek(const char *at) {
    uint32_t code = take(&at);
    while (is_switch(code))
        code = take(&at);
    return code;
}

static Break break_behind(uint32_t code, const char *rest) {
    if (code == ' ' || code == ZERO_WIDTH_SPACE)
        return BREAK_INSTEAD;
    if (code != '-' && code != '/' && code != HYPHEN && code != EN_DASH && code != EM_DASH)
        return BREAK_NEVER;
    uint32_t next = peek(rest);
    bool figure = next >= '0' && next <= '9';
    return next != ' ' && next != '\0' && !figure ? BREAK_AFTER : BREAK_NEVER;
}

/* Width of one character; turns *strong on or off at a switch. */
static double advance_mm(WrapType type, uint32_t code, bool *strong) {
    if (is_switch(code)) {
        *strong = code == (uint32_t)WRAP_STRONG;
        return 0;
    }
    if (code == ZERO_WIDTH_SPACE)
        return 0;
    const Face *face = *strong ? type.strong : type.plain;
    return face_advance(face, code) * type.size_pt * MM_PER_PT / UNITS_PER_EM;
}

/* Copies a stretch without its zero-width spaces, with the switches it needs to stand alone. */
static const char *copy_line(Wrapper *wrapper, const char *from, const char *end, bool *strong) {
    Text text = text_new(wrapper->arena);
    if (*strong)
        text_addf(&text, "%c", WRAP_STRONG);
    for (const char *at = from; at < end;) {
        const char *start = at;
        uint32_t code = take(&at);
        if (is_switch(code))
            *strong = code == (uint32_t)WRAP_STRONG;
        if (code != ZERO_WIDTH_SPACE)
            text_add_bytes(&text, start, (size_t)(at - start));
    }
    if (*strong)
        text_addf(&text, "%c", WRAP_PLAIN);
    return text.bytes;
}

static void add_line(Wrapper *wrapper, const char *from, const char *end) {
    while (end > from && end[-1] == ' ')
        end--;
    const char *string = copy_line(wrapper, from, end, &wrapper->strong);
    double width_mm = wrap_width_mm(wrapper->type, string);
    LIST_ADD(wrapper->arena, &wrapper->lines, (WrappedLine){string, width_mm});
}

/* Sets one line that starts at `start` and returns where the next one starts. */
static const char *set_line(Wrapper *wrapper, const char *start) {
    const char *at = start;
    const char *line_end = NULL;  /* the last good place to break, */
    const char *next_line = NULL; /* and where the text goes on then */
    bool strong = wrapper->strong;
    double width_mm = 0;
    while (*at && *at != '\n') {
        const char *before = at;
        uint32_t code = take(&at);
        width_mm += advance_mm(wrapper->type, code, &strong);
        Break kind = break_behind(code, at);
        if (width_mm > wrapper->width_mm && kind != BREAK_INSTEAD) {
            if (!line_end)
                line_end = next_line = before > start ? before : at;
            add_line(wrapper, start, line_end);
            return next_line;
        }
        if (kind != BREAK_NEVER) {
            line_end = kind == BREAK_INSTEAD ? before : at;
            next_line = at;
        }
    }
    add_line(wrapper, start, at);
    return *at == '\n' ? at + 1 : NULL;
}

WrappedLines wrap_text(Arena *arena, WrapType type, const char *text, double width_mm) {
    /* The small allowance keeps a text that was measured for its own column on one line. */
    Wrapper wrapper = {arena, type, width_mm + 1e-6, false, {0}};
    const char *at = text;
    do {
        at = set_line(&wrapper, at);
    } while (at && *at);
    return wrapper.lines;
}

double wrap_width_mm(WrapType type, const char *text) {
    double width_mm = 0;
    bool strong = false;
    for (const char *at = text; *at;)
        width_mm += advance_mm(type, take(&at), &strong);
    return width_mm;
}

double wrap_widest_word_mm(WrapType type, const char *text) {
    double widest_mm = 0;
    double width_mm = 0;
    bool strong = false;
    for (const char *at = text; *at;) {
        uint32_t code = take(&at);
        Break kind = code == '\n' ? BREAK_INSTEAD : break_behind(code, at);
        if (kind != BREAK_INSTEAD)
            width_mm += advance_mm(type, code, &strong);
        if (width_mm > widest_mm)
            widest_mm = width_mm;
        if (kind != BREAK_NEVER)
            width_mm = 0;
    }
    return widest_mm;
}
