#include "model/cabinet.h"

#include "model/air.h"
#include "model/bounds.h"
#include "model/fire_constants.h"
#include "model/front.h"
#include "model/wall.h"

#include <math.h>

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
/* Wind at the height of a vent, some 1.5 m, over that at 10 m: ln(1.5/0.03)/ln(10/0.03), the
 * logarithmic law over open ground (textbook, from memory). */
static const double WIND_AT_CABINET = 0.673;
/* Pressure between the windward and the leeward side, over half the density times speed squared:
 * Liddament, A guide to energy efficient ventilation (AIVC 1996), low buildings about as long as
 * wide. Half open: +0.4 and -0.2 (table 2.2, looked up); sheltered: +0.2 and -0.25, open: +0.7 and
 * -0.2 (tables 2.3 and 2.1, from memory). A cabinet is no house: judgement. */
static const double WIND_PRESSURE[] = {
    [EXPOSURE_SHELTERED] = 0.45,
    [EXPOSURE_HALF_OPEN] = 0.6,
    [EXPOSURE_OPEN] = 0.9,
};
static const double ZERO_C_K = 273.15;
static const double HOTTEST_RISE_K = 1000;

static double opening_m2(const Cabinet *cabinet) {
    double in_m2 = fmax(cabinet->inlet_m2, 0);
    double out_m2 = fmax(cabinet->outlet_m2, 0);
    double both = hypot(in_m2, out_m2);
    return both > 0 ? in_m2 * out_m2 / both : 0;
}

static double wind_pressure(CabinetExposure exposure) {
    size_t kinds = sizeof WIND_PRESSURE / sizeof *WIND_PRESSURE;
    return WIND_PRESSURE[(size_t)exposure < kinds ? (size_t)exposure : 0];
}

CabinetModel cabinet_model(const Cabinet *cabinet) {
    if (!cabinet) {
        return (CabinetModel){.stated = false};
    }
    double w = cabinet->width_m, d = cabinet->depth_m, h = cabinet->height_m;
    bool own = !isnan(cabinet->wall_w_m2k);
    double rise_m = isnan(cabinet->rise_m) ? h : fmax(cabinet->rise_m, 0);
    return (CabinetModel){
        .stated = true,
        .wall_m2 = fmax(2 * (w * d + w * h + d * h), 1e-3),
        .wall_m2k_w = own ? 1 / fmax(cabinet->wall_w_m2k, 1e-3) : wall_m2k_w(cabinet->wall),
        .film = !own,
        .opening_m2 = DISCHARGE * opening_m2(cabinet),
        .inlet_m2 = fmax(cabinet->inlet_m2, 0),
        .stack_m2_s2 = 2 * GRAVITY_M_S2 * rise_m,
        .wind_share = WIND_AT_CABINET,
        .wind_pressure = wind_pressure(cabinet->exposure),
        .leak_m3_per_s = fmax(w * d * h, 1e-3) * LEAK_PER_H / SECONDS_PER_HOUR,
    };
}

double cabinet_wall_w_per_k(const CabinetModel *model, double wind_mps) {
    double film = model->film ? wall_outside_film_m2k_w(model->wind_share * wind_mps) : 0;
    return model->wall_m2 / (model->wall_m2k_w + film);
}

/* Outside air as the balances use it. */
typedef struct Inflow {
    double temp_c, temp_k;
    double vapour_pa;
    double density_kg_m3;
    double water;           /* kg per kg dry air */
    double oxygen_j_per_m3; /* heat that its oxygen would give */
    double wind_head_m2_s2; /* over half the density: pressure of the wind */
    double wall_w_per_k;
} Inflow;

