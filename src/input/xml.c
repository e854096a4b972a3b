#include "input/xml.h"

#include "base/file.h"
#include "base/memory.h"
#include "input/source.h"
#include "input/tags.h"
#include "input/xml_fault.h"

#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <libxml/tree.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* What happened while the library parsed; it hangs at the parser. */
typedef struct Parse {
    Diagnostics *diagnostics;
    const Source *source;
    bool refused; /* an error was reported */
} Parse;

/* The tree that is being made, and how far the tags were used up. */
typedef struct Building {
    Diagnostics *diagnostics;
    const Source *source;
    Tags tags;
    size_t next_tag;
    const char *space; /* that the root may declare; NULL: none */
} Building;

/* A document type declaration can define entities that grow without bound or name other files.
 * After xmlStopParser neither the document nor its state shows the refusal: hence the flag. */
static void refuse_document_type(void *context, const xmlChar *name, const xmlChar *external_id,
                                 const xmlChar *system_id) {
    (void)name, (void)external_id, (void)system_id;
    xmlParserCtxtPtr parser = context;
    Parse *parse = parser->_private;
    if (!parse->refused) {
        const char *at = strstr(parse->source->bytes, "<!DOCTYPE");
        Place place = {.file = parse->source->file};
        if (at)
            place = source_place(parse->source, (size_t)(at - parse->source->bytes), 9);
        report_error(parse->diagnostics, place, "take the <!DOCTYPE …> out",
                     "document type declarations are not read");
    }
    parse->refused = true;
    xmlStopParser(parser);
}

/* Only the first error counts; the parser's later ones mostly follow from it. */
static void take_error(void *context, xmlErrorPtr error) {
    xmlParserCtxtPtr parser = context;
    Parse *parse = parser->_private;
    if (parse->refused || error->level == XML_ERR_WARNING)
        return;
    parse->refused = true;
    report_xml_fault(parse->diagnostics, parse->source, error);
}

/* Span of the encoding named in the XML declaration; length 0 when none is. */
static Span declared_encoding(const Source *source) {
    Span span = {0};
    const char *end = strstr(source->bytes, "?>");
    if (strncmp(source->bytes, "<?xml ", 6) != 0 || !end)
        return span;
    const char *at = strstr(source->bytes, "encoding");
    if (!at || at > end)
        return span;
    at += strcspn(at, "\"'?");
    if (*at == '?')
        return span;
    span.from = (size_t)(at + 1 - source->bytes);
    span.length = strcspn(at + 1, "\"'?");
    return span;
}

static bool check_encoding(const Source *source, Diagnostics *diagnostics) {
    Span span = declared_encoding(source);
    char *name = arena_copy(diagnostics->arena, source->bytes + span.from, span.length);
    if (!span.length || !xmlStrcasecmp(BAD_CAST name, BAD_CAST "UTF-8") ||
        !xmlStrcasecmp(BAD_CAST name, BAD_CAST "US-ASCII"))
        return true;
    report_error(diagnostics, source_place(source, span.from, span.length),
                 "save the file as UTF-8 and write encoding=\"UTF-8\"", "encoding '%s' is not read",
                 name);
    return false;
}

/* The library leaves out of the tree what it found no memory for, and often says nothing: so it is
 * to find some each time, or the program ends. Its allocations may be exchanged at any time as
 * long as all give back by free. */
static xmlParserCtxtPtr new_parser(void) {
    xmlMemSetup(free, memory_take, memory_retake, memory_copy);
    xmlParserCtxtPtr parser = xmlNewParserCtxt();
    if (!parser)
        memory_none_left();
    return parser;
}

static xmlDocPtr parse_document(Parse *parse) {
    xmlParserCtxtPtr parser = new_parser();
    parser->_private = parse;
    parser->sax->internalSubset = refuse_document_type;
    parser->sax->serror = take_error;
    xmlDocPtr document = xmlCtxtReadMemory(
        parser, parse->source->bytes, (int)parse->source->length, NULL, NULL,
        XML_PARSE_NONET | XML_PARSE_BIG_LINES | XML_PARSE_NOCDATA | XML_PARSE_COMPACT);
    /* Limits of the library's own count as a lack of memory, and leave a tree behind. */
    bool whole = document && parser->wellFormed && !parse->refused &&
                 parser->errNo != XML_ERR_NO_MEMORY;
    if (!whole && !parse->refused)
        report_error(parse->diagnostics, (Place){.file = parse->source->file}, NULL,
                     "the file is not well-formed XML");
    xmlFreeParserCtxt(parser);
    if (!whole) {
        xmlFreeDoc(document);
        return NULL;
    }
    return document;
}

