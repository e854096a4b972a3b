/* Plan, tasks: what people do in the night, steps, look-ins, decisions; and the cautions.
 * The table of its fields stands in plan_tasks.c. */
#ifndef DOMAIN_PLAN_TASKS_H
#define DOMAIN_PLAN_TASKS_H

#include "base/date.h"
#include "domain/quantity.h"

/* One action of the night; none falls into hours when nobody is there. Its words are `step.KEY`
 * in the words files. */
typedef struct PlanStep {
    const char *key;
    Instant at;      /* 0: no clock time */
    Quantity amount; /* mass, temperature, duration …: the key says which */
    Quantity second;
    const char *name; /* dust, tray …; NULL: none */
    int fill;         /* number of the fill it belongs to, 0: none */
} PlanStep;

/* A look at the smoker. */
typedef struct PlanLookIn {
    Instant at;
    int fill;
    int lane;
    double along_m;  /* where the front should be */
    double second_m; /* and that from the other end, as the length from the first; NAN: none */
    /* Where the first would be if it were as fast, or as slow, as the ends of the 80 % band; NAN:
     * nothing burns then. Found there, the fill is out at out_early or out_late of it. */
    double early_m, late_m;
    double in_lane; /* share of the lane behind it, 0 to 1 */
    double cabinet_temp_c;
    bool away;           /* moved, since nobody is there when it was wanted */
    Instant alone_from;  /* the last look before nobody is there from then … */
    Instant alone_until; /* … until then; 0: it is not */
    Instant alone_since; /* the first after nobody was there since then; 0: it is not */
    bool after_end;      /* by the middle estimate all is out by then */
    bool worst;          /* the last before it most likely goes out */
} PlanLookIn;

/* What to do if …: a decision that may fall in the night. Its words are `decision.KEY` for the
 * condition and `decision.KEY.then` for what to do. */
typedef struct Decision {
    const char *key;
    Quantity limit; /* from where on it is so */
    Quantity second;
} Decision;

/* A caution printed where the hazard is. Its words are `caution.KEY`. */
typedef struct Caution {
    const char *key;
    const char *signal; /* "warning", "caution" or "notice" (ISO 3864-2, ANSI Z535.6) */
} Caution;

#endif
