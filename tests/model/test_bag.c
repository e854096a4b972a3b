/* Bags and lots: composition, basis, what is left on the shelf; marks that stay the same. */
#include "model/bag.h"
#include "model/lot.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static const Date session_date = {2026, 12, 4};

static Dust dust(const char *id, double stock_kg, MoistureBasis basis) {
    return (Dust){
        .id = id, .name = id, .stock_kg = stock_kg, .stated_basis = basis, .untreated = true};
}

/* Two dusts 30 : 70 by wet mass, 600 g burnt tonight. */
static void make(Arena *arena, Dust dusts[2], Batch *batch, Plan *plan) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    batch->workshop = workshop;
    LIST_ADD(arena, &plan->blend.parts,
             (PlanPart){.dust = &dusts[0], .wet_share = 0.3, .wet_kg = 0.18});
    LIST_ADD(arena, &plan->blend.parts,
             (PlanPart){.dust = &dusts[1], .wet_share = 0.7, .wet_kg = 0.42});
    plan->blend.moisture = 0.25;
    plan->blend.grain.d10_m = 0.0005;
    plan->blend.grain.d90_m = 0.00075;
}

static BagOrder order(double net_kg, int count) {
    return (BagOrder){
        .net_kg = net_kg, .count = count, .face_width_m = NOT_STATED, .face_height_m = NOT_STATED};
}

/* The usual one: 30 % cherry and 70 % beech, enough of both, with all that bags are made from. */
typedef struct Mix {
    Dust dusts[2];
    Batch batch;
    Plan plan;
} Mix;

static Mix *cherry_and_beech(Arena *arena) {
    Mix *mix = ARENA_NEW(arena, Mix);
    mix->dusts[0] = dust("cherry", 10, BASIS_DRY);
    mix->dusts[1] = dust("beech", 10, BASIS_DRY);
    make(arena, mix->dusts, &mix->batch, &mix->plan);
    return mix;
}

static PlanBag one_bag(Arena *arena, const Mix *mix, const BagOrder *order, bool sieved) {
    return bag_of_order(arena, mix->batch.workshop, order, session_date, &mix->plan.blend, sieved);
}

static void a_bag_says_what_is_in_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Mix *mix = cherry_and_beech(arena);
    LIST_ADD(arena, &mix->batch.bags, order(0.25, 6));
    bag_plan(arena, &mix->batch, session_date, &mix->plan);
    assert_int_equal(mix->plan.bags.count, 1);
    const PlanBag *bag = &mix->plan.bags.items[0];
    assert_string_equal(bag->parts.items[0].name, "beech");
    assert_close(bag->parts.items[0].share, 0.7, 1e-12);
    assert_string_equal(bag->parts.items[1].name, "cherry");
    assert_close(bag->total_kg, 1.5, 1e-12);
    assert_close(bag->tolerance_kg, 0.009, 1e-12);    /* tolerable_negative_error.csv, 250 g */
    assert_close(bag->figure_height_m, 0.004, 1e-12); /* net_quantity_height.csv, 200-1000 g */
    assert_close(bag->grain_from_m, 0.0005, 0);
    assert_true(bag->untreated);
    assert_false(bag->herbs);
    mix->dusts[0].form = FORM_LEAF;
    mix->batch.bags.items[0].count = 1;
    bag_plan(arena, &mix->batch, session_date, &mix->plan);
    assert_true(mix->plan.bags.items[1].herbs);
    bag = &mix->plan.bags.items[0];
    assert_int_equal(date_compare(bag->packed, session_date), 0);
    arena_free(arena);
}

/* Dusts that a buyer takes for one thing are one line; charred wood is told apart, and what the
 * owner wrote for the label is said as it stands. */
