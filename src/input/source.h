/* Source: the bytes of a file, and places in them. */
#ifndef INPUT_SOURCE_H
#define INPUT_SOURCE_H

#include "base/diagnostic.h"
#include "base/list.h"
#include "base/place.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct Source {
    const char *file;  /* as the user named it */
    const char *bytes; /* NUL-ended, without a byte order mark */
    size_t length;
    LIST_OF(size_t) lines; /* offset of the start of each line */
} Source;

/* Takes up the bytes of a file (kept, not copied; NUL-ended behind `length`), skips a UTF-8 byte
 * order mark, and makes the text known to the diagnostics. */
Source source_new(Diagnostics *diagnostics, const char *file, const char *bytes, size_t length);

/* The place of `length` bytes from `offset` on. A span over several lines ends with its first. */
Place source_place(const Source *source, size_t offset, size_t length);

/* Refuses, with one error, what is no UTF-8 text: nothing at all, compressed bytes, other
 * encodings, control characters but tab and line ends. */
bool source_check_text(const Source *source, Diagnostics *diagnostics);

/* Refuses, with one error that shows nothing of the file, what does not begin as XML does: it is
 * somebody else's file, named by mistake or out of curiosity. */
bool source_check_xml(const Source *source, Diagnostics *diagnostics);

/* The first character of a text (valid UTF-8) that no name or remark may hold; 0: none. For what is
 * written as a number in XML. */
uint32_t source_forbidden(const char *text);

#endif
