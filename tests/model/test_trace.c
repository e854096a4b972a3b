/* Following lots: chains made by hand, each way against the other, on random books. */
#include "model/packing.h"
#include "model/plan.h"
#include "model/trace.h"
#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static void add_link(Arena *arena, TraceLinks *links, const char *dust_lot, const char *lot) {
    LIST_ADD(arena, links, ((TraceLink){.dust_lot = dust_lot, .lot = lot}));
}

/* "a1 b1 c2 " of the lots passed and how far they are. */
static const char *way(Arena *arena, TraceSteps steps, bool back) {
    const char *text = "";
    for (size_t i = 0; i < steps.count; i++) {
        const TraceLink *link = steps.items[i].link;
        const char *lot = back ? link->dust_lot : link->lot;
        text = arena_format(arena, "%s%s%d ", text, lot ? lot : "-", steps.items[i].depth);
    }
    return text;
}

/* Beech and cherry are bagged as X; X and oak smoke a cheese, beech alone a ham. */
static TraceLinks little_book(Arena *arena) {
    TraceLinks links = {0};
    add_link(arena, &links, "beech", "X");
    add_link(arena, &links, "cherry", "X");
    add_link(arena, &links, "X", "cheese");
    add_link(arena, &links, "oak", "cheese");
    add_link(arena, &links, "beech", "ham");
    add_link(arena, &links, NULL, "ham");
    return links;
}

static void a_lot_is_followed_through_bags_to_products(void **state) {
    TraceLinks links = little_book(*state);
    assert_string_equal(way(*state, trace_forward(*state, &links, "beech"), false),
                        "X1 cheese2 ham1 ");
    assert_string_equal(way(*state, trace_forward(*state, &links, "oak"), false), "cheese1 ");
    assert_string_equal(way(*state, trace_forward(*state, &links, "cheese"), false), "");
}

static void a_product_is_followed_back_to_its_dusts(void **state) {
    TraceLinks links = little_book(*state);
    assert_string_equal(way(*state, trace_back(*state, &links, "cheese"), true),
                        "X1 beech2 cherry2 oak1 ");
    assert_string_equal(way(*state, trace_back(*state, &links, "ham"), true), "beech1 -1 ");
    assert_string_equal(way(*state, trace_back(*state, &links, "beech"), true), "");
}

/* A lot that was mixed into itself again: every link once, and an end. */
static void a_chain_that_bites_its_tail_ends(void **state) {
    TraceLinks links = {0};
    add_link(*state, &links, "a", "b");
    add_link(*state, &links, "b", "a");
    add_link(*state, &links, "a", "a");
    assert_int_equal(trace_forward(*state, &links, "a").count, 3);
    assert_int_equal(trace_back(*state, &links, "b").count, 3);
}

static bool leads(const TraceSteps *steps, const char *lot, bool back) {
    for (size_t i = 0; i < steps->count; i++) {
        const TraceLink *link = steps->items[i].link;
        const char *there = back ? link->dust_lot : link->lot;
        if (there && strcmp(there, lot) == 0) {
            return true;
        }
    }
    return false;
}

/* What is reached forward from a lot reaches it back, in books of random links. */
static void each_way_agrees_with_the_other(void **state) {
    static const char *const lots[] = {"a", "b", "c", "d", "e", "f", "g", "h"};
    enum { LOTS = sizeof lots / sizeof *lots };
    uint64_t seed = 5;
    for (int book = 0; book < 300; book++) {
        TraceLinks links = {0};
        for (int i = 0; i < 7; i++) {
            add_link(*state, &links, lots[(int)close_random(&seed, 0, LOTS - 0.01)],
                     lots[(int)close_random(&seed, 0, LOTS - 0.01)]);
        }
        for (size_t i = 0; i < LOTS; i++) {
            TraceSteps forward = trace_forward(*state, &links, lots[i]);
            for (size_t k = 0; k < LOTS; k++) {
                TraceSteps back = trace_back(*state, &links, lots[k]);
                assert_int_equal(leads(&forward, lots[k], false), leads(&back, lots[i], true));
            }
        }
    }
}

