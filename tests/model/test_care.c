/* Care: published worked examples and limits, and that nothing unstated passes in silence. */
#include "model/care.h"
#include "model/care_rule.h"
#include "model/cure.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static const double hour_s = 3600;
static const double pound_kg = 0.45359237;
static const double ounce_kg = 0.45359237 / 16;

static Cure cure(CureMethod method, double cure_kg, double nitrite) {
    return (Cure){.stated = true,
                  .method = method,
                  .cure_kg = cure_kg,
                  .nitrite = nitrite,
                  .water_kg = NOT_STATED,
                  .pump_share = NOT_STATED,
                  .pickle_kg = NOT_STATED};
}

static Cure pumped(double cure_kg, double nitrite, double pump, double pickle_kg) {
    Cure made = cure(CURE_PUMPED, cure_kg, nitrite);
    made.pump_share = pump;
    made.pickle_kg = pickle_kg;
    return made;
}

/* tests/reference/cure_worked_examples.csv, by the identifiers of its rows. */
static void nitrite_of_the_worked_examples(void **state) {
    (void)state;
    Cure e1 = pumped(0.032, 0.0588, 0.10, 1.266);
    assert_close(cure_nitrite_ppm(&e1, 1), 148.6256, 1e-4);
    Cure e3 = cure(CURE_DRY, 5 * pound_kg, 0.0040);
    assert_close(cure_nitrite_ppm(&e3, 100 * pound_kg), 200, 1e-9);
    Cure e4 = cure(CURE_DRY, 0.001, 1);
    assert_close(cure_nitrite_ppm(&e4, 5), 200, 1e-9);
    Cure e5 = cure(CURE_DRY, 0.00075, 1);
    assert_close(cure_nitrite_ppm(&e5, 5), 150, 1e-9);
    Cure e7 = pumped(4 * ounce_kg, 0.0625, 0.10, 8.33 * pound_kg);
    assert_close(cure_nitrite_ppm(&e7, 1), 187.6, 0.05);
    Cure e9 = pumped(0.06 * pound_kg, 1, 0.20, 100 * pound_kg);
    assert_close(cure_nitrite_ppm(&e9, 1), 120, 1e-9);
    Cure d1 = cure(CURE_DRY, 0.00192, 0.0625);
    assert_close(cure_nitrite_ppm(&d1, 1), 120, 1e-9);
    Cure d2 = cure(CURE_IMMERSED, 0.006, 0.0625);
    d2.water_kg = 1;
    assert_close(cure_nitrite_ppm(&d2, 1.5), 150, 1e-9);
}

/* 31.71 lb of brine and 8 lb of meat at 150 ppm take 0.09530 lb of 6.25 % cure (published). */
static void a_stated_pickle_counts_whole(void **state) {
    (void)state;
    Cure brine = cure(CURE_IMMERSED, 0.09530 * pound_kg, 0.0625);
    brine.water_kg = 1;
    brine.pickle_kg = 31.71 * pound_kg;
    assert_close(cure_nitrite_ppm(&brine, 8 * pound_kg), 150, 0.05);
}

static void nitrite_that_cannot_be_known_is_not_a_number(void **state) {
    (void)state;
    Cure dry = cure(CURE_DRY, 0.002, NOT_STATED);
    assert_false(is_stated(cure_nitrite_ppm(&dry, 1)));
    dry.nitrite = 0.06;
    assert_false(is_stated(cure_nitrite_ppm(&dry, NOT_STATED)));
    assert_false(is_stated(cure_nitrite_ppm(&dry, 0)));
    Cure wet = cure(CURE_IMMERSED, 0.002, 0.06);
    assert_false(is_stated(cure_nitrite_ppm(&wet, 1)));
}

/* X1: 80 mg/kg as ion are 119.9 mg/kg as the salt (molar masses). */
static void the_ion_is_two_thirds_of_the_salt(void **state) {
    (void)state;
    assert_close(cure_nitrite_ion_ppm(119.98), 80, 0.01);
}

