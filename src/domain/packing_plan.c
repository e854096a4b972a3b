#include "domain/packing_plan.h"

#include "domain/field_member.h"

static const Member sieving_members[] = {
    MEMBER(PackingSieving, name),
    MEMBER(PackingSieving, lot),
    MEASURED("taken_mass", MASS, PackingSieving, taken_kg),
    MEASURED("out_mass", MASS, PackingSieving, out_kg),
    MEMBER(PackingSieving, goes),
};

static const Member weighing_members[] = {
    MEMBER(PackingWeighing, name),
    MEMBER(PackingWeighing, lot),
    MEASURED("mass", MASS, PackingWeighing, mass_kg),
    MEASURED("running_mass", MASS, PackingWeighing, running_kg),
};

static const Member bowl_members[] = {
    MEASURED("mass", MASS, PackingBowl, mass_kg),
};

static const Member bag_members[] = {
    MEASURED("net_mass", MASS, PackingBag, bag.net_kg),
    MEMBER_AS("count", PackingBag, bag.count),
    MEASURED("total_mass", MASS, PackingBag, bag.total_kg),
    MEMBER(PackingBag, language),
    MEASURED("short_mass", MASS, PackingBag, short_kg),
    MEASURED("least_mass", MASS, PackingBag, least_kg),
    MEMBER(PackingBag, checks),
    MEMBER(PackingBag, check_every),
};

static const Member blend_members[] = {
    MEMBER(PackingBlend, lot),
    MEMBER(PackingBlend, short_of),
    MEASURED("taken_mass", MASS, PackingBlend, taken_kg),
    MEASURED("weighed_mass", MASS, PackingBlend, weighed_kg),
    MEASURED("sieved_out_mass", MASS, PackingBlend, sieved_out_kg),
    MEASURED("dried_out_mass", MASS, PackingBlend, dried_out_kg),
    MEASURED("dry_end_mass", MASS, PackingBlend, dry_end_kg),
    MEASURED("handling_mass", MASS, PackingBlend, handling_kg),
    MEASURED("bagged_mass", MASS, PackingBlend, bagged_kg),
    MEASURED("left_mass", MASS, PackingBlend, left_kg),
};

static const Member stock_members[] = {
    MEMBER(PackingStock, name),
    MEMBER(PackingStock, lot),
    MEASURED("before_mass", MASS, PackingStock, before_kg),
    MEASURED("taken_mass", MASS, PackingStock, taken_kg),
    MEASURED("tonight_mass", MASS, PackingStock, tonight_kg),
    MEASURED("after_mass", MASS, PackingStock, after_kg),
    MEASURED("missing_mass", MASS, PackingStock, missing_kg),
};

static const Member label_members[] = {
    MEMBER(PackingLabels, name), MEMBER(PackingLabels, labels), MEMBER(PackingLabels, sheets),
    MEMBER(PackingLabels, next), MEMBER(PackingLabels, left),   MEMBER(PackingLabels, roll),
    MEMBER(PackingLabels, pair), MEMBER(PackingLabels, begin),  MEMBER(PackingLabels, begun),
};

static const Member bagging_members[] = {
    MEMBER(Bagging, name),
    MEMBER(Bagging, file),
    MEMBER(Bagging, packed),
};

static void add_bowls(Arena *arena, FieldGroup *row, const PackingBlend *blend) {
    for (size_t i = 0; i < blend->bowls.count; i++) {
        const PackingBowl *bowl = &blend->bowls.items[i];
        FieldGroup *group = field_group_new(arena, row, "bowl", (int)i + 1);
        FIELD_ADD(arena, group, bowl_members, bowl);
        FIELD_ADD_ROWS(arena, group, "weighing", weighing_members, bowl->weighings);
    }
}

/* A row for each blank, and for each that a row of more bags would have beside them. */
static void add_checks(Arena *arena, FieldGroup *row, const PackingBag *bag) {
    for (int i = 0; i < PACKING_CHECKS; i++) {
        field_group_new(arena, row, i < bag->checks ? "check" : "no_check", i + 1);
    }
    field_add_yes(arena, row, "each_checked", bag->check_every == 1);
}

static void add_bags(Arena *arena, FieldGroup *row, const PackingBlend *blend) {
    for (size_t i = 0; i < blend->bags.count; i++) {
        const PackingBag *bag = &blend->bags.items[i];
        FieldGroup *group = field_group_new(arena, row, "bag", (int)i + 1);
        FIELD_ADD(arena, group, bag_members, bag);
        field_add_text(arena, group, "stock", bag->bag.order->stock);
        add_checks(arena, group, bag);
    }
}

static void add_blend(Arena *arena, FieldGroup *root, const PackingBlend *blend, int number) {
    const BagBlend *order = blend->order;
    FieldGroup *row = field_group_new(arena, root, "blend", number);
    field_add_text(arena, row, "name", order->blend.name);
    FIELD_ADD(arena, row, blend_members, blend);
    bool sieved = is_stated(order->sieve_below_m);
    field_add_yes(arena, row, "sieved", sieved);
    field_add_number(arena, row, "sieve_below", QUANTITY_GRAIN, order->sieve_below_m);
    field_add_yes(arena, row, "dried", blend->dried_out_kg > 0);
    field_add_number(arena, row, "dry_to", QUANTITY_MOISTURE, order->dry_to);
    field_add_number(arena, row, "bowls", QUANTITY_COUNT, (double)blend->bowls.count);
    field_add_yes(arena, row, "mixed", blend->blend.parts.count > 1);
    field_add_yes(arena, row, "several_bowls", blend->bowls.count > 1);
    FIELD_ADD_ROWS(arena, row, "sieving", sieving_members, blend->sievings);
    add_bowls(arena, row, blend);
    add_bags(arena, row, blend);
}

FieldGroup *packing_fields(Arena *arena, const PackingPlan *plan) {
    FieldGroup *root = field_group_new(arena, NULL, "slip", 0);
    field_add_yes(arena, root, "of_night", plan->of_night);
    FIELD_ADD(arena, field_group_new(arena, root, "packing", 0), bagging_members, plan->bagging);
    FieldGroup *workshop = field_group_new(arena, root, "workshop", 0);
    field_add_text(arena, workshop, "name", plan->bagging->workshop->name);
    for (size_t i = 0; i < plan->blends.count; i++) {
        add_blend(arena, root, &plan->blends.items[i], (int)i + 1);
    }
    FIELD_ADD_ROWS(arena, root, "stock", stock_members, plan->stocks);
    FIELD_ADD_ROWS(arena, root, "label_stock", label_members, plan->labels);
    return root;
}
