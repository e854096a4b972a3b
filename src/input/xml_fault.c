#include "input/xml_fault.h"

#include <string.h>

typedef struct Wording {
    int code; /* of libxml2 */
    const char *message;
    const char *remedy;
} Wording;

static const char quotes[] = "write every value as name=\"value\"";
static const char entity[] = "write &amp; for the sign &";

static const Wording wordings[] = {
    {XML_ERR_DOCUMENT_EMPTY, "no element at the start", "an XML file starts with '<'"},
    {XML_ERR_DOCUMENT_END, "something follows the closing tag of the file", NULL},
    {XML_ERR_ATTRIBUTE_NOT_STARTED, "value without quotes", quotes},
    {XML_ERR_ATTRIBUTE_NOT_FINISHED, "value without closing quotes", quotes},
    {XML_ERR_ATTRIBUTE_WITHOUT_VALUE, "attribute without a value", quotes},
    {XML_ERR_LT_IN_ATTRIBUTE, "'<' inside a value", "close the quotes before it, or write &lt;"},
    {XML_ERR_SPACE_REQUIRED, "no blank between two attributes", NULL},
    {XML_ERR_GT_REQUIRED, "tag without a closing '>'", NULL},
    {XML_ERR_LTSLASH_REQUIRED, "closing tag expected", NULL},
    {XML_ERR_NAME_REQUIRED, "'<' or '&' that starts nothing", "write &lt; or &amp; for the sign"},
    {XML_ERR_ENTITYREF_SEMICOL_MISSING, "'&' that starts nothing", entity},
    {XML_ERR_INVALID_CHARREF, "'&#' that names no character", entity},
    {XML_ERR_INVALID_DEC_CHARREF, "'&#' that names no character", entity},
    {XML_ERR_INVALID_HEX_CHARREF, "'&#x' that names no character", entity},
    {XML_ERR_INVALID_CHAR, "character that XML does not let through", "take it out"},
    {XML_ERR_COMMENT_NOT_FINISHED, "comment without its closing '-->'", NULL},
    {XML_ERR_HYPHEN_IN_COMMENT, "'--' inside a comment", "use a single dash"},
    {XML_ERR_CDATA_NOT_FINISHED, "CDATA without its closing ']]>'", NULL},
    {XML_ERR_MISPLACED_CDATA_END, "']]>' in text", "write ]]&gt;"},
    {XML_ERR_PI_NOT_FINISHED, "'<?' without its closing '?>'", NULL},
    {XML_ERR_RESERVED_XML_NAME, "'<?xml' that is not at the very start",
     "take out what stands before it"},
    {XML_ERR_XMLDECL_NOT_FINISHED, "'<?xml' without its closing '?>'", NULL},
    {XML_ERR_VERSION_MISSING, "'<?xml' without a version",
     "write <?xml version=\"1.0\" encoding=\"UTF-8\"?>"},
};

/* Offset of a line and column of the parser; the end of the file when there is no such. */
static size_t offset_of(const Source *source, int line, int column) {
    if (line < 1 || (size_t)line > source->lines.count)
        return source->length;
    size_t offset = source->lines.items[line - 1] + (size_t)(column > 1 ? column - 1 : 0);
    return offset < source->length ? offset : source->length;
}

/* The last place on the way to `offset`, on the same line, at which `text` stands. */
static Place place_before(const Source *source, size_t offset, const char *text) {
    size_t length = strlen(text);
    for (size_t at = offset + 1; at > 0 && length;) {
        at--;
        if (at < offset && source->bytes[at] == '\n')
            break;
        if (source->length - at >= length && !memcmp(source->bytes + at, text, length))
            return source_place(source, at, length);
    }
    return source_place(source, offset, 1);
}

/* The first place in a line at which `text` stands. */
static Place place_in_line(const Source *source, int line, const char *text) {
    size_t start = offset_of(source, line, 1);
    const char *at = strstr(source->bytes + start, text);
    return source_place(source, at ? (size_t)(at - source->bytes) : start, strlen(text));
}

/* Faults that name the tag or attribute they are about. Returns false for all others. */
static bool report_named(Diagnostics *diagnostics, const Source *source, size_t offset,
                         const xmlError *error) {
    Arena *arena = diagnostics->arena;
    const char *name = error->str1 ? error->str1 : "?", *other = error->str2 ? error->str2 : "?";
    const char *token;
    switch (error->code) {
    case XML_ERR_TAG_NAME_MISMATCH:
        token = arena_format(arena, "</%s", other);
        report_error(diagnostics, place_before(source, offset, token),
                     "close tags in the order in which they were opened",
                     "'</%s>' where '</%s>' of line %d should close", other, name, error->int1);
        return true;
    case XML_ERR_TAG_NOT_FINISHED:
        token = arena_format(arena, "<%s", name);
        report_error(diagnostics, place_in_line(source, error->int1, token),
                     arena_format(arena, "write </%s> where it ends", name),
                     "'<%s>' is not closed before the file ends", name);
        return true;
    case XML_ERR_ATTRIBUTE_REDEFINED:
        report_error(diagnostics, place_before(source, offset, name), "take one of them out",
                     "'%s' is written twice", name);
        return true;
    case XML_ERR_UNDECLARED_ENTITY:
    case XML_WAR_UNDECLARED_ENTITY:
        token = arena_format(arena, "&%s;", name);
        report_error(diagnostics, place_before(source, offset, token),
                     "write the character itself; only &amp;, &lt;, &gt;, &quot; and &apos; are "
                     "known",
                     "unknown entity '%s'", token);
        return true;
    case XML_NS_ERR_UNDEFINED_NAMESPACE:
    case XML_NS_ERR_QNAME:
    case XML_NS_ERR_COLON:
        report_error(diagnostics, place_before(source, offset, ":"), NULL,
                     "a name with a colon in it");
        return true;
    default: return false;
    }
}

void report_xml_fault(Diagnostics *diagnostics, const Source *source, const xmlError *error) {
    size_t offset = offset_of(source, error->line, error->int2);
    if (report_named(diagnostics, source, offset, error))
        return;
    Place place = source_place(source, offset, 1);
    for (size_t i = 0; i < sizeof wordings / sizeof *wordings; i++)
        if (wordings[i].code == error->code) {
            report_error(diagnostics, place, wordings[i].remedy, "%s", wordings[i].message);
            return;
        }
    int length = error->message ? (int)strcspn(error->message, "\n") : 0;
    report_error(diagnostics, place, NULL, "not well-formed XML: %.*s", length,
                 error->message ? error->message : "");
}