static Inflow inflow_of(const CabinetModel *model, OutsideAir outside) {
    double vapour_pa = air_vapour_pressure_pa(outside.temp_c, outside.humidity);
    double density = air_density_kg_m3(outside.temp_c, vapour_pa, AIR_PRESSURE_SEA_LEVEL_PA);
    double water = air_humidity_ratio(vapour_pa, AIR_PRESSURE_SEA_LEVEL_PA);
    double wind_mps = fmax(outside.wind_mps, 0);
    double blows_mps = model->wind_share * wind_mps;
    return (Inflow){.temp_c = outside.temp_c,
                    .temp_k = outside.temp_c + ZERO_C_K,
                    .vapour_pa = vapour_pa,
                    .density_kg_m3 = density,
                    .water = water,
                    .oxygen_j_per_m3 = density / (1 + water) * FIRE_OXYGEN_MASS_SHARE *
                                       FIRE_OXYGEN_J_PER_KG,
                    .wind_head_m2_s2 = model->wind_pressure * blows_mps * blows_mps,
                    .wall_w_per_k = cabinet_wall_w_per_k(model, wind_mps)};
}

/* Flow through the vents at a rise, m³/s, and its slope per kelvin; in still air that slope is
 * without end at no rise, and then given as 0. */
static double vent_m3_per_s(const CabinetModel *model, const Inflow *inflow, double rise_k,
                            double *slope) {
    double head = model->stack_m2_s2 * rise_k / inflow->temp_k + inflow->wind_head_m2_s2;
    double root = sqrt(head);
    *slope = root > 0 ? model->opening_m2 * model->stack_m2_s2 / inflow->temp_k / (2 * root) : 0;
    return model->opening_m2 * root;
}

/* Fuel burnt per second, kg dry, with the bed at that temperature and so much of the glow's heat
 * left by the air's oxygen. */
static double fuel_burnt(const CabinetFire *fire, double temp_c, double left, double speed_mps[2]) {
    double fuel = 0;
    for (int front = 0; fire->bed && front < fire->fronts; front++) {
        speed_mps[front] =
            left * front_speed_mps(fire->bed, fire->speed_factor, fire->moistures[front], temp_c);
        fuel += speed_mps[front] * fire->bed->dry_kg_per_m;
    }
    return fuel;
}

static double heat_of(const CabinetFire *fire) {
    return fire->rich ? FIRE_HEAT_RICH_J_PER_KG : FIRE_HEAT_RELEASED_J_PER_KG;
}

/* State of the balance at a rise. */
typedef struct Balance {
    double over_w; /* heat carried off less heat given */
    double slope;  /* of that, W/K; the little by which the fire grows with warmth left out */
    double left;   /* of the oxygen */
} Balance;

static Balance balance_at(const CabinetModel *model, const Inflow *inflow, const CabinetFire *fire,
                          double rise_k) {
    double speed_mps[2];
    double flow_slope;
    double flow = model->leak_m3_per_s + vent_m3_per_s(model, inflow, rise_k, &flow_slope);
    double per_m3 = inflow->density_kg_m3 * AIR_J_PER_KG_K;
    double fresh_w = heat_of(fire) * fuel_burnt(fire, inflow->temp_c + rise_k, 1, speed_mps);
    double air_w = inflow->oxygen_j_per_m3 * flow;
    double left = air_w / (air_w + fresh_w);
    double lost = (inflow->wall_w_per_k + per_m3 * flow) * rise_k;
    double power_slope = (1 - left) * (1 - left) * inflow->oxygen_j_per_m3 * flow_slope;
    return (Balance){.over_w = lost - left * fresh_w,
                     .slope = inflow->wall_w_per_k + per_m3 * (flow + flow_slope * rise_k) -
                              power_slope,
                     .left = left};
}

/* The rise at which the fire's heat is carried off, and the oxygen left then. The loss is convex in
 * the rise and the power concave, so that there is one such rise. The fire grows by about 2 in 1000
 * a kelvin, so that Newton without that closes in fast; bounds keep it safe. */
