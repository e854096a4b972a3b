/* Salting: the worked examples of tests/reference/cure_worked_examples.csv by the identifiers of
 * their rows (those of nitrite alone are in test_care), and that no salt is lost or made. */
#include "model/cure.h"
#include "model/salting.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>

static Product product(SaltingMethod method, double mass_kg) {
    return (Product){.kind = PRODUCT_MEAT,
                     .mass_kg = mass_kg,
                     .salt = NOT_STATED,
                     .water = NOT_STATED,
                     .cure = {.water_kg = NOT_STATED, .pickle_kg = NOT_STATED},
                     .salting = {.stated = true,
                                 .method = method,
                                 .salt = NOT_STATED,
                                 .strength = NOT_STATED,
                                 .water_kg = NOT_STATED,
                                 .time_s = 86400,
                                 .temp_c = 3}};
}

/* D3: 1500 g of meat and 1000 g of water to 3 % take 75 g. */
static void salt_of_an_equilibrium(void **state) {
    (void)state;
    Product meat = product(SALTING_EQUILIBRIUM, 1.5);
    meat.salting.salt = 0.03;
    meat.salting.water_kg = 1;
    SaltingAmounts amounts = salting_amounts(&meat);
    assert_close(amounts.salt_kg, 0.075, 1e-12);
    assert_close(amounts.liquid_kg, 1.075, 1e-12);
    assert_close(amounts.even_share, 0.075 / 2.575, 1e-12);
}

/* D2 with the salt of D3: 6 g of 6.25 % cure in the same brine; by F4 150 ppm. The mix is weighed
 * as well, and its salt is taken off the rest. */
static void a_cure_goes_in_with_the_salt(void **state) {
    (void)state;
    Product meat = product(SALTING_EQUILIBRIUM, 1.5);
    meat.salting.salt = 0.03;
    meat.salting.water_kg = 1;
    meat.cure = (Cure){.stated = true,
                       .method = CURE_IMMERSED,
                       .cure_kg = 0.006,
                       .nitrite = 0.0625,
                       .water_kg = 1,
                       .pickle_kg = NOT_STATED};
    SaltingAmounts amounts = salting_amounts(&meat);
    assert_close(amounts.cure_kg, 0.006, 0);
    assert_close(amounts.cure_salt_kg, 0.005625, 1e-12);
    assert_close(amounts.salt_kg, 0.069375, 1e-12);
    assert_close(cure_nitrite_ppm(&meat.cure, meat.mass_kg), 150, 1e-9);
}

/* E1: 110 g of salt and 32 g of 5.88 % cure in 1266 g of pickle: 140.1184 g of salt, 11.068 %. */
static void the_rest_of_the_mix_is_salt(void **state) {
    (void)state;
    Product meat = product(SALTING_BRINE, 1);
    meat.cure = (Cure){.stated = true, .cure_kg = 0.032, .nitrite = 0.0588};
    meat.salting.water_kg = 1.266 - 0.110 - 0.032;
    double salt_kg = 0.1401184;
    meat.salting.strength = salt_kg / (salt_kg + meat.salting.water_kg);
    SaltingAmounts amounts = salting_amounts(&meat);
    assert_close(amounts.cure_salt_kg + amounts.salt_kg, salt_kg, 1e-9);
    assert_close(amounts.salt_kg, 0.110, 1e-9);
    assert_close(amounts.liquid_kg, 1.266, 1e-9);
    assert_close(salt_kg / amounts.liquid_kg * 100, 11.068, 0.0005);
}

