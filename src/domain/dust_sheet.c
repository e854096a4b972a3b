#include "domain/dust_sheet.h"

#include "domain/field_member.h"

static const Member dust_members[] = {
    MEMBER(Dust, id),
    MEMBER(Dust, name),
    MEMBER(Dust, material),
    MEMBER(Dust, lot),
};

/* Enough that a step of the scale does not show in the result. */
static double sample_kg(const Scale *scale) {
    double wanted_kg = DUST_SHEET_SAMPLE_STEPS * scale->resolution_kg;
    return wanted_kg > DUST_SHEET_SAMPLE_KG ? wanted_kg : DUST_SHEET_SAMPLE_KG;
}

FieldGroup *dust_sheet_fields(Arena *arena, const Workshop *workshop, const Dust *dust,
                              const char *file) {
    FieldGroup *root = field_group_new(arena, NULL, "dust_sheet", 0);
    FIELD_ADD(arena, root, dust_members, dust);
    field_add_text(arena, root, "workshop", workshop->name);
    field_add_text(arena, root, "file", file);
    field_add_number(arena, root, "sample_mass", QUANTITY_MASS, sample_kg(&workshop->scale));
    field_add_number(arena, root, "oven_temp", QUANTITY_TEMPERATURE, DUST_SHEET_OVEN_C);
    field_add_number(arena, root, "apart", QUANTITY_DURATION, DUST_SHEET_APART_S);
    field_add_number(arena, root, "jar", QUANTITY_VOLUME, DUST_SHEET_JAR_M3);
    field_add_number(arena, root, "shaken", QUANTITY_DURATION, DUST_SHEET_SHAKEN_S);
    field_add_number(arena, root, "timed_length", QUANTITY_LENGTH, DUST_SHEET_TIMED_M);
    field_add_number(arena, root, "run_up", QUANTITY_LENGTH, DUST_SHEET_RUN_UP_M);
    return root;
}
