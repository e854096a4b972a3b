#include "domain/field.h"

#include "domain/field_member.h"

#include <stdlib.h>
#include <string.h>

FieldGroup *field_group_new(Arena *arena, FieldGroup *parent, const char *name, int number) {
    FieldGroup *group = ARENA_NEW(arena, FieldGroup);
    group->name = name;
    group->number = number;
    group->parent = parent;
    if (parent) {
        LIST_ADD(arena, &parent->groups, group);
    }
    if (number) {
        field_add_number(arena, group, "number", QUANTITY_COUNT, number);
    }
    return group;
}

void field_add_number(Arena *arena, FieldGroup *group, const char *name, QuantityKind kind,
                      double value) {
    Field field = {.name = name, .type = FIELD_QUANTITY, .quantity = quantity(kind, value)};
    LIST_ADD(arena, &group->fields, field);
}

void field_add_instant(Arena *arena, FieldGroup *group, const char *name, Instant instant) {
    field_add_number(arena, group, name, QUANTITY_INSTANT, instant ? (double)instant : NOT_STATED);
}

void field_add_text(Arena *arena, FieldGroup *group, const char *name, const char *text) {
    Field field = {.name = name, .type = FIELD_TEXT, .quantity = no_quantity(), .text = text};
    LIST_ADD(arena, &group->fields, field);
}

void field_add_word(Arena *arena, FieldGroup *group, const char *name, const char *key) {
    Field field = {.name = name, .type = FIELD_WORD, .quantity = no_quantity(), .text = key};
    LIST_ADD(arena, &group->fields, field);
}

void field_add_date(Arena *arena, FieldGroup *group, const char *name, Date date) {
    Field field = {.name = name, .type = FIELD_DATE, .quantity = no_quantity(), .date = date};
    LIST_ADD(arena, &group->fields, field);
}

void field_add_yes(Arena *arena, FieldGroup *group, const char *name, bool yes) {
    Field field = {.name = name, .type = FIELD_YES, .quantity = quantity(QUANTITY_COUNT, yes)};
    LIST_ADD(arena, &group->fields, field);
}

void field_add_row_words(Arena *arena, FieldGroup *row, const char *key) {
    field_add_word(arena, row, "text", arena_format(arena, "%s.%s", row->name, key));
}

static void add_member(Arena *arena, FieldGroup *group, const Member *member, const void *at) {
    const char *name = member->name;
    switch (member->type) {
    case MEMBER_NUMBER:
        field_add_number(arena, group, name, member->kind, *(const double *)at);
        break;
    case MEMBER_WHOLE:
        field_add_number(arena, group, name, QUANTITY_COUNT, *(const int *)at);
        break;
    case MEMBER_INSTANT: field_add_instant(arena, group, name, *(const Instant *)at); break;
    case MEMBER_YES: field_add_yes(arena, group, name, *(const bool *)at); break;
    case MEMBER_TEXT: field_add_text(arena, group, name, *(const char *const *)at); break;
    case MEMBER_DATE: field_add_date(arena, group, name, *(const Date *)at); break;
    case MEMBER_QUANTITY: {
        Quantity found = *(const Quantity *)at;
        field_add_number(arena, group, name, found.kind, found.value);
        break;
    }
    }
}

void field_add_members(Arena *arena, FieldGroup *group, const Member *members, size_t count,
                       const void *base) {
    for (size_t i = 0; i < count; i++) {
        add_member(arena, group, &members[i], (const char *)base + members[i].offset);
    }
}

void field_add_rows(Arena *arena, FieldGroup *parent, const char *name, const Member *members,
                    size_t count, const void *items, size_t item_count, size_t item_size) {
    for (size_t i = 0; i < item_count; i++) {
        field_add_members(arena, field_group_new(arena, parent, name, (int)i + 1), members, count,
                          (const char *)items + i * item_size);
    }
}

FieldGroup *plan_fields(Arena *arena, const Plan *plan) {
    FieldGroup *root = field_group_new(arena, NULL, "plan", 0);
    fields_of_given(arena, root, plan);
    fields_of_compared(arena, root, plan);
    fields_of_fuel(arena, root, plan);
    fields_of_fills(arena, root, plan);
    fields_of_burn(arena, root, plan);
    fields_of_choice(arena, root, plan);
    fields_of_environment(arena, root, plan);
    fields_of_judgement(arena, root, plan);
    fields_of_preparation(arena, root, plan);
    fields_of_tasks(arena, root, plan);
    fields_of_bags(arena, root, plan);
    return root;
}

/* One part of a path: up to the next dot. */
typedef struct PathPart {
    const char *start;
    size_t length;
    const char *rest; /* behind the dot; NULL: this was the last part */
} PathPart;

static PathPart path_part(const char *path) {
    const char *dot = strchr(path, '.');
    if (!dot) {
        return (PathPart){path, strlen(path), NULL};
    }
    return (PathPart){path, (size_t)(dot - path), dot + 1};
}

static bool named(const char *name, PathPart part) {
    return strlen(name) == part.length && memcmp(name, part.start, part.length) == 0;
}

/* The group that `part` names; rows take a further part, their number. */
static const FieldGroup *step_down(const FieldGroup *from, const char **path) {
    PathPart part = path_part(*path);
    PathPart next = part.rest ? path_part(part.rest) : (PathPart){0};
    for (size_t i = 0; i < from->groups.count; i++) {
        const FieldGroup *group = from->groups.items[i];
        if (!named(group->name, part)) {
            continue;
        }
        if (!group->number) {
            *path = part.rest;
            return group;
        }
        if (part.rest && next.rest && strtol(next.start, NULL, 10) == group->number) {
            *path = next.rest;
            return group;
        }
    }
    return NULL;
}

static const Field *field_below(const FieldGroup *group, const char *path) {
    while (group && path) {
        PathPart part = path_part(path);
        if (part.rest) {
            group = step_down(group, &path);
            continue;
        }
        for (size_t i = 0; i < group->fields.count; i++) {
            if (named(group->fields.items[i].name, part)) {
                return &group->fields.items[i];
            }
        }
        return NULL;
    }
    return NULL;
}

const Field *field_find(const FieldGroup *from, const char *path) {
    for (; from; from = from->parent) {
        const Field *field = field_below(from, path);
        if (field) {
            return field;
        }
    }
    return NULL;
}

static const FieldGroup *nth_row(const FieldGroup *group, PathPart part, size_t index) {
    for (size_t i = 0; i < group->groups.count; i++) {
        const FieldGroup *row = group->groups.items[i];
        if (row->number && named(row->name, part) && index-- == 0) {
            return row;
        }
    }
    return NULL;
}

const FieldGroup *field_row(const FieldGroup *from, const char *path, size_t index) {
    for (; from; from = from->parent) {
        const FieldGroup *group = from;
        const char *rest = path;
        while (group && rest && path_part(rest).rest) {
            group = step_down(group, &rest);
        }
        const FieldGroup *row = group && rest ? nth_row(group, path_part(rest), index) : NULL;
        if (row || (group && rest && index > 0 && nth_row(group, path_part(rest), 0))) {
            return row;
        }
    }
    return NULL;
}
