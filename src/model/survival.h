/* Survival: the figures of a plan that tell how many nights like it burn to their end, and when
 * and where those that do not go out. */
#ifndef MODEL_SURVIVAL_H
#define MODEL_SURVIVAL_H

#include "domain/plan.h"
#include "model/chance.h"

/* From how many nights lasting in all a night is good, and from how many it is worth lighting with
 * somebody tending it. Judgement: a page that says good keeps its word nine times in ten, and a
 * night that more than one time in three comes to nothing is not worth the dust. */
extern const double survival_good;
extern const double survival_tend;

/* How a chance is said: so many of so many nights. In tenths, rounded down; from 0.95 on 19 of 20,
 * and from 0.98 on 49 of 50 where at least 20 recorded nights stand behind it; `in` is 0 where it
 * is fewer than 1 of 10. What is not a number is fewer. */
typedef struct ChanceSaid {
    int in;
    int of;
} ChanceSaid;

ChanceSaid survival_said(double chance, int nights);

/* Sets the burn's chance and what is said of it, and where it most likely goes out; NULL: the
 * chance was not worked out, and is NAN. */
void survival_burn(const Night *night, const Chance *chance, const Holding *holding,
                   PlanBurn *burn);

/* Adds plan->survival and what the samples say of it. Needs the samples. */
void survival_add(Arena *arena, const Night *night, const Chance *chance, Plan *plan);

#endif