static double rise_with_fire(const CabinetModel *model, const Inflow *inflow,
                             const CabinetFire *fire, double *left) {
    double low = 0;
    double high = HOTTEST_RISE_K;
    double rise_k = 2;
    for (int turn = 0; turn < 100; turn++) {
        Balance balance = balance_at(model, inflow, fire, rise_k);
        if (balance.over_w > 0) {
            high = rise_k;
        } else {
            low = rise_k;
        }
        double next = rise_k - balance.over_w / balance.slope;
        next = balance.slope > 0 && next >= low && next <= high ? next : (low + high) / 2;
        double moved = fabs(next - rise_k);
        rise_k = next;
        *left = balance.left;
        if (moved < 1e-9) {
            break;
        }
    }
    return rise_k;
}

/* Vapour over that which saturates. */
static double wetness_of(double temp_c, double ratio) {
    return air_vapour_pressure_from_ratio_pa(ratio, AIR_PRESSURE_SEA_LEVEL_PA) /
           air_saturation_over_water_pa(temp_c);
}

/* Water ratio with a product that gives off the more the drier the air is, and nothing to air that
 * is saturated: the usual loss times the air's deficit over that of the usual humidity. */
static double with_product(const CabinetModel *model, double temp_c, double dry_kg_per_s,
                           double ratio) {
    double saturated =
        air_humidity_ratio(air_saturation_over_water_pa(temp_c), AIR_PRESSURE_SEA_LEVEL_PA);
    double gives = model->product_kg_per_s / (saturated * (1 - CABINET_USUAL_HUMIDITY));
    return ratio + fmax(saturated - ratio, 0) * gives / (dry_kg_per_s + gives);
}

static void moisten(const CabinetModel *model, const Inflow *inflow, const CabinetFire *fire,
                    CabinetAir *air) {
    air->water_kg_per_s = 0;
    for (int front = 0; fire->bed && front < fire->fronts; front++) {
        double fuel = air->speed_mps[front] * fire->bed->dry_kg_per_m;
        air->water_kg_per_s += fuel * (FIRE_WATER_MADE_KG_PER_KG + fire->moistures[front]);
    }
    air->water_in = inflow->water;
    double dry_kg_per_s = air->flow_kg_per_s / (1 + air->water_in);
    double burnt = air->water_in + air->water_kg_per_s / dry_kg_per_s;
    air->water_out = with_product(model, air->temp_c, dry_kg_per_s, burnt);
    air->product_kg_per_s = (air->water_out - burnt) * dry_kg_per_s;
    air->wetness = wetness_of(air->temp_c, air->water_out);
    air->humidity = fmin(air->wetness, 1);
    double about_tray = air->water_in + TRAY_WATER_SHARE * (air->water_out - air->water_in);
    air->tray_humidity = fmin(wetness_of(air->temp_c, about_tray), 1);
}

CabinetAir cabinet_air(const CabinetModel *model, OutsideAir outside, const CabinetFire *fire) {
    CabinetAir air = {.temp_c = outside.temp_c,
                      .humidity = outside.humidity,
                      .wetness = outside.humidity,
                      .tray_humidity = outside.humidity,
                      .oxygen_factor = 1};
    Inflow inflow = {0};
    if (model->stated) {
        double slope;
        inflow = inflow_of(model, outside);
        double rise_k = rise_with_fire(model, &inflow, fire, &air.oxygen_factor);
        double vent = vent_m3_per_s(model, &inflow, rise_k, &slope);
        air.temp_c = outside.temp_c + rise_k;
        air.vent_mps = model->inlet_m2 > 0 ? vent / model->inlet_m2 : 0;
        air.flow_m3_per_s = model->leak_m3_per_s + vent;
        air.flow_kg_per_s = air.flow_m3_per_s * inflow.density_kg_m3;
    }
    air.oxygen = FIRE_OXYGEN_FRESH * air.oxygen_factor;
    air.fuel_kg_per_s = fuel_burnt(fire, air.temp_c, air.oxygen_factor, air.speed_mps);
    air.power_w = air.fuel_kg_per_s * heat_of(fire);
    if (model->stated) {
        moisten(model, &inflow, fire, &air);
    }
    return air;
}
