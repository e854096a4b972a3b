/* Field: the plan as a tree of named figures, the one list that templates, `plan --as xml` and
 * `plan --as fields` all read. What is not a field can not be printed.
 *
 * A figure carries what kind of quantity it is, so that each reader can put it into words,
 * units and digits of its own; none of them works out a number.
 */
#ifndef DOMAIN_FIELD_H
#define DOMAIN_FIELD_H

#include "base/list.h"
#include "domain/plan.h"

typedef enum FieldType {
    FIELD_QUANTITY,
    FIELD_TEXT, /* words of the user */
    FIELD_WORD, /* a key of the words files */
    FIELD_YES,  /* quantity.value: 0 or 1 */
    FIELD_DATE
} FieldType;

typedef struct Field {
    const char *name;
    FieldType type;
    Quantity quantity;
    Date date;
    const char *text; /* NULL: nothing to show */
} Field;

typedef struct FieldGroup FieldGroup;

/* A group is named ("blend"); one of a repeated row ("part") also has its number, from 1. */
struct FieldGroup {
    const char *name;
    int number; /* 0: not a row */
    const FieldGroup *parent;
    LIST_OF(Field) fields;
    LIST_OF(FieldGroup *) groups;
};

/* All figures of the plan, in the arena. The root group is named "plan".
 * Paths are written with dots: `burn.light_at`, `blend.part.2.wet_mass`. Every group has all its
 * fields always; what is not stated is a quantity of NAN, a date of year 0, a text of NULL. Every
 * row has a field `number`. The names stand in the tables of domain/plan_*.c. */
FieldGroup *plan_fields(Arena *arena, const Plan *plan);

/* The field at a path, first looked for in `from`, then in each of its parents; NULL: none. */
const Field *field_find(const FieldGroup *from, const char *path);

/* The n-th row (from 0) of the repeated group `path`, looked for in the same way; NULL: none. */
const FieldGroup *field_row(const FieldGroup *from, const char *path, size_t index);

#endif
