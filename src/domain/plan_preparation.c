/* The fields of what is done to the product in the days before. */
#include "domain/field_member.h"
#include "domain/plan.h"

static const Member preparation_members[] = {
    MEMBER(PlanPreparation, begin_by),
    MEMBER(PlanPreparation, begun),
    MEMBER(PlanPreparation, ready_at),
    MEASURED("length", DURATION, PlanPreparation, length_s),
    MEASURED("meat", MASS, PlanPreparation, meat_kg),
    MEASURED("salt", MASS, PlanPreparation, salt_kg),
    MEASURED("cure", MASS, PlanPreparation, cure_kg),
    MEASURED("water", MASS, PlanPreparation, water_kg),
    MEASURED("liquid", MASS, PlanPreparation, liquid_kg),
    MEASURED("volume", VOLUME, PlanPreparation, volume_m3),
    MEASURED("strength", SHARE, PlanPreparation, strength),
    MEASURED("degrees", COUNT, PlanPreparation, degrees),
    MEASURED("even_share", SHARE, PlanPreparation, even_share),
};

static const Member task_members[] = {
    MEMBER(PlanTask, at),
    MEMBER(PlanTask, until),
    MEASURED("time", DURATION, PlanTask, time_s),
    MEASURED("temp", TEMPERATURE, PlanTask, temp_c),
};

void fields_of_preparation(Arena *arena, FieldGroup *root, const Plan *plan) {
    const PlanPreparation *preparation = &plan->preparation;
    if (preparation->tasks.count == 0 && !preparation->not_ready) {
        return;
    }
    FieldGroup *group = field_group_new(arena, root, "preparation", 0);
    FIELD_ADD(arena, group, preparation_members, preparation);
    for (size_t i = 0; i < preparation->tasks.count; i++) {
        FieldGroup *row = field_group_new(arena, group, "task", (int)i + 1);
        field_add_row_words(arena, row, preparation->tasks.items[i].key);
        FIELD_ADD(arena, row, task_members, &preparation->tasks.items[i]);
    }
}
