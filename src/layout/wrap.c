#include "layout/wrap.h"

#include "base/text.h"
#include "base/utf8.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* Keeps a text that was measured for its own column on one line. */
#define ALLOWANCE_MM 1e-6

enum {
    ZERO_WIDTH_SPACE = 0x200B,
    HYPHEN = 0x2010,
    EN_DASH = 0x2013,
    EM_DASH = 0x2014,
    UNITS_PER_EM = 1000,
    MOST_ROOM = 1 << 30,
    EXCERPT_CHARACTERS = 60
};

/* What may happen behind a character. */
typedef enum Break {
    BREAK_NEVER,
    BREAK_AFTER,  /* the character stays at the end of the line */
    BREAK_INSTEAD /* the character goes when the line breaks here */
} Break;

/* Where the next line starts: at a piece, or within one that is wider than a line. */
typedef struct Cursor {
    size_t piece;
    const char *from;
    int width; /* from here to the end of the piece */
    bool strong;
} Cursor;

static bool is_switch(uint32_t code) {
    return code == (uint32_t)WRAP_STRONG || code == (uint32_t)WRAP_PLAIN;
}

/* Reads a character; a stray byte counts as one, so that nothing can hang. */
static uint32_t take(const char **at) {
    unsigned char byte = (unsigned char)**at;
    if (byte < 0x80) {
        ++*at;
        return byte;
    }
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
    if (code == ' ' || code == ZERO_WIDTH_SPACE || code == '\n')
        return BREAK_INSTEAD;
    if (code != '-' && code != '/' && code != HYPHEN && code != EN_DASH && code != EM_DASH)
        return BREAK_NEVER;
    uint32_t next = peek(rest);
    bool figure = next >= '0' && next <= '9';
    return next != ' ' && next != '\0' && !figure ? BREAK_AFTER : BREAK_NEVER;
}

/* Width of one character; turns *strong on or off at a switch. */
static int advance(const WrapText *text, uint32_t code, bool *strong) {
    if (is_switch(code)) {
        *strong = code == (uint32_t)WRAP_STRONG;
        return 0;
    }
    if (code == ZERO_WIDTH_SPACE || code == '\n')
        return 0;
    return face_advance(*strong ? text->strong : text->plain, code);
}

/* ---- Measuring ---- */

static void add_piece(Arena *arena, WrapText *text, WrapPiece piece) {
    text->widest = piece.width > text->widest ? piece.width : text->widest;
    LIST_ADD(arena, &text->pieces, piece);
}

/* The width of the widest of the lines that the newlines make. */
static int whole_width(const WrapText *text) {
    int widest = 0;
    int width = 0;
    for (size_t i = 0; i < text->pieces.count; i++) {
        const WrapPiece *piece = &text->pieces.items[i];
        width += piece->width;
        widest = width > widest ? width : widest;
        width = piece->newline ? 0 : width + piece->blank;
    }
    return width > widest ? width : widest; /* blanks at the end count */
}

WrapText wrap_measure(Arena *arena, const Face *plain, const Face *strong, const char *string) {
    WrapText text = {.plain = plain, .strong = strong};
    bool is_strong = false;
    WrapPiece piece = {.from = string};
    const char *at = string;
    while (*at) {
        const char *before = at;
        uint32_t code = take(&at);
        Break kind = break_behind(code, at);
        int width = advance(&text, code, &is_strong);
        if (kind != BREAK_INSTEAD)
            piece.width += width;
        if (kind == BREAK_NEVER)
            continue;
        piece.end = kind == BREAK_INSTEAD ? before : at;
        piece.blank = kind == BREAK_INSTEAD ? width : 0;
        piece.newline = code == '\n';
        add_piece(arena, &text, piece);
        piece = (WrapPiece){.from = at, .strong = is_strong};
    }
    piece.end = at;
    bool ended = text.pieces.count && text.pieces.items[text.pieces.count - 1].newline;
    if (!text.pieces.count || piece.from < at || !ended)
        add_piece(arena, &text, piece);
    text.width = whole_width(&text);
    return text;
}

int wrap_room(double width_mm, double size_pt) {
    double room = (width_mm + ALLOWANCE_MM) * UNITS_PER_EM / (size_pt * MM_PER_PT);
    return room < MOST_ROOM ? (int)floor(room) : MOST_ROOM;
}

double wrap_mm(int width, double size_pt) {
    return width * size_pt * MM_PER_PT / UNITS_PER_EM;
}

/* ---- Breaking ---- */

/* As many characters of a piece that is too wide as the line has room for, but one at least. */
static WrapLine take_characters(const WrapText *text, int room, Cursor *cursor) {
    WrapLine line = {.from = cursor->from,
                     .strong = cursor->strong,
                     .first = cursor->piece,
                     .last = cursor->piece};
    const char *end = text->pieces.items[cursor->piece].end;
    const char *at = cursor->from;
    bool strong = cursor->strong;
    bool some = false;
    while (at < end) {
        const char *next = at;
        uint32_t code = take(&next);
        bool strong_then = strong;
        int width = advance(text, code, &strong_then);
        if (some && line.width + width > room)
            break;
        some = some || !is_switch(code);
        strong = strong_then;
        line.width += width;
        at = next;
    }
    line.end = at;
    cursor->from = at;
    cursor->strong = strong;
    cursor->width -= line.width;
    return line;
}

