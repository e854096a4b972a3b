/* Plan, preparation: what is to be done to the product in the days before, worked back from the
 * lighting.
 * The table of its fields stands in plan_preparation.c. */
#ifndef DOMAIN_PLAN_PREPARATION_H
#define DOMAIN_PLAN_PREPARATION_H

#include "base/date.h"
#include "base/list.h"
#include "domain/quantity.h"

/* One dated step. Its words are `task.KEY`. */
typedef struct PlanTask {
    const char *key;
    Instant at;    /* somebody begins it */
    Instant until; /* it is over; no earlier than `at`, no later than the next begins */
    double time_s; /* how long it has to be at the least */
    double temp_c; /* NAN: none to keep */
} PlanTask;

typedef struct PlanPreparation {
    LIST_OF(PlanTask) tasks; /* by the clock; none: nothing to do, or not ready in time */
    Instant begin_by;  /* when the next part that was not begun has to begin; 0: none is left */
    Instant begun;     /* as stated, the later part; 0: nothing was */
    Instant ready_at;  /* when all can be done: with not_ready as early as it can be */
    Instant odd_at;    /* the first step at an hour when nobody is up or there; 0: none */
    double length_s;   /* from the first step to lighting; NAN: no step */
    double kept_s;     /* longest rest between salting and drying; 0: none */
    double meat_kg;    /* what is salted; NAN: no salting */
    double salt_kg;    /* to weigh out, beside the cure mix; NAN: no salting */
    double cure_kg;    /* stated nitrite cure mix; NAN: none */
    double water_kg;   /* of the brine; NAN: none */
    double liquid_kg;  /* whole brine; NAN: none */
    double volume_m3;  /* of the brine; NAN: none */
    double strength;   /* of the brine, fraction by mass; NAN: none */
    double degrees;    /* the same in degrees of the salometer */
    double even_share; /* equilibrium: salt in all of it, fraction by mass; NAN: none */
    bool late;         /* begin_by was over when the plan was made */
    bool not_ready;    /* begun too late to be ready when the fire is lit */
} PlanPreparation;

#endif
