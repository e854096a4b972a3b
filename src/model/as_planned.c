#include "model/as_planned.h"

#include "model/plan.h"

/* What lay on the shelf that day nobody wrote down: what lies there today says nothing of it. */
static void forget_shelf(Arena *arena, Batch *batch) {
    size_t count = batch->blend.parts.count;
    BlendPart *parts = ARENA_ARRAY(arena, count, BlendPart);
    for (size_t i = 0; i < count; i++) {
        parts[i] = batch->blend.parts.items[i];
        Dust *dust = ARENA_NEW(arena, Dust);
        *dust = *parts[i].dust;
        dust->stock_kg = NOT_STATED;
        parts[i].dust = dust;
    }
    batch->blend.parts.items = parts;
    batch->blend.parts.capacity = count;
}

const Batch *as_planned_batch(Arena *arena, const Batch *batch) {
    Batch *before = ARENA_NEW(arena, Batch);
    *before = *batch;
    before->record = (Record){
        .filled_m = NOT_STATED, .used_kg = NOT_STATED, .burnt_m = NOT_STATED, .ash_kg = NOT_STATED};
    if (batch->record.lit) {
        before->planned_at = 0;
        forget_shelf(arena, before);
    }
    return before;
}

static Instant lit_at(const Batch *batch) {
    return batch->record.lit ? batch->record.lit : batch->timing.at;
}

const Plan *as_planned(Arena *arena, const Batch *batch, const Learning *learning) {
    const Learning *known = learning_over_by(arena, learning, lit_at(batch), batch);
    return plan_judged(arena, as_planned_batch(arena, batch), known);
}
