/* The fields of what the hour was chosen from, and with whom. */
#include "domain/field_member.h"
#include "domain/word.h"

static const Member choice_members[] = {
    MEMBER(PlanChoice, from),
    MEMBER(PlanChoice, to),
    MEMBER(PlanChoice, known_to),
    MEMBER(PlanChoice, told),
};

static const Member day_members[] = {
    MEMBER(PlanDay, light_at),       MEASURED("chance", SHARE, PlanDay, chance),
    MEMBER(PlanDay, chance_said_in), MEMBER(PlanDay, chance_said_of),
    MEMBER(PlanDay, chosen),         MEMBER(PlanDay, taken_by),
};

static const Member with_members[] = {
    MEMBER(PlanWith, name), MEMBER(PlanWith, light_at), MEMBER(PlanWith, thing),
    MEMBER(PlanWith, from), MEMBER(PlanWith, to),
};

static void add_day(Arena *arena, FieldGroup *row, const PlanDay *day) {
    FIELD_ADD(arena, row, day_members, day);
    field_add_word(arena, row, "verdict", word_of_verdict(day->verdict));
    field_add_word(arena, row, "cause", word_of_cause(day->cause));
    field_add_word(arena, row, "lasts",
                   day->chance_said_in > 0 ? "chance.after" : "chance.after_few");
}

void fields_of_choice(Arena *arena, FieldGroup *root, const Plan *plan) {
    const PlanChoice *choice = &plan->choice;
    FieldGroup *group = field_group_new(arena, root, "choice", 0);
    FIELD_ADD(arena, group, choice_members, choice);
    field_add_yes(arena, group, "days", choice->days.count > 1);
    field_add_yes(arena, group, "has_next", choice->next.light_at != 0);
    if (choice->next.light_at) {
        FieldGroup *row = field_group_new(arena, group, "next", 1);
        add_day(arena, row, &choice->next);
    }
    for (size_t i = 0; i < choice->days.count; i++) {
        const PlanDay *day = &choice->days.items[i];
        FieldGroup *row = field_group_new(arena, group, "day", (int)i + 1);
        field_add_word(arena, row, "text",
                       day->taken_by ? "day.taken"
                       : day->chosen ? "day.chosen"
                                     : "day.free");
        add_day(arena, row, day);
    }
    for (size_t i = 0; i < choice->with.count; i++) {
        const PlanWith *with = &choice->with.items[i];
        FieldGroup *row = field_group_new(arena, group, "with", (int)i + 1);
        FIELD_ADD(arena, row, with_members, with);
        field_add_word(arena, row, "text", with->from ? with->words : "with.beside");
    }
}
