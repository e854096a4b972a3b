/* Plan, fill: what is on each tray, its hours, its map.
 * The table of its fields stands in plan_fill.c. */
#ifndef DOMAIN_PLAN_FILL_H
#define DOMAIN_PLAN_FILL_H

#include "base/list.h"
#include "domain/batch.h"
#include "domain/plan_judgement.h"

/* A place along the channel, in the tray's own plane: millimetre-true, origin top left. */
typedef struct MapPoint {
    double x_m;
    double y_m;
    double along_m; /* from the start of the channel */
} MapPoint;

typedef LIST_OF(MapPoint) MapPoints;

/* Where the front is on a full hour (two marks when both ends are lit). */
typedef struct HourMark {
    Instant at;
    MapPoint place;
    double heading_rad; /* direction of the channel there, for a tick across it */
    int lane;           /* from 1 */
} HourMark;

typedef struct WeakStretch {
    double from_m;
    double to_m;
    double least_margin;
    Cause cause;
    Instant from_at;
    Instant to_at;
    MapPoints line; /* the channel between the two */
} WeakStretch;

typedef struct PlanFill {
    const Fill *fill;
    const Tray *tray;
    int number;         /* from 1, in the order of lighting */
    double channel_m;   /* whole centre line */
    double filled_m;    /* filled part */
    bool whole;         /* the whole channel is filled; step, map and words go by this alone */
    bool chosen;        /* filled_m is what a wanted time burns, by the speed_factor believed in */
    int end_lane;       /* lane in which the fill ends, from 1 */
    double end_in_lane; /* how far into that lane, 0 to 1 */
    double depth_m;     /* of the dust at the middle */
    double volume_m3;
    double dry_kg;
    double wet_kg;             /* as mixed, to put on the tray */
    double ready_kg;           /* the same when it comes out of the oven: what a refill weighs */
    double bulk_density_kg_m3; /* dry, as packed */
    bool both_ends;
    Instant light_at;
    Instant out_at;    /* middle estimate */
    Instant out_about; /* the same as it is printed (model/printed_times.h) */
    Instant out_early; /* 80 % band as it is printed: rounded outwards */
    Instant out_late;
    double margin_at_start;
    double margin_least;
    Instant margin_least_at;
    double margin_least_along_m;
    Cause cause;                         /* what costs most at the least margin */
    bool dies;                           /* margin under 1 somewhere */
    Instant dies_at;                     /* when it first falls under 1; 0: it does not */
    double dies_along_m;                 /* NAN: it does not */
    MapPoints line;                      /* centre line of the whole channel */
    MapPoint lit_end, finish, fill_mark; /* both ends: finish is where the fronts meet */
    double map_width_m, map_height_m;    /* outer size of the tray for the map */
    LIST_OF(HourMark) hours;
    LIST_OF(WeakStretch) weak;
} PlanFill;

#endif
