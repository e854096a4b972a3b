/* Care rules: the food-safety conditions of fish and meat, of which model/care.h is made. */
#ifndef MODEL_CARE_RULE_H
#define MODEL_CARE_RULE_H

#include "base/arena.h"
#include "domain/plan.h"

/* Salt in the water of what is cured, at the least. FDA Fish and Fishery Products Hazards guide,
 * chapter 13, smoked fish packed with air: 2.5 %. From memory; of meat the same, judgement. */
#define CARE_CURED_SALT_LEAST 0.025

/* Growth zone 40-140 °F, and cure below 40 °F: NCHFP critical points. */
#define CARE_GROWTH_C (40.0 / 9)

/* Puts one condition at the end of the plan's list. */
void care_put(Arena *arena, Plan *plan, const char *key, CareLevel level, Quantity value,
              Quantity limit);

/* Parasites and who should not eat cold-smoked fish: fish, and what may be as raw. */
void care_add_fish(Arena *arena, const Batch *batch, Plan *plan);

/* Curing, salt in the water phase, vacuum packs, hours in the warm: fish, meat, and what may be as
 * raw. */
void care_add_flesh(Arena *arena, const Batch *batch, Plan *plan);

/* What is to be salted in the days before: that it was done, in the cold, in time, and what is said
 * of the salt in the product. Needs the plan's preparation. */
void care_add_salting(Arena *arena, const Product *product, Plan *plan);

/* How it may be packed, as botulinum grows where there is no air. */
void care_add_packing(Arena *arena, const Product *product, Plan *plan);

/* Nitrite of a stated cure against the market's limit: every kind of product. */
void care_add_nitrite(Arena *arena, const Batch *batch, Plan *plan);

/* Whether a cure was stated of meat whose nitrite is enough to hold botulinum back. */
bool care_has_nitrite(const Product *product);

/* The plan with the samples that the food goes through: those of the burn, and where nothing burns
 * (between fills; after the burn, until somebody is there to take it out) samples of fill 0 at the
 * temperature outside. */
Plan care_food_exposure(Arena *arena, const Batch *batch, const Plan *plan);

/* Used-up share of the time that raw food may lie as warm as that without a fire, over samples of
 * fill 0: over 1, S. aureus could have made its poison (FDA guide, appendix 4, table A-2, from
 * memory). */
double care_left_share(const Plan *held);

/* Used-up share of the time that fish may be as warm as the cabinet is over the plan's samples:
 * over 1, botulinum could have made its poison (FDA guide, appendix 4, table A-2). */
double care_growth_share(const Plan *plan);

/* Whether freezing of that kind kills parasites: -20 °C for 168 h, or -35 °C for 15 h (FDA Food
 * Code 3-402.11). */
bool care_freezing_enough(double temp_c, double time_s);

/* Hours of the plan's samples in which the cabinet is warmer than that, s. */
double care_time_above_s(const Plan *plan, double temp_c);

#endif