/* W1 to W3 of cure_worked_examples.csv. */
static void water_phase_salt_of_the_worked_examples(void **state) {
    (void)state;
    assert_close(care_water_phase_salt(0.026, 0.68), 0.03683, 5e-6);
    assert_close(care_water_phase_salt(0.020, 0.68), 0.02857, 5e-6);
    assert_close(care_water_phase_salt(0.02358, 0.65), 0.035, 1e-5);
    assert_false(is_stated(care_water_phase_salt(NOT_STATED, 0.65)));
}

/* FDA Food Code 3-402.11: -20 °C for 168 h or -35 °C for 15 h. */
static void freezing_follows_the_food_code(void **state) {
    (void)state;
    assert_true(care_freezing_enough(-20, 168 * hour_s));
    assert_false(care_freezing_enough(-20, 167 * hour_s));
    assert_false(care_freezing_enough(-19.9, 1000 * hour_s));
    assert_true(care_freezing_enough(-35, 15 * hour_s));
    assert_false(care_freezing_enough(-35, 14.9 * hour_s));
    assert_false(care_freezing_enough(-34, 24 * hour_s));
}

/* A batch of that kind with nothing stated, in that market. */
static Batch batch_of(ProductKind kind, const Workshop *workshop) {
    Product product = {.kind = kind,
                       .mass_kg = NOT_STATED,
                       .smoke_time_s = NOT_STATED,
                       .salt = NOT_STATED,
                       .water = NOT_STATED,
                       .limit_temp_c = NOT_STATED};
    return (Batch){.product = product, .workshop = workshop};
}

static const Care *find(const Plan *plan, const char *key) {
    for (size_t i = 0; i < plan->care.count; i++) {
        if (strcmp(plan->care.items[i].key, key) == 0) {
            return &plan->care.items[i];
        }
    }
    return NULL;
}

static void assert_level(Arena *arena, const Batch *batch, const char *key, CareLevel level) {
    Plan plan = {0};
    care_add(arena, batch, &plan);
    const Care *care = find(&plan, key);
    if (!care || care->level != level) {
        fail_msg("'%s' is %s", key, care ? "of another level" : "not there");
    }
}

static void what_is_not_stated_becomes_a_caution(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_EU};
    Batch fish = batch_of(PRODUCT_FISH, &workshop);
    assert_level(arena, &fish, "parasites_unstated", CARE_CAUTION);
    assert_level(arena, &fish, "cure_unstated", CARE_CAUTION);
    assert_level(arena, &fish, "no_vacuum", CARE_CAUTION);
    assert_level(arena, &fish, "listeria", CARE_CAUTION);
    fish.product.vacuum_packed = true;
    assert_level(arena, &fish, "salt_unstated", CARE_CAUTION);
    assert_level(arena, &fish, "vacuum_chill", CARE_CAUTION);
    Batch meat = batch_of(PRODUCT_MEAT, &workshop);
    meat.product.cure = cure(CURE_DRY, 0.002, 0.06);
    assert_level(arena, &meat, "nitrite_unknown", CARE_CAUTION);
    assert_level(arena, &meat, "meat_raw", CARE_CAUTION);
    Batch other = batch_of(PRODUCT_OTHER, &workshop);
    assert_level(arena, &other, "other_unknown", CARE_CAUTION);
    arena_free(arena);
}

