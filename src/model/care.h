/* Care: what the product asks for, by its kind, and whether the batch keeps to it.
 *
 * Published figures with their sources stand in care.c and cure.c. None of them makes food safe by
 * itself: what is printed is an estimate or a reminder, and local rules come first. A condition
 * that the batch does not state becomes a caution, never silence.
 */
#ifndef MODEL_CARE_H
#define MODEL_CARE_H

#include "base/arena.h"
#include "domain/plan.h"

/* Ceiling of the cabinet, °C: the kind's, or what the product itself states (then the caution is
 * no higher than the limit): of fish, meat and other only a lower one, of the rest never over what
 * still is cold smoke. */
typedef struct CareCeiling {
    double caution_c;
    double limit_c;
} CareCeiling;

CareCeiling care_ceiling(const Product *product);

/* Sets the cabinet's caution and limit, and whether they are passed, from its peak. */
void care_judge_cabinet(const Product *product, PlanCabinet *cabinet);

/* Usual time in smoke of that kind, s (common practice, no source). */
typedef struct CareTime {
    double least_s;
    double most_s;
} CareTime;

CareTime care_smoke_time(ProductKind kind);

/* Water that the product gives off in air of CABINET_USUAL_HUMIDITY, kg/s: its mass times what its
 * kind usually loses in a day. 0 when the mass is not stated. */
double care_drying_kg_per_s(const Product *product);

/* Salt in the water phase, as a fraction: salt / (salt + water), both fractions of the product
 * (OSU Extension special report, October 1991). NAN if either is not stated. */
double care_water_phase_salt(double salt, double water);

/* Adds to plan->care all that applies, gravest first. Needs the plan's burn, cabinet and samples.
 * The keys of what it can add are listed by care_keys. */
void care_add(Arena *arena, const Batch *batch, Plan *plan);

/* Every key that care_add can give (words `care.KEY`), and how many. */
const char *const *care_keys(size_t *count);

/* Whether the row says that a condition of food safety was not stated in the batch. */
bool care_unstated(const Care *care);

/* Whether it says that a condition is met so poorly that somebody has to see to it. */
bool care_weak(const Care *care);

#endif
