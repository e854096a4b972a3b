/* Vents: how far they are open, as a person can set them. */
#ifndef MODEL_VENT_H
#define MODEL_VENT_H

#include "domain/plan.h"

/* How far a vent of `full_m2` (NAN: not stated) is open that lets `area_m2` through. The share is
 * rounded to 5 %, under 10 % to 1 %: nobody sets a slide closer by eye (judgement). */
PlanVent vent_set(double area_m2, double full_m2);

/* The area of a vent opened to at least `wanted_m2`: with the full area stated the next quarter of
 * it, at most all; else what is wanted. Never less than `now_m2`. */
double vent_widened_m2(double now_m2, double wanted_m2, double full_m2);

#endif
