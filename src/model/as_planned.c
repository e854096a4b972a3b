#include "model/as_planned.h"

#include "model/plan.h"

#include <string.h>

const Batch *as_planned_batch(Arena *arena, const Batch *batch) {
    Batch *before = ARENA_NEW(arena, Batch);
    *before = *batch;
    before->record = (Record){
        .filled_m = NOT_STATED, .used_kg = NOT_STATED, .burnt_m = NOT_STATED, .ash_kg = NOT_STATED};
    before->planned_at = 0;
    return before;
}

static bool same_file(const char *one, const char *other) {
    return one && other && strcmp(one, other) == 0;
}

/* Whether a night was over, and could be written down, by then. */
static bool over_by(const Record *record, Instant then) {
    return record->lit && record->lit < then && record->out <= then;
}

const Plan *as_planned(Arena *arena, const Batch *batch, const Batch *const *past, size_t count) {
    const Batch **known = ARENA_ARRAY(arena, count, const Batch *);
    size_t knew = 0;
    Instant then = batch->record.lit ? batch->record.lit : batch->timing.at;
    for (size_t i = 0; i < count; i++) {
        const Batch *other = past[i];
        bool itself = other == batch || same_file(other->file, batch->file);
        bool house = other->workshop == batch->workshop ||
                     same_file(other->workshop->file, batch->workshop->file);
        if (!itself && house && over_by(&other->record, then)) {
            known[knew++] = other;
        }
    }
    return plan_make_with_records(arena, as_planned_batch(arena, batch), known, knew);
}
