#include "model/as_planned.h"

#include "model/plan.h"

#include <string.h>

const Batch *as_planned_batch(Arena *arena, const Batch *batch) {
    Batch *before = ARENA_NEW(arena, Batch);
    *before = *batch;
    before->record = (Record){
        .filled_m = NOT_STATED, .used_kg = NOT_STATED, .burnt_m = NOT_STATED, .ash_kg = NOT_STATED};
    before->planned_at = batch->record.lit ? 0 : batch->planned_at;
    return before;
}

static bool same_file(const char *one, const char *other) {
    return one && other && strcmp(one, other) == 0;
}

static Instant lit_at(const Batch *batch) {
    return batch->record.lit ? batch->record.lit : batch->timing.at;
}

const Plan *as_planned_judged(Arena *arena, const Batch *batch, const Learning *learning) {
    const Learning *known = learning_over_by(arena, learning, lit_at(batch), batch);
    return plan_judged(arena, as_planned_batch(arena, batch), known);
}

const Plan *as_planned(Arena *arena, const Batch *batch, const Batch *const *past, size_t count) {
    const Batch **house = ARENA_ARRAY(arena, count, const Batch *);
    size_t own = 0;
    for (size_t i = 0; i < count; i++) {
        if (past[i]->workshop == batch->workshop ||
            same_file(past[i]->workshop->file, batch->workshop->file)) {
            house[own++] = past[i];
        }
    }
    const Learning *all = learning_of(arena, batch->workshop, house, own);
    const Learning *known = learning_over_by(arena, all, lit_at(batch), batch);
    return plan_make_with_learning(arena, as_planned_batch(arena, batch), known);
}