static void dusts_of_one_species_add_up(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust dusts[] = {dust("fine", 10, BASIS_DRY), dust("coarse", 10, BASIS_DRY),
                    dust("burnt", 10, BASIS_DRY), dust("mix", 10, BASIS_DRY)};
    dusts[0].material = "beech";
    dusts[1].material = "Buche";
    dusts[2].material = "European beech";
    dusts[2].charred = true;
    dusts[3].material = "beech";
    dusts[3].label_name = "Orchard prunings";
    Batch batch = {0};
    Plan plan = {0};
    make(arena, dusts, &batch, &plan); /* 0.3 and 0.7 */
    LIST_ADD(arena, &plan.blend.parts, (PlanPart){.dust = &dusts[2], .wet_share = 0.8});
    LIST_ADD(arena, &plan.blend.parts, (PlanPart){.dust = &dusts[3], .wet_share = 0.9});
    LIST_ADD(arena, &batch.bags, order(0.25, 1));
    bag_plan(arena, &batch, session_date, &plan);
    const PlanBag *bag = &plan.bags.items[0];
    assert_int_equal(bag->parts.count, 3);
    assert_string_equal(bag->parts.items[0].species, "species.beech");
    assert_close(bag->parts.items[0].share, 1, 1e-12);
    assert_string_equal(bag->parts.items[1].name, "Orchard prunings");
    assert_null(bag->parts.items[1].species);
    assert_true(bag->parts.items[2].charred);
    arena_free(arena);
}

/* A wood that the languages have no word for is called what its owner calls it. */
static void a_wood_without_a_word_is_called_as_written(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust dusts[] = {dust("one", 10, BASIS_DRY), dust("two", 10, BASIS_DRY)};
    dusts[0].material = "red oak";
    dusts[1].material = "Strawberry tree";
    Batch batch = {0};
    Plan plan = {0};
    make(arena, dusts, &batch, &plan);
    LIST_ADD(arena, &batch.bags, order(0.25, 1));
    bag_plan(arena, &batch, session_date, &plan);
    const BagPart *parts = plan.bags.items[0].parts.items;
    assert_null(parts[0].species);
    assert_string_equal(parts[0].name, "Strawberry tree");
    assert_null(parts[1].species);
    assert_string_equal(parts[1].name, "red oak");
    arena_free(arena);
}

/* Dry 25 % is wet 20 %: a pair of the bioenergy list, ISO 18134's formula. */
static void the_basis_is_the_one_the_dusts_were_stated_on(void **state) {
    (void)state;
    for (int mixed = 0; mixed < 2; mixed++) {
        Arena *arena = arena_new();
        Dust dusts[] = {dust("cherry", 10, BASIS_WET),
                        dust("beech", 10, mixed ? BASIS_DRY : BASIS_WET)};
        dusts[0].untreated = mixed;
        Batch batch = {0};
        Plan plan = {0};
        make(arena, dusts, &batch, &plan);
        LIST_ADD(arena, &batch.bags, order(1, 1));
        bag_plan(arena, &batch, session_date, &plan);
        assert_int_equal(plan.bags.items[0].basis, mixed ? BASIS_DRY : BASIS_WET);
        assert_close(plan.bags.items[0].moisture, 0.25, 1e-12);
        assert_int_equal(plan.bags.items[0].untreated, mixed);
        arena_free(arena);
    }
}

/* One dust as its owner declared it; a mixture, or what was sieved, by its middle 80 %. */
static void the_grain_is_the_declared_one_of_one_dust(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust dusts[] = {dust("cherry", 10, BASIS_DRY), dust("beech", 10, BASIS_DRY)};
    for (int i = 0; i < 2; i++) {
        dusts[i].grain_from_m = 0.0004;
        dusts[i].grain_to_m = 0.0009;
        dusts[i].measured = (Date){2026, 11, 19 - i};
    }
    Batch batch = {0};
    Plan plan = {0};
    make(arena, dusts, &batch, &plan);
    BagOrder ordered = order(1, 1);
    PlanBag mixed = bag_of_order(arena, batch.workshop, &ordered, session_date, &plan.blend, false);
    assert_false(mixed.grain_declared);
    assert_close(mixed.grain_from_m, 0.0005, 0);
    assert_int_equal(mixed.measured.day, 18);
    dusts[0].measured = (Date){0};
    mixed = bag_of_order(arena, batch.workshop, &ordered, session_date, &plan.blend, false);
    assert_int_equal(mixed.measured.year, 0);
    plan.blend.parts.items[1].dust = &dusts[0];
    PlanBag plain = bag_of_order(arena, batch.workshop, &ordered, session_date, &plan.blend, false);
    assert_true(plain.grain_declared);
    assert_close(plain.grain_from_m, 0.0004, 0);
    assert_close(plain.grain_to_m, 0.0009, 0);
    PlanBag sieved = bag_of_order(arena, batch.workshop, &ordered, session_date, &plan.blend, true);
    assert_false(sieved.grain_declared);
    assert_close(sieved.grain_to_m, 0.00075, 0);
    /* what is drawn: the whole declared range, its middle the geometric mean; else the curve's */
    assert_close(plain.grain_sizes_m[0], 0.0004, 1e-12);
    assert_close(plain.grain_sizes_m[MIDDLE_SIZES / 2], 0.0006, 1e-12);
    assert_close(plain.grain_sizes_m[MIDDLE_SIZES - 1], 0.0009, 1e-12);
    plan.blend.grain.middle_m[7] = 0.00055;
    sieved = bag_of_order(arena, batch.workshop, &ordered, session_date, &plan.blend, true);
    assert_close(sieved.grain_sizes_m[7], 0.00055, 0);
    arena_free(arena);
}

