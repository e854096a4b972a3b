/* The fields of what is said of the plan: reasons, remedies, care, learning. In each of these rows
 * `text` is the key of the row's words. */
#include "domain/field_member.h"
#include "domain/word.h"

#include <string.h>

static const Member remedy_members[] = {
    MEMBER(Remedy, name),
    MEMBER(Remedy, amount),
    MEMBER(Remedy, second),
    MEASURED("chance_before", SHARE, Remedy, chance_before),
    MEASURED("chance_after", SHARE, Remedy, chance_after),
    MEMBER(Remedy, chance_said_in),
    MEMBER(Remedy, chance_said_of),
    MEASURED("temp_after", TEMPERATURE, Remedy, temp_after_c),
};

/* Of the second change of two: what comes of both stands with the first. */
static const Member change_members[] = {
    MEMBER(Remedy, name),
    MEMBER(Remedy, amount),
    MEMBER(Remedy, second),
    MEASURED("temp_after", TEMPERATURE, Remedy, temp_after_c),
};

static const Member care_members[] = {
    MEMBER(Care, value),
    MEMBER(Care, limit),
};

static const Member learning_members[] = {
    MEMBER_AS("amount", LearningNote, said),
    MEMBER(LearningNote, from),
    MEMBER(LearningNote, to),
    MEMBER_AS("count", LearningNote, others),
};

static void add_vents_of(Arena *arena, FieldGroup *row, const Remedy *remedy) {
    if (remedy->kind == REMEDY_WIDER_VENT) {
        field_add_vents(arena, row, &remedy->inlet, &remedy->outlet);
    }
}

static void add_remedy(Arena *arena, FieldGroup *root, const Remedy *remedy, int number) {
    FieldGroup *row = field_group_new(arena, root, "remedy", number);
    field_add_word(arena, row, "text", word_of_remedy(remedy->kind));
    FIELD_ADD(arena, row, remedy_members, remedy);
    add_vents_of(arena, row, remedy);
    field_add_word(arena, row, "verdict_after", word_of_verdict(remedy->verdict_after));
    field_add_word(arena, row, "lasts",
                   remedy->chance_said_in > 0 ? "chance.after" : "chance.after_few");
    if (remedy->with) {
        FieldGroup *with = field_group_new(arena, row, "with", 1);
        field_add_word(arena, with, "text", word_of_remedy(remedy->with->kind));
        FIELD_ADD(arena, with, change_members, remedy->with);
        add_vents_of(arena, with, remedy->with);
    }
}

void fields_of_notes(Arena *arena, FieldGroup *root, const LearningNotes *notes) {
    for (size_t i = 0; i < notes->count; i++) {
        FieldGroup *row = field_group_new(arena, root, "learning", (int)i + 1);
        field_add_row_words(arena, row, notes->items[i].key);
        const LearningNote *note = &notes->items[i];
        field_add_text(arena, row, "name", note->dust ? note->dust : note->file);
        FIELD_ADD(arena, row, learning_members, note);
    }
}

void fields_of_judgement(Arena *arena, FieldGroup *root, const Plan *plan) {
    for (size_t i = 0; i < plan->reasons.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "reason", (int)i + 1);
        const char *cause = word_of_cause(plan->reasons.items[i].cause);
        field_add_word(arena, row, "cause", cause);
        field_add_row_words(arena, row, strchr(cause, '.') + 1);
        field_add_word(arena, row, "verdict", word_of_verdict(plan->reasons.items[i].verdict));
    }
    for (size_t i = 0; i < plan->remedies.count; i++) {
        add_remedy(arena, root, &plan->remedies.items[i], (int)i + 1);
    }
    for (size_t i = 0; i < plan->care.count; i++) {
        const Care *care = &plan->care.items[i];
        FieldGroup *row = field_group_new(arena, root, "care", (int)i + 1);
        field_add_row_words(arena, row, care->key);
        field_add_word(arena, row, "level", word_of_care_level(care->level));
        FIELD_ADD(arena, row, care_members, care);
    }
    fields_of_notes(arena, root, &plan->learning);
}
