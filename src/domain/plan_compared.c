/* The fields of a night that is over, planned beside happened. */
#include "domain/field_member.h"

#include <string.h>

static const Member compared_members[] = {
    MEMBER(PlanCompared, planned),  MEMBER(PlanCompared, low),     MEMBER(PlanCompared, high),
    MEMBER(PlanCompared, happened), MEMBER(PlanCompared, more),    MEMBER(PlanCompared, less),
    MEMBER(PlanCompared, alike),    MEMBER(PlanCompared, outside),
};

static const Member check_members[] = {
    MEMBER(PlanCheck, planned_at),
    MEMBER(PlanCheck, at),
    MEASURED("planned_front", LENGTH, PlanCheck, planned_m),
    MEASURED("front", LENGTH, PlanCheck, front_m),
    MEASURED("ahead", LENGTH, PlanCheck, ahead_m),
    MEASURED("behind", LENGTH, PlanCheck, behind_m),
    MEASURED("planned_temp", TEMPERATURE, PlanCheck, planned_temp_c),
    MEASURED("cabinet_temp", TEMPERATURE, PlanCheck, cabinet_temp_c),
    MEASURED("humidity", HUMIDITY, PlanCheck, humidity),
    MEMBER(PlanCheck, over_limit),
    MEMBER(PlanCheck, remark),
};

static const Member warmth_members[] = {
    MEMBER(PlanWarmth, read),
    MEASURED("most", TEMPERATURE, PlanWarmth, most_c),
    MEMBER(PlanWarmth, most_at),
    MEMBER(PlanWarmth, over),
    MEASURED("over_least", DURATION, PlanWarmth, over_least_s),
    MEASURED("over_most", DURATION, PlanWarmth, over_most_s),
    MEASURED("yield", SHARE, PlanWarmth, yield),
};

/* How a difference is said: a time is later, a span longer, a front faster, air warmer. */
typedef struct Directions {
    const char *more, *less;
} Directions;

static Directions directions_of(const PlanCompared *compared) {
    switch (compared->planned.kind) {
    case QUANTITY_INSTANT: return (Directions){"compared.later", "compared.earlier"};
    case QUANTITY_DURATION: return (Directions){"compared.longer", "compared.shorter"};
    case QUANTITY_RATIO: return (Directions){"compared.faster", "compared.slower"};
    case QUANTITY_TEMPERATURE: return (Directions){"compared.warmer", "compared.colder"};
    default: return (Directions){"compared.more", "compared.less"};
    }
}

void fields_of_compared(Arena *arena, FieldGroup *root, const Plan *plan) {
    for (size_t i = 0; i < plan->compared.count; i++) {
        const PlanCompared *compared = &plan->compared.items[i];
        FieldGroup *row = field_group_new(arena, root, "compared", (int)i + 1);
        Directions directions = directions_of(compared);
        field_add_row_words(arena, row, compared->key);
        FIELD_ADD(arena, row, compared_members, compared);
        field_add_word(arena, row, "more_text", directions.more);
        field_add_word(arena, row, "less_text", directions.less);
    }
    FIELD_ADD_ROWS(arena, root, "check", check_members, plan->checks);
    FieldGroup *warmth = field_group_new(arena, root, "warmth", 0);
    FIELD_ADD(arena, warmth, warmth_members, &plan->warmth);
    field_add_yes(arena, warmth, "is_over", plan->warmth.over > 0);
}
