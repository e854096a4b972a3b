#include "input/source.h"

#include "base/utf8.h"

#include <limits.h>
#include <string.h>

static const char save_as[] = "save the file as UTF-8";

Source source_new(Diagnostics *diagnostics, const char *file, const char *bytes, size_t length) {
    Source source = {.file = file, .bytes = bytes, .length = length};
    if (length >= 3 && !memcmp(bytes, "\xEF\xBB\xBF", 3)) {
        source.bytes += 3;
        source.length -= 3;
    }
    LIST_ADD(diagnostics->arena, &source.lines, (size_t)0);
    const char *end = source.bytes + source.length;
    for (const char *at = source.bytes; (at = memchr(at, '\n', (size_t)(end - at))) != NULL;)
        LIST_ADD(diagnostics->arena, &source.lines, (size_t)(++at - source.bytes));
    diagnostics_source(diagnostics, file, source.bytes);
    return source;
}

/* Index of the last line that starts at or before the offset. */
static size_t line_of(const Source *source, size_t offset) {
    size_t low = 0, high = source->lines.count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (source->lines.items[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* A character of ASCII that may stand in any text. */
static bool plain(char byte) {
    return byte >= 0x20 && byte < 0x7F;
}

/* Characters between two offsets; a byte that is no UTF-8 counts as one. */
static int characters(const Source *source, size_t from, size_t to) {
    int count = 0;
    const char *at = source->bytes + from, *end = source->bytes + to;
    for (; at < end && count < INT_MAX; count++) {
        uint32_t code;
        if (plain(*at) || !utf8_next(&at, &code) || !code)
            at++;
    }
    return count;
}

Place source_place(const Source *source, size_t offset, size_t length) {
    if (offset > source->length)
        offset = source->length;
    if (length > source->length - offset)
        length = source->length - offset;
    size_t line = line_of(source, offset);
    const char *end = length ? memchr(source->bytes + offset, '\n', length) : NULL;
    if (end)
        length = (size_t)(end - (source->bytes + offset));
    return (Place){.file = source->file,
                   .line = (int)line + 1,
                   .column = characters(source, source->lines.items[line], offset) + 1,
                   .length = characters(source, offset, offset + length)};
}

static bool starts_with(const Source *source, const char *bytes, size_t length) {
    return source->length >= length && !memcmp(source->bytes, bytes, length);
}

/* A file that is no UTF-8 text from its first bytes on. */
static bool check_first_bytes(const Source *source, Diagnostics *diagnostics) {
    Place file = {.file = source->file};
    if (!source->length) {
        report_error(diagnostics, file, NULL, "the file is empty");
        return false;
    }
    if (starts_with(source, "\x1F\x8B", 2) || starts_with(source, "PK\x03\x04", 4)) {
        report_error(diagnostics, file, "unpack it first", "the file is compressed");
        return false;
    }
    if (starts_with(source, "\xFF\xFE", 2) || starts_with(source, "\xFE\xFF", 2) ||
        starts_with(source, "<\0", 2) || starts_with(source, "\0<", 2)) {
        report_error(diagnostics, file, save_as, "the file is UTF-16");
        return false;
    }
    return true;
}

/* Characters that XML 1.0 does not let through, and DEL and C1, which steer a terminal. */
static bool forbidden(uint32_t code) {
    return (code < 0x20 && code != '\t' && code != '\n' && code != '\r') ||
           (code >= 0x7F && code < 0xA0) || code == 0xFFFE || code == 0xFFFF;
}

uint32_t source_forbidden(const char *text) {
    uint32_t code = 0;
    do {
        while (plain(*text))
            text++;
    } while (utf8_next(&text, &code) && code && !forbidden(code));
    return code && forbidden(code) ? code : 0;
}

bool source_check_xml(const Source *source, Diagnostics *diagnostics) {
    if (!check_first_bytes(source, diagnostics))
        return false;
    size_t at = strspn(source->bytes, " \t\r\n");
    if (at == source->length || source->bytes[at] == '<')
        return true;
    report_error(diagnostics, (Place){.file = source->file}, "an XML file starts with '<'",
                 "the file is no XML");
    return false;
}

bool source_check_text(const Source *source, Diagnostics *diagnostics) {
    if (!check_first_bytes(source, diagnostics))
        return false;
    const char *at = source->bytes, *end = source->bytes + source->length;
    while (at < end) {
        const char *here = at;
        if (plain(*at)) {
            at++;
            continue;
        }
        uint32_t code;
        bool valid = utf8_next(&at, &code);
        if (valid && !forbidden(code))
            continue;
        Place place = source_place(source, (size_t)(here - source->bytes), 1);
        if (valid)
            report_error(diagnostics, place, "take it out", "control character U+%04X",
                         (unsigned)code);
        else
            report_error(diagnostics, place, save_as, "byte 0x%02X is not UTF-8",
                         (unsigned)(unsigned char)*here);
        return false;
    }
    return true;
}
