/* Drying: filled trays in an oven, by heat balance.
 *
 * The bed warms to the temperature at which it evaporates as much as the oven feeds it: the wet
 * bulb of its own water activity,
 *   gamma (T_oven − T_b) = a(M, T_b) p_sat(T_b) − p_air,
 * a the relative humidity in balance with its moisture (inverse of the sorption equation), gamma
 * the psychrometer constant, 66 Pa/K (from memory). As it dries T_b climbs and the drying slows.
 * Time is heat over h A (T_oven − T_b): warming dust, water and metal, and evaporating. All trays
 * of the batch are taken together: their areas and masses add. */
#ifndef MODEL_DRYING_H
#define MODEL_DRYING_H

#include "domain/workshop.h"

#include <stdbool.h>

typedef struct DryingLoad {
    double dry_kg;   /* dust, over 0 */
    double moisture; /* when it goes in */
    double metal_kg;
    double area_m2;        /* that the oven's air reaches, over 0 */
    double start_c;        /* of dust and trays */
    double air_vapour_pa;  /* of the kitchen's air */
    double oven_c;         /* 40 to 160: outside the nearer end */
    double transfer_w_m2k; /* of the oven */
} DryingLoad;

/* Cooling between oven and lighting, s: common practice, no source. */
#define DRYING_COOLING_S 1200.0
/* Below this a loss cannot be told on the scale, in its steps. */
#define DRYING_STEPS_TOLD 2

/* Heat transfer of an oven, W/m² K: as stated, or 18 with a fan and 11 in still air, radiation
 * included. Set so that one ordinary tray takes 10 to 15 min at 100 °C (common practice, no
 * source). */
double drying_transfer_w_m2k(const Oven *oven);

/* Moisture after a time in the oven; never above that at the start. */
double drying_moisture_after(const DryingLoad *load, double time_s);

/* Time in the oven until a moisture is reached; 0 if the dust is no wetter. A moisture lower than
 * the oven can reach counts as the lowest it can in 24 h. */
double drying_time_s(const DryingLoad *load, double moisture);

/* Lowest moisture that drying_time_s plans for. */
double drying_floor(const DryingLoad *load);

#endif
