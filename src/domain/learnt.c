#include "domain/learnt.h"

#include "domain/field_member.h"

static const Member learnt_members[] = {
    MEMBER(Learnt, workshop),
    MEASURED("stretch", LENGTH, Learnt, stretch_m),
    MEASURED("margin", RATIO, Learnt, margin),
    MEMBER(Learnt, nights),
    MEMBER(Learnt, trials),
};

static const Member row_members[] = {
    MEMBER(LearntRow, tray),   MEMBER(LearntRow, fuel),   MEMBER(LearntRow, example),
    MEMBER(LearntRow, nights), MEMBER(LearntRow, lasted),
};

static const Member state_members[] = {
    MEASURED("speed_factor", RATIO, LearntState, speed_factor),
    MEASURED("slow", RATIO, LearntState, slow),
    MEASURED("fast", RATIO, LearntState, fast),
    MEASURED("took", DURATION, LearntState, took_s),
    MEASURED("took_long", DURATION, LearntState, took_long_s),
    MEASURED("took_short", DURATION, LearntState, took_short_s),
    MEASURED("chance", SHARE, LearntState, chance),
    MEMBER(LearntState, chance_said_in),
    MEMBER(LearntState, chance_said_of),
};

static const Member step_members[] = {
    MEMBER(LearntStep, trial),
    MEMBER(LearntStep, tray),
    MEMBER(LearntStep, fuel),
    MEASURED("off_now", SHARE, LearntStep, off_now),
    MEASURED("off_then", SHARE, LearntStep, off_then),
};

static void add_state(Arena *arena, FieldGroup *row, const char *name, const LearntState *state) {
    FieldGroup *group = field_group_new(arena, row, name, 0);
    FIELD_ADD(arena, group, state_members, state);
    field_add_word(arena, group, "lasts",
                   state->chance_said_in > 0 ? "chance.after" : "chance.after_few");
}

static void add_row(Arena *arena, FieldGroup *root, const char *name, const LearntRow *learnt,
                    int number) {
    FieldGroup *row = field_group_new(arena, root, name, number);
    FIELD_ADD(arena, row, row_members, learnt);
    add_state(arena, row, "before", &learnt->before);
    add_state(arena, row, "now", &learnt->now);
}

FieldGroup *learnt_fields(Arena *arena, const Learnt *learnt) {
    FieldGroup *root = field_group_new(arena, NULL, "learnt", 0);
    FIELD_ADD(arena, root, learnt_members, learnt);
    for (size_t i = 0; i < learnt->dusts.count; i++)
        add_row(arena, root, "dust", &learnt->dusts.items[i], (int)i + 1);
    for (size_t i = 0; i < learnt->blends.count; i++)
        add_row(arena, root, "blend", &learnt->blends.items[i], (int)i + 1);
    FIELD_ADD_ROWS(arena, root, "measure", step_members, learnt->steps);
    for (size_t i = 0; i < learnt->assumed.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "assumed", (int)i + 1);
        field_add_text(arena, row, "name", learnt->assumed.items[i]);
    }
    fields_of_notes(arena, root, &learnt->aside);
    return root;
}
