#include "input/tags.h"

#include <string.h>

typedef struct Scan {
    Arena *arena;
    const char *bytes;
    size_t length;
    size_t at;
    Tags tags;
} Scan;

static bool ahead(const Scan *scan, const char *text) {
    size_t length = strlen(text);
    return scan->length - scan->at >= length && !memcmp(scan->bytes + scan->at, text, length);
}

/* Goes behind the next `text`, or to the end. */
static void skip_behind(Scan *scan, const char *text) {
    while (scan->at < scan->length && !ahead(scan, text)) {
        const char *from = scan->bytes + scan->at + 1;
        const char *next = memchr(from, *text, scan->length - scan->at - 1);
        scan->at = next ? (size_t)(next - scan->bytes) : scan->length;
    }
    scan->at = scan->at < scan->length ? scan->at + strlen(text) : scan->length;
}

static bool blank(char letter) {
    return letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r';
}

static char letter(const Scan *scan) {
    return scan->at < scan->length ? scan->bytes[scan->at] : '\0';
}

static void skip_blanks(Scan *scan) {
    while (blank(letter(scan)))
        scan->at++;
}

static Span take_name(Scan *scan) {
    size_t from = scan->at;
    while (scan->at < scan->length && !blank(letter(scan)) && !strchr("=/>\"'<", letter(scan)))
        scan->at++;
    return (Span){from, scan->at - from};
}

static TagAttribute take_attribute(Scan *scan) {
    TagAttribute attribute = {.name = take_name(scan)};
    skip_blanks(scan);
    if (letter(scan) == '=')
        scan->at++;
    skip_blanks(scan);
    char quote[2] = {letter(scan), '\0'};
    if (quote[0] != '"' && quote[0] != '\'')
        return attribute;
    size_t from = ++scan->at;
    skip_behind(scan, quote);
    attribute.value = (Span){from, scan->at > from ? scan->at - 1 - from : 0};
    return attribute;
}

/* Reads a start tag, the bracket behind it, and adds it; also its end when it closes itself. */
static void take_start(Scan *scan) {
    scan->at++;
    Tag tag = {.opens = true, .name = take_name(scan)};
    for (;;) {
        skip_blanks(scan);
        size_t before = scan->at;
        if (!letter(scan) || letter(scan) == '>' || letter(scan) == '/')
            break;
        TagAttribute attribute = take_attribute(scan);
        if (scan->at == before)
            break;
        LIST_ADD(scan->arena, &tag.attributes, attribute);
    }
    bool closed = letter(scan) == '/';
    skip_behind(scan, ">");
    tag.text = scan->at;
    LIST_ADD(scan->arena, &scan->tags, tag);
    if (closed)
        LIST_ADD(scan->arena, &scan->tags, (Tag){.name = tag.name, .text = scan->at});
}

static void take_end(Scan *scan) {
    scan->at += 2;
    Tag tag = {.name = take_name(scan)};
    skip_behind(scan, ">");
    tag.text = scan->at;
    LIST_ADD(scan->arena, &scan->tags, tag);
}

/* Remembers the first byte of text after the last tag. */
static void note_text(Scan *scan, size_t at) {
    if (!scan->tags.count)
        return;
    Tag *last = &scan->tags.items[scan->tags.count - 1];
    if (!last->has_text)
        last->text = at;
    last->has_text = true;
}

static void take_cdata(Scan *scan) {
    static const char opening[] = "<![CDATA[";
    size_t from = scan->at + strlen(opening);
    skip_behind(scan, "]]>");
    for (size_t i = from; i + 3 < scan->at; i++)
        if (!blank(scan->bytes[i])) {
            note_text(scan, i);
            return;
        }
}

Tags tags_scan(Arena *arena, const char *bytes, size_t length) {
    Scan scan = {.arena = arena, .bytes = bytes, .length = length};
    while (scan.at < length) {
        if (letter(&scan) != '<') {
            if (!blank(letter(&scan)))
                note_text(&scan, scan.at);
            scan.at++;
        } else if (ahead(&scan, "<!--"))
            skip_behind(&scan, "-->");
        else if (ahead(&scan, "<![CDATA["))
            take_cdata(&scan);
        else if (ahead(&scan, "<?"))
            skip_behind(&scan, "?>");
        else if (ahead(&scan, "</"))
            take_end(&scan);
        else
            take_start(&scan);
    }
    return scan.tags;
}

const TagAttribute *tag_attribute(const Tag *tag, const char *bytes, const char *name) {
    size_t length = strlen(name);
    for (size_t i = 0; i < tag->attributes.count; i++) {
        Span span = tag->attributes.items[i].name;
        if (span.length == length && !memcmp(bytes + span.from, name, length))
            return &tag->attributes.items[i];
    }
    return NULL;
}
