#include "base/element.h"

#include "base/text.h"

#include <string.h>

const Attribute *element_attribute(const Element *element, const char *name) {
    for (size_t i = 0; i < element->attributes.count; i++)
        if (!strcmp(element->attributes.items[i].name, name))
            return &element->attributes.items[i];
    return NULL;
}

const char *element_value(const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    return attribute ? attribute->value : NULL;
}

Place element_value_place(const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    return attribute ? attribute->place : element->place;
}

static const Element *named(const Element *element, const char *name) {
    while (element && name && strcmp(element->name, name) != 0)
        element = element->next;
    return element;
}

const Element *element_child(const Element *element, const char *name) {
    return named(element->first, name);
}

const Element *element_sibling(const Element *child, const char *name) {
    return named(child->next, name);
}

size_t element_count(const Element *element, const char *name) {
    size_t count = 0;
    for (const Element *child = element_child(element, name); child;
         child = element_sibling(child, name))
        count++;
    return count;
}

static const char blanks[] = " \t\n\r";

static bool all_blank(const char *text) {
    return !text[strspn(text, blanks)];
}

static void add_words(Text *words, const char *text) {
    while (*text) {
        size_t length = strcspn(text, blanks);
        text_add_bytes(words, text, length);
        text += length;
        bool after_blank = !words->length || words->bytes[words->length - 1] == ' ';
        if (*text && !after_blank)
            text_add(words, " ");
        text += strspn(text, blanks);
    }
}

char *element_words(Arena *arena, const Element *element) {
    Text words = text_new(arena);
    add_words(&words, element->text);
    for (const Element *child = element->first; child; child = child->next)
        add_words(&words, child->tail);
    if (words.length && words.bytes[words.length - 1] == ' ')
        words.bytes[words.length - 1] = '\0';
    return words.bytes;
}

/* The element's first text that is no blank, as its own or a child's tail. */
static const Place *words_place(const Element *element) {
    if (!all_blank(element->text))
        return &element->text_place;
    for (const Element *child = element->first; child; child = child->next)
        if (!all_blank(child->tail))
            return &child->tail_place;
    return NULL;
}

Place element_words_place(const Element *element) {
    const Place *place = words_place(element);
    return place ? *place : element->place;
}

bool element_has_words(const Element *element) {
    return words_place(element) != NULL;
}
