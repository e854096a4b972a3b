/* Plan, choice: from which hours the hour of lighting was chosen, what the next best is, and with
 * which other batches it was chosen. The table of its fields stands in plan_choice.c. */
#ifndef DOMAIN_PLAN_CHOICE_H
#define DOMAIN_PLAN_CHOICE_H

#include "base/date.h"
#include "base/list.h"
#include "domain/plan_judgement.h"

/* One day of the window: the best hour of it that no other batch is in the way of. */
typedef struct PlanDay {
    Instant light_at; /* 0: none */
    Verdict verdict;
    double chance;
    int chance_said_in, chance_said_of; /* as it is said (PlanBurn) */
    Cause cause;                        /* what costs it most */
    bool chosen;
    const char
        *taken_by; /* the batch that has what it needs, at every hour of the day; NULL: none */
} PlanDay;

/* Another batch of the same run that the hour was chosen together with. */
typedef struct PlanWith {
    const char *name;
    Instant light_at;
    const char *words; /* by what is shared: with.tray, with.cabinet or with.oven */
    const char *thing; /* its name; NULL: the oven */
    Instant from, to;  /* when the other one has it; 0: it does not */
} PlanWith;

typedef struct PlanChoice {
    Instant from, to; /* the window; 0: the hour was not chosen */
    Instant known_to; /* later hours were left out, for there the forecast ends; 0: none were */
    bool told;        /* of several days, or chosen with others: worth a line on a page */
    PlanDay next;     /* the best hour of another day, if this one will not do */
    LIST_OF(PlanDay) days;
    LIST_OF(PlanWith) with;
} PlanChoice;

#endif
