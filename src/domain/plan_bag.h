/* Plan, bags.
 * The table of its fields stands in plan_bag.c. */
#ifndef DOMAIN_PLAN_BAG_H
#define DOMAIN_PLAN_BAG_H

#include "base/list.h"
#include "domain/batch.h"
#include "domain/plan_fuel.h"

/* What a buyer takes for one thing: dusts of the same species add up. */
typedef struct BagPart {
    const char *name;    /* the owner's words for the label, or else the material as written */
    const char *species; /* key of its word, which comes before `name`; NULL: none */
    bool charred;        /* to be said beside the species */
    double share;        /* by mass as packed, falling */
} BagPart;

typedef struct PlanBag {
    const BagOrder *order;
    double net_kg;
    int count;
    int numbered_before;    /* bags of the lot whose labels are numbered, in the orders before */
    int numbered_in_all;    /* and in all orders of the lot */
    double figure_height_m; /* least height of the net quantity's figures */
    LIST_OF(BagPart) parts;
    double grain_from_m,
        grain_to_m; /* as declared of the one dust in it, or else d10 to d90; NAN: only judged */
    bool grain_declared;
    /* Sizes from the one to the other, as much mass between two as between the next two. */
    double grain_sizes_m[MIDDLE_SIZES];
    bool grain_drawable; /* in print, at their true size */
    double moisture;     /* when packed; NAN: nobody measured it */
    MoistureBasis basis; /* which of the two is printed */
    Date measured;       /* the oldest of its dusts' days; year 0: of one at least not stated */
    Date packed;
    bool untreated;      /* every dust in it was declared untreated */
    bool herbs;          /* there is leaf or stalk of herbs in it, not wood alone */
    double tolerance_kg; /* tolerable negative error */
    double total_kg;
    bool e_mark;    /* ℮ is to stand beside the quantity */
    Date dry_until; /* unopened it stays about as dry as stated; year 0: nothing is known */
    /* What helps to use it (model/bag_use.h); NAN: not told. */
    double dry_to; /* first, dry basis */
    double oven_c;
    double look_after_s;             /* lighting */
    double tray_channel_m;           /* of the tray that the order names */
    double burns_from_s, burns_to_s; /* it burns so long, 80 % band */
    const char *dust_lots;           /* those of its dusts, "B-2611, C-2610"; NULL: none has one */
    int dust_lots_count;
} PlanBag;

#endif
