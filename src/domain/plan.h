/* Plan: everything that was worked out for one batch. Every number on a page comes from here.
 *
 * A plan is made by the model, held in the arena it was made with, and never changed afterwards.
 * SI units; instants are UTC seconds; moisture is on dry basis; shares are fractions of 1.
 */
#ifndef DOMAIN_PLAN_H
#define DOMAIN_PLAN_H

#include "domain/plan_bag.h"
#include "domain/plan_burn.h"
#include "domain/plan_choice.h"
#include "domain/plan_compared.h"
#include "domain/plan_environment.h"
#include "domain/plan_fill.h"
#include "domain/plan_fuel.h"
#include "domain/plan_given.h"
#include "domain/plan_judgement.h"
#include "domain/plan_preparation.h"
#include "domain/plan_tasks.h"

typedef struct Plan {
    const Batch *batch;
    const Workshop *workshop;
    const char *lot;
    Verdict verdict;
    PlanHappened happened;          /* of the batch's record */
    LIST_OF(PlanCompared) compared; /* of a night that is over: planned beside happened … */
    LIST_OF(PlanCheck) checks;      /* … its looks, by the clock … */
    PlanWarmth warmth;              /* … and what they read of the cabinet */
    LIST_OF(Reason) reasons;        /* gravest first */
    /* With VERDICT_STAY: from when to when somebody has to be there who was not to be; 0: no. */
    Instant stay_from, stay_to;
    PlanBlend blend;
    PlanDrying drying;
    LIST_OF(PlanFill) fills;
    PlanBurn burn;
    PlanChoice choice; /* of the hour of lighting */
    PlanCabinet cabinet;
    PlanRoom room;
    PlanWeather weather;
    LIST_OF(PlanSample) samples; /* every 10 minutes, and the ends */
    /* Every 10 minutes (a long night: a whole multiple) from lighting until the slowest front is
     * out; the last is burn.chance. */
    LIST_OF(PlanLasting) survival;
    LIST_OF(Remedy) remedies; /* best first */
    LIST_OF(Care) care;
    PlanPreparation preparation;
    LIST_OF(PlanStep) steps;
    LIST_OF(PlanLookIn) look_ins;
    LIST_OF(Decision) decisions;
    LIST_OF(Caution) cautions;
    LIST_OF(PlanBag) bags;
    LearningNotes learning; /* in the order of the past nights */
    LIST_OF(Away) nights;   /* dark hours inside the session, for shading */
} Plan;

#endif
