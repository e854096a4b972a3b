#include "model/salting.h"

#include "model/brine.h"

#include <math.h>

/* The most water of any raw flesh: lean fish such as cod has 81 % (from memory). */
static const double flesh_water_most = 0.81;
static const double flesh_water_usual =
    0.70; /* lean meat 75, salmon and trout 65 to 75: judgement */

/* What curing, drying and cold smoke leave of the mass at least: sides of fish lose 10 to 20 %, a
 * loin up to 30 % (common practice, no source). */
static const double mass_left_least = 0.70;

static double asked_kg(const Salting *salting, double meat_kg) {
    double water_kg = is_stated(salting->water_kg) ? salting->water_kg : 0;
    if (is_stated(salting->strength)) {
        return brine_salt_per_water(salting->strength) * water_kg;
    }
    return salting->salt * (meat_kg + (salting->method == SALTING_EQUILIBRIUM ? water_kg : 0));
}

static void set_brine(SaltingAmounts *amounts, double all_kg) {
    double mix_kg = is_stated(amounts->cure_kg) ? amounts->cure_kg : 0;
    amounts->liquid_kg = amounts->water_kg + amounts->salt_kg + mix_kg;
    amounts->strength = brine_strength_made(all_kg, amounts->water_kg);
    amounts->brine_volume_m3 = amounts->liquid_kg / brine_density_kg_m3(amounts->strength);
}

SaltingAmounts salting_amounts(const Product *product) {
    const Salting *salting = &product->salting;
    const Cure *cure = &product->cure;
    SaltingAmounts amounts = {.salt_kg = NOT_STATED,
                              .cure_kg = cure->stated ? cure->cure_kg : NOT_STATED,
                              .cure_salt_kg = cure->stated ? cure->cure_kg * (1 - cure->nitrite)
                                                           : 0,
                              .asked_kg = asked_kg(salting, product->mass_kg),
                              .water_kg = salting->water_kg,
                              .liquid_kg = NOT_STATED,
                              .strength = NOT_STATED,
                              .even_share = NOT_STATED,
                              .brine_volume_m3 = NOT_STATED};
    if (!is_stated(amounts.asked_kg)) {
        return amounts;
    }
    amounts.salt_kg = fmax(amounts.asked_kg - amounts.cure_salt_kg, 0);
    double all_kg = amounts.salt_kg + amounts.cure_salt_kg;
    if (is_stated(amounts.water_kg)) {
        set_brine(&amounts, all_kg);
    }
    if (salting->method == SALTING_EQUILIBRIUM) {
        double water_kg = is_stated(amounts.water_kg) ? amounts.water_kg : 0;
        amounts.even_share = all_kg / (product->mass_kg + water_kg + all_kg);
    }
    return amounts;
}

/* kg of salt that end in flesh with so much water, once that is even with its brine. */
static double salt_in_kg(const Product *product, double flesh_kg) {
    SaltingAmounts amounts = salting_amounts(product);
    double all_kg = amounts.salt_kg + amounts.cure_salt_kg;
    double brine_kg = is_stated(amounts.water_kg) ? amounts.water_kg : 0;
    return all_kg * flesh_kg / (flesh_kg + brine_kg);
}

double salting_water_salt(const Product *product) {
    double flesh_kg = flesh_water_usual * product->mass_kg;
    return brine_strength_made(salt_in_kg(product, flesh_kg), flesh_kg);
}

double salting_most_salt(const Product *product) {
    double flesh_kg = flesh_water_most * product->mass_kg;
    return salt_in_kg(product, flesh_kg) / (mass_left_least * product->mass_kg);
}
