/* A day of bagging: masses against sums done by hand, balances over random days, tolerable errors
 * against Directive 76/211/EEC. */
#include "model/packing.h"
#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

typedef struct Day {
    Arena *arena;
    Smokehouse *house;
    Bagging bagging;
} Day;

static Day day_new(Arena *arena) {
    Day day = {.arena = arena, .house = smokehouse_new(arena)};
    day.house->workshop.language = "en";
    day.house->workshop.scale = (Scale){.resolution_kg = 0.001, .capacity_kg = NOT_STATED};
    day.bagging = (Bagging){.file = "stall/market-day.xml",
                            .name = "Market day",
                            .workshop = &day.house->workshop,
                            .packed = {2026, 12, 4},
                            .handling_loss = 0};
    return day;
}

static BagBlend *add_blend(Day *day) {
    LIST_ADD(
        day->arena, &day->bagging.packs,
        ((BagBlend){.sieve_below_m = NOT_STATED, .dry_to = NOT_STATED, .moisture = NOT_STATED}));
    return &day->bagging.packs.items[day->bagging.packs.count - 1];
}

static void add_part(Day *day, BagBlend *blend, const Dust *dust, double share) {
    LIST_ADD(day->arena, &blend->blend.parts,
             ((BlendPart){.dust = dust, .kind = SHARE_FIXED, .share = share}));
}

static void add_bags(Day *day, BagBlend *blend, double net_kg, int count) {
    LIST_ADD(day->arena, &blend->bags,
             ((BagOrder){.net_kg = net_kg,
                         .count = count,
                         .face_width_m = NOT_STATED,
                         .face_height_m = NOT_STATED}));
}

static BagBlend *beech_and_cherry(Day *day) {
    BagBlend *blend = add_blend(day);
    add_part(day, blend, &day->house->carrier, 0.7);
    add_part(day, blend, &day->house->cherry, 0.3);
    return blend;
}

static double taken_of(const PackingPlan *plan, const Dust *dust) {
    for (size_t i = 0; i < plan->stocks.count; i++) {
        if (plan->stocks.items[i].dust == dust) {
            return plan->stocks.items[i].taken_kg;
        }
    }
    return 0;
}

/* 12 bags of 200 g at 70 : 30, nothing lost: 1680 g and 720 g. */
static void without_losses_the_bags_are_the_weigh_out(void **state) {
    Day day = day_new(*state);
    add_bags(&day, beech_and_cherry(&day), 0.2, 12);
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    const PackingBlend *blend = &plan->blends.items[0];
    assert_close(taken_of(plan, &day.house->carrier), 1.680, 1e-9);
    assert_close(taken_of(plan, &day.house->cherry), 0.720, 1e-9);
    assert_int_equal(blend->bowls.count, 1);
    assert_close(blend->bowls.items[0].weighings.items[1].running_kg, 2.4, 1e-9);
    assert_close(blend->left_kg, 0, 1e-9);
    assert_close(blend->bagged_kg, 2.4, 1e-9);
}

/* A twentieth lost: 2400 / 0.95 = 2526.3 g, so 2527 g on a scale of 1 g; 70 % of it is 1768.9. */
static void what_handling_loses_is_weighed_out_too(void **state) {
    Day day = day_new(*state);
    day.bagging.handling_loss = 0.05;
    add_bags(&day, beech_and_cherry(&day), 0.2, 12);
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    const PackingBlend *blend = &plan->blends.items[0];
    assert_close(blend->weighed_kg, 2.527, 1e-9);
    assert_close(taken_of(plan, &day.house->carrier), 1.769, 1e-9);
    assert_close(blend->handling_kg, 0.126, 1e-9); /* 126.35 */
    assert_close(blend->left_kg, 2.527 - 0.126 - 2.4, 1e-9);
}

/* Where nobody stated a loss, some is reckoned with: a day never comes out a bag short. */
static void an_unstated_loss_is_not_none(void **state) {
    Day day = day_new(*state);
    day.bagging.handling_loss = NOT_STATED;
    add_bags(&day, beech_and_cherry(&day), 1, 10);
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    assert_close(plan->blends.items[0].weighed_kg, ceil(10000 / 0.99) / 1000, 1e-9);
}

