#include "model/cabinet.h"

#include "model/air.h"
#include "model/bounds.h"
#include "model/fire_constants.h"
#include "model/front.h"

#include <math.h>

/* Heat through walls, W/m² K, still air on both sides (building physics tables, from memory):
 * 20 mm board, single sheet, 40 mm of insulation, half a brick, double corrugated board. */
static const double WALL_W_M2K[] = {
    [CABINET_WOOD] = 3.0,  [CABINET_STEEL] = 5.8,     [CABINET_INSULATED] = 0.8,
    [CABINET_BRICK] = 3.2, [CABINET_CARDBOARD] = 4.0,
};
/* Flow through a sharp-edged opening (textbook, from memory). */
static const double DISCHARGE = 0.6;
static const double GRAVITY_M_S2 = 9.81;
/* Air that a cabinet with shut vents still changes through its joints, times its volume per hour
 * (common practice, no source). */
static const double LEAK_PER_H = 2.0;
/* Specific heat of air, J/kg K (from memory). */
static const double AIR_J_PER_KG_K = 1006.0;
/* Share of the fire's water that the tray's own air carries. The tray stands low, by the inlet, and
 * its plume takes the water upwards: judgement. With 1 every tray in a closed cabinet would lie in
 * near-saturated air, and overnight burns that are everyday practice would die. */
static const double TRAY_WATER_SHARE = 0.25;
static const double ZERO_C_K = 273.15;
static const double HOTTEST_RISE_K = 1000;

double cabinet_wall_w_m2k(CabinetWall wall) {
    size_t kinds = sizeof WALL_W_M2K / sizeof *WALL_W_M2K;
    return WALL_W_M2K[(size_t)wall < kinds ? (size_t)wall : 0];
}

static double opening_m2(const Cabinet *cabinet) {
    double in_m2 = fmax(cabinet->inlet_m2, 0);
    double out_m2 = fmax(cabinet->outlet_m2, 0);
    double both = hypot(in_m2, out_m2);
    return both > 0 ? in_m2 * out_m2 / both : 0;
}

CabinetModel cabinet_model(const Cabinet *cabinet) {
    if (!cabinet) {
        return (CabinetModel){.stated = false};
    }
    double w = cabinet->width_m, d = cabinet->depth_m, h = cabinet->height_m;
    double wall_w_m2k = isnan(cabinet->wall_w_m2k) ? cabinet_wall_w_m2k(cabinet->wall)
                                                   : cabinet->wall_w_m2k;
    double rise_m = isnan(cabinet->rise_m) ? h : fmax(cabinet->rise_m, 0);
    return (CabinetModel){
        .stated = true,
        .wall_w_per_k = fmax(wall_w_m2k * 2 * (w * d + w * h + d * h), 1e-3),
        .stack_m3_per_s_sqrtk = DISCHARGE * opening_m2(cabinet) * sqrt(2 * GRAVITY_M_S2 * rise_m),
        .leak_m3_per_s = fmax(w * d * h, 1e-3) * LEAK_PER_H / 3600,
    };
}

/* Outside air as the balances use it. */
typedef struct Inflow {
    double temp_k;
    double vapour_pa;
    double density_kg_m3;
} Inflow;

static Inflow inflow_of(OutsideAir outside) {
    double vapour_pa = air_vapour_pressure_pa(outside.temp_c, outside.humidity);
    double density = air_density_kg_m3(outside.temp_c, vapour_pa, AIR_PRESSURE_SEA_LEVEL_PA);
    return (Inflow){outside.temp_c + ZERO_C_K, vapour_pa, density};
}

static double flow_m3_per_s(const CabinetModel *model, const Inflow *inflow, double rise_k) {
    return model->leak_m3_per_s + model->stack_m3_per_s_sqrtk * sqrt(rise_k / inflow->temp_k);
}

