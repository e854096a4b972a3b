/* Tags: where each tag, attribute and text of an XML file stands.
 *
 * The XML library tells only the line of an element. This scan runs over the bytes of a file that
 * the library has found well formed, without a document type declaration, and lists its tags in
 * the order of the file, which is that of the library's tree.
 */
#ifndef INPUT_TAGS_H
#define INPUT_TAGS_H

#include "base/arena.h"
#include "base/list.h"

#include <stdbool.h>
#include <stddef.h>

/* A stretch of bytes. */
typedef struct Span {
    size_t from;
    size_t length;
} Span;

typedef struct TagAttribute {
    Span name;
    Span value; /* between the quotes */
} TagAttribute;

typedef struct Tag {
    bool opens; /* a start tag; `<a/>` is listed as start and end */
    Span name;  /* without the bracket */
    LIST_OF(TagAttribute) attributes;
    bool has_text;
    size_t text; /* first byte of text that is no blank between it and the next tag */
} Tag;

typedef LIST_OF(Tag) Tags;

/* Lists the tags of `bytes`. Of anything that is not well formed the list is not to be relied
 * on, but no byte outside is touched. */
Tags tags_scan(Arena *arena, const char *bytes, size_t length);

/* The attribute of that name; NULL when the tag has none. */
const TagAttribute *tag_attribute(const Tag *tag, const char *bytes, const char *name);

#endif
