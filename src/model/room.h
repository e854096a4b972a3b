/* Room: carbon monoxide in the air that people breathe beside the cabinet.
 *
 * Well-mixed: V dC/dt = E − n V C; exact over a step with steady E:
 *   C(t) = C0 e^(−nt) + E/(nV) (1 − e^(−nt)). */
#ifndef MODEL_ROOM_H
#define MODEL_ROOM_H

#include "base/list.h"
#include "domain/cabinet.h"

#include <stddef.h>

/* A published limit for the mean over any window of that length. */
typedef struct RoomLimit {
    double window_s;
    double limit_mg_m3;
    const char *edition; /* key of the words that name where it was published */
} RoomLimit;

/* The strictest published limit of each window, shortest window first, and how many. */
const RoomLimit *room_limits(size_t *count);

/* The least of them: air that never holds more can pass none. mg/m³ */
double room_least_limit_mg_m3(void);

/* Room air over the time so far. Starts as zero. */
typedef struct RoomAir {
    double co_mg_m3;
    double dose_mg_h_m3; /* integral of the concentration over hours */
} RoomAir;

/* The room from a time on, while the emission stays the same. */
typedef struct RoomPoint {
    double time_s;
    RoomAir air;
    double emission_kg_per_s; /* before any duct */
} RoomPoint;

/* A night in the room, in rising order of time; before the first point the air is clean. */
typedef LIST_OF(RoomPoint) RoomTrace;

typedef struct RoomMean {
    double mean_mg_m3;
    double until_s; /* the end of the window */
} RoomMean;

/* Parts per million by volume of so much carbon monoxide at 25 °C: 24.46/28.01 (molar volume and
 * mass, from memory). */
double room_ppm(double co_mg_m3);

/* The room's air after `time_s` with a steady emission into it (before any duct), kg/s. A duct
 * leads at most 95 % of it outside. A room outdoors or not stated keeps 0. Without air changes the
 * gas piles up. */
RoomAir room_after(const Room *room, RoomAir air, double emission_kg_per_s, double time_s);

/* Carries the trace on to a later time and changes the emission there; the first call sets the
 * start. A time before the last point counts as that point's. */
void room_trace_add(Arena *arena, const Room *room, RoomTrace *trace, double time_s,
                    double emission_kg_per_s);

/* The air at any time, exact for emissions that change at the points only. */
RoomAir room_trace_air(const Room *room, const RoomTrace *trace, double time_s);

/* The largest mean over any window of that length, airing after the last point included. What is
 * shorter than the window counts as clean air. Found to a thousandth of itself. */
RoomMean room_worst_mean(const Room *room, const RoomTrace *trace, double window_s);

#endif
