/* Attribute: what templates write in their attributes, read with every fault reported. */
#ifndef LAYOUT_ATTRIBUTE_H
#define LAYOUT_ATTRIBUTE_H

#include "base/diagnostic.h"
#include "base/element.h"
#include "base/nearest.h"

#include <stdbool.h>

/* A length as a template writes it: "10 mm", "11.5 pt", "48 %". */
typedef enum LengthUnit { LENGTH_NONE, LENGTH_MM, LENGTH_PT, LENGTH_PERCENT } LengthUnit;

typedef struct Length {
    double value;
    LengthUnit unit;
} Length;

/* Splits text at blanks into names. */
Names names_split(Arena *arena, const char *text);

/* Reports every attribute whose name is not among `known` (names with blanks between). */
void attribute_only(Diagnostics *diagnostics, const Element *element, const char *known);

/* Reports an element that may not stand where it does; `known` are those that may. */
void element_unknown(Diagnostics *diagnostics, const Element *element, const char *known);

/* The value of an attribute that has to be there; NULL, and reported, when it is not. */
const char *attribute_required(Diagnostics *diagnostics, const Element *element, const char *name);

/* Reads a value that is a number and perhaps a unit; false when it is not. */
bool length_parse(const char *text, Length *length);

/* A length of `unit` from `least` to `most`; `usual` when the attribute is not there, or wrong
 * and reported. */
double attribute_length(Diagnostics *diagnostics, const Element *element, const char *name,
                        LengthUnit unit, double least, double most, double usual);

/* Which of `names` the value is, from 0; -1 and reported when none, `usual` when not written.
 * `what` names the kind of thing in the message: "panel". */
int attribute_choice(Diagnostics *diagnostics, const Element *element, const char *name,
                     const char *what, const Names *names, int usual);

#endif
