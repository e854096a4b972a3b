/* The fields that say what the plan is for: lot, verdict, batch, product, workshop,
 * maker, whom to call. */
#include "base/text.h"
#include "domain/emergency.h"
#include "domain/field_member.h"
#include "domain/word.h"

static const Member workshop_members[] = {
    MEMBER(Workshop, name),
    MEMBER(Workshop, file),
};

static const Member product_members[] = {
    MEMBER(Product, name),
    MEMBER(Product, lot),
    MEASURED("mass", MASS, Product, mass_kg),
    MEASURED("salt", SHARE, Product, salt),
};

static const Member happened_members[] = {
    MEMBER(PlanHappened, over),
    MEMBER(PlanHappened, lit_at),
    MEMBER(PlanHappened, out_at),
    MEMBER(PlanHappened, died),
    MEASURED("burnt", LENGTH, PlanHappened, burnt_m),
    MEMBER(PlanHappened, relit),
    MEMBER(PlanHappened, relit_at),
    MEASURED("ash", MASS, PlanHappened, ash_kg),
    MEASURED("product_mass", MASS, PlanHappened, product_kg),
    MEMBER(PlanHappened, by),
    MEMBER(PlanHappened, remark),
};

static const Member reading_members[] = {
    MEMBER(Reading, at),
    MEASURED("front", LENGTH, Reading, front_m),
    MEASURED("cabinet_temp", TEMPERATURE, Reading, cabinet_temp_c),
    MEASURED("humidity", HUMIDITY, Reading, humidity),
    MEMBER(Reading, remark),
};

/* What was written down; its key tells lit and out, or lit alone. */
static void add_happened(Arena *arena, FieldGroup *root, const Plan *plan) {
    FieldGroup *group = field_group_new(arena, root, "happened", 0);
    FIELD_ADD(arena, group, happened_members, &plan->happened);
    field_add_word(arena, group, "text",
                   !plan->happened.over    ? NULL
                   : plan->happened.out_at ? "happened.lit_out"
                                           : "happened.lit");
    if (plan->happened.over) {
        FIELD_ADD_ROWS(arena, group, "reading", reading_members, plan->batch->record.readings);
    }
}

static Date local_date(const Workshop *workshop, Instant at) {
    return at && workshop->zone ? zone_civil(workshop->zone, at).date : (Date){0};
}

static const char *joined_address(Arena *arena, const Maker *maker) {
    const char *joined = NULL;
    for (size_t i = 0; i < maker->address.count; i++) {
        const char *line = maker->address.items[i];
        joined = joined ? arena_format(arena, "%s, %s", joined, line) : line;
    }
    return joined;
}

static void add_maker(Arena *arena, FieldGroup *root, const Maker *maker) {
    FieldGroup *group = field_group_new(arena, root, "maker", 0);
    field_add_text(arena, group, "name", maker->name);
    field_add_text(arena, group, "contact", maker->contact);
    field_add_text(arena, group, "address", joined_address(arena, maker));
}

/* With blanks that hold: a number cut in two at the end of a line is dialled wrong. */
static const char *held_together(Arena *arena, const char *telephone) {
    Text text = text_new(arena);
    for (const char *at = telephone; *at; at++) {
        if (*at == ' ') {
            text_add(&text, "\xC2\xA0");
        } else {
            text_add_bytes(&text, at, 1);
        }
    }
    return text.bytes;
}

static void add_call(Arena *arena, FieldGroup *root, const Call *call) {
    FieldGroup *group = field_group_new(arena, root, "call", 0);
    field_add_text(arena, group, "name", call->name);
    field_add_text(arena, group, "telephone",
                   call->telephone ? held_together(arena, call->telephone) : NULL);
}

void fields_of_given(Arena *arena, FieldGroup *root, const Plan *plan) {
    const Batch *batch = plan->batch;
    field_add_text(arena, root, "lot", plan->lot);
    field_add_word(arena, root, "verdict", word_of_verdict(plan->verdict));
    field_add_instant(arena, root, "stay_from", plan->stay_from);
    field_add_instant(arena, root, "stay_to", plan->stay_to);

    FieldGroup *group = field_group_new(arena, root, "batch", 0);
    field_add_text(arena, group, "name", batch->name);
    field_add_text(arena, group, "file", batch->file);
    field_add_date(arena, group, "date", local_date(plan->workshop, plan->burn.light_at));
    add_happened(arena, root, plan);

    group = field_group_new(arena, root, "product", 0);
    field_add_word(arena, group, "kind", word_of_product(batch->product.kind));
    FIELD_ADD(arena, group, product_members, &batch->product);
    field_add_number(arena, group, "pieces", QUANTITY_COUNT,
                     batch->product.pieces ? (double)batch->product.pieces : NOT_STATED);

    group = field_group_new(arena, root, "workshop", 0);
    FIELD_ADD(arena, group, workshop_members, plan->workshop);
    field_add_yes(arena, group, "us_units", plan->workshop->units == UNITS_US);
    field_add_yes(arena, group, "twelve_hours", workshop_twelve_hours(plan->workshop));
    field_add_yes(arena, group, "us_market", plan->workshop->market == MARKET_US);
    field_add_yes(arena, group, "au_market", plan->workshop->market == MARKET_AU);
    field_add_text(arena, group, "emergency_number", emergency_number(plan->workshop->market));
    add_maker(arena, root, &plan->workshop->maker);
    add_call(arena, root, &plan->workshop->call);
}
