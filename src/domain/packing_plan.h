/* Packing plan: everything that was worked out for one day of bagging. Every number on a slip comes
 * from here. SI units; shares are fractions of 1; moisture is on dry basis. */
#ifndef DOMAIN_PACKING_PLAN_H
#define DOMAIN_PACKING_PLAN_H

#include "domain/bagging.h"
#include "domain/field.h"
#include "domain/plan.h"

/* One dust through the sieve, before any of it is weighed in. */
typedef struct PackingSieving {
    const char *name;
    const char *lot; /* NULL: it has none */
    double taken_kg; /* from the shelf; whole steps of the scale */
    double out_kg;   /* what is not weighed in: it falls through, up to a step of the scale */
    int goes;        /* in so many the scale weighs what is taken */
} PackingSieving;

/* One dust into one bowl. */
typedef struct PackingWeighing {
    const char *name;
    const char *lot;   /* NULL: it has none */
    double mass_kg;    /* whole steps of the scale */
    double running_kg; /* on the scale after it, the bowl set to zero */
} PackingWeighing;

typedef struct PackingBowl {
    LIST_OF(PackingWeighing) weighings; /* in the order of the recipe */
    double mass_kg;
} PackingBowl;

/* So many bags of a row are weighed again at the most (judgement; what a row has room for). */
#define PACKING_CHECKS 4

/* How a bag's mass is checked. */
typedef struct PackingBag {
    PlanBag bag;
    const char *language; /* of its label */
    /* Below it a bag is short by more than the tolerable error: only few may be. NAN: none may. */
    double short_kg;
    double least_kg; /* no bag below it */
    int checks;      /* so many of them are weighed again, evenly over the day */
    int check_every; /* the first, and each so many-th after it */
} PackingBag;

typedef struct PackingBlend {
    const BagBlend *order;
    const char *lot;
    PlanBlend blend;                  /* shares, moisture and grain as mixed; nothing of a night */
    LIST_OF(PackingSieving) sievings; /* in the order of the recipe; none: not sieved */
    LIST_OF(PackingBowl) bowls;
    LIST_OF(PackingBag) bags;
    int short_of;         /* of so many bags one may be below its short_kg */
    double taken_kg;      /* from the shelf: weighed and sieved out */
    double sieved_out_kg; /* goes out with the fines; 0: not sieved */
    double weighed_kg;    /* all bowls */
    double dried_out_kg;  /* water that the oven drives out; 0: not dried */
    double dry_end_kg;    /* mass to see when it is dry enough; NAN: not dried */
    double handling_kg;   /* reckoned to be lost, whole steps of the scale */
    double bagged_kg;     /* net, all bags */
    double left_kg;       /* of the blend, when all bags are filled; under 2 steps of the scale a
                             part and bowl */
    bool moisture_known;  /* measured of every dust, and the oven changed nothing */
    /* What its labels say: plans of blend and bags alone, each in one language for one market. */
    LIST_OF(const Plan *) labels;
} PackingBlend;

/* What the day takes of a dust, all blends together. */
typedef struct PackingStock {
    const Dust *dust;
    const char *name;
    const char *lot;   /* NULL: it has none */
    double before_kg;  /* NAN: not stated */
    double taken_kg;   /* by the bags */
    double tonight_kg; /* put on the trays, when they are the bags of a night; 0: none */
    double after_kg;   /* NAN: not stated; never below 0 */
    double missing_kg; /* 0: enough, or not stated */
} PackingStock;

/* What the day takes of a label stock. */
typedef struct PackingLabels {
    const char *name;
    int labels;
    int sheets; /* begun, half-used ones too; not one that another file began */
    int begin;  /* label of a sheet with which the day begins, from 1; 1: a whole sheet */
    bool begun; /* it is not the first */
    int next;   /* label free next on the last sheet, from 1; 0: none */
    bool left;  /* there is one */
    bool roll;
    bool pair; /* two labels a bag */
} PackingLabels;

typedef struct PackingPlan {
    const Bagging *bagging;
    LIST_OF(PackingBlend) blends;
    LIST_OF(PackingStock) stocks;  /* in the order of first use */
    LIST_OF(PackingLabels) labels; /* the same, once they are counted */
    bool of_night;                 /* trays take of the same dust */
} PackingPlan;

/* All figures of the day, in the arena; the root group is named "slip" (domain/field.h says how
 * fields are found). */
FieldGroup *packing_fields(Arena *arena, const PackingPlan *plan);

#endif