/* Heat carried off at a rise, W, and its slope, W/K. */
static double heat_lost(const CabinetModel *model, const Inflow *inflow, double rise_k,
                        double *slope) {
    double per_m3 = inflow->density_kg_m3 * AIR_J_PER_KG_K;
    double steady = model->wall_w_per_k + per_m3 * model->leak_m3_per_s;
    double stack = per_m3 * model->stack_m3_per_s_sqrtk * sqrt(rise_k / inflow->temp_k);
    *slope = steady + 1.5 * stack;
    return (steady + stack) * rise_k;
}

/* Fuel burnt per second with the bed at that temperature, kg dry. */
static double fuel_burnt(const CabinetFire *fire, double temp_c, double speed_mps[2]) {
    double fuel = 0;
    for (int front = 0; fire->bed && front < fire->fronts; front++) {
        speed_mps[front] = front_speed_mps(fire->bed, fire->pace, fire->moistures[front], temp_c);
        fuel += speed_mps[front] * fire->bed->dry_kg_per_m;
    }
    return fuel;
}

/* The rise at which the fire's heat is carried off. The fire grows by about 2 in 1000 a kelvin, so
 * that Newton on the loss alone closes in fast; bounds keep it safe. */
static double rise_with_fire(const CabinetModel *model, const Inflow *inflow, double outside_c,
                             const CabinetFire *fire, double speed_mps[2]) {
    double low = 0;
    double high = HOTTEST_RISE_K;
    double rise_k = 2;
    for (int turn = 0; turn < 100; turn++) {
        double slope;
        double power = FIRE_HEAT_RELEASED_J_PER_KG *
                       fuel_burnt(fire, outside_c + rise_k, speed_mps);
        double off = heat_lost(model, inflow, rise_k, &slope) - power;
        if (off > 0) {
            high = rise_k;
        } else {
            low = rise_k;
        }
        double next = rise_k - off / slope;
        next = next >= low && next <= high ? next : (low + high) / 2;
        double moved = fabs(next - rise_k);
        rise_k = next;
        if (moved < 1e-9) {
            break;
        }
    }
    return rise_k;
}

static double humidity_of(double temp_c, double ratio) {
    return air_humidity(temp_c,
                        air_vapour_pressure_from_ratio_pa(ratio, AIR_PRESSURE_SEA_LEVEL_PA));
}

static void moisten(const Inflow *inflow, const CabinetFire *fire, CabinetAir *air) {
    double dry_kg_per_s = 0;
    air->water_kg_per_s = 0;
    for (int front = 0; fire->bed && front < fire->fronts; front++) {
        double fuel = air->speed_mps[front] * fire->bed->dry_kg_per_m;
        air->water_kg_per_s += fuel * (FIRE_WATER_MADE_KG_PER_KG + fire->moistures[front]);
    }
    air->water_in = air_humidity_ratio(inflow->vapour_pa, AIR_PRESSURE_SEA_LEVEL_PA);
    dry_kg_per_s = air->flow_kg_per_s / (1 + air->water_in);
    double gained = air->water_kg_per_s / dry_kg_per_s;
    air->water_out = air->water_in + gained;
    air->humidity = humidity_of(air->temp_c, air->water_out);
    air->tray_humidity = humidity_of(air->temp_c, air->water_in + TRAY_WATER_SHARE * gained);
}

CabinetAir cabinet_air(const CabinetModel *model, OutsideAir outside, const CabinetFire *fire) {
    CabinetAir air = {
        .temp_c = outside.temp_c, .humidity = outside.humidity, .tray_humidity = outside.humidity};
    Inflow inflow = inflow_of(outside);
    if (model->stated) {
        double rise_k = rise_with_fire(model, &inflow, outside.temp_c, fire, air.speed_mps);
        air.temp_c = outside.temp_c + rise_k;
        air.flow_m3_per_s = flow_m3_per_s(model, &inflow, rise_k);
        air.flow_kg_per_s = air.flow_m3_per_s * inflow.density_kg_m3;
    }
    air.fuel_kg_per_s = fuel_burnt(fire, air.temp_c, air.speed_mps);
    air.power_w = air.fuel_kg_per_s * FIRE_HEAT_RELEASED_J_PER_KG;
    if (model->stated) {
        moisten(&inflow, fire, &air);
    }
    return air;
}
