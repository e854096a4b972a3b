/* Cure: how much nitrite goes in with a cure mix, and how much may. */
#ifndef MODEL_CURE_H
#define MODEL_CURE_H

#include "domain/batch.h"

/* Ingoing sodium nitrite, mg per kg (ppm) of the basis that its method goes by:
 *
 *     dry        nitrite / green weight
 *     pumped     nitrite x share of pickle taken up / weight of the pickle
 *     immersed   nitrite / (green weight + pickle), soaked until it is even
 *
 * USDA FSIS Processing Inspectors' Calculations Handbook (1995), chapter 3. The share of nitrite
 * is that of the mix as stated, as a fraction; strengths differ by country, so none is assumed.
 * Immersed, the pickle is the one stated or else the water alone, which errs on the high side.
 * `meat_kg` is the green weight. NAN if anything needed is not stated or not over 0. */
double cure_nitrite_ppm(const Cure *cure, double meat_kg);

/* Nitrite ion (NO2) of that much sodium nitrite (NaNO2), by molar mass 46.0055 / 68.9953. */
double cure_nitrite_ion_ppm(double sodium_nitrite_ppm);

typedef enum CureRule {
    CURE_ALLOWED,    /* up to a limit */
    CURE_NOT_AT_ALL, /* the law names no such food: none may be added */
    CURE_WHICH_FISH  /* only some fish, and the product's name says none of them */
} CureRule;

/* What a market allows, with the basis that its law counts on. */
typedef struct CureLimit {
    CureRule rule;
    double ppm;  /* NAN unless allowed */
    bool as_ion; /* counted as nitrite ion, else as sodium nitrite */
    /* The law counts what is found in the finished product, else what goes in. How much of it is
     * left in the end only a laboratory can tell; what went in is then held against the limit. */
    bool found;
} CureLimit;

/* Limit for that product in that market; its name tells bacon, sausage and the fish apart. */
CureLimit cure_limit(Market market, const Product *product);

/* A limit is passed when it is by more than that share: masses come from a scale, and 120 mg/kg
 * of the salt, which are 80.01 of the ion, are meant to be its 80 (judgement). */
#define CURE_HAIR 1e-3

#endif
