/* Cabinet: the air inside while the tray smoulders.
 *
 * Steady balance at every moment (a cabinet's air changes in minutes, a burn takes hours):
 *   heat:   P = U A (T_i − T_o) + m c_p (T_i − T_o), U by ISO 6946 (model/wall.h)
 *   flow:   m = rho_o [C_d A* sqrt(2 g H (T_i − T_o)/T_o + dC_p v²) + leak],
 *           A* = 1/sqrt(1/A_in² + 1/A_out²)      (stack effect and wind, textbook; from memory)
 *   oxygen: x = x_o (1 − P/P_air), P_air the heat that all oxygen of the flow would give at
 *           13.1 MJ/kg; the glow's speed and heat go with x/x_o, so that
 *           P = P_fresh P_air/(P_fresh + P_air)
 *   water:  w_i = w_o + (water of the fuel + water of burning + what the product loses)/m
 * The heat of the vapour itself is left out (under 2 % of P), and so is the fall of the dry volume
 * by the oxygen that leaves as water (x comes out under 1 % of itself too low). Wind is taken as
 * helping the stack; a vent on the wrong side can work against it, which is left out. */
#ifndef MODEL_CABINET_H
#define MODEL_CABINET_H

#include "domain/cabinet.h"
#include "model/bed.h"
#include "model/weather.h"

/* What a cabinet does to its air: conductances only. */
typedef struct CabinetModel {
    bool stated;
    double wall_m2;
    double wall_m2k_w;    /* resistance: of the wall and its inner film, or all of a stated one */
    bool film;            /* whether the outer film is to be added */
    double opening_m2;    /* C_d A* */
    double inlet_m2;      /* free area of the lower vent */
    double stack_m2_s2;   /* 2 g H: head per (T_i − T_o)/T_o[K] */
    double wind_share;    /* of the wind that weather services give: what blows at the vent */
    double wind_pressure; /* dC_p between the vents */
    double leak_m3_per_s; /* flow that needs no warmth; over 0 */
    double product_kg_per_s; /* water that the product loses in air of CABINET_USUAL_HUMIDITY */
} CabinetModel;

/* Air in which a product loses what is usual for its kind (common practice, no source). */
#define CABINET_USUAL_HUMIDITY 0.75

/* A fire in it: the fronts of one bed, all alike. */
typedef struct CabinetFire {
    const Bed *bed; /* NULL: nothing burns */
    double speed_factor;
    double moistures[2]; /* ahead of each front */
    int fronts;          /* 1 or 2 */
    bool rich;           /* gives as much heat as smoulder was ever measured to */
} CabinetFire;

typedef struct CabinetAir {
    double temp_c;
    double humidity;      /* 0 to 1; 1: water condenses */
    double wetness;       /* the same, over 1 by what condenses */
    double tray_humidity; /* of the air about the tray */
    double oxygen;        /* share of the dry volume; fresh air: FIRE_OXYGEN_FRESH */
    double oxygen_factor; /* that over fresh air's: what is left of the glow's heat, 0 to 1 */
    double vent_mps;      /* air in the lower vent */
    double flow_m3_per_s; /* of outside air through the cabinet */
    double flow_kg_per_s;
    double fuel_kg_per_s; /* burnt, dry */
    double power_w;
    double water_kg_per_s;      /* given to the air by the fire */
    double product_kg_per_s;    /* and by the product */
    double water_in, water_out; /* kg per kg dry air; out before any condenses */
    double speed_mps[2];
} CabinetAir;

/* NULL: no cabinet, the tray lies in the outside air. Of the product it knows nothing yet. */
CabinetModel cabinet_model(const Cabinet *cabinet);

/* Heat that a kelvin drives through all walls in that wind, W/K. */
double cabinet_wall_w_per_k(const CabinetModel *model, double wind_mps);

/* The air inside with a fire whose speed depends on that air. Bisection guards the Newton steps,
 * so that it always ends; to 1e-9 K. Under a roof the wind has to be left out of `outside`. */
CabinetAir cabinet_air(const CabinetModel *model, OutsideAir outside, const CabinetFire *fire);

#endif
