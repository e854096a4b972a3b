/* The fields that say what the plan is for: lot, verdict, batch, timing, product, workshop,
 * maker, whom to call. */
#include "base/text.h"
#include "domain/emergency.h"
#include "domain/field_member.h"
#include "domain/word.h"

static const Member product_members[] = {
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(Product, name)},
    {"mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(Product, mass_kg)},
    {"pieces", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(Product, pieces)},
    {"smoke_time", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(Product, smoke_time_s)},
    {"salt", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(Product, salt)},
    {"water", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(Product, water)},
    {"cured", MEMBER_YES, QUANTITY_NONE, offsetof(Product, cured)},
    {"cured_stated", MEMBER_YES, QUANTITY_NONE, offsetof(Product, cured_stated)},
    {"vacuum_packed", MEMBER_YES, QUANTITY_NONE, offsetof(Product, vacuum_packed)},
    {"limit_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(Product, limit_temp_c)},
    {"cure_stated", MEMBER_YES, QUANTITY_NONE, offsetof(Product, cure.stated)},
    {"cure_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(Product, cure.cure_kg)},
    {"cure_nitrite", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(Product, cure.nitrite)},
    {"freezing_stated", MEMBER_YES, QUANTITY_NONE, offsetof(Product, freezing.stated)},
    {"freezing_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(Product, freezing.temp_c)},
    {"freezing_time", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(Product, freezing.time_s)},
    {"farmed", MEMBER_YES, QUANTITY_NONE, offsetof(Product, freezing.farmed)},
};

static const Member workshop_members[] = {
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(Workshop, name)},
    {"file", MEMBER_TEXT, QUANTITY_NONE, offsetof(Workshop, file)},
    {"timezone", MEMBER_TEXT, QUANTITY_NONE, offsetof(Workshop, timezone)},
    {"language", MEMBER_TEXT, QUANTITY_NONE, offsetof(Workshop, language)},
    {"scale_step", MEMBER_NUMBER, QUANTITY_MASS, offsetof(Workshop, scale.resolution_kg)},
    {"scale_capacity", MEMBER_NUMBER, QUANTITY_MASS, offsetof(Workshop, scale.capacity_kg)},
    {"store_sealed", MEMBER_YES, QUANTITY_NONE, offsetof(Workshop, store.sealed)},
};

static const Member happened_members[] = {
    {"over", MEMBER_YES, QUANTITY_NONE, offsetof(PlanHappened, over)},
    {"lit_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanHappened, lit_at)},
    {"out_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanHappened, out_at)},
    {"died", MEMBER_YES, QUANTITY_NONE, offsetof(PlanHappened, died)},
    {"burnt", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanHappened, burnt_m)},
    {"relit", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanHappened, relit)},
    {"relit_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanHappened, relit_at)},
    {"ash", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanHappened, ash_kg)},
    {"remark", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanHappened, remark)},
};

static const Member reading_members[] = {
    {"at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(Reading, at)},
    {"front", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(Reading, front_m)},
    {"cabinet_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(Reading, cabinet_temp_c)},
    {"remark", MEMBER_TEXT, QUANTITY_NONE, offsetof(Reading, remark)},
};

/* What was written down; its key tells lit and out, or lit alone. */
static void add_happened(Arena *arena, FieldGroup *root, const Plan *plan) {
    FieldGroup *group = field_group_new(arena, root, "happened", 0);
    FIELD_ADD(arena, group, happened_members, &plan->happened);
    field_add_word(arena, group, "text",
                   !plan->happened.over    ? NULL
                   : plan->happened.out_at ? "happened.lit_out"
                                           : "happened.lit");
    const Record *record = &plan->batch->record;
    for (size_t i = 0; plan->happened.over && i < record->readings.count; i++) {
        FIELD_ADD(arena, field_group_new(arena, group, "reading", (int)i + 1), reading_members,
                  &record->readings.items[i]);
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
    for (size_t i = 0; i < maker->address.count; i++) {
        FieldGroup *row = field_group_new(arena, group, "line", (int)i + 1);
        field_add_text(arena, row, "text", maker->address.items[i]);
    }
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

static void add_timing(Arena *arena, FieldGroup *root, const Timing *timing) {
    FieldGroup *group = field_group_new(arena, root, "timing", 0);
    field_add_word(arena, group, "kind", word_of_timing(timing->kind));
    field_add_instant(arena, group, "asked_at", timing->at);
    field_add_instant(arena, group, "asked_to", timing->to);
    for (size_t i = 0; i < timing->away.count; i++) {
        FieldGroup *row = field_group_new(arena, group, "away", (int)i + 1);
        field_add_instant(arena, row, "from", timing->away.items[i].from);
        field_add_instant(arena, row, "to", timing->away.items[i].to);
    }
}

void fields_of_label(Arena *arena, FieldGroup *root, const Plan *plan) {
    const Batch *batch = plan->batch;
    field_add_text(arena, root, "lot", plan->lot);
    field_add_word(arena, root, "verdict", word_of_verdict(plan->verdict));
    field_add_instant(arena, root, "stay_from", plan->stay_from);
    field_add_instant(arena, root, "stay_to", plan->stay_to);

    FieldGroup *group = field_group_new(arena, root, "batch", 0);
    field_add_text(arena, group, "name", batch->name);
    field_add_text(arena, group, "file", batch->file);
    field_add_date(arena, group, "date", local_date(plan->workshop, plan->burn.light_at));
    add_timing(arena, root, &batch->timing);

    add_happened(arena, root, plan);

    group = field_group_new(arena, root, "product", 0);
    field_add_word(arena, group, "kind", word_of_product(batch->product.kind));
    FIELD_ADD(arena, group, product_members, &batch->product);

    group = field_group_new(arena, root, "workshop", 0);
    FIELD_ADD(arena, group, workshop_members, plan->workshop);
    field_add_yes(arena, group, "us_units", plan->workshop->units == UNITS_US);
    field_add_yes(arena, group, "twelve_hours", workshop_twelve_hours(plan->workshop));
    field_add_yes(arena, group, "us_market", plan->workshop->market == MARKET_US);
    field_add_text(arena, group, "emergency_number", emergency_number(plan->workshop->market));
    add_maker(arena, root, &plan->workshop->maker);
    add_call(arena, root, &plan->workshop->call);
}
