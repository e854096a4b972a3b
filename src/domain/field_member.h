/* Field members: which members of a struct become fields of a group, under what name.
 *
 * Kept as tables, so that the names a template may use can be read off in one place.
 */
#ifndef DOMAIN_FIELD_MEMBER_H
#define DOMAIN_FIELD_MEMBER_H

#include "domain/field.h"

#include <stddef.h>

typedef enum MemberType {
    MEMBER_NUMBER,  /* double */
    MEMBER_WHOLE,   /* int */
    MEMBER_INSTANT, /* Instant; 0 is none */
    MEMBER_YES,     /* bool */
    MEMBER_TEXT,    /* const char * */
    MEMBER_DATE,    /* Date; year 0 is none */
    MEMBER_QUANTITY /* Quantity */
} MemberType;

typedef struct Member {
    const char *name;
    MemberType type;
    QuantityKind kind; /* numbers only */
    size_t offset;
} Member;

/* A row of a table: a member of a struct, as a field of its name or of another one. Its type is
 * told from that of the member. */
#define MEMBER(structure, member) MEMBER_AS(#member, structure, member)
#define MEMBER_AS(name, structure, member)                                                         \
    { (name), MEMBER_TYPE(structure, member), QUANTITY_NONE, offsetof(structure, member) }
/* The same for a double, with what it measures: the unit ends the member's name, not the field's */
#define MEASURED(name, kind, structure, member)                                                    \
    { (name), NUMBER_TYPE(structure, member), QUANTITY_##kind, offsetof(structure, member) }

/* clang-format off */
#define MEMBER_TYPE(structure, member)                                                             \
    _Generic(((const structure *)0)->member,                                                       \
        int: MEMBER_WHOLE,                                                                         \
        Instant: MEMBER_INSTANT,                                                                   \
        bool: MEMBER_YES,                                                                          \
        const char *: MEMBER_TEXT,                                                                 \
        Date: MEMBER_DATE,                                                                         \
        Quantity: MEMBER_QUANTITY)
#define NUMBER_TYPE(structure, member)                                                             \
    _Generic(((const structure *)0)->member, double: MEMBER_NUMBER)
/* clang-format on */

/* A new group below `parent` (NULL: a root). Number 0: not a row. */
FieldGroup *field_group_new(Arena *arena, FieldGroup *parent, const char *name, int number);

/* Adds the listed members of the struct at `base`. */
void field_add_members(Arena *arena, FieldGroup *group, const Member *members, size_t count,
                       const void *base);
#define FIELD_ADD(arena, group, members, base)                                                     \
    field_add_members((arena), (group), (members), sizeof(members) / sizeof *(members), (base))

/* Adds a row of that name for each struct of a list, numbered from 1. */
void field_add_rows(Arena *arena, FieldGroup *parent, const char *name, const Member *members,
                    size_t count, const void *items, size_t item_count, size_t item_size);
#define FIELD_ADD_ROWS(arena, parent, name, members, list)                                         \
    field_add_rows((arena), (parent), (name), (members), sizeof(members) / sizeof *(members),      \
                   (list).items, (list).count, sizeof *(list).items)

/* Adds single fields. */
void field_add_number(Arena *arena, FieldGroup *group, const char *name, QuantityKind kind,
                      double value);
void field_add_instant(Arena *arena, FieldGroup *group, const char *name, Instant instant);
void field_add_text(Arena *arena, FieldGroup *group, const char *name, const char *text);
void field_add_word(Arena *arena, FieldGroup *group, const char *name, const char *key);
void field_add_date(Arena *arena, FieldGroup *group, const char *name, Date date);
void field_add_yes(Arena *arena, FieldGroup *group, const char *name, bool yes);

/* Adds `text`, the words of a row: those of the key `weigh` in a row `step` are `step.weigh`. */
void field_add_row_words(Arena *arena, FieldGroup *row, const char *key);

/* Adds how the vents are to be set, in words and figures. */
void field_add_vents(Arena *arena, FieldGroup *group, const PlanVent *inlet,
                     const PlanVent *outlet);

/* Adds a row `learning` for each past night or trial that was left out. */
void fields_of_notes(Arena *arena, FieldGroup *root, const LearningNotes *notes);

/* What plan_fields is made of, in its order. Each stands in the file plan_NAME.c with its tables,
 * beside the structs in plan_NAME.h. */
void fields_of_given(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_compared(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_fuel(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_fills(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_burn(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_choice(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_environment(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_judgement(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_preparation(Arena *arena, FieldGroup *root, const Plan *plan);
void fields_of_tasks(Arena *arena, FieldGroup *root, const Plan *plan); /* after fills: events */
void fields_of_bags(Arena *arena, FieldGroup *root, const Plan *plan);

#endif
