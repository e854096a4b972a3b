/* Element: an XML file as a plain tree in which everything knows where it was written.
 *
 * The tree is made by input/xml.h and never changed afterwards. Text is kept as in `<a>text<b/>
 * tail</a>`: `text` of an element is what stands before its first child, `tail` what follows its
 * own end up to the next tag. Neither is NULL. Entities are resolved, comments left out.
 */
#ifndef BASE_ELEMENT_H
#define BASE_ELEMENT_H

#include "base/list.h"
#include "base/place.h"

#include <stdbool.h>

typedef struct Attribute {
    const char *name;
    const char *value;
    Place place;      /* the value between its quotes */
    Place name_place; /* the name before the equals sign */
} Attribute;

typedef struct Element Element;

struct Element {
    const char *name;
    Place place; /* the name of the start tag with its bracket, `<part` */
    LIST_OF(Attribute) attributes;
    const Element *parent; /* NULL: the root */
    const Element *first;  /* first child element, NULL: none */
    const Element *next;   /* next child element of the same parent, NULL: the last */
    const char *text;
    const char *tail;
    Place text_place; /* of the first character of text that is no blank */
    Place tail_place;
};

/* The attribute with that name; NULL when it is not written. */
const Attribute *element_attribute(const Element *element, const char *name);

/* Its value; NULL when it is not written. */
const char *element_value(const Element *element, const char *name);

/* The place of the attribute's value; that of the element when it is not written. */
Place element_value_place(const Element *element, const char *name);

/* The first child of that name, and the next one after `child`; NULL when there is none. Any name
 * when `name` is NULL.
 *     for (const Element *part = element_child(blend, "part"); part;
 *          part = element_sibling(part, "part"))
 */
const Element *element_child(const Element *element, const char *name);
const Element *element_sibling(const Element *child, const char *name);

/* How many children of that name there are (of any when NULL). */
size_t element_count(const Element *element, const char *name);

/* All text directly inside the element (its own and the tails of its children), blanks at the
 * ends taken off and runs of blanks made one. "" when there is none. */
char *element_words(Arena *arena, const Element *element);

/* The place of the first text directly inside; that of the element when there is none. */
Place element_words_place(const Element *element);

/* Whether there is any text but blanks directly inside. */
bool element_has_words(const Element *element);

#endif
