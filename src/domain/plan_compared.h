/* Plan, compared: of a night that is over, what was planned beside what was written down. What
 * nobody wrote down is not stated, never the planned figure.
 * The table of its fields stands in plan_compared.c. */
#ifndef DOMAIN_PLAN_COMPARED_H
#define DOMAIN_PLAN_COMPARED_H

#include "base/date.h"
#include "base/list.h"
#include "domain/quantity.h"

/* One figure of the night. Its words are `compared.KEY`. */
typedef struct PlanCompared {
    const char *key;
    Quantity planned;    /* NAN: nothing was planned */
    Quantity low, high;  /* between these, 8 nights in 10; NAN: no band */
    Quantity happened;   /* NAN: not written down */
    Quantity more, less; /* by how much it was more (later, longer), or less; NAN: one is not known,
                          * or they are alike */
    bool alike;          /* as planned, as far as it is shown */
    bool outside;        /* out of the band */
} PlanCompared;

/* A look at the smoker: one that was planned, one that was written down, or both. */
typedef struct PlanCheck {
    Instant planned_at;       /* 0: none was planned about then */
    Instant at;               /* 0: nobody wrote that somebody looked */
    double planned_m;         /* front so long after lighting as it was read, else by the plan's
                               * clock; NAN: of several lightings nobody knows */
    double front_m;           /* NAN: not read */
    double ahead_m, behind_m; /* NAN: one is not known, or they are alike */
    double planned_temp_c, cabinet_temp_c; /* NAN: no cabinet; not read */
    double humidity;                       /* in the cabinet, relative; NAN: not read */
    bool over_limit;                       /* warmer than the product bears */
    const char *remark;                    /* NULL: none */
} PlanCheck;

/* What the readings say of the cabinet against the product's ceiling. They are points: what was
 * between them nobody knows. */
typedef struct PlanWarmth {
    int read;            /* so many readings */
    double most_c;       /* the warmest; NAN: none */
    Instant most_at;     /* when; 0: none */
    int over;            /* so many over the ceiling */
    double over_least_s; /* surely about so long: between readings that were both over it */
    double over_most_s;  /* at most so long: from the last before that was not to the next that
                           * was not; NAN: nobody read that it fell again */
    double yield;        /* product afterwards, of before; NAN: one of them is not known */
} PlanWarmth;

#endif
