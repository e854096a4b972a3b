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

/* What is allowed in, with the basis it is counted on. */
typedef struct CureLimit {
    double ppm;  /* NAN: no figure for this product in this market */
    bool as_ion; /* counted as nitrite ion, else as sodium nitrite */
} CureLimit;

/* Limit for meat and fish: 9 CFR 424.21 and 21 CFR 172.170 (US), Regulation (EU) 2023/2108 as ion
 * (EU), 150 mg/kg as salt (UK), FSANZ standard 1.3.1 (AU, from memory). Bacon and traditional
 * cures have limits of their own, some of them lower. */
CureLimit cure_limit(Market market, ProductKind kind, CureMethod method);

#endif
