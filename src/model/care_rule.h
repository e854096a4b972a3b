/* Care rules: the food-safety conditions of fish and meat, of which model/care.h is made. */
#ifndef MODEL_CARE_RULE_H
#define MODEL_CARE_RULE_H

#include "base/arena.h"
#include "domain/plan.h"

/* Puts one condition at the end of the plan's list. */
void care_put(Arena *arena, Plan *plan, const char *key, CareLevel level, Quantity value,
              Quantity limit);

/* Parasites, salt in the water phase and who should not eat cold-smoked fish. */
void care_add_fish(Arena *arena, const Batch *batch, Plan *plan);

/* Curing, nitrite, vacuum packs, hours in the warm: fish and meat alike. */
void care_add_flesh(Arena *arena, const Batch *batch, Plan *plan);

/* Whether freezing of that kind kills parasites: -20 °C for 168 h, or -35 °C for 15 h (FDA Food
 * Code 3-402.11). */
bool care_freezing_enough(double temp_c, double time_s);

/* Hours of the plan's samples in which the cabinet is warmer than that, s. */
double care_time_above_s(const Plan *plan, double temp_c);

#endif
