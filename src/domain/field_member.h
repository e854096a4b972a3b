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

/* A new group below `parent` (NULL: a root). Number 0: not a row. */
FieldGroup *field_group_new(Arena *arena, FieldGroup *parent, const char *name, int number);

/* Adds the listed members of the struct at `base`. */
void field_add_members(Arena *arena, FieldGroup *group, const Member *members, size_t count,
                       const void *base);

/* Adds single fields. */
void field_add_number(Arena *arena, FieldGroup *group, const char *name, QuantityKind kind,
                      double value);
void field_add_instant(Arena *arena, FieldGroup *group, const char *name, Instant instant);
void field_add_text(Arena *arena, FieldGroup *group, const char *name, const char *text);
void field_add_word(Arena *arena, FieldGroup *group, const char *name, const char *key);
void field_add_date(Arena *arena, FieldGroup *group, const char *name, Date date);
void field_add_yes(Arena *arena, FieldGroup *group, const char *name, bool yes);

/* How the vents are to be set, in words and figures. */
void field_add_vents(Arena *arena, FieldGroup *group, const PlanVent *inlet,
                     const PlanVent *outlet);

#define FIELD_ADD(arena, group, members, base)                                                     \
    field_add_members((arena), (group), (members), sizeof(members) / sizeof *(members), (base))

/* What plan_fields is made of. */
void fields_of_label(Arena *arena, FieldGroup *root, const Plan *plan); /* batch … maker */
void fields_of_fuel(Arena *arena, FieldGroup *root, const Plan *plan);  /* blend … fill */
void fields_of_burn(Arena *arena, FieldGroup *root, const Plan *plan);  /* burn … sample */
void fields_of_night(Arena *arena, FieldGroup *root, const Plan *plan); /* reason … bag */

#endif