static void go_to(const WrapText *text, size_t piece, Cursor *cursor) {
    *cursor = (Cursor){.piece = piece};
    if (piece < text->pieces.count) {
        const WrapPiece *at = &text->pieces.items[piece];
        *cursor = (Cursor){piece, at->from, at->width, at->strong};
    }
}

/* The line at the cursor, which moves to the next one. */
static WrapLine next_line(const WrapText *text, int room, Cursor *cursor) {
    const WrapPiece *pieces = text->pieces.items;
    if (cursor->width > room) {
        WrapLine line = take_characters(text, room, cursor);
        if (line.end == pieces[line.last].end)
            go_to(text, line.last + 1, cursor);
        return line;
    }
    WrapLine line = {cursor->from,   pieces[cursor->piece].end,
                     cursor->strong, cursor->width,
                     cursor->piece,  cursor->piece};
    while (line.last + 1 < text->pieces.count && !pieces[line.last].newline &&
           line.width + pieces[line.last].blank + pieces[line.last + 1].width <= room) {
        line.width += pieces[line.last].blank + pieces[line.last + 1].width;
        line.last++;
        line.end = pieces[line.last].end;
    }
    go_to(text, line.last + 1, cursor);
    return line;
}

size_t wrap_count(const WrapText *text, int room) {
    if (text->pieces.count == 1 && text->width <= room)
        return 1;
    Cursor cursor;
    size_t count = 0;
    for (go_to(text, 0, &cursor); cursor.piece < text->pieces.count; count++)
        next_line(text, room, &cursor);
    return count;
}

/* Blanks at the end of a line take no room: empty pieces go. */
static void trim(const WrapText *text, WrapLine *line) {
    const WrapPiece *pieces = text->pieces.items;
    while (line->last > line->first && pieces[line->last].width == 0 &&
           pieces[line->last].from == pieces[line->last].end) {
        line->last--;
        line->width -= pieces[line->last].blank;
        line->end = pieces[line->last].end;
    }
}

/* Brings a second word to one that would stand alone on the last line. */
static void join_last(const WrapText *text, int room, WrapLines *lines) {
    if (lines->count < 2)
        return;
    WrapLine *above = &lines->items[lines->count - 2];
    WrapLine *last = &lines->items[lines->count - 1];
    if (last->first != last->last || above->last < above->first + 2 ||
        last->first != above->last + 1)
        return;
    const WrapPiece *moved = &text->pieces.items[above->last];
    const WrapPiece *left = moved - 1;
    int width = moved->width + moved->blank + last->width;
    if (moved->newline || moved->width == 0 || width > room)
        return;
    above->width -= left->blank + moved->width;
    above->end = left->end;
    above->last--;
    *last = (WrapLine){moved->from, last->end, moved->strong, width, last->first - 1, last->last};
}

static bool ends_with(const WrapLine *line, const char *what, size_t length) {
    return (size_t)(line->end - line->from) >= length &&
           memcmp(line->end - length, what, length) == 0;
}

/* A middle dot that a no-break space ties to what it follows parts that from what comes next on the
 * line: at the end of one it parts nothing, and goes. */
static void drop_dot(const WrapText *text, WrapLine *line) {
    static const char space[] = "\u00A0", dot[] = "\u00B7";
    WrapLine left = *line;
    if (!ends_with(&left, dot, sizeof dot - 1))
        return;
    left.end -= sizeof dot - 1;
    left.width -= face_advance(text->plain, 0xB7);
    if (!ends_with(&left, space, sizeof space - 1))
        return;
    for (; ends_with(&left, space, sizeof space - 1); left.end -= sizeof space - 1)
        left.width -= face_advance(text->plain, 0xA0);
    *line = left;
}

WrapLines wrap_lines(Arena *arena, const WrapText *text, int room) {
    WrapLines lines = {0};
    Cursor cursor;
    for (go_to(text, 0, &cursor); cursor.piece < text->pieces.count;) {
        WrapLine line = next_line(text, room, &cursor);
        trim(text, &line);
        LIST_ADD(arena, &lines, line);
    }
    join_last(text, room, &lines);
    for (size_t i = 0; i + 1 < lines.count; i++)
        drop_dot(text, &lines.items[i]);
    return lines;
}

const char *excerpt(Arena *arena, const char *string) {
    Text text = text_new(arena);
    int count = 0;
    while (string && *string) {
        const char *start = string;
        uint32_t code = 0;
        if (!utf8_next(&string, &code))
            string++;
        if (code < ' ')
            continue;
        if (++count > EXCERPT_CHARACTERS) {
            text_add(&text, "…");
            break;
        }
        text_add_bytes(&text, start, (size_t)(string - start));
    }
    return text.bytes;
}
