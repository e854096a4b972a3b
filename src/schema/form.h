/* Form: the elements of a file checked and read by the rules, with every fault reported.
 *
 * A value that is faulty comes back as "not stated" (NAN, NULL, year 0), so that reading goes on
 * and finds the other faults. Whoever wants to know whether all went well counts the errors.
 */
#ifndef SCHEMA_FORM_H
#define SCHEMA_FORM_H

#include "base/date.h"
#include "base/diagnostic.h"
#include "base/element.h"
#include "base/zone.h"
#include "schema/measure.h"
#include "schema/rule.h"

struct Form {
    Arena *arena;
    Diagnostics *diagnostics;
    Roots roots;
    const Names *languages; /* there are words for; NULL: not known, any will do */
    const Zone *zone;       /* of local times; NULL: they are only checked for their form */
    /* For the checks of elements: */
    void *context;
    void *outer;   /* the struct of what the element stands in, with all that was read before */
    size_t faults; /* errors in its values and in what stands in it */
};

/* Checks the element and all in it against the rule: unknown, missing or repeated elements and
 * attributes, text where none is expected. Values are left to form_read. */
void form_check(Form *form, const ElementRule *rule, const Element *element);

/* The same for the root of a file that has to be the first of the form's roots; false when it is
 * not, which is then the one fault. */
bool form_check_root(Form *form, const Element *root);

/* Reads the element and all in it into its struct. What is not written holds what the rules say,
 * or is not stated. */
void form_read(Form *form, const ElementRule *rule, const Element *element, void *into);

/* ---- For the checks of elements: single values ---- */

/* A measure in SI units, or a bare number; NAN when not stated, or a word is written for it. */
double form_number(Form *form, const Element *element, const char *name);

/* The number of the word in the rule's list, from 0; -1 when none of them is written. */
int form_word(Form *form, const Element *element, const char *name);

/* Words of the user; NULL when not stated. */
const char *form_text(Form *form, const Element *element, const char *name);

/* A local time as an instant; 0 when not stated. A time that the clocks jump over is an error; of
 * one that they show twice the first is taken, with a warning. */
Instant form_instant(Form *form, const Element *element, const char *name);

/* Whether the attribute is written, faulty or not. */
bool form_has(const Element *element, const char *name);

/* Whether it is written and still open (rule_left_open); whether it is written and is not. */
bool form_open(Form *form, const Element *element, const char *name);
bool form_answered(Form *form, const Element *element, const char *name);

/* The instant of `text` in the form's zone, for files of other kinds; `subject` names the value. */
Instant instant_read(Form *form, Place place, const char *subject, const char *text);

/* An error that points at the value of an attribute (at the element when it is not written), at
 * its name, or at the element. */
#define error_at_value(form, element, name, remedy, ...)                                           \
    report_error((form)->diagnostics, element_value_place(element, name), remedy, __VA_ARGS__)
#define error_at_name(form, element, name, remedy, ...)                                            \
    report_error((form)->diagnostics, element_attribute(element, name)->name_place, remedy,        \
                 __VA_ARGS__)
#define error_at(form, element, remedy, ...)                                                       \
    report_error((form)->diagnostics, (element)->place, remedy, __VA_ARGS__)

/* Reports that a name is not among the known ones, with the nearest of them. `kind` is what it
 * names: "dust"; `where`, which may be "", is added at the end: " in 'blend'". */
void report_unknown(Form *form, Place place, const char *kind, const char *written,
                    const char *where, const Names *known);

#endif