static void broken_conditions_forbid(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_US};
    Batch fish = batch_of(PRODUCT_FISH, &workshop);
    fish.product.cured_stated = true;
    assert_level(arena, &fish, "not_cured", CARE_FORBIDS);
    fish.product.vacuum_packed = true;
    fish.product.salt = 0.020;
    fish.product.water = 0.68;
    assert_level(arena, &fish, "salt_low", CARE_FORBIDS);
    fish.product.salt = 0.0245; /* 3.48 % of the water */
    assert_level(arena, &fish, "salt_low", CARE_FORBIDS);
    fish.product.salt = 0.026;
    assert_level(arena, &fish, "salt_enough", CARE_NOTE);
    fish.product.freezing = (Freezing){.stated = true, .temp_c = -18, .time_s = 1000 * hour_s};
    assert_level(arena, &fish, "parasites_warm", CARE_FORBIDS);
    fish.product.freezing.temp_c = -20;
    fish.product.freezing.time_s = 24 * hour_s;
    assert_level(arena, &fish, "parasites_short", CARE_FORBIDS);
    workshop.market = MARKET_EU; /* Regulation (EC) 853/2004 asks for 24 h */
    assert_level(arena, &fish, "parasites_short_home", CARE_CAUTION);
    fish.product.freezing.time_s = 23.9 * hour_s;
    assert_level(arena, &fish, "parasites_short", CARE_FORBIDS);
    fish.product.freezing.time_s = 168 * hour_s;
    assert_level(arena, &fish, "parasites_frozen", CARE_NOTE);
    fish.product.freezing.farmed = true;
    assert_level(arena, &fish, "parasites_farmed", CARE_NOTE);
    arena_free(arena);
}

static Batch cured_with(ProductKind kind, const char *name, const Workshop *workshop,
                        double nitrite_ppm) {
    Batch batch = batch_of(kind, workshop);
    batch.product.name = name;
    batch.product.mass_kg = 1;
    batch.product.cure = cure(CURE_DRY, nitrite_ppm * 1e-6, 1);
    return batch;
}

/* What 1 kg with that much sodium nitrite in it gets. */
static void assert_nitrite(Market market, ProductKind kind, const char *name, double ppm,
                           const char *key, CareLevel level) {
    Arena *arena = arena_new();
    Workshop workshop = {.market = market};
    Batch batch = cured_with(kind, name, &workshop, ppm);
    assert_level(arena, &batch, key, level);
    arena_free(arena);
}

/* Exactly at the limit is allowed, and a hair of a thousandth; more is not. FSIS handbook 1995: 625
 * dry and 200 immersed, bacon 200 and 120, comminuted 156; SI 2007/1778: 150; FSANZ: 125. */
static void nitrite_is_refused_above_its_limit(void **state) {
    (void)state;
    const ProductKind meat = PRODUCT_MEAT;
    assert_nitrite(MARKET_US, meat, "Loin", 625, "nitrite", CARE_NOTE);
    assert_nitrite(MARKET_US, meat, "Loin", 626, "nitrite_over", CARE_FORBIDS);
    assert_nitrite(MARKET_US, meat, "Streaky bacon", 200, "nitrite", CARE_NOTE);
    assert_nitrite(MARKET_US, meat, "Streaky Bacon", 200.4, "nitrite_over", CARE_FORBIDS);
    assert_nitrite(MARKET_US, meat, "Pork sausage", 156, "nitrite", CARE_NOTE);
    assert_nitrite(MARKET_US, meat, "Pork sausage", 157, "nitrite_over", CARE_FORBIDS);
    assert_nitrite(MARKET_US, meat, "Loin", 119, "nitrite_low", CARE_CAUTION);
    assert_nitrite(MARKET_UK, meat, "Loin", 150, "nitrite", CARE_NOTE);
    assert_nitrite(MARKET_UK, meat, "Loin", 150.3, "nitrite_over", CARE_FORBIDS);
    assert_nitrite(MARKET_AU, meat, "Loin", 125, "nitrite_found", CARE_NOTE);
    assert_nitrite(MARKET_AU, meat, "Loin", 126, "nitrite_found_over", CARE_FORBIDS);
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_US};
    Batch loin = cured_with(meat, "Loin", &workshop, 0);
    loin.product.cure = pumped(0.200e-3, 1, 0.10, 0.1);
    assert_level(arena, &loin, "nitrite", CARE_NOTE);
    loin.product.cure.cure_kg = 0.201e-3;
    assert_level(arena, &loin, "nitrite_over", CARE_FORBIDS);
    loin.product.name = "Bacon";
    loin.product.cure.cure_kg = 0.121e-3;
    assert_level(arena, &loin, "nitrite_over", CARE_FORBIDS);
    arena_free(arena);
}