/* ---- The library's tree made ours -------------------------------------------------------- */

static const Tag *take_tag(Building *building) {
    static const Tag none = {0};
    return building->next_tag < building->tags.count ? &building->tags.items[building->next_tag++]
                                                     : &none;
}

static Place text_place(const Building *building, const Tag *tag) {
    if (!tag->has_text)
        return (Place){.file = building->source->file};
    return source_place(building->source, tag->text, 1);
}

static bool for_editors(const xmlNs *space) {
    return space && space->href &&
           !strcmp((const char *)space->href, "http://www.w3.org/2001/XMLSchema-instance");
}

/* What stands in the file as it is was looked at before; this is for &#x9B; and the like. */
static void refuse_control(const Building *building, Place place, const char *text) {
    uint32_t code = source_forbidden(text);
    if (code)
        report_error(building->diagnostics, place, "take it out", "control character U+%04X",
                     (unsigned)code);
}

static void add_attribute(Building *building, Element *element, xmlAttrPtr node, const Tag *tag) {
    Arena *arena = building->diagnostics->arena;
    if (for_editors(node->ns)) /* xsi:noNamespaceSchemaLocation tells an editor the schema */
        return;
    const char *name = (const char *)node->name;
    if (node->ns && node->ns->prefix)
        name = arena_format(arena, "%s:%s", (const char *)node->ns->prefix, name);
    xmlChar *value = xmlNodeListGetString(node->doc, node->children, 1);
    Attribute attribute = {.name = arena_string(arena, name),
                           .value = arena_string(arena, value ? (const char *)value : ""),
                           .place = element->place,
                           .name_place = element->place};
    xmlFree(value);
    const TagAttribute *written = tag_attribute(tag, building->source->bytes, name);
    if (written) {
        attribute.place =
            source_place(building->source, written->value.from, written->value.length);
        attribute.name_place =
            source_place(building->source, written->name.from, written->name.length);
    }
    refuse_control(building, attribute.place, attribute.value);
    LIST_ADD(arena, &element->attributes, attribute);
}

/* Puts text behind what stands before it: behind the last child, or behind the start tag. */
static void add_text(const Building *building, Element *element, Element *last, const char *text) {
    Arena *arena = building->diagnostics->arena;
    refuse_control(building, element->place, text);
    const char **whole = last ? &last->tail : &element->text;
    *whole = **whole ? arena_format(arena, "%s%s", *whole, text) : arena_string(arena, text);
}

static Element *convert(Building *building, xmlNodePtr node, const Element *parent);

static void convert_children(Building *building, xmlNodePtr node, Element *element) {
    Element *last = NULL;
    for (xmlNodePtr child = node->children; child; child = child->next) {
        if (child->type == XML_TEXT_NODE || child->type == XML_CDATA_SECTION_NODE)
            add_text(building, element, last, child->content ? (const char *)child->content : "");
        if (child->type != XML_ELEMENT_NODE)
            continue;
        Element *converted = convert(building, child, element);
        if (last)
            last->next = converted;
        else
            element->first = converted;
        last = converted;
    }
}

static Element *convert(Building *building, xmlNodePtr node, const Element *parent) {
    Arena *arena = building->diagnostics->arena;
    Element *element = ARENA_NEW(arena, Element);
    const Tag *tag = take_tag(building);
    size_t from = tag->name.from ? tag->name.from - 1 : 0;
    const char *prefix = node->ns && node->ns->prefix ? (const char *)node->ns->prefix : NULL;
    const char *name = (const char *)node->name;
    *element = (Element){.name = prefix ? arena_format(arena, "%s:%s", prefix, name)
                                        : arena_string(arena, name),
                         .place = source_place(building->source, from, tag->name.length + 1),
                         .parent = parent,
                         .text = "",
                         .tail = "",
                         .text_place = text_place(building, tag)};
    for (xmlAttrPtr attribute = node->properties; attribute; attribute = attribute->next)
        add_attribute(building, element, attribute, tag);
    convert_children(building, node, element);
    element->tail_place = text_place(building, take_tag(building));
    return element;
}

