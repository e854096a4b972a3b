#include "report/plan_fields.h"

#include "report/figure.h"

typedef struct Listing {
    Text *text;
    const Zone *zone;
    ShowField show;
    void *context;
} Listing;

static void add_field(const Listing *listing, const char *prefix, const Field *field) {
    Text figure = text_new(listing->text->arena);
    figure_add(&figure, field, listing->zone);
    const char *shown = listing->show(listing->context, field);
    text_addf(listing->text, "%s%s\t%s\t%s\n", prefix, field->name, figure.bytes,
              shown ? shown : "");
}

static const char *prefix_of(Arena *arena, const char *prefix, const FieldGroup *group) {
    if (group->number)
        return arena_format(arena, "%s%s.%d.", prefix, group->name, group->number);
    return arena_format(arena, "%s%s.", prefix, group->name);
}

static void add_group(const Listing *listing, const char *prefix, const FieldGroup *group) {
    for (size_t i = 0; i < group->fields.count; i++)
        add_field(listing, prefix, &group->fields.items[i]);
    for (size_t i = 0; i < group->groups.count; i++) {
        const FieldGroup *child = group->groups.items[i];
        add_group(listing, prefix_of(listing->text->arena, prefix, child), child);
    }
}

void plan_field_lines(Text *text, const Plan *plan, const FieldGroup *fields, ShowField show,
                      void *context) {
    Listing listing = {text, plan->workshop->zone, show, context};
    add_group(&listing, "", fields);
}
