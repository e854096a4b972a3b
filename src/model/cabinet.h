/* Cabinet: the air inside while the tray smoulders.
 *
 * Steady balance at every moment (a cabinet's air changes in minutes, a burn takes hours):
 *   heat:  P = U A (T_i − T_o) + m c_p (T_i − T_o)
 *   flow:  m = rho_o [C_d A* sqrt(2 g H (T_i − T_o)/T_o) + leak],
 *          A* = 1/sqrt(1/A_in² + 1/A_out²)      (stack effect, textbook; from memory)
 *   water: w_i = w_o + (water of the fuel + water of burning)/m
 * The heat of the vapour itself is left out (under 2 % of P). Wind is left out. */
#ifndef MODEL_CABINET_H
#define MODEL_CABINET_H

#include "domain/cabinet.h"
#include "model/bed.h"
#include "model/weather.h"

/* What a cabinet does to its air: conductances only. */
typedef struct CabinetModel {
    bool stated;
    double wall_w_per_k;         /* U A; over 0 */
    double stack_m3_per_s_sqrtk; /* flow per square root of (T_i − T_o)/T_o[K] */
    double leak_m3_per_s;        /* flow that needs no warmth; over 0 */
} CabinetModel;

/* A fire in it: the fronts of one bed, all alike. */
typedef struct CabinetFire {
    const Bed *bed; /* NULL: nothing burns */
    double pace;
    double moistures[2]; /* ahead of each front */
    int fronts;          /* 1 or 2 */
} CabinetFire;

typedef struct CabinetAir {
    double temp_c;
    double humidity;      /* 0 to 1; 1: water condenses */
    double tray_humidity; /* of the air about the tray */
    double flow_m3_per_s; /* of outside air through the cabinet */
    double flow_kg_per_s;
    double fuel_kg_per_s; /* burnt, dry */
    double power_w;
    double water_kg_per_s;      /* given to the air by the fire */
    double water_in, water_out; /* kg per kg dry air; out before any condenses */
    double speed_mps[2];
} CabinetAir;

/* Heat passed by a kind of wall, W/m² K. */
double cabinet_wall_w_m2k(CabinetWall wall);

/* NULL: no cabinet, the tray lies in the outside air. */
CabinetModel cabinet_model(const Cabinet *cabinet);

/* The air inside with a fire whose speed depends on that air. Bisection guards the Newton steps,
 * so that it always ends; to 1e-9 K. */
CabinetAir cabinet_air(const CabinetModel *model, OutsideAir outside, const CabinetFire *fire);

#endif