static bool is_allowed_space(const Building *building, size_t tag, Span value) {
    return tag == 0 && building->space && strlen(building->space) == value.length &&
           !strncmp(building->source->bytes + value.from, building->space, value.length);
}

/* Tags nested beyond XML_DEPTH_MAX, or in a namespace, are reported and the tree is not made. */
static bool check_tags(const Building *building) {
    size_t depth = 0;
    for (size_t i = 0; i < building->tags.count; i++) {
        const Tag *tag = &building->tags.items[i];
        depth = tag->opens ? depth + 1 : depth - 1;
        if (depth > XML_DEPTH_MAX) {
            report_error(building->diagnostics,
                         source_place(building->source, tag->name.from - 1, tag->name.length + 1),
                         NULL, "elements nested more than %d deep", XML_DEPTH_MAX);
            return false;
        }
        const TagAttribute *space = tag_attribute(tag, building->source->bytes, "xmlns");
        if (space && !is_allowed_space(building, i, space->value)) {
            report_error(building->diagnostics,
                         source_place(building->source, space->name.from, space->name.length),
                         "take 'xmlns' out", "elements of a namespace are not read");
            return false;
        }
    }
    return true;
}

static const Element *build(Diagnostics *diagnostics, const Source *source, const char *space,
                            xmlDocPtr document) {
    Building building = {.diagnostics = diagnostics, .source = source, .space = space};
    building.tags = tags_scan(diagnostics->arena, source->bytes, source->length);
    if (!check_tags(&building))
        return NULL;
    size_t errors = diagnostics_errors(diagnostics, NULL);
    const Element *root = convert(&building, xmlDocGetRootElement(document), NULL);
    return diagnostics_errors(diagnostics, NULL) == errors ? root : NULL;
}

static const Element *parse_text(Diagnostics *diagnostics, const char *file, const char *text,
                                 size_t length, const char *space) {
    Source source = source_new(diagnostics, file, text, length);
    if (length > XML_BYTES_MAX || length > INT_MAX) {
        report_error(diagnostics, (Place){.file = file}, NULL, "the file is larger than %d bytes",
                     XML_BYTES_MAX);
        return NULL;
    }
    if (!source_check_xml(&source, diagnostics) || !source_check_text(&source, diagnostics) ||
        !check_encoding(&source, diagnostics))
        return NULL;
    Parse parse = {.diagnostics = diagnostics, .source = &source};
    xmlDocPtr document = parse_document(&parse);
    if (!document)
        return NULL;
    const Element *root = build(diagnostics, &source, space, document);
    xmlFreeDoc(document);
    return root;
}

const Element *xml_parse(Diagnostics *diagnostics, const char *file, const char *bytes,
                         size_t length) {
    return parse_text(diagnostics, file, arena_copy(diagnostics->arena, bytes, length), length,
                      NULL);
}

const Element *xml_read(Diagnostics *diagnostics, const char *path, bool *could_not_open) {
    return xml_read_at(diagnostics, path, (Place){0}, NULL, could_not_open);
}

const Element *xml_read_at(Diagnostics *diagnostics, const char *path, Place named_at,
                           const char *remedy, bool *could_not_open) {
    return xml_read_within(diagnostics, path, named_at, remedy,
                           (XmlBounds){.most_bytes = XML_BYTES_MAX}, could_not_open);
}

const Element *xml_read_within(Diagnostics *diagnostics, const char *path, Place named_at,
                               const char *remedy, XmlBounds bounds, bool *could_not_open) {
    Bytes bytes;
    const char *error;
    const char *file = arena_string(diagnostics->arena, path);
    bool read = file_read(diagnostics->arena, path, bounds.most_bytes, &bytes, &error);
    if (could_not_open)
        *could_not_open = !read;
    if (!read) {
        report_error(diagnostics, named_at, remedy, "%s", error);
        return NULL;
    }
    return parse_text(diagnostics, file, (const char *)bytes.data, bytes.length, bounds.space);
}
