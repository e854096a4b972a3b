#include "model/drying.h"

#include "model/air.h"
#include "model/bounds.h"
#include "model/fire_constants.h"
#include "model/wood.h"

#include <math.h>

static const double PSYCHROMETER_PA_K = 66.0;
/* Heat to evaporate water at 40 to 80 °C, J/kg (steam tables, from memory). */
static const double EVAPORATION_J_PER_KG = 2.36e6;
/* Wood gives up its last water unwillingly: heat of sorption, at no moisture and how fast it falls
 * with moisture: 1.17e6 exp(−14 M) J/kg (Wood Handbook's figure of about half the heat of
 * evaporation when dry, from memory). */
static const double SORPTION_J_PER_KG = 1.17e6;
static const double SORPTION_FALL = 14.0;
static const double LONGEST_S = SECONDS_PER_DAY;
/* Bed temperatures per path; the last stands this far below the oven's. */
enum { POINTS = 40 };
static const double NEAREST_K = 0.02;

double drying_transfer_w_m2k(const Oven *oven) {
    double stated = oven->heat_transfer_w_m2k;
    return isnan(stated) ? (oven->fan ? 18 : 11) : clamp(stated, 1, 500);
}

/* The drying as a path: moisture and time at rising bed temperatures. */
typedef struct DryingPath {
    int count;
    double moisture[POINTS + 2];
    double time_s[POINTS + 2];
} DryingPath;

static double oven_temp_c(const DryingLoad *load) {
    return clamp(load->oven_c, 40, 160);
}

/* Water activity that the oven sustains at a bed temperature; over 1: more than a wet bed gives. */
static double activity(const DryingLoad *load, double bed_c) {
    double feed_pa = PSYCHROMETER_PA_K * (oven_temp_c(load) - bed_c) + load->air_vapour_pa;
    return feed_pa / air_saturation_over_water_pa(bed_c);
}

/* Moisture of a bed that evaporates in balance at that temperature. Falls as it rises. */
static double moisture_at(const DryingLoad *load, double bed_c) {
    double share = activity(load, bed_c);
    return wood_equilibrium_moisture(bed_c, clamp(share, 0, 1));
}

/* Temperature from which a bed of the load's moisture starts to dry. */
static double first_temp_c(const DryingLoad *load) {
    double low = clamp(load->start_c, -30, oven_temp_c(load) - 2 * NEAREST_K);
    double high = oven_temp_c(load) - NEAREST_K;
    for (int turn = 0; turn < 40; turn++) {
        double middle = (low + high) / 2;
        bool wetter = activity(load, middle) > 1 || moisture_at(load, middle) > load->moisture;
        if (wetter) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}

static double heat_capacity(const DryingLoad *load, double moisture) {
    return load->dry_kg * (FIRE_WOOD_J_PER_KG_K + moisture * FIRE_WATER_J_PER_KG_K) +
           load->metal_kg * FIRE_STEEL_J_PER_KG_K;
}

static double evaporation(double moisture) {
    return EVAPORATION_J_PER_KG + SORPTION_J_PER_KG * exp(-SORPTION_FALL * moisture);
}

static void path_start(const DryingLoad *load, double first_c, DryingPath *path) {
    double feed = load->transfer_w_m2k * load->area_m2;
    double oven = oven_temp_c(load);
    double from_k = fmax(oven - clamp(load->start_c, -30, oven - NEAREST_K), NEAREST_K);
    double to_k = fmin(oven - first_c, from_k);
    double warming_s = heat_capacity(load, load->moisture) / feed * log(from_k / to_k);
    path->moisture[0] = load->moisture;
    path->time_s[0] = warming_s;
    double bound = fmin(moisture_at(load, first_c), load->moisture);
    path->moisture[1] = bound;
    path->time_s[1] = warming_s + load->dry_kg * (load->moisture - bound) *
                                      evaporation(load->moisture) / (feed * to_k);
    path->count = 2;
}

/* Bed temperatures crowd towards the oven's, evenly in the logarithm of what is missing. */
static DryingPath path_of(const DryingLoad *load) {
    DryingPath path;
    double oven = oven_temp_c(load);
    double first_c = first_temp_c(load);
    path_start(load, first_c, &path);
    double feed = load->transfer_w_m2k * load->area_m2;
    double ratio = pow(NEAREST_K / fmax(oven - first_c, 2 * NEAREST_K), 1.0 / POINTS);
    double missing_k = oven - first_c;
    for (int point = 0; point < POINTS; point++) {
        double last = path.moisture[path.count - 1];
        double next_k = missing_k * ratio;
        double moisture = fmin(moisture_at(load, oven - next_k), last);
        double heat = load->dry_kg * (last - moisture) * evaporation((last + moisture) / 2) +
                      heat_capacity(load, moisture) * (missing_k - next_k);
        double mean_k = (missing_k - next_k) / log(missing_k / next_k);
        path.moisture[path.count] = moisture;
        path.time_s[path.count] = path.time_s[path.count - 1] + heat / (feed * mean_k);
        path.count++;
        missing_k = next_k;
    }
    return path;
}

double drying_moisture_after(const DryingLoad *load, double time_s) {
    DryingPath path = path_of(load);
    int after = 0;
    while (after < path.count && path.time_s[after] < time_s) {
        after++;
    }
    if (after == 0 || after == path.count) {
        return path.moisture[after == 0 ? 0 : path.count - 1];
    }
    double step_s = path.time_s[after] - path.time_s[after - 1];
    double share = step_s > 0 ? (time_s - path.time_s[after - 1]) / step_s : 1;
    return path.moisture[after - 1] + share * (path.moisture[after] - path.moisture[after - 1]);
}

double drying_floor(const DryingLoad *load) {
    return drying_moisture_after(load, LONGEST_S);
}

double drying_time_s(const DryingLoad *load, double moisture) {
    if (moisture >= load->moisture) {
        return 0;
    }
    DryingPath path = path_of(load);
    int after = 1;
    while (after < path.count && path.moisture[after] > moisture) {
        after++;
    }
    if (after == path.count) {
        return fmin(path.time_s[path.count - 1], LONGEST_S);
    }
    double step = path.moisture[after - 1] - path.moisture[after];
    double share = step > 0 ? (path.moisture[after - 1] - moisture) / step : 1;
    double time_s = path.time_s[after - 1] + share * (path.time_s[after] - path.time_s[after - 1]);
    return fmin(time_s, LONGEST_S);
}