/* Row X1 of cure_worked_examples.csv: 80 mg/kg as ion are 119.9 with the factor 0.667 and 119.98 by
 * the molar masses; 120 of the salt, what the EU's cure at 0.6 % gives (D1), is meant to pass. */
static void the_eu_counts_the_ion(void **state) {
    (void)state;
    const ProductKind meat = PRODUCT_MEAT;
    assert_nitrite(MARKET_EU, meat, "Loin", 119.98, "nitrite_ion", CARE_NOTE);
    assert_nitrite(MARKET_EU, meat, "Loin", 120, "nitrite_ion", CARE_NOTE);
    assert_nitrite(MARKET_EU, meat, "Loin", 120.2, "nitrite_ion_over", CARE_FORBIDS);
    assert_nitrite(MARKET_EU, meat, "Loin", 140, "nitrite_ion_over", CARE_FORBIDS);
    assert_nitrite(MARKET_UK, meat, "Loin", 140, "nitrite", CARE_NOTE);
}

/* 21 CFR 172.170 and 172.175: in the finished product, sablefish, salmon and shad 200, tuna 10; no
 * other fish. The EU and the UK list nitrite for no fish. */
static void fish_may_have_nitrite_only_where_a_law_says_so(void **state) {
    (void)state;
    const ProductKind fish = PRODUCT_FISH;
    assert_nitrite(MARKET_US, fish, "Salmon sides", 200, "nitrite_found", CARE_NOTE);
    assert_nitrite(MARKET_US, fish, "Salmon sides", 201, "nitrite_found_over", CARE_FORBIDS);
    assert_nitrite(MARKET_US, fish, "Tuna loin", 10, "nitrite_found", CARE_NOTE);
    assert_nitrite(MARKET_US, fish, "Tuna loin", 11, "nitrite_found_over", CARE_FORBIDS);
    assert_nitrite(MARKET_US, fish, "Trout", 1, "nitrite_fish", CARE_FORBIDS);
    assert_nitrite(MARKET_US, fish, "Shadow trout", 1, "nitrite_fish", CARE_FORBIDS);
    assert_nitrite(MARKET_EU, fish, "Salmon sides", 1, "nitrite_none", CARE_FORBIDS);
    assert_nitrite(MARKET_UK, fish, "Salmon sides", 1, "nitrite_none", CARE_FORBIDS);
    assert_nitrite(MARKET_AU, fish, "Salmon sides", 1, "nitrite_none", CARE_FORBIDS);
}

static void nothing_but_meat_and_fish_may_have_any(void **state) {
    (void)state;
    const ProductKind kinds[] = {PRODUCT_CHEESE, PRODUCT_BUTTER, PRODUCT_SALT, PRODUCT_OTHER};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        for (int market = MARKET_EU; market <= MARKET_AU; market++) {
            assert_nitrite((Market)market, kinds[i], "It", 1, "nitrite_none", CARE_FORBIDS);
        }
    }
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_EU};
    Batch cheese = cured_with(PRODUCT_CHEESE, "Cheddar", &workshop, 1);
    cheese.product.mass_kg = NOT_STATED; /* how much does not matter where none may be in */
    assert_level(arena, &cheese, "nitrite_none", CARE_FORBIDS);
    cheese.product.cure.nitrite = 0;
    Plan plan = {0};
    care_add(arena, &cheese, &plan);
    assert_null(find(&plan, "nitrite_none"));
    arena_free(arena);
}

static bool unstated(Arena *arena, const Batch *batch) {
    Plan plan = {0};
    care_add(arena, batch, &plan);
    bool any = false;
    for (size_t i = 0; i < plan.care.count; i++) {
        any = any || care_unstated(&plan.care.items[i]);
    }
    return any;
}

