/* Salting: how much salt it takes for the mass at hand, and how salty the product can get by it.
 *
 *     dry          salt = share x meat
 *     brine        salt = strength / (1 - strength) x water
 *     equilibrium  salt = share x (meat + water), or by the strength of the brine as made
 *
 * In equilibrium all water ends equally salty. How fast salt goes in is not worked out: no
 * published figure that could be trusted was found, so the time is the one the batch states.
 */
#ifndef MODEL_SALTING_H
#define MODEL_SALTING_H

#include "domain/batch.h"

/* All masses in kg. NAN: there is none of it, or the product's mass is not stated. */
typedef struct SaltingAmounts {
    double salt_kg;      /* to weigh out beside the cure mix */
    double cure_kg;      /* the stated cure mix, which goes in with it */
    double cure_salt_kg; /* salt that is in the cure mix; 0: no mix */
    double asked_kg;     /* salt in all */
    double water_kg;     /* of a brine */
    double liquid_kg;    /* water, salt and cure mix together */
    double strength;     /* of a brine, fraction by mass */
    double even_share;   /* equilibrium: salt in all of it together, fraction by mass */
    double brine_volume_m3;
} SaltingAmounts;

/* What to weigh out. The rest of a nitrite cure mix counts as salt, as in the worked example of
 * pumped pickle (tests/reference/cure_worked_examples.csv, E1). salt_kg is never below 0: where
 * the mix alone brings more, cure_salt_kg is over asked_kg. */
SaltingAmounts salting_amounts(const Product *product);

/* Salt in the water of the flesh when all that can went in, as a fraction of salt and water:
 * before it dries, and with the water of ordinary flesh. NAN if unknown. */
double salting_water_salt(const Product *product);

/* The most salt that the product can hold after it, fraction by mass: all that went on, or what
 * is even with its brine, in a product that shrank as far as any does. NAN if unknown. */
double salting_most_salt(const Product *product);

#endif