/* From 25 to 10 % of dry wood: 1 kg of bags was 1.25 / 1.10 = 1136.4 g before. */
static void dust_that_is_dried_is_weighed_wet(void **state) {
    Day day = day_new(*state);
    day.house->carrier.moisture = 0.25;
    BagBlend *blend = add_blend(&day);
    add_part(&day, blend, &day.house->carrier, 1);
    blend->dry_to = 0.10;
    add_bags(&day, blend, 0.25, 4);
    const PackingBlend *packed = &packing_plan(*state, &day.bagging)->blends.items[0];
    assert_close(packed->weighed_kg, 1.137, 1e-9);
    assert_close(packed->dry_end_kg, 1.001, 1e-9); /* 1000.56 */
    assert_close(packed->dried_out_kg, 0.136, 1e-9);
    assert_close(packed->left_kg, 0.001, 1e-9);
    assert_false(packed->moisture_known);
    assert_false(is_stated(packed->bags.items[0].bag.moisture));
}

/* What was measured when it was packed stands before what its dusts were, dried or not. */
static void what_was_measured_of_the_blend_is_said(void **state) {
    Day day = day_new(*state);
    BagBlend *blend = beech_and_cherry(&day); /* 4 % */
    blend->moisture = 0.072;
    add_bags(&day, blend, 0.25, 4);
    const PlanBag *bag = &packing_plan(*state, &day.bagging)->blends.items[0].bags.items[0].bag;
    assert_close(bag->moisture, 0.072, 1e-12);
    assert_int_equal(bag->basis, BASIS_DRY);
    assert_int_equal(date_compare(bag->measured, day.bagging.packed), 0);
    blend->measured = (Date){2026, 11, 30};
    blend->dry_to = 0.02;
    bag = &packing_plan(*state, &day.bagging)->blends.items[0].bags.items[0].bag;
    assert_close(bag->moisture, 0.072, 1e-12);
    assert_int_equal(bag->measured.day, 30);
}

/* Three and two of the lot are numbered, four between them are not. */
static void numbers_go_through_the_lot(void **state) {
    Day day = day_new(*state);
    BagBlend *blend = beech_and_cherry(&day);
    add_bags(&day, blend, 0.25, 3);
    add_bags(&day, blend, 0.25, 4);
    add_bags(&day, blend, 0.5, 2);
    blend->bags.items[0].numbered = blend->bags.items[2].numbered = true;
    const PackingBlend *packed = &packing_plan(*state, &day.bagging)->blends.items[0];
    assert_int_equal(packed->bags.items[0].bag.numbered_before, 0);
    assert_int_equal(packed->bags.items[2].bag.numbered_before, 3);
    assert_int_equal(packed->bags.items[0].bag.numbered_in_all, 5);
    assert_int_equal(packed->bags.items[2].bag.numbered_in_all, 5);
}

static void dust_that_is_dry_enough_is_not_dried(void **state) {
    Day day = day_new(*state);
    BagBlend *blend = beech_and_cherry(&day); /* 4 % */
    blend->dry_to = 0.10;
    add_bags(&day, blend, 0.25, 4);
    const PackingBlend *packed = &packing_plan(*state, &day.bagging)->blends.items[0];
    assert_close(packed->dried_out_kg, 0, 0);
    assert_false(is_stated(packed->dry_end_kg));
    assert_true(packed->moisture_known);
    assert_close(packed->bags.items[0].bag.moisture, 0.04, 1e-12);
}

/* Log-uniform from 0.125 to 0.5 mm: half of it is finer than 0.25 mm, nine tenths of which go; the
 * rest is 55 %, and 1 kg of bags takes 1 / 0.55 = 1818.2 g from the shelf. */
static void what_the_sieve_takes_out_is_weighed_out_too(void **state) {
    Day day = day_new(*state);
    Dust fine = smokehouse_dust("beech", 0.08, 0.125e-3, 0.5e-3);
    BagBlend *blend = add_blend(&day);
    add_part(&day, blend, &fine, 1);
    blend->sieve_below_m = 0.25e-3;
    add_bags(&day, blend, 0.5, 2);
    const PackingBlend *packed = &packing_plan(*state, &day.bagging)->blends.items[0];
    assert_close(packed->weighed_kg, 1, 1e-9);
    assert_close(packed->taken_kg, 1.819, 1e-9);
    assert_close(packed->sieved_out_kg, 0.819, 1e-9);
    assert_int_equal(packed->sievings.count, 1);
    assert_close(packed->sievings.items[0].taken_kg, 1.819, 1e-9);
    assert_close(packed->sievings.items[0].out_kg, 0.819, 1e-9);
    /* of 0.55 that is left, 0.05 is finer: the tenth lies above 0.25 mm only just */
    assert_close(packed->blend.grain.fines_mass_share, 0.05 / 0.55, 1e-6);
}