/* No law sets a date: one stands there only for what was measured and kept sealed. */
static void how_long_it_stays_dry_is_said_of_what_is_known(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Mix *mix = cherry_and_beech(arena);
    Workshop workshop = *mix->batch.workshop;
    BagOrder ordered = order(1, 1);
    for (int n = 0; n < 4; n++) {
        workshop.store.sealed = n & 1;
        mix->plan.blend.moisture_assumed = n & 2;
        PlanBag bag =
            bag_of_order(arena, &workshop, &ordered, session_date, &mix->plan.blend, false);
        assert_int_equal(bag.dry_until.year, n == 1 ? 2027 : 0);
        assert_int_equal(bag.dry_until.month, n == 1 ? 6 : 0); /* 180 days from 4 December */
        assert_int_equal(bag.dry_until.day, n == 1 ? 2 : 0);
    }
    arena_free(arena);
}

static void the_lots_of_its_dusts_are_named_once_each(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Mix *mix = cherry_and_beech(arena);
    BagOrder ordered = order(1, 1);
    PlanBag bag = one_bag(arena, mix, &ordered, false);
    assert_null(bag.dust_lots);
    mix->dusts[0].lot = "C-2609";
    mix->dusts[1].lot = "B-2611";
    LIST_ADD(arena, &mix->plan.blend.parts, mix->plan.blend.parts.items[0]);
    bag = one_bag(arena, mix, &ordered, false);
    assert_string_equal(bag.dust_lots, "C-2609, B-2611");
    arena_free(arena);
}

