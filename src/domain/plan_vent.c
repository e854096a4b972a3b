/* The fields of how the vents are to be set, in words and figures. */
#include "domain/field_member.h"
#include "domain/word.h"

static void add_vent(Arena *arena, FieldGroup *group, const char *name, const PlanVent *vent,
                     bool outlet) {
    bool stated = vent->opening != VENT_UNSTATED;
    field_add_number(arena, group, name, QUANTITY_AREA, stated ? vent->area_m2 : NOT_STATED);
    field_add_number(arena, group, arena_format(arena, "%s_share", name), QUANTITY_SHARE,
                     stated ? vent->share : NOT_STATED);
    field_add_word(arena, group, arena_format(arena, "%s_set", name),
                   word_of_vent(vent->opening, outlet));
}

void field_add_vents(Arena *arena, FieldGroup *group, const PlanVent *inlet,
                     const PlanVent *outlet) {
    field_add_word(arena, group, "vents", word_of_vents(inlet->opening));
    add_vent(arena, group, "inlet", inlet, false);
    add_vent(arena, group, "outlet", outlet, true);
}
