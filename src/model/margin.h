/* Margin: how much more heat the front has than it needs to go on. Under 1 it starves. */
#ifndef MODEL_MARGIN_H
#define MODEL_MARGIN_H

#include "model/bed.h"

/* The factors of the margin that belong to the bed and not to its moisture. */
typedef struct HoldFactors {
    double steadiness;
    double air;            /* 0 to 1: falls as fines choke the bed */
    double keep;           /* 0 to 1: falls as grains get coarse */
    double metal_j_per_kg; /* heat that the tray drinks per kg of dry fuel */
} HoldFactors;

/* air: (k/k_ref)^0.3, at most 1, k = d32² e³/(1 − e)² (Kozeny–Carman; from memory), e the share of
 *      the bed that is air as packed.
 * keep: 1/(1 + (d50/2.8 mm)²) over the same of the reference, at most 1.
 * metal: metal per metre · c_steel · 270 K / dry fuel per metre · share of the dust's outline that
 *      touches metal. The last factor is what lets a heap help a heavy channel by more than its
 *      mass: the zone gives its heat away on all sides, and an open flank feeds no metal. */
HoldFactors margin_factors(const Bed *bed);

/* Heat kept · steadiness · air · keep / (need(M, T) + metal). Over 0, finite. */
double margin_hold(const HoldFactors *factors, double moisture, double temp_c);

/* What costs most: each factor in turn is set to its reference value, and the one that then gives
 * the highest margin is named. Damp dust counts from the reference moisture to that when lit, damp
 * air from there to the moisture at the front. `oxygen`: what the air leaves of the glow's heat, 0
 * to 1. CAUSE_NONE if nothing gives a hundredth. */
Cause margin_cause(const HoldFactors *factors, double moisture_lit, double moisture, double temp_c,
                   double oxygen);

#endif
