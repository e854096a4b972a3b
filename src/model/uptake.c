#include "model/uptake.h"

#include "base/pi.h"
#include "model/air.h"
#include "model/bounds.h"
#include "model/fire_constants.h"
#include "model/wood.h"

static const double SMALL_HUMIDITY = 1e-4;

/* Newton from the better of the two ends, kept between bounds that close in. */
double uptake_bed_humidity(double temp_c, double moisture) {
    double low = 0;
    double high = 1;
    if (!(moisture > 0)) {
        return 0;
    }
    if (moisture >= wood_equilibrium_moisture(temp_c, high)) {
        return 1;
    }
    double humidity = clamp(moisture * 5, 0.02, 0.95);
    for (int turn = 0; turn < 60 && high - low > 1e-10; turn++) {
        double off = wood_equilibrium_moisture(temp_c, humidity) - moisture;
        if (off > 0) {
            high = humidity;
        } else {
            low = humidity;
        }
        double next = humidity - off / wood_equilibrium_slope(temp_c, humidity);
        next = next > low && next < high ? next : (low + high) / 2;
        if (fabs(next - humidity) < 1e-10) {
            return next;
        }
        humidity = next;
    }
    return humidity;
}

/* Mean slope dM/dh between the bed's own humidity and the air's. */
static double mean_slope(double temp_c, double moisture, double air_moisture, double humidity) {
    double bed = uptake_bed_humidity(temp_c, moisture);
    double apart = humidity - bed;
    if (fabs(apart) > SMALL_HUMIDITY) {
        return (air_moisture - moisture) / apart;
    }
    return wood_equilibrium_slope(temp_c, clamp((humidity + bed) / 2, 0, 1));
}

/* The time constant, with the equilibrium already known. */
static double time_constant_s(const WaitingBed *bed, double moisture, double temp_c,
                              double air_moisture, double humidity) {
    double slope = mean_slope(temp_c, moisture, air_moisture, humidity);
    double saturation_kg_m3 =
        air_vapour_density_kg_m3(temp_c, air_saturation_over_water_pa(temp_c));
    double depth_m2 = bed->depth_m * bed->depth_m;
    double held = bed->dry_kg_m3 * slope / saturation_kg_m3;
    return depth_m2 * held / (PI * PI / 4 * FIRE_BED_DIFFUSION_M2_S) + FIRE_GRAIN_LAG_S;
}

double uptake_rate_per_s(const WaitingBed *bed, double moisture, double temp_c, double humidity,
                         double *time_s) {
    double share = clamp(humidity, 0, 1);
    double air_moisture = wood_equilibrium_moisture(temp_c, share);
    double tau_s = time_constant_s(bed, moisture, temp_c, air_moisture, share);
    if (time_s) {
        *time_s = tau_s;
    }
    return (air_moisture - moisture) / tau_s;
}

double uptake_time_s(const WaitingBed *bed, double moisture, double temp_c, double humidity) {
    double tau_s;
    uptake_rate_per_s(bed, moisture, temp_c, humidity, &tau_s);
    return tau_s;
}

static double step(const WaitingBed *bed, double moisture, double temp_c, double humidity,
                   double step_s) {
    double a = uptake_rate_per_s(bed, moisture, temp_c, humidity, NULL);
    double b = uptake_rate_per_s(bed, moisture + a * step_s / 2, temp_c, humidity, NULL);
    double c = uptake_rate_per_s(bed, moisture + b * step_s / 2, temp_c, humidity, NULL);
    double d = uptake_rate_per_s(bed, moisture + c * step_s, temp_c, humidity, NULL);
    return moisture + step_s / 6 * (a + 2 * b + 2 * c + d);
}

double uptake_after(const WaitingBed *bed, double moisture, double temp_c, double humidity,
                    double time_s) {
    double end = wood_equilibrium_moisture(temp_c, humidity);
    double now = moisture;
    double left_s = time_s;
    for (int turn = 0; turn < 400 && left_s > 0; turn++) {
        if (fabs(end - now) < 1e-9) {
            break;
        }
        double step_s = fmin(left_s, uptake_time_s(bed, now, temp_c, humidity) / 4);
        now = step(bed, now, temp_c, humidity, step_s);
        left_s -= step_s;
    }
    return clamp(now, fmin(moisture, end), fmax(moisture, end));
}
