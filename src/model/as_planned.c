#include "model/as_planned.h"

#include "model/plan.h"

const Batch *as_planned_batch(Arena *arena, const Batch *batch) {
    Batch *before = ARENA_NEW(arena, Batch);
    *before = *batch;
    before->record = (Record){
        .filled_m = NOT_STATED, .used_kg = NOT_STATED, .burnt_m = NOT_STATED, .ash_kg = NOT_STATED};
    before->planned_at = batch->record.lit ? 0 : batch->planned_at;
    return before;
}

static Instant lit_at(const Batch *batch) {
    return batch->record.lit ? batch->record.lit : batch->timing.at;
}

const Plan *as_planned_judged(Arena *arena, const Batch *batch, const Learning *learning) {
    const Learning *known = learning_over_by(arena, learning, lit_at(batch), batch);
    return plan_judged(arena, as_planned_batch(arena, batch), known);
}

const Plan *as_planned(Arena *arena, const Batch *batch, const Batch *const *past, size_t count) {
    const Learning *all = learning_of(arena, batch->workshop, past, count);
    const Learning *known = learning_over_by(arena, all, lit_at(batch), batch);
    return plan_make_with_learning(arena, as_planned_batch(arena, batch), known);
}
