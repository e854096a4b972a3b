/* Clash: two nights that want one tray, one cabinet or the oven at the same time.
 *
 * A tray is taken from its weighing-out until it is cold and clean again, a cabinet from the
 * hanging until it is aired and wiped, the oven while the dust is in it. The end of a burn counts
 * as late as it may well be: nine in ten are out by then. */
#ifndef MODEL_CLASH_H
#define MODEL_CLASH_H

#include "domain/plan.h"

typedef enum ClashThing { CLASH_NONE, CLASH_TRAY, CLASH_CABINET, CLASH_OVEN } ClashThing;

/* From when to when a night takes something; both 0: not at all. */
typedef struct ClashSpan {
    Instant from, to;
} ClashSpan;

/* What a night takes of its workshop, and when. */
typedef struct ClashUse {
    const Batch *batch;
    ClashSpan trays; /* all trays of its fills */
    ClashSpan cabinet;
    ClashSpan oven;
} ClashUse;

/* The first thing (in the order of ClashThing) that two nights want at once. */
typedef struct Clash {
    ClashThing thing; /* CLASH_NONE: they go together, and the rest is 0 */
    const char *name; /* of the tray or cabinet; NULL: of the oven */
    Instant from, to; /* when both want it */
} Clash;

/* What the planned night takes. Needs the plan's burn, drying and batch, at any SessionDetail. A
 * night that is over took its things by the hours that were written down. */
ClashUse clash_use(const Plan *plan);

/* Whether and in what two nights clash; in either order the same. Nights of different workshop
 * files never do. */
Clash clash_between(const ClashUse *a, const ClashUse *b);

/* What two batches share, whenever they burn: the tray's or cabinet's name goes into *name (NULL:
 * not wanted). The oven is shared by all that dry dust. */
ClashThing clash_shared(const Batch *a, const Batch *b, const char **name);

#endif
