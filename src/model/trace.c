#include "model/trace.h"

#include "base/text.h"

#include <stdlib.h>
#include <string.h>

static Date date_of_night(const Plan *plan) {
    const Zone *zone = plan->workshop->zone;
    Instant lit_at = plan->happened.over ? plan->happened.lit_at : plan->burn.light_at;
    return zone ? zone_civil(zone, lit_at).date : (Date){0};
}

/* A part of a night's blend on its way into the product. */
static TraceLink night_link(const Plan *plan, const PlanPart *part) {
    const Record *record = &plan->batch->record;
    const Product *product = &plan->batch->product;
    bool weighed = plan->happened.over && record->used_kg > 0;
    return (TraceLink){.kind = TRACE_NIGHT,
                       .dust = part->dust->name,
                       .dust_lot = part->dust->lot,
                       .share = part->wet_share,
                       .mass_kg = weighed ? record->used_kg * part->wet_share : part->wet_kg,
                       .happened = plan->happened.over,
                       .lot = plan->lot,
                       .made = product->name,
                       .made_kg = product->mass_kg,
                       .pieces = product->pieces,
                       .date = date_of_night(plan),
                       .file = plan->batch->file};
}

/* The same into the bags that are filled beside the night. */
static TraceLink night_bags_link(const Plan *plan, const PlanPart *part) {
    TraceLink link = night_link(plan, part);
    link.kind = TRACE_BAGS;
    link.mass_kg = part->packed_kg;
    link.happened = false;
    link.made = plan->batch->blend.name;
    link.made_kg = 0;
    link.pieces = 0;
    for (size_t i = 0; i < plan->bags.count; i++) {
        link.made_kg += plan->bags.items[i].total_kg;
        link.pieces += plan->bags.items[i].count;
    }
    return link;
}

void trace_add_night(Arena *arena, TraceLinks *links, const Plan *plan) {
    for (size_t i = 0; i < plan->blend.parts.count; i++) {
        LIST_ADD(arena, links, night_link(plan, &plan->blend.parts.items[i]));
    }
    for (size_t i = 0; plan->bags.count > 0 && i < plan->blend.parts.count; i++) {
        LIST_ADD(arena, links, night_bags_link(plan, &plan->blend.parts.items[i]));
    }
}

static int bags_of(const PackingBlend *blend) {
    int count = 0;
    for (size_t i = 0; i < blend->bags.count; i++) {
        count += blend->bags.items[i].bag.count;
    }
    return count;
}

void trace_add_packing(Arena *arena, TraceLinks *links, const PackingPlan *plan) {
    for (size_t i = 0; i < plan->blends.count; i++) {
        const PackingBlend *blend = &plan->blends.items[i];
        for (size_t k = 0; k < blend->blend.parts.count; k++) {
            const PlanPart *part = &blend->blend.parts.items[k];
            TraceLink link = {.kind = TRACE_BAGS,
                              .dust = part->dust->name,
                              .dust_lot = part->dust->lot,
                              .share = part->wet_share,
                              .mass_kg = part->packed_kg,
                              .lot = blend->lot,
                              .made = blend->order->blend.name,
                              .made_kg = blend->bagged_kg,
                              .pieces = bags_of(blend),
                              .date = plan->bagging->packed,
                              .file = plan->bagging->file};
            LIST_ADD(arena, links, link);
        }
    }
}

static int by_date(const void *a, const void *b) {
    const TraceLink *first = a, *second = b;
    int days = date_compare(first->date, second->date);
    if (days != 0) {
        return days;
    }
    return (first->order > second->order) - (first->order < second->order);
}

void trace_by_date(TraceLinks *links) {
    for (size_t i = 0; i < links->count; i++) {
        links->items[i].order = i;
    }
    qsort(links->items, links->count, sizeof *links->items, by_date);
}

typedef struct Walk {
    Arena *arena;
    const TraceLinks *links;
    bool back;
    bool *passed;
    TraceSteps steps;
} Walk;

static void walk_from(Walk *walk, const char *lot, int depth) {
    for (size_t i = 0; i < walk->links->count; i++) {
        const TraceLink *link = &walk->links->items[i];
        if (walk->passed[i] || !text_same(lot, walk->back ? link->lot : link->dust_lot)) {
            continue;
        }
        walk->passed[i] = true;
        LIST_ADD(walk->arena, &walk->steps, ((TraceStep){link, depth}));
        walk_from(walk, walk->back ? link->dust_lot : link->lot, depth + 1);
    }
}

static TraceSteps walk(Arena *arena, const TraceLinks *links, const char *lot, bool back) {
    Walk walked = {arena, links, back, ARENA_ARRAY(arena, links->count, bool), {0}};
    walk_from(&walked, lot, 1);
    return walked.steps;
}

TraceSteps trace_forward(Arena *arena, const TraceLinks *links, const char *lot) {
    return walk(arena, links, lot, false);
}

TraceSteps trace_back(Arena *arena, const TraceLinks *links, const char *lot) {
    return walk(arena, links, lot, true);
}
