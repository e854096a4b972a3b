/* Plan, given: what was written down of the night.
 * The table of its fields stands in plan_given.c. */
#ifndef DOMAIN_PLAN_GIVEN_H
#define DOMAIN_PLAN_GIVEN_H

#include "base/date.h"

/* What was written down of a night that is over. */
typedef struct PlanHappened {
    bool over; /* when it was lit is written down: nothing is to be lit any more */
    Instant lit_at;
    Instant out_at;     /* 0: not written */
    bool died;          /* before the end of the channel */
    double burnt_m;     /* when it died or was stopped; NAN: all of it, or not written */
    int relit;          /* so often */
    Instant relit_at;   /* the first time; 0: never */
    double ash_kg;      /* NAN: not weighed */
    double product_kg;  /* mass of the product afterwards; NAN: not weighed */
    const char *by;     /* who ran the night; NULL: not written */
    const char *remark; /* NULL: none */
} PlanHappened;

#endif
