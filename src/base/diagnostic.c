#include "base/diagnostic.h"

#include "base/utf8.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum {
    LINE_WIDTH = 96,     /* characters of a source line that are shown */
    BEFORE_CARET = 48,   /* of these at most so many before the caret when the line is long */
    REPORTS_SHOWN = 200, /* a page of noise helps nobody */
    REPLACEMENT = 0xFFFD
};

static const char indent[] = "    ";

Diagnostics diagnostics_new(Arena *arena) {
    return (Diagnostics){.arena = arena};
}

void diagnostics_source(Diagnostics *diagnostics, const char *file, const char *text) {
    LIST_ADD(diagnostics->arena, &diagnostics->sources, (SourceText){file, text});
}

void diagnostics_clear(Diagnostics *diagnostics) {
    diagnostics->list.count = 0;
}

static bool same_file(const char *one, const char *other) {
    return one == other || text_same(one, other);
}

__attribute__((format(printf, 2, 0))) static char *format_text(Arena *arena, const char *format,
                                                               va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    size_t size = (size_t)(length < 0 ? 0 : length) + 1;
    char *text = arena_take(arena, size, 1);
    vsnprintf(text, size, format, arguments);
    return text;
}

__attribute__((format(printf, 5, 0))) static void report(Diagnostics *diagnostics,
                                                         Severity severity, Place place,
                                                         const char *remedy, const char *format,
                                                         va_list arguments) {
    LIST_ADD(diagnostics->arena, &diagnostics->list,
             (Diagnostic){.severity = severity,
                          .place = place,
                          .message = format_text(diagnostics->arena, format, arguments),
                          .remedy = arena_string(diagnostics->arena, remedy),
                          .order = diagnostics->list.count});
}

void report_error(Diagnostics *diagnostics, Place place, const char *remedy, const char *format,
                  ...) {
    va_list arguments;
    va_start(arguments, format);
    report(diagnostics, SEVERITY_ERROR, place, remedy, format, arguments);
    va_end(arguments);
}

void report_warning(Diagnostics *diagnostics, Place place, const char *remedy, const char *format,
                    ...) {
    va_list arguments;
    va_start(arguments, format);
    report(diagnostics, SEVERITY_WARNING, place, remedy, format, arguments);
    va_end(arguments);
}

void report_note(Diagnostics *diagnostics, Place place, const char *remedy, const char *format,
                 ...) {
    va_list arguments;
    va_start(arguments, format);
    report(diagnostics, SEVERITY_NOTE, place, remedy, format, arguments);
    va_end(arguments);
}

size_t diagnostics_errors(const Diagnostics *diagnostics, const char *file) {
    size_t count = 0;
    for (size_t i = 0; i < diagnostics->list.count; i++) {
        const Diagnostic *item = &diagnostics->list.items[i];
        if (item->severity == SEVERITY_ERROR && (!file || same_file(item->place.file, file)))
            count++;
    }
    return count;
}

/* ---- Printing ---------------------------------------------------------------------------- */

/* One character of text that may be anything; a byte that is no UTF-8 counts as one. */
static uint32_t next_character(const char **at) {
    uint32_t code;
    if (utf8_next(at, &code))
        return code;
    (*at)++;
    return REPLACEMENT;
}

/* Control characters, and those that turn the direction of the text, could make a terminal show
 * something else than what stands in the file. */
static bool steers_terminal(uint32_t code) {
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || (code >= 0x202A && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069) || code == 0x200E || code == 0x200F;
}

static void add_character(Text *text, uint32_t code) {
    char bytes[5];
    if (code == '\t' || code == '\n')
        code = ' ';
    size_t length = utf8_encode(steers_terminal(code) ? REPLACEMENT : code, bytes);
    text_add_bytes(text, bytes, length);
}

static void add_safely(Text *text, const char *string) {
    while (*string)
        add_character(text, next_character(&string));
}

static const char *source_of(const Diagnostics *diagnostics, const char *file) {
    for (size_t i = diagnostics->sources.count; i > 0; i--)
        if (same_file(diagnostics->sources.items[i - 1].file, file))
            return diagnostics->sources.items[i - 1].text;
    return NULL;
}

static const char *line_start(const char *text, int line) {
    while (text && --line > 0) {
        text = strchr(text, '\n');
        text = text ? text + 1 : NULL;
    }
    return text;
}

/* The characters of a line without its end. */
typedef struct Line {
    LIST_OF(uint32_t) characters;
} Line;

static Line line_at(Arena *arena, const char *start) {
    Line line = {0};
    while (*start && *start != '\n' && !(start[0] == '\r' && start[1] == '\n'))
        LIST_ADD(arena, &line.characters, next_character(&start));
    return line;
}

static size_t blanks_at_start(const Line *line) {
    size_t count = 0;
    while (count < line->characters.count &&
           (line->characters.items[count] == ' ' || line->characters.items[count] == '\t'))
        count++;
    return count;
}

/* Shows the source line without its indentation, a window of it when it is long, and under it
 * the caret. Tabs are shown as one blank, so that the caret stands right under any setting. */