/* 0.15 mm is a dot and a fifth of 203 dots an inch: 25.4 / 203 = 0.125 mm. */
static void grains_are_drawable_when_all_can_be_printed(void **state) {
    (void)state;
    static const struct {
        double from_m, to_m;
        bool drawable;
    } rows[] = {{0.00015, 0.004, true}, {0.00014, 0.001, false}, {0.0004, 0.0041, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Arena *arena = arena_new();
        Mix *mix = cherry_and_beech(arena);
        mix->plan.blend.grain.d10_m = rows[i].from_m;
        mix->plan.blend.grain.d90_m = rows[i].to_m;
        BagOrder ordered = order(1, 1);
        PlanBag bag = one_bag(arena, mix, &ordered, true);
        assert_int_equal(bag.grain_drawable, rows[i].drawable);
        arena_free(arena);
    }
}

/* A label is a statement to a buyer: what was only assumed does not stand on it. */
static void a_moisture_that_nobody_measured_is_not_on_the_bag(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Mix *mix = cherry_and_beech(arena);
    LIST_ADD(arena, &mix->batch.bags, order(1, 1));
    mix->plan.blend.moisture_assumed = true;
    bag_plan(arena, &mix->batch, session_date, &mix->plan);
    assert_false(is_stated(mix->plan.bags.items[0].moisture));
    arena_free(arena);
}

static void bags_and_burn_share_the_shelf(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust dusts[] = {dust("cherry", NOT_STATED, BASIS_DRY), dust("beech", 1.4, BASIS_DRY)};
    Batch batch = {0};
    Plan plan = {0};
    make(arena, dusts, &batch, &plan);
    LIST_ADD(arena, &batch.bags, order(0.25, 4));
    LIST_ADD(arena, &batch.bags, order(0.5, 1));
    bag_plan(arena, &batch, session_date, &plan);
    const PlanPart *parts = plan.blend.parts.items;
    assert_close(parts[1].packed_kg, 0.7 * 1.5, 1e-12);
    assert_close(parts[1].stock_left_kg, 1.4 - 0.42 - 1.05, 1e-12);
    assert_true(parts[1].short_of_stock);
    assert_false(is_stated(parts[0].stock_left_kg));
    assert_false(parts[0].short_of_stock);
    arena_free(arena);
}

static void a_dust_that_is_there_twice_is_taken_twice(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust dusts[] = {dust("cherry", 1, BASIS_DRY), dust("beech", 1, BASIS_DRY)};
    Batch batch = {0};
    Plan plan = {0};
    make(arena, dusts, &batch, &plan);
    plan.blend.parts.items[1].dust = &dusts[0];
    LIST_ADD(arena, &batch.bags, order(0.3, 1));
    bag_plan(arena, &batch, session_date, &plan);
    assert_close(plan.blend.parts.items[0].stock_left_kg, 1 - 0.6 - 0.3, 1e-12);
    assert_close(plan.blend.parts.items[1].stock_left_kg, 1 - 0.6 - 0.3, 1e-12);
    assert_close(bag_tonight_kg(&plan.blend, &dusts[0]), 0.6, 1e-12);
    arena_free(arena);
}

static const char *lot(Arena *arena, const char *file, Date date) {
    return lot_of_batch(arena, &(Batch){.file = file}, date);
}

static void lots_are_short_and_stay_the_same(void **state) {
    (void)state;
    Arena *arena = arena_new();
    assert_string_equal(lot_of_batch(arena, &(Batch){.lot = "A7", .file = "x.xml"}, session_date),
                        "A7");
    /* 4 December 2026 is day 338: 334 days to the end of November, and 4 */
    assert_memory_equal(lot(arena, "samples/cheese.xml", session_date), "L26338-", 7);
    assert_string_not_equal(lot(arena, "cheese.xml", session_date),
                            lot_short(arena, session_date, "cheese.xml", 1));
    const char *first = lot(arena, "samples/cheese-overnight.xml", session_date);
    const char *again = lot(arena, "/elsewhere/cheese-overnight.xml", session_date);
    assert_string_equal(first, again);
    assert_int_equal(strlen(first), 9);
    assert_string_not_equal(first, lot(arena, "cheese-afternoon.xml", session_date));
    assert_string_not_equal(first, lot(arena, "cheese-overnight.xml", (Date){2026, 12, 5}));
    assert_int_equal(strlen(lot(arena, "fish.xml", (Date){0})), 4);
    arena_free(arena);
}

/* Marks go onto labels, into file names and through telephones: plain letters only. */
static void lots_are_plain_whatever_the_file_is_called(void **state) {
    (void)state;
    static const char *const files[] = {"łosoś.xml",
                                        "Fisch & Käse.xml",
                                        "...",
                                        "",
                                        "ΨΩ",
                                        ".xml",
                                        "a-very-long-name-without-end-and-more-of-it.xml"};
    Arena *arena = arena_new();
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        const char *mark = lot(arena, files[i], session_date);
        assert_int_equal(strlen(mark), 9);
        assert_memory_equal(mark, "L26338-", 7);
        assert_int_equal(strspn(mark + 7, "23456789ABCDEFGHJKMNPQRSTUVWXYZ"), 2);
    }
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_long_it_stays_dry_is_said_of_what_is_known),
        cmocka_unit_test(the_lots_of_its_dusts_are_named_once_each),
        cmocka_unit_test(a_bag_says_what_is_in_it),
        cmocka_unit_test(dusts_of_one_species_add_up),
        cmocka_unit_test(the_grain_is_the_declared_one_of_one_dust),
        cmocka_unit_test(grains_are_drawable_when_all_can_be_printed),
        cmocka_unit_test(a_wood_without_a_word_is_called_as_written),
        cmocka_unit_test(the_basis_is_the_one_the_dusts_were_stated_on),
        cmocka_unit_test(a_moisture_that_nobody_measured_is_not_on_the_bag),
        cmocka_unit_test(bags_and_burn_share_the_shelf),
        cmocka_unit_test(a_dust_that_is_there_twice_is_taken_twice),
        cmocka_unit_test(lots_are_short_and_stay_the_same),
        cmocka_unit_test(lots_are_plain_whatever_the_file_is_called),
    };
    const char *against = "bags and lots: by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