static void masses_that_are_missing_count_as_not_stated(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_UK};
    Batch meat = cured_with(PRODUCT_MEAT, "Loin", &workshop, 100);
    meat.product.cured = meat.product.cured_stated = true;
    assert_false(unstated(arena, &meat));
    meat.product.mass_kg = NOT_STATED;
    assert_level(arena, &meat, "nitrite_unknown", CARE_CAUTION);
    assert_true(unstated(arena, &meat));
    arena_free(arena);
}

static void what_may_be_raw_gets_what_fish_gets(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_EU};
    Batch other = batch_of(PRODUCT_OTHER, &workshop);
    other.product.vacuum_packed = true;
    assert_level(arena, &other, "parasites_unstated", CARE_CAUTION);
    assert_level(arena, &other, "salt_unstated", CARE_CAUTION);
    assert_level(arena, &other, "cure_unstated", CARE_CAUTION);
    assert_level(arena, &other, "vacuum_chill", CARE_CAUTION);
    other.product.salt = 0.02;
    other.product.water = 0.68;
    assert_level(arena, &other, "salt_low", CARE_FORBIDS);
    other.product.not_raw = true;
    assert_false(unstated(arena, &other));
    assert_level(arena, &other, "vacuum_chill", CARE_CAUTION);
    arena_free(arena);
}

/* That many hours at one temperature of the cabinet. */
static void warm_for(Arena *arena, double temp_c, int hours, Plan *plan) {
    *plan = (Plan){0};
    for (int i = 0; i <= hours; i++) {
        PlanSample sample = {.at = i * 3600, .cabinet_temp_c = temp_c};
        LIST_ADD(arena, &plan->samples, sample);
    }
}

/* FDA guide, appendix 4, table A-2, C. botulinum type E and non-proteolytic B and F (from memory):
 * 7 days to 5 °C, 2 days to 10, 11 h to 21, 6 h above. */
static void growth_times_are_those_of_the_table(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Plan plan;
    const double rows[][2] = {{5, 168}, {10, 48}, {21, 11}, {25, 6}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        warm_for(arena, rows[i][0], (int)rows[i][1], &plan);
        assert_close(care_growth_share(&plan), 1, 1e-9);
    }
    warm_for(arena, 3, 1000, &plan);
    assert_close(care_growth_share(&plan), 0, 0);
    arena_free(arena);
}

/* The burn is out at 5 h, they are away to 5 + 13 h: 13 h without smoke at 15 °C are 13/12 of what
 * the table gives S. aureus; at 9 °C it does not grow; and somebody there takes it out at once. */
static void food_lies_until_somebody_takes_it_out(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Batch batch = {0};
    WeatherReading hour = {.at = 0, .temp_c = 15, .humidity = 0.7, .wind_mps = NOT_STATED};
    LIST_ADD(arena, &batch.weather.readings, hour);
    Plan plan = {.burn = {.out_at = 5 * 3600, .out_late = 6 * 3600}};
    for (int i = 0; i <= 5; i++) {
        PlanSample sample = {.at = i * 3600, .cabinet_temp_c = 4, .fill = 1};
        LIST_ADD(arena, &plan.samples, sample);
    }
    Plan held = care_food_exposure(arena, &batch, &plan);
    assert_int_equal(held.samples.count, plan.samples.count);
    LIST_ADD(arena, &batch.timing.away, ((Away){.from = 3600, .to = 18 * 3600}));
    held = care_food_exposure(arena, &batch, &plan);
    assert_close(care_left_share(&held), 13.0 / 12, 1e-9);
    assert_close(care_time_above_s(&held, 4.4), 13 * hour_s, 0);
    batch.weather.readings.items[0].temp_c = 9;
    held = care_food_exposure(arena, &batch, &plan);
    assert_close(care_left_share(&held), 0, 0);
    /* a slow night ends while they are away */
    batch.timing.away.items[0].from = (Instant)(5.5 * 3600);
    held = care_food_exposure(arena, &batch, &plan);
    assert_close(care_time_above_s(&held, 4.4), 13 * hour_s, 0);
    /* a second fill waits two hours for its match */
    batch.timing.away.count = 0;
    PlanSample second = {.at = 7 * 3600, .cabinet_temp_c = 4, .fill = 2};
    LIST_ADD(arena, &plan.samples, second);
    plan.burn.out_at = plan.burn.out_late = 7 * 3600;
    held = care_food_exposure(arena, &batch, &plan);
    assert_close(care_time_above_s(&held, 4.4), 2 * hour_s, 0);
    arena_free(arena);
}