/* A dust of fines and one without, 50 : 50, sieved: still 50 : 50 in the bag. */
static void a_sieved_blend_keeps_its_shares(void **state) {
    Day day = day_new(*state);
    Dust fine = smokehouse_dust("cherry", 0.08, 0.125e-3, 0.5e-3);
    Dust clean = smokehouse_dust("beech", 0.08, 0.5e-3, 1e-3);
    BagBlend *blend = add_blend(&day);
    add_part(&day, blend, &fine, 0.5);
    add_part(&day, blend, &clean, 0.5);
    blend->sieve_below_m = 0.25e-3;
    add_bags(&day, blend, 1, 2);
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    assert_close(taken_of(plan, &clean), 1, 0.001);
    assert_close(taken_of(plan, &fine) * 0.55, 1, 0.001);
    const PackingBowl *bowl = &plan->blends.items[0].bowls.items[0];
    assert_close(bowl->weighings.items[0].mass_kg, 1, 1e-9);
    assert_close(bowl->weighings.items[1].mass_kg, 1, 1e-9);
    assert_close(plan->blends.items[0].bags.items[0].bag.parts.items[0].share, 0.5, 1e-9);
}

/* Directive 76/211/EEC, Annex I, 2.4 and 2.5: 4.5 % from 100 to 200 g, 9 g from 200 to 300 g, 15 g
 * from 500 to 1000 g, 1.5 % above; nothing below twice that. The double at 150 g is 13.5 g
 * (FPackV, section 9). */
static void no_bag_may_fall_short_by_twice_the_tolerable_error(void **state) {
    Day day = day_new(*state);
    BagBlend *blend = beech_and_cherry(&day);
    static const double rows_g[][3] = {{200, 191, 182},
                                       {250, 241, 232},
                                       {1000, 985, 970},
                                       {150, 143.2, 136.5},
                                       {5000, 4925, 4850}};
    enum { ROWS = sizeof rows_g / sizeof *rows_g };
    for (size_t i = 0; i < ROWS; i++) {
        add_bags(&day, blend, rows_g[i][0] / 1000, 1);
    }
    const PackingBlend *packed = &packing_plan(*state, &day.bagging)->blends.items[0];
    for (size_t i = 0; i < ROWS; i++) {
        assert_close(packed->bags.items[i].short_kg * 1000, rows_g[i][1], 1e-6);
        assert_close(packed->bags.items[i].least_kg * 1000, rows_g[i][2], 1e-6);
    }
}

/* A dust of two blends lies on the shelf once. */
static void the_shelf_is_counted_once_for_all_blends(void **state) {
    Day day = day_new(*state);
    day.house->carrier.stock_kg = 3;
    add_bags(&day, beech_and_cherry(&day), 1, 2); /* 1.4 kg of it */
    BagBlend *alone = add_blend(&day);
    add_part(&day, alone, &day.house->carrier, 1);
    add_bags(&day, alone, 1, 2); /* 2 kg */
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    assert_int_equal(plan->stocks.count, 2);
    const PackingStock *stock = &plan->stocks.items[0];
    assert_ptr_equal(stock->dust, &day.house->carrier);
    assert_close(stock->taken_kg, 3.4, 1e-9);
    assert_close(stock->missing_kg, 0.4, 1e-9);
    assert_close(stock->after_kg, 0, 0);
    assert_close(plan->stocks.items[1].missing_kg, 0, 0); /* not stated: nobody can say */
    assert_false(is_stated(plan->stocks.items[1].after_kg));
}

