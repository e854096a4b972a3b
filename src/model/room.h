/* Room: carbon monoxide in the air that people breathe beside the cabinet.
 *
 * Well-mixed: V dC/dt = E − n V C; exact over a step with steady E:
 *   C(t) = C0 e^(−nt) + E/(nV) (1 − e^(−nt)). */
#ifndef MODEL_ROOM_H
#define MODEL_ROOM_H

#include "domain/cabinet.h"

#include <stddef.h>

/* Limits, mg/m³: WHO Europe, Air Quality Guidelines, 2nd edition (looked up). */
#define ROOM_LIMIT_8H_MG_M3 10.0
#define ROOM_LIMIT_15MIN_MG_M3 100.0

/* Room air over the time so far. Starts as zero, with the start time set. */
typedef struct RoomAir {
    double co_mg_m3;
    double dose_mg_h_m3; /* integral of the concentration over hours */
} RoomAir;

/* Parts per million by volume of so much carbon monoxide at 25 °C: 24.46/28.01 (molar volume and
 * mass, from memory). */
double room_ppm(double co_mg_m3);

/* The room's air after `time_s` with a steady emission into it (before any duct), kg/s. A room
 * outdoors or not stated keeps 0. Without air changes the gas piles up. */
RoomAir room_after(const Room *room, RoomAir air, double emission_kg_per_s, double time_s);

/* Concentration of the time within the hour counted in steps: largest mean over any 8 h, from the
 * dose at given times (seconds, rising, with at least one) and the room's decay after the last. A
 * night shorter than 8 h is spread over 8 h. mg/m³. */
double room_worst_8h_mg_m3(const Room *room, const double *times_s, const RoomAir *airs,
                           size_t count);

#endif
