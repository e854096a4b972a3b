#include "domain/trace.h"

#include "domain/field_member.h"

static const Member trace_members[] = {
    MEMBER(Trace, lot),  MEMBER(Trace, used),  MEMBER(Trace, made),
    MEMBER(Trace, page), MEMBER(Trace, pages),
};

static const Member step_members[] = {
    MEMBER(TraceStep, depth),
};

static const Member link_members[] = {
    MEMBER(TraceLink, dust),
    MEMBER(TraceLink, dust_lot),
    MEASURED("share", SHARE, TraceLink, share),
    MEASURED("mass", MASS, TraceLink, mass_kg),
    MEMBER(TraceLink, happened),
    MEMBER(TraceLink, lot),
    MEMBER(TraceLink, made),
    MEASURED("made_mass", MASS, TraceLink, made_kg),
    MEMBER(TraceLink, date),
    MEMBER(TraceLink, file),
};

static void add_steps(Arena *arena, FieldGroup *root, const char *name, const TraceSteps *steps) {
    for (size_t i = 0; i < steps->count; i++) {
        const TraceStep *step = &steps->items[i];
        const TraceLink *link = step->link;
        FieldGroup *row = field_group_new(arena, root, name, (int)i + 1);
        FIELD_ADD(arena, row, step_members, step);
        FIELD_ADD(arena, row, link_members, link);
        double count = link->pieces ? (double)link->pieces : NOT_STATED;
        bool night = link->kind == TRACE_NIGHT;
        field_add_number(arena, row, "pieces", QUANTITY_COUNT, night ? count : NOT_STATED);
        field_add_number(arena, row, "bags", QUANTITY_COUNT, night ? NOT_STATED : count);
    }
}

FieldGroup *trace_fields(Arena *arena, const Trace *trace) {
    FieldGroup *root = field_group_new(arena, NULL, "trace", 0);
    FIELD_ADD(arena, root, trace_members, trace);
    field_add_yes(arena, root, "into_here", trace->into.count > 0);
    field_add_yes(arena, root, "of_here", trace->of.count > 0);
    field_add_yes(arena, root, "several_pages", trace->pages > 1);
    add_steps(arena, root, "into", &trace->into);
    add_steps(arena, root, "of", &trace->of);
    return root;
}