static void assert_warm(Arena *arena, const Batch *batch, int hours, const char *key,
                        CareLevel level) {
    Plan plan;
    warm_for(arena, 15, hours, &plan);
    care_add(arena, batch, &plan);
    const Care *care = find(&plan, key);
    assert_true(care && care->level == level);
}

static void meat_without_nitrite_is_not_kept_in_the_warm(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_UK};
    Batch meat = cured_with(PRODUCT_MEAT, "Loin", &workshop, 0);
    assert_warm(arena, &meat, 12, "warm_unguarded", CARE_FORBIDS);
    meat.product.cure.stated = false;
    meat.product.cure.nitrite = NOT_STATED;
    assert_warm(arena, &meat, 12, "warm_unstated", CARE_CAUTION);
    meat.product.salt = 0.02;
    meat.product.water = 0.68;
    assert_warm(arena, &meat, 12, "warm_unguarded", CARE_FORBIDS);
    Plan plan;
    warm_for(arena, 15, 11, &plan);
    care_add(arena, &meat, &plan);
    assert_null(find(&plan, "warm_unguarded"));
    meat.product.salt = 0.026;
    warm_for(arena, 15, 12, &plan);
    care_add(arena, &meat, &plan);
    assert_null(find(&plan, "warm_unguarded"));
    meat = cured_with(PRODUCT_MEAT, "Loin", &workshop, 100);
    warm_for(arena, 15, 12, &plan);
    care_add(arena, &meat, &plan);
    assert_null(find(&plan, "warm_unguarded"));
    meat = cured_with(PRODUCT_MEAT, "Loin", &workshop, 10);
    assert_warm(arena, &meat, 12, "warm_unguarded", CARE_FORBIDS);
    arena_free(arena);
}

/* NCHFP critical points: no more than 4 h over 40 °F (4.4 °C). FDA guide, appendix 4, table A-1:
 * non-proteolytic C. botulinum grows from 3.3 °C. */
static void meat_is_four_hours_in_the_warm_at_most(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_UK};
    Batch meat = cured_with(PRODUCT_MEAT, "Loin", &workshop, 100);
    const struct {
        double temp_c;
        int hours;
        bool told;
    } cases[] = {{4.5, 5, true}, {4.5, 4, false}, {4.3, 12, false}, {20, 5, true}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Plan plan;
        warm_for(arena, cases[i].temp_c, cases[i].hours, &plan);
        care_add(arena, &meat, &plan);
        assert_true((find(&plan, "warm_hours") != NULL) == cases[i].told);
    }
    meat.product.vacuum_packed = true;
    Plan plan = {0};
    care_add(arena, &meat, &plan);
    assert_non_null(find(&plan, "vacuum_chill"));
    assert_close(find(&plan, "vacuum_chill")->limit.value, 3.3, 1e-12);
    arena_free(arena);
}

static void a_strong_cure_entered_as_percent_is_caught(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_US};
    Batch meat = batch_of(PRODUCT_MEAT, &workshop);
    meat.product.mass_kg = 1;
    meat.product.cure = cure(CURE_DRY, 0.00192, 6.25); /* the fraction is 0.0625 */
    assert_level(arena, &meat, "nitrite_over", CARE_FORBIDS);
    arena_free(arena);
}