static void check_bowls(const PackingBlend *blend, double capacity_kg, double step_kg) {
    double sum_kg = 0;
    double least_kg = INFINITY, most_kg = 0;
    for (size_t b = 0; b < blend->bowls.count; b++) {
        const PackingBowl *bowl = &blend->bowls.items[b];
        double running_kg = 0;
        for (size_t i = 0; i < bowl->weighings.count; i++) {
            const PackingWeighing *weighing = &bowl->weighings.items[i];
            running_kg += weighing->mass_kg;
            assert_close(weighing->running_kg, running_kg, 1e-9);
            double steps = weighing->mass_kg / step_kg;
            assert_close(steps, round(steps), 1e-6);
        }
        assert_close(bowl->mass_kg, running_kg, 1e-9);
        assert_true(bowl->mass_kg <= capacity_kg);
        least_kg = fmin(least_kg, bowl->mass_kg);
        most_kg = fmax(most_kg, bowl->mass_kg);
        sum_kg += bowl->mass_kg;
    }
    assert_close(sum_kg, blend->weighed_kg, 1e-9);
    assert_true(most_kg - least_kg <= step_kg * (double)blend->blend.parts.count + 1e-9);
}

static void assert_whole(double mass_kg, double step_kg) {
    assert_close(mass_kg / step_kg, round(mass_kg / step_kg), 1e-6);
}

/* What is printed is what the sums are of: no figure is rounded again on the paper. */
static void check_whole_steps(const PackingBlend *blend, double step_kg) {
    assert_whole(blend->taken_kg, step_kg);
    assert_whole(blend->sieved_out_kg, step_kg);
    assert_whole(blend->dried_out_kg, step_kg);
    assert_whole(blend->handling_kg, step_kg);
    for (size_t i = 0; i < blend->sievings.count; i++) {
        assert_whole(blend->sievings.items[i].taken_kg, step_kg);
        assert_whole(blend->sievings.items[i].out_kg, step_kg);
    }
}

/* Of each dust: taken is what is weighed into the bowls and what falls out. */
static void check_sievings(const PackingBlend *blend) {
    bool sieved = is_stated(blend->order->sieve_below_m);
    assert_int_equal(blend->sievings.count, sieved ? blend->blend.parts.count : 0);
    for (size_t i = 0; i < blend->sievings.count; i++) {
        double weighed_kg = 0;
        for (size_t b = 0; b < blend->bowls.count; b++) {
            weighed_kg += blend->bowls.items[b].weighings.items[i].mass_kg;
        }
        const PackingSieving *sieving = &blend->sievings.items[i];
        assert_close(sieving->taken_kg, weighed_kg + sieving->out_kg, 1e-9);
        assert_true(sieving->out_kg > -1e-9);
    }
}

/* Whatever is weighed goes somewhere, bowls never pass the scale, and the bags are always
 * filled. */
static void nothing_is_lost_on_random_days(void **state) {
    uint64_t seed = 77;
    for (int i = 0; i < 400; i++) {
        Day day = day_new(*state);
        Scale *scale = &day.house->workshop.scale;
        scale->resolution_kg = i % 3 ? 0.001 : 0.005;
        scale->capacity_kg = close_random(&seed, 0.5, 6);
        day.bagging.handling_loss = close_random(&seed, 0, 0.2);
        BagBlend *blend = beech_and_cherry(&day);
        add_part(&day, blend, &day.house->residue, close_random(&seed, 0, 1));
        blend->blend.by_volume = i % 2;
        blend->sieve_below_m = i % 4 ? NOT_STATED : close_random(&seed, 0.1e-3, 0.6e-3);
        blend->dry_to = i % 5 ? NOT_STATED : close_random(&seed, 0, 0.08);
        add_bags(&day, blend, close_random(&seed, 0.05, 5), 1 + i % 30);
        add_bags(&day, blend, close_random(&seed, 0.05, 5), 1 + i % 7);
        const PackingPlan *plan = packing_plan(*state, &day.bagging);
        const PackingBlend *packed = &plan->blends.items[0];
        double step_kg = scale->resolution_kg;
        check_whole_steps(packed, step_kg);
        double out_kg = packed->dried_out_kg + packed->handling_kg + packed->bagged_kg +
                        packed->left_kg;
        assert_close(out_kg, packed->weighed_kg, 1e-9);
        assert_close(packed->taken_kg, packed->weighed_kg + packed->sieved_out_kg, 1e-9);
        check_sievings(packed);
        double shelf_kg = taken_of(plan, &day.house->carrier) + taken_of(plan, &day.house->cherry) +
                          taken_of(plan, &day.house->residue);
        assert_close(packed->taken_kg, shelf_kg, 1e-9);
        assert_true(packed->left_kg > -1e-9 && packed->left_kg < 0.02);
        check_bowls(packed, scale->capacity_kg, scale->resolution_kg);
    }
}

