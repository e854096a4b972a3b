/* The fields of the bags. */
#include "domain/field_member.h"
#include "domain/word.h"

static const Member bag_members[] = {
    MEASURED("net_mass", MASS, PlanBag, net_kg),
    MEMBER(PlanBag, count),
    MEASURED("figure_height", LENGTH, PlanBag, figure_height_m),
    MEASURED("grain_from", GRAIN, PlanBag, grain_from_m),
    MEASURED("grain_to", GRAIN, PlanBag, grain_to_m),
    MEMBER(PlanBag, grain_declared),
    MEMBER(PlanBag, grain_drawable),
    MEASURED("moisture", MOISTURE, PlanBag, moisture),
    MEMBER(PlanBag, measured),
    MEMBER(PlanBag, packed),
    MEMBER(PlanBag, untreated),
    MEMBER(PlanBag, herbs),
    MEASURED("tolerance", MASS, PlanBag, tolerance_kg),
    MEASURED("total_mass", MASS, PlanBag, total_kg),
    MEMBER(PlanBag, e_mark),
    MEMBER(PlanBag, dry_until),
    MEMBER(PlanBag, dust_lots),
    MEMBER(PlanBag, dust_lots_count),
    MEASURED("dry_to", MOISTURE, PlanBag, dry_to),
    MEASURED("oven_temp", TEMPERATURE, PlanBag, oven_c),
    MEASURED("look_after", DURATION, PlanBag, look_after_s),
    MEASURED("tray_channel", LENGTH, PlanBag, tray_channel_m),
    MEASURED("burns_from", DURATION, PlanBag, burns_from_s),
    MEASURED("burns_to", DURATION, PlanBag, burns_to_s),
};

static const Member bag_part_members[] = {
    MEASURED("share", SHARE, BagPart, share),
};

static void add_part(Arena *arena, FieldGroup *bag, const BagPart *part, int number) {
    FieldGroup *row = field_group_new(arena, bag, "part", number);
    if (part->species) {
        field_add_word(arena, row, "species", part->species);
    } else {
        field_add_text(arena, row, "species", part->name);
    }
    field_add_word(arena, row, "name", part->charred ? "label.charred" : "label.species");
    FIELD_ADD(arena, row, bag_part_members, part);
}

static void add_bag(Arena *arena, FieldGroup *root, const Plan *plan, int number) {
    FieldGroup *row = field_group_new(arena, root, "bag", number);
    const PlanBag *bag = &plan->bags.items[number - 1];
    FIELD_ADD(arena, row, bag_members, bag);
    const char *label_name = bag->order ? bag->order->label_name : NULL;
    field_add_text(arena, row, "label_name", label_name ? label_name : plan->batch->blend.name);
    const Tray *tray = bag->order ? bag->order->tray : NULL;
    field_add_text(arena, row, "tray", tray ? tray->name : NULL);
    /* which of the bags a label is for; a page of labels tells each its own */
    field_add_number(arena, row, "label_number", QUANTITY_COUNT, NOT_STATED);
    field_add_number(arena, row, "label_count", QUANTITY_COUNT, NOT_STATED);
    if (is_stated(bag->moisture)) {
        field_add_word(arena, row, "basis", word_of_basis(bag->basis));
    } else {
        field_add_text(arena, row, "basis", NULL); /* no moisture, no basis */
    }
    for (size_t i = 0; i < bag->parts.count; i++) {
        add_part(arena, row, &bag->parts.items[i], (int)i + 1);
    }
}

void fields_of_bags(Arena *arena, FieldGroup *root, const Plan *plan) {
    for (size_t i = 0; i < plan->bags.count; i++) {
        add_bag(arena, root, plan, (int)i + 1);
    }
}