/* Every kind has a ceiling, under the 40 °C that still are cold smoke, and a caution under it. */
static void every_kind_has_a_ceiling(void **state) {
    (void)state;
    for (int kind = PRODUCT_CHEESE; kind <= PRODUCT_OTHER; kind++) {
        Product product = {.kind = (ProductKind)kind, .limit_temp_c = NOT_STATED};
        CareCeiling ceiling = care_ceiling(&product);
        assert_true(ceiling.limit_c <= 40 && ceiling.caution_c < ceiling.limit_c);
    }
}

/* 10 kg of fish at 5 % a day lose 500 g in a day (arithmetic); salt nothing. */
static void a_product_dries_by_its_kind(void **state) {
    (void)state;
    Product product = {.kind = PRODUCT_FISH, .mass_kg = 10};
    assert_close(care_drying_kg_per_s(&product) * 24 * 3600, 0.5, 1e-9);
    product.kind = PRODUCT_SALT;
    assert_close(care_drying_kg_per_s(&product), 0, 0);
    product = (Product){.kind = PRODUCT_MEAT, .mass_kg = NOT_STATED};
    assert_close(care_drying_kg_per_s(&product), 0, 0);
}

static void an_own_limit_replaces_the_kinds(void **state) {
    (void)state;
    Product cheese = {.kind = PRODUCT_CHEESE, .limit_temp_c = NOT_STATED};
    assert_close(care_ceiling(&cheese).limit_c, 30, 0);
    assert_close(care_ceiling(&cheese).caution_c, 25, 0);
    cheese.limit_temp_c = 18;
    assert_close(care_ceiling(&cheese).limit_c, 18, 0);
    assert_close(care_ceiling(&cheese).caution_c, 18, 0);
    Product salt = {.kind = PRODUCT_SALT, .limit_temp_c = NOT_STATED};
    assert_close(care_ceiling(&salt).limit_c, 40, 0);
    assert_close(care_ceiling(&salt).caution_c, 35, 0);
    /* what is warmer than 40 °C is no cold smoke, whatever is stated */
    salt.limit_temp_c = 60;
    assert_close(care_ceiling(&salt).limit_c, 40, 0);
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_EU};
    Batch batch = batch_of(PRODUCT_CHEESE, &workshop);
    batch.product.limit_temp_c = 35;
    assert_level(arena, &batch, "ceiling_raised", CARE_CAUTION);
    /* AFDO cold-smokes fish at 20-30 °C: no statement raises that. */
    const ProductKind raw[] = {PRODUCT_FISH, PRODUCT_MEAT, PRODUCT_OTHER};
    batch.product.limit_temp_c = 38;
    for (size_t i = 0; i < 3; i++) {
        batch.product.kind = raw[i];
        assert_close(care_ceiling(&batch.product).limit_c, 30, 0);
        assert_level(arena, &batch, "ceiling_kept", CARE_CAUTION);
    }
    arena_free(arena);
}

/* Butter is a thin liquid at 32-35 °C and milk fat starts to melt at 32 °C (second hand); AFDO
 * cold-smokes fish at 20-30 °C: no ceiling may lie above. */
static void ceilings_stay_under_the_published_ones(void **state) {
    (void)state;
    for (int kind = PRODUCT_CHEESE; kind <= PRODUCT_OTHER; kind++) {
        Product product = {.kind = (ProductKind)kind, .limit_temp_c = NOT_STATED};
        CareCeiling ceiling = care_ceiling(&product);
        if (kind != PRODUCT_SALT) {
            assert_true(ceiling.limit_c <= 30 && ceiling.caution_c < ceiling.limit_c);
        }
        CareTime time = care_smoke_time(product.kind);
        assert_true(time.least_s > 0 && time.least_s < time.most_s);
    }
}