/* D1: 1 kg dry to 120 ppm by 20 g of 0.6 % nitrite salt, which nearly is the 2 % of salt itself. */
static void nitrite_salt_is_most_of_the_salt(void **state) {
    (void)state;
    Product meat = product(SALTING_EQUILIBRIUM, 1);
    meat.salting.salt = 0.02;
    meat.cure = (Cure){.stated = true,
                       .method = CURE_DRY,
                       .cure_kg = 0.020,
                       .nitrite = 0.006,
                       .pickle_kg = NOT_STATED};
    assert_close(cure_nitrite_ppm(&meat.cure, 1), 120, 1e-9);
    assert_close(salting_amounts(&meat).salt_kg, 0.00012, 1e-12);
    meat.cure.cure_kg = 0.030; /* more than was asked for: nothing besides it, never less */
    SaltingAmounts amounts = salting_amounts(&meat);
    assert_close(amounts.salt_kg, 0, 0);
    assert_true(amounts.cure_salt_kg > amounts.asked_kg);
}

/* Section 4.4 of the figures: 188.18 g a litre at 60 degrees; here by the kilogram. */
static void brine_by_its_strength(void **state) {
    (void)state;
    Product fish = product(SALTING_BRINE, 2);
    fish.salting.strength = 0.15837;
    fish.salting.water_kg = 4;
    SaltingAmounts amounts = salting_amounts(&fish);
    assert_close(amounts.salt_kg, 4 * 0.18818 / 0.9982, 0.003);
    assert_close(amounts.strength, 0.15837, 1e-12);
    assert_false(is_stated(amounts.even_share));
    Product dry = product(SALTING_DRY, 2);
    dry.salting.salt = 0.05;
    assert_close(salting_amounts(&dry).salt_kg, 0.1, 1e-12);
    assert_false(is_stated(salting_amounts(&dry).liquid_kg));
}

static Product random_product(uint64_t *seed) {
    Product made =
        product((SaltingMethod)(int)close_random(seed, 0, 2.999), close_random(seed, 0.1, 100));
    Salting *salting = &made.salting;
    if (salting->method == SALTING_BRINE || close_random(seed, 0, 1) > 0.5) {
        salting->strength = close_random(seed, 0.01, 0.26395);
    } else {
        salting->salt = close_random(seed, 0.005, 0.1);
    }
    if (salting->method == SALTING_DRY) {
        salting->salt = close_random(seed, 0.005, 1);
        salting->strength = NOT_STATED;
    } else if (is_stated(salting->strength) || close_random(seed, 0, 1) > 0.5) {
        salting->water_kg = close_random(seed, 0.1, 200);
    }
    return made;
}

/* What goes in is what is there in the end; what is even is even in flesh and brine; more salt or
 * less water never makes it less salty. */
static void salt_is_kept(void **state) {
    (void)state;
    uint64_t seed = 15837;
    for (int i = 0; i < 2000; i++) {
        Product made = random_product(&seed);
        SaltingAmounts amounts = salting_amounts(&made);
        double water_kg = is_stated(amounts.water_kg) ? amounts.water_kg : 0;
        assert_close_share(amounts.salt_kg, amounts.asked_kg, 1e-12);
        if (is_stated(amounts.even_share)) {
            double all_kg = made.mass_kg + water_kg + amounts.salt_kg;
            assert_close_share(amounts.even_share * all_kg, amounts.salt_kg, 1e-12);
        }
        /* flesh of 70 % water: the salt that is in it and that left in the brine are all of it */
        double in_flesh = salting_water_salt(&made);
        double flesh_kg = 0.70 * made.mass_kg;
        double ratio = in_flesh / (1 - in_flesh); /* kg of salt a kg of water, the same in both */
        assert_close_share(ratio * (flesh_kg + water_kg), amounts.salt_kg, 1e-9);
        Product saltier = made;
        saltier.salting.salt *= 1.1;
        saltier.salting.strength *= 1.1;
        assert_true(salting_most_salt(&saltier) > salting_most_salt(&made));
        if (is_stated(amounts.strength)) {
            assert_true(in_flesh <= amounts.strength);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(salt_of_an_equilibrium),
                                       cmocka_unit_test(a_cure_goes_in_with_the_salt),
                                       cmocka_unit_test(the_rest_of_the_mix_is_salt),
                                       cmocka_unit_test(nitrite_salt_is_most_of_the_salt),
                                       cmocka_unit_test(brine_by_its_strength),
                                       cmocka_unit_test(salt_is_kept)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
