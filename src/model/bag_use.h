/* Bag use: what a label can tell of using the dust in a bag. */
#ifndef MODEL_BAG_USE_H
#define MODEL_BAG_USE_H

#include "base/arena.h"
#include "domain/bagging.h"
#include "domain/plan_bag.h"

/* To what moisture a buyer is told to dry first, dry basis, and in what oven: what the samples'
 * nights do, and common practice (no source). */
#define BAG_USE_DRY_TO 0.04
#define BAG_USE_OVEN_C 100.0

/* The mild still night for which it is told how long a tray burns (judgement). */
#define BAG_USE_NIGHT_C 10.0
#define BAG_USE_NIGHT_HUMIDITY 0.75

/* Fills dry_to, oven, look_after and, of the tray that the order names, how long it burns: that of
 * a night with the whole channel filled level, by the timed trials of the workshop and no recorded
 * night, from the early to the late end of the plan's 80 % band. No time is told when the order
 * names no tray, or when that blend does not burn to its end there with a good chance.
 *
 * `blend`: what is in the bag, not sieved. */
void bag_use(Arena *arena, const Bagging *bagging, const Blend *blend, PlanBag *bag);

#endif