/* Two blends that were given one lot: 3 and 4 bags, and 2 of another lot. */
static void numbers_run_on_over_blends_of_one_lot(void **state) {
    static const int counts[] = {3, 2, 4};
    Day day = day_new(*state);
    for (int i = 0; i < 3; i++) {
        BagBlend *blend = beech_and_cherry(&day);
        blend->lot = i == 1 ? "B-1" : "A-1";
        add_bags(&day, blend, 1, counts[i]);
        blend->bags.items[0].numbered = true;
    }
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    const int before[] = {0, 0, 3}, all[] = {7, 2, 7};
    for (size_t i = 0; i < 3; i++) {
        const Plan *labels = plan->blends.items[i].labels.items[0];
        assert_int_equal(labels->bags.items[0].numbered_before, before[i]);
        assert_int_equal(labels->bags.items[0].numbered_in_all, all[i]);
    }
}

/* No more blanks than bags, none of them further apart than the others. */
static void bags_are_weighed_again_evenly(void **state) {
    static const int rows[][3] = {{1, 1, 1}, {3, 3, 1}, {4, 4, 1},
                                  {5, 3, 2}, {8, 4, 2}, {40, 4, 10}};
    Day day = day_new(*state);
    BagBlend *blend = beech_and_cherry(&day);
    enum { ROWS = sizeof rows / sizeof *rows };
    for (size_t i = 0; i < ROWS; i++) {
        add_bags(&day, blend, 0.2, rows[i][0]);
    }
    const PackingBlend *packed = &packing_plan(*state, &day.bagging)->blends.items[0];
    for (size_t i = 0; i < ROWS; i++) {
        assert_int_equal(packed->bags.items[i].checks, rows[i][1]);
        assert_int_equal(packed->bags.items[i].check_every, rows[i][2]);
    }
    /* 2 % of them: FPackV, section 9 (3) */
    assert_close(1.0 / packed->short_of, 0.02, 1e-12);
}

/* What a lot says: the day by ISO 8601 (4 December is day 338 of 2026), and signs that keep the
 * blends of one day apart. */
static void lots_are_short_and_tell_blends_apart(void **state) {
    Day day = day_new(*state);
    add_bags(&day, beech_and_cherry(&day), 1, 1);
    add_bags(&day, beech_and_cherry(&day), 1, 1);
    beech_and_cherry(&day)->lot = "our own";
    const PackingPlan *plan = packing_plan(*state, &day.bagging);
    const char *first = plan->blends.items[0].lot;
    const char *second = plan->blends.items[1].lot;
    assert_memory_equal(first, "L26338-", 7);
    assert_int_equal(strlen(first), 9);
    assert_int_equal(strspn(first + 7, "23456789ABCDEFGHJKMNPQRSTUVWXYZ"), 2);
    assert_string_not_equal(first, second);
    assert_string_equal(first, packing_plan(*state, &day.bagging)->blends.items[0].lot);
    assert_string_equal(plan->blends.items[2].lot, "our own");
}

/* A plan of a night by hand: 42 g of beech and 18 g of cherry on the trays, 12 bags of 200 g. */
static void what_the_trays_take_leaves_the_shelf_too(void **state) {
    Day day = day_new(*state);
    day.house->carrier.stock_kg = 2;
    day.house->cherry.stock_kg = 0.73;
    Batch batch = {.workshop = &day.house->workshop, .file = "night.xml", .name = "Night"};
    Plan plan = {.batch = &batch, .workshop = batch.workshop, .lot = "L26338-7V"};
    const Dust *dusts[] = {&day.house->carrier, &day.house->cherry};
    const double shares[] = {0.7, 0.3};
    for (size_t i = 0; i < 2; i++) {
        LIST_ADD(
            *state, &plan.blend.parts,
            ((PlanPart){.dust = dusts[i], .wet_share = shares[i], .wet_kg = 0.06 * shares[i]}));
    }
    LIST_ADD(
        *state, &batch.bags,
        ((BagOrder){
            .net_kg = 0.2, .count = 12, .face_width_m = NOT_STATED, .face_height_m = NOT_STATED}));
    const PackingPlan *packing = packing_plan_of_night(*state, &plan);
    assert_true(packing->of_night);
    assert_int_equal(packing->stocks.count, 2);
    const PackingStock *beech = &packing->stocks.items[0], *cherry = &packing->stocks.items[1];
    assert_close(beech->tonight_kg, 0.042, 1e-12);
    assert_close(beech->after_kg, 2 - beech->taken_kg - 0.042, 1e-12);
    assert_close(beech->missing_kg, 0, 1e-12);
    assert_true(cherry->taken_kg < 0.73); /* enough but for the trays */
    assert_close(cherry->missing_kg, cherry->taken_kg + 0.018 - 0.73, 1e-12);
    assert_close(cherry->after_kg, 0, 1e-12);
}

