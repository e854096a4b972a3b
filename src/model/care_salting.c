/* Care about salting in the days before. */
#include "model/care_rule.h"
#include "model/salting.h"

#include <math.h>

/* New York rules: more than four hours in brine only in a room of 38 °F (looked up); what NCHFP
 * allows, 40 °F, is let pass. */
static const double warm_most_s = 4.0 * SECONDS_PER_HOUR;

/* Salted fish or meat that waits, wet and uncovered by smoke: judgement. */
static const double kept_most_s = 3.0 * SECONDS_PER_DAY;

/* In less time hardly more than thin fillets, and nothing evenly, can be salted through; a front of
 * salt that runs freely, as in water at 1.5e-9 m2/s (from memory), comes 2 mm deep in the half hour
 * and 11 mm in the day. Judgement. */
static const double timed_least_s = 0.5 * SECONDS_PER_HOUR;
static const double even_least_s = 1.0 * SECONDS_PER_DAY;

/* A scale is no better: judgement. */
static const double salt_hair = 0.02;

static void add_salt(Arena *arena, const Product *product, Plan *plan) {
    SaltingAmounts amounts = salting_amounts(product);
    double most = salting_most_salt(product);
    if (product->salt > most) {
        care_put(arena, plan, "salt_beyond", CARE_FORBIDS, quantity(QUANTITY_SHARE, product->salt),
                 quantity(QUANTITY_SHARE, most));
    }
    double in_water = salting_water_salt(product);
    if (in_water < CARE_CURED_SALT_LEAST) {
        care_put(arena, plan, "salting_weak", CARE_CAUTION, quantity(QUANTITY_SHARE, in_water),
                 quantity(QUANTITY_SHARE, CARE_CURED_SALT_LEAST));
    }
    if (amounts.cure_salt_kg > amounts.asked_kg * (1 + salt_hair)) {
        care_put(arena, plan, "salt_over", CARE_CAUTION,
                 quantity(QUANTITY_MASS, amounts.cure_salt_kg),
                 quantity(QUANTITY_MASS, amounts.asked_kg));
    }
}

void care_add_salting(Arena *arena, const Product *product, Plan *plan) {
    const Salting *salting = &product->salting;
    const PlanPreparation *preparation = &plan->preparation;
    if (preparation->odd_at) {
        care_put(arena, plan, "prepare_odd", CARE_CAUTION,
                 quantity(QUANTITY_INSTANT, (double)preparation->odd_at), no_quantity());
    }
    if (!salting->stated) {
        return;
    }
    care_put(arena, plan, "cure_planned", CARE_CAUTION, no_quantity(), no_quantity());
    double longest_s = fmax(salting->time_s, salting->dry_s);
    if (salting->temp_c > CARE_GROWTH_C && longest_s > warm_most_s) {
        care_put(arena, plan, "salting_warm", CARE_FORBIDS,
                 quantity(QUANTITY_TEMPERATURE, salting->temp_c),
                 quantity(QUANTITY_TEMPERATURE, CARE_GROWTH_C));
    }
    double least_s = salting->method == SALTING_EQUILIBRIUM ? even_least_s : timed_least_s;
    if (salting->time_s < least_s) {
        care_put(arena, plan, "salting_short", CARE_CAUTION,
                 quantity(QUANTITY_DURATION, salting->time_s),
                 quantity(QUANTITY_DURATION, least_s));
    }
    if (preparation->kept_s > kept_most_s) {
        care_put(arena, plan, "kept_long", CARE_CAUTION,
                 quantity(QUANTITY_DURATION, preparation->kept_s),
                 quantity(QUANTITY_DURATION, kept_most_s));
    }
    add_salt(arena, product, plan);
}
