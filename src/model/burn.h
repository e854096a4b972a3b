/* Burn: one lighting, from the match to the end of the channel, as an ordinary differential
 * equation in time.
 *
 *   dx/dt = front speed (moisture, air about the tray)
 *   dM/dt = (EMC − M)/tau (moisture, air about the tray)
 *
 * for each front. The air about the tray is the cabinet's steady answer to the fire and the
 * weather at that moment. Classical Runge–Kutta of the fourth order; a step is an eighth of the
 * moisture's time constant at most, ends at every weather reading, and the last one is shortened
 * until the front stands at the end. Where nothing changes any more, the rest is one step, exact.
 * Between steps a path is read off by cubic Hermite. Samples play no part in it. */
#ifndef MODEL_BURN_H
#define MODEL_BURN_H

#include "base/arena.h"
#include "base/list.h"
#include "model/cabinet.h"
#include "model/margin.h"

typedef struct BurnSetup {
    const Bed *bed;
    double speed_factor;
    double length_m;     /* filled part of the channel; fronts from both ends meet on it */
    int fronts;          /* 1, or 2: lit at both ends */
    double moistures[2]; /* of the bed ahead of each front, when lit */
    const Weather *weather;
    const CabinetModel *cabinet;
    double start;      /* seconds since 1970 */
    bool sheltered;    /* in a room: no wind gets there */
    bool rich;         /* the fire gives as much heat as was ever measured */
    double step_share; /* of the usual step; 1, or less to see that it does not matter */
} BurnSetup;

/* One end of a step. */
typedef struct BurnPoint {
    double time_s; /* since lighting */
    double along_m[2];
    double moisture[2];
    double speed_mps[2];
    double uptake_per_s[2];
    double tau_s[2]; /* of the uptake */
    CabinetAir air;  /* the cabinet's answer to the fire and the weather */
} BurnPoint;

typedef struct BurnPath {
    LIST_OF(BurnPoint) points; /* first: lit; last: out; at least two */
    double time_s;
} BurnPath;

/* The whole path. Finite for any bed, length over 0. */
BurnPath burn_path(Arena *arena, const BurnSetup *setup);

/* The path's state at a time (kept within it); its air and time constants are left zero
 * (burn_air gives the air). And the time at which the first front stood at a place (kept within
 * what it burnt). */
BurnPoint burn_at(const BurnPath *path, double time_s);
double burn_time_at_s(const BurnPath *path, double along_m);

/* Outside air, cabinet and fire at a state of the path. */
CabinetAir burn_air(const BurnSetup *setup, const BurnPoint *point, OutsideAir *outside);

#endif