static void the_gravest_comes_first_and_wood_is_asked_for(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Workshop workshop = {.market = MARKET_US};
    Batch fish = batch_of(PRODUCT_FISH, &workshop);
    fish.product.cured_stated = true;
    Dust dust = {.untreated = false};
    Plan plan = {0};
    plan.burn.smoking_s = 30 * hour_s;
    LIST_ADD(arena, &plan.blend.parts, (PlanPart){.dust = &dust});
    for (int i = 0; i <= 6; i++) {
        PlanSample sample = {.at = i * 3600, .cabinet_temp_c = i < 2 ? 3 : 10};
        LIST_ADD(arena, &plan.samples, sample);
    }
    care_add(arena, &fish, &plan);
    for (size_t i = 1; i < plan.care.count; i++) {
        assert_true(plan.care.items[i].level <= plan.care.items[i - 1].level);
    }
    assert_string_equal(plan.care.items[0].key, "not_cured");
    assert_non_null(find(&plan, "wood_not_declared"));
    assert_non_null(find(&plan, "time_long"));
    assert_close(find(&plan, "warm_hours")->value.value, 5 * hour_s, 0);
    arena_free(arena);
}

static void every_key_is_listed(void **state) {
    (void)state;
    Arena *arena = arena_new();
    size_t count = 0;
    const char *const *keys = care_keys(&count);
    for (int kind = PRODUCT_CHEESE; kind <= PRODUCT_OTHER; kind++) {
        Workshop workshop = {.market = MARKET_EU};
        Batch batch = batch_of((ProductKind)kind, &workshop);
        Plan plan = {0};
        care_add(arena, &batch, &plan);
        for (size_t i = 0; i < plan.care.count; i++) {
            bool listed = false;
            for (size_t k = 0; k < count; k++)
                listed = listed || strcmp(keys[k], plan.care.items[i].key) == 0;
            assert_true(listed);
        }
        assert_int_equal(!find(&plan, "chill"), kind == PRODUCT_SALT); /* all but salt go off */
    }
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nitrite_of_the_worked_examples),
        cmocka_unit_test(a_stated_pickle_counts_whole),
        cmocka_unit_test(nitrite_that_cannot_be_known_is_not_a_number),
        cmocka_unit_test(the_ion_is_two_thirds_of_the_salt),
        cmocka_unit_test(water_phase_salt_of_the_worked_examples),
        cmocka_unit_test(freezing_follows_the_food_code),
        cmocka_unit_test(what_is_not_stated_becomes_a_caution),
        cmocka_unit_test(broken_conditions_forbid),
        cmocka_unit_test(nitrite_is_refused_above_its_limit),
        cmocka_unit_test(the_eu_counts_the_ion),
        cmocka_unit_test(fish_may_have_nitrite_only_where_a_law_says_so),
        cmocka_unit_test(nothing_but_meat_and_fish_may_have_any),
        cmocka_unit_test(masses_that_are_missing_count_as_not_stated),
        cmocka_unit_test(what_may_be_raw_gets_what_fish_gets),
        cmocka_unit_test(growth_times_are_those_of_the_table),
        cmocka_unit_test(food_lies_until_somebody_takes_it_out),
        cmocka_unit_test(meat_without_nitrite_is_not_kept_in_the_warm),
        cmocka_unit_test(meat_is_four_hours_in_the_warm_at_most),
        cmocka_unit_test(a_strong_cure_entered_as_percent_is_caught),
        cmocka_unit_test(every_kind_has_a_ceiling),
        cmocka_unit_test(a_product_dries_by_its_kind),
        cmocka_unit_test(an_own_limit_replaces_the_kinds),
        cmocka_unit_test(ceilings_stay_under_the_published_ones),
        cmocka_unit_test(the_gravest_comes_first_and_wood_is_asked_for),
        cmocka_unit_test(every_key_is_listed),
    };
    const char *against = "care: FDA Food Code and guide, FSIS handbook, 21 CFR, EU 2023/2108, OSU";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
