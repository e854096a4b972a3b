/* Bagging: a day of blending, sieving and packing dust for others, without a night. */
#ifndef DOMAIN_BAGGING_H
#define DOMAIN_BAGGING_H

#include "domain/batch.h"

/* A blend that is made to be packed. Its shares are fixed: no night says how much of a carrier it
 * would take. */
typedef struct BagBlend {
    Place place;
    Blend blend;
    const char *lot;      /* NULL: made from the day and the file */
    double sieve_below_m; /* what is finer is sieved out before bagging; NAN: nothing */
    double dry_to;        /* moisture, dry basis, to which it is dried before bagging; NAN: not */
    double moisture;      /* measured of the blend as it is packed, dry basis; NAN: not */
    Date measured;        /* day of that; year 0: the day of packing */
    LIST_OF(BagOrder) bags;
} BagBlend;

typedef struct Bagging {
    Place place;
    const char *file; /* as the user named it */
    const char *name;
    const Workshop *workshop;
    Date packed;
    double handling_loss; /* share that stays in bowls, sieve and air; NAN: the usual */
    LIST_OF(BagBlend) packs;
} Bagging;

#endif