static void add_labels(Day *day, BagBlend *blend, const char *stock, int count, int first) {
    add_bags(day, blend, 0.2, count);
    BagOrder *order = &blend->bags.items[blend->bags.count - 1];
    order->stock = stock;
    order->first = first;
}

/* Counted by hand on sheets of eight and, two a bag, of nine. */
static void labels_are_counted_over_blends_and_files(void **state) {
    Stock stocks[] = {{.name = "eight", .columns = 2, .rows = 4},
                      {.name = "nine", .columns = 3, .rows = 3, .pair = true},
                      {.name = "roll", .columns = 1, .rows = 1, .roll = true}};
    StockSet set = {.stocks = {.items = stocks, .count = 3}};
    Day day = day_new(*state);
    BagBlend *blend = beech_and_cherry(&day);
    add_labels(&day, blend, "eight", 5, 3);
    add_labels(&day, blend, "nine", 5, 1);
    add_labels(&day, blend, "roll", 4, 1);
    blend = beech_and_cherry(&day);
    add_labels(&day, blend, "eight", 2, 1);
    PackingPlan *plan = packing_plan(*state, &day.bagging);
    LabelSheets sheets = {0};
    packing_count_labels(*state, plan, &set, (FirstLabels){0}, &sheets);
    assert_int_equal(plan->labels.count, 3);
    const PackingLabels *eight = &plan->labels.items[0], *nine = &plan->labels.items[1];
    assert_int_equal(eight->labels, 7); /* 3 to 8, then 1 */
    assert_int_equal(eight->sheets, 2);
    assert_int_equal(eight->begin, 3);
    assert_int_equal(eight->next, 2);
    assert_int_equal(nine->labels, 10); /* 1 to 8, 9 stays free, 1 and 2 */
    assert_int_equal(nine->sheets, 2);
    assert_int_equal(nine->begin, 1);
    assert_false(nine->begun);
    assert_int_equal(nine->next, 3);
    assert_int_equal(plan->labels.items[2].labels, 4);
    assert_false(plan->labels.items[2].left);

    const FirstLabel first[] = {{"nine", 8}};
    PackingPlan *again = packing_plan(*state, &day.bagging);
    packing_count_labels(*state, again, &set, (FirstLabels){first, 1}, &sheets);
    assert_int_equal(again->labels.items[0].labels, 7); /* of this file alone */
    assert_int_equal(again->labels.items[0].next, 2);   /* its own first label begins a sheet */
    assert_int_equal(again->labels.items[1].begin, 3);  /* where the file before ended */
    assert_true(again->labels.items[1].begun);
    assert_int_equal(again->labels.items[1].next, 5); /* what is said is for the first order */
}

int main(void) {
    const char *against = "packing: mass balances by hand, Directive 76/211/EEC";
    const struct CMUnitTest tests[] = {
        CASE(without_losses_the_bags_are_the_weigh_out),
        CASE(what_handling_loses_is_weighed_out_too),
        CASE(an_unstated_loss_is_not_none),
        CASE(dust_that_is_dried_is_weighed_wet),
        CASE(what_was_measured_of_the_blend_is_said),
        CASE(numbers_go_through_the_lot),
        CASE(dust_that_is_dry_enough_is_not_dried),
        CASE(what_the_sieve_takes_out_is_weighed_out_too),
        CASE(a_sieved_blend_keeps_its_shares),
        CASE(no_bag_may_fall_short_by_twice_the_tolerable_error),
        CASE(the_shelf_is_counted_once_for_all_blends),
        CASE(nothing_is_lost_on_random_days),
        CASE(what_the_trays_take_leaves_the_shelf_too),
        CASE(labels_are_counted_over_blends_and_files),
        CASE(numbers_run_on_over_blends_of_one_lot),
        CASE(bags_are_weighed_again_evenly),
        CASE(lots_are_short_and_tell_blends_apart),
    };
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
