/* Form: the values of an element, read by the rules, with every fault reported.
 *
 * A value that is not written, or is faulty, comes back as "not stated" (NAN, NULL, year 0) or as
 * the default handed in, so that a reader can go on and find the other faults. Whoever wants to
 * know whether all went well counts the errors.
 */
#ifndef INPUT_FORM_H
#define INPUT_FORM_H

#include "base/date.h"
#include "base/diagnostic.h"
#include "base/element.h"
#include "base/zone.h"
#include "input/measure.h"
#include "input/rule.h"

typedef struct Form {
    Arena *arena;
    Diagnostics *diagnostics;
    const Zone *zone; /* of local times; NULL: they are only checked for their form */
} Form;

/* Checks the element and all in it against the rules: unknown, missing or repeated elements and
 * attributes, text where none is expected. Values are left to the readers. */
void form_check(Form *form, const Element *element);

/* A measure in SI units, or a bare number; NAN when not stated. */
double form_number(Form *form, const Element *element, const char *name);

/* A whole number. */
int form_count(Form *form, const Element *element, const char *name, int otherwise);

/* The number of the word in the rule's list, from 0. */
int form_word(Form *form, const Element *element, const char *name, int otherwise);

/* A word of the list, or -1 when none of them is written: for values that may also be a measure. */
int form_special(Form *form, const Element *element, const char *name);

/* "yes" or "no". */
bool form_yes(Form *form, const Element *element, const char *name, bool otherwise);

/* Words of the user; NULL when not stated. An id has no blanks. */
const char *form_text(Form *form, const Element *element, const char *name);

/* A date; year 0 when not stated. */
Date form_date(Form *form, const Element *element, const char *name);

/* A local time as an instant; 0 when not stated. A time that the clocks jump over is an error; of
 * one that they show twice the first is taken, with a warning. */
Instant form_instant(Form *form, const Element *element, const char *name);

/* What stayed on a sieve: kg, or a fraction with *by_share set. */
double form_retained(Form *form, const Element *element, bool *by_share);

/* Whether the attribute is written, faulty or not. */
bool form_has(const Element *element, const char *name);

/* The instant of `text` in the form's zone, for files of other kinds; `subject` names the value. */
Instant instant_read(Form *form, Place place, const char *subject, const char *text);

/* Reports that a name is not among the known ones, with the nearest of them. `kind` is what it
 * names: "dust"; `where`, which may be "", is added at the end: " in 'blend'". */
void report_unknown(Form *form, Place place, const char *kind, const char *written,
                    const char *where, const Names *known);

#endif