/* What a night and its bags took, with masses that are the plan's or the record's. */
static void a_night_says_what_it_took(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    house->workshop.zone = zone_load(*state, "Europe/Dublin");
    house->carrier.lot = "B-1";
    Batch *batch = smokehouse_batch(house, &house->fold, 8, 0.7);
    smokehouse_part(house, batch, &house->carrier, 0.7);
    smokehouse_part(house, batch, &house->cherry, 0.3);
    batch->lot = "N-1";
    batch->product.name = "Cheddar";
    LIST_ADD(house->arena, &batch->bags, ((BagOrder){.net_kg = 0.25, .count = 4}));
    const Plan *plan = plan_make(*state, batch);
    TraceLinks links = {0};
    trace_add_night(*state, &links, plan);
    assert_int_equal(links.count, 4);
    assert_close(links.items[0].mass_kg, plan->blend.parts.items[0].wet_kg, 0);
    assert_string_equal(links.items[0].made, "Cheddar");
    assert_false(links.items[0].happened);
    assert_close(links.items[2].mass_kg, 0.7, 1e-9);
    assert_int_equal(links.items[2].pieces, 4);
    assert_string_equal(way(*state, trace_forward(*state, &links, "B-1"), false), "N-11 N-11 ");

    batch->record = (Record){.stated = true, .lit = SMOKEHOUSE_EVENING, .used_kg = 0.1};
    TraceLinks written = {0};
    trace_add_night(*state, &written, plan_make(*state, batch));
    assert_true(written.items[0].happened);
    assert_close(written.items[0].mass_kg, 0.07, 1e-9);
}

/* A blend that is bagged, then bought back as a dust: its lot leads to its parts. */
static void bags_lead_on_to_what_they_are_burnt_for(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    house->workshop.zone = zone_load(*state, "Europe/Dublin");
    house->carrier.lot = "B-1";
    Bagging bagging = {.file = "day.xml",
                       .workshop = &house->workshop,
                       .packed = {2026, 12, 4},
                       .handling_loss = 0};
    BagBlend blend = {.sieve_below_m = NOT_STATED, .dry_to = NOT_STATED};
    LIST_ADD(house->arena, &blend.blend.parts, ((BlendPart){.dust = &house->carrier, .share = 1}));
    LIST_ADD(house->arena, &blend.bags, ((BagOrder){.net_kg = 0.5, .count = 3}));
    LIST_ADD(house->arena, &bagging.packs, blend);
    const PackingPlan *packing = packing_plan(*state, &bagging);

    Dust bought = house->carrier;
    bought.lot = packing->blends.items[0].lot;
    Batch *batch = smokehouse_batch(house, &house->fold, 8, 0.7);
    smokehouse_part(house, batch, &bought, 1);
    batch->lot = "N-2";
    TraceLinks links = {0};
    trace_add_night(*state, &links, plan_make(*state, batch));
    trace_add_packing(*state, &links, packing);
    TraceSteps steps = trace_forward(*state, &links, "B-1");
    assert_int_equal(steps.count, 2);
    assert_int_equal(steps.items[0].link->kind, TRACE_BAGS);
    assert_int_equal(steps.items[0].link->pieces, 3);
    assert_close(steps.items[0].link->mass_kg, 1.5, 1e-9);
    assert_string_equal(steps.items[1].link->lot, "N-2");
    assert_int_equal(steps.items[1].depth, 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(a_lot_is_followed_through_bags_to_products),
        CASE(a_product_is_followed_back_to_its_dusts),
        CASE(a_chain_that_bites_its_tail_ends),
        CASE(each_way_agrees_with_the_other),
        CASE(a_night_says_what_it_took),
        CASE(bags_lead_on_to_what_they_are_burnt_for),
    };
    return cmocka_run_group_tests_name("trace: chains by hand, both ways", tests, NULL, NULL);
}
