/* XML: a file read into a tree of elements with places, or refused with one message.
 *
 * Only UTF-8, at most XML_BYTES_MAX bytes, no document type declaration (so no entities but the
 * five of XML itself), nothing fetched, nothing decompressed, no namespace.
 */
#ifndef INPUT_XML_H
#define INPUT_XML_H

#include "base/diagnostic.h"
#include "base/element.h"

#include <stdbool.h>
#include <stddef.h>

enum { XML_BYTES_MAX = 1024 * 1024, XML_DEPTH_MAX = 64 };

/* Reads the file at `path`. NULL, with an error reported, when it cannot be read or is not well
 * formed; *could_not_open (which may be NULL) says whether it was the former. The tree lives in
 * the arena of `diagnostics`, whose sources get the text of the file. */
const Element *xml_read(Diagnostics *diagnostics, const char *path, bool *could_not_open);

/* The same for a file that is named in another one, at `named_at`: an error of opening it points
 * there, with a remedy (NULL: none). */
const Element *xml_read_at(Diagnostics *diagnostics, const char *path, Place named_at,
                           const char *remedy, bool *could_not_open);

/* What else than our own files may be. */
typedef struct XmlBounds {
    size_t most_bytes; /* at most XML_BYTES_MAX */
    const char *space; /* namespace that the root may declare for all; NULL: none */
} XmlBounds;

/* As xml_read_at, within those bounds. */
const Element *xml_read_within(Diagnostics *diagnostics, const char *path, Place named_at,
                               const char *remedy, XmlBounds bounds, bool *could_not_open);

/* The same for bytes in memory, which need no closing NUL; `file` is the name in messages. */
const Element *xml_parse(Diagnostics *diagnostics, const char *file, const char *bytes,
                         size_t length);

#endif