static void add_source_line(Text *text, const Line *line, Place place) {
    size_t column = (size_t)place.column - 1, count = line->characters.count;
    if (column > count)
        column = count;
    size_t from = blanks_at_start(line);
    if (from > column)
        from = column;
    bool cut = count - from > LINE_WIDTH && column - from > BEFORE_CARET;
    if (cut)
        from = column - BEFORE_CARET;
    size_t to = count - from > LINE_WIDTH ? from + LINE_WIDTH : count;
    text_addf(text, "%s%s", indent, cut ? "…" : "");
    for (size_t i = from; i < to; i++)
        add_character(text, line->characters.items[i]);
    text_addf(text, "%s\n%s%s", to < count ? "…" : "", indent, cut ? " " : "");
    for (size_t i = from; i < column; i++)
        text_add(text, " ");
    text_add(text, "^");
    for (size_t i = 1; i < (size_t)place.length && column + i < to; i++)
        text_add(text, "~");
    text_add(text, "\n");
}

static void add_place(Text *text, Place place) {
    if (!place.file)
        return;
    add_safely(text, place.file);
    if (place.line > 0)
        text_addf(text, ":%d", place.line);
    if (place.line > 0 && place.column > 0)
        text_addf(text, ":%d", place.column);
    text_add(text, ": ");
}

static void add_report(const Diagnostics *diagnostics, const Diagnostic *item, Text *text) {
    static const char *const severities[] = {"error", "warning", "note"};
    add_place(text, item->place);
    text_addf(text, "%s: ", severities[item->severity]);
    add_safely(text, item->message);
    text_add(text, "\n");
    const char *start = item->place.file
                            ? line_start(source_of(diagnostics, item->place.file), item->place.line)
                            : NULL;
    if (start && item->place.line > 0 && item->place.column > 0) {
        Line line = line_at(diagnostics->arena, start);
        add_source_line(text, &line, item->place);
    }
    if (item->remedy) {
        text_add(text, indent);
        add_safely(text, item->remedy);
        text_add(text, "\n");
    }
}

static size_t file_rank(const Diagnostics *diagnostics, const char *file) {
    for (size_t i = 0; i < diagnostics->sources.count; i++)
        if (same_file(diagnostics->sources.items[i].file, file))
            return i;
    return diagnostics->sources.count;
}

/* An item with what it is sorted by: qsort takes no context. */
typedef struct Ranked {
    size_t file_rank;
    const Diagnostic *item;
} Ranked;

static int by_place(const void *left, const void *right) {
    const Ranked *a = left, *b = right;
    if (a->file_rank != b->file_rank)
        return a->file_rank < b->file_rank ? -1 : 1;
    const Place *one = &a->item->place, *other = &b->item->place;
    if (one->line != other->line)
        return one->line < other->line ? -1 : 1;
    if (one->column != other->column)
        return one->column < other->column ? -1 : 1;
    return a->item->order < b->item->order ? -1 : 1;
}

static Ranked *ranked(const Diagnostics *diagnostics) {
    size_t count = diagnostics->list.count;
    Ranked *items = ARENA_ARRAY(diagnostics->arena, count, Ranked);
    for (size_t i = 0; i < count; i++) {
        const Diagnostic *item = &diagnostics->list.items[i];
        items[i] = (Ranked){file_rank(diagnostics, item->place.file), item};
    }
    qsort(items, count, sizeof *items, by_place);
    return items;
}

/* "2 errors in workshop.xml", one line for each file that has any. */
static void add_counts(const Diagnostics *diagnostics, const Ranked *items, Text *text) {
    size_t count = diagnostics->list.count;
    for (size_t i = 0; i < count; i++) {
        const char *file = items[i].item->place.file;
        size_t errors = diagnostics_errors(diagnostics, file);
        bool first = i == 0 || !same_file(items[i - 1].item->place.file, file);
        if (!first || !errors || !file)
            continue;
        text_addf(text, "%zu error%s in ", errors, errors == 1 ? "" : "s");
        add_safely(text, file);
        text_add(text, "\n");
    }
}

void diagnostics_add_to(const Diagnostics *diagnostics, Text *text) {
    size_t count = diagnostics->list.count;
    if (!count)
        return;
    Ranked *items = ranked(diagnostics);
    for (size_t i = 0; i < count && i < REPORTS_SHOWN; i++)
        add_report(diagnostics, items[i].item, text);
    if (count > REPORTS_SHOWN)
        text_addf(text, "and %zu more\n", count - REPORTS_SHOWN);
    add_counts(diagnostics, items, text);
}

void diagnostics_print(const Diagnostics *diagnostics, FILE *stream) {
    Text text = text_new(diagnostics->arena);
    diagnostics_add_to(diagnostics, &text);
    fputs(text.bytes, stream);
}

void say_line(FILE *stream, const char *format, ...) {
    Arena *arena = arena_new();
    va_list arguments;
    va_start(arguments, format);
    char *line = format_text(arena, format, arguments);
    va_end(arguments);
    Text text = text_new(arena);
    add_safely(&text, line);
    fprintf(stream, "%s\n", text.bytes);
    arena_free(arena);
}
