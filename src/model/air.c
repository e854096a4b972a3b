#include "model/air.h"

#include "model/bounds.h"

#include <math.h>

#define KELVIN_AT_0_C 273.15
#define WATER_PER_AIR_MOLAR 0.621945 /* kg/mol per kg/mol; ASHRAE Fundamentals ch. 1 */
#define GAS_CONSTANT_AIR 287.042     /* J/kg K, dry air; ASHRAE Fundamentals ch. 1 */
#define GAS_CONSTANT_VAPOUR (GAS_CONSTANT_AIR / WATER_PER_AIR_MOLAR) /* J/kg K */
#define VAPOUR_SHARE_MAX 0.99 /* of the pressure; keeps the ratio finite */
#define PRESSURE_MIN_PA 1.0   /* keeps divisions by the pressure finite */
#define PRESSURE_MAX_PA 1e7   /* far above any that this is used for */
#define RATIO_MAX 100.0       /* kg/kg; VAPOUR_SHARE_MAX stands for 62 */

/* IAPWS-IF97 (2007), Table 34: coefficients of the saturation equation, p in MPa, T in K. */
static const double region_4[] = {0.11670521452767e4,  -0.72421316703206e6, -0.17073846940092e2,
                                  0.12020824702470e5,  -0.32325550322333e7, 0.14915108613530e2,
                                  -0.48232657361591e4, 0.40511340542057e6,  -0.23855557567849,
                                  0.65017534844798e3};

static double kelvin(double temp_c) {
    return clamp(temp_c, AIR_TEMP_MIN_C, AIR_TEMP_MAX_C) + KELVIN_AT_0_C;
}

static double pressure(double pressure_pa) {
    return clamp(pressure_pa, PRESSURE_MIN_PA, PRESSURE_MAX_PA);
}

/* IAPWS-IF97 eq. 30, 273.15–647.096 K. */
static double saturation_if97_pa(double temp_k) {
    const double *n = region_4;
    double theta = temp_k + n[8] / (temp_k - n[9]);
    double a = theta * theta + n[0] * theta + n[1];
    double b = n[2] * theta * theta + n[3] * theta + n[4];
    double c = n[5] * theta * theta + n[6] * theta + n[7];
    double root = 2 * c / (-b + sqrt(b * b - 4 * a * c));
    return 1e6 * pow(root, 4);
}

/* Murphy & Koop 2005, Q. J. R. Meteorol. Soc. 131, 1539–1565, eq. 10: Pa, 123–332 K. */
static double saturation_supercooled_pa(double temp_k) {
    double log_k = log(temp_k);
    double high = 54.842763 - 6763.22 / temp_k - 4.210 * log_k + 0.000367 * temp_k;
    double low = 53.878 - 1331.22 / temp_k - 9.44523 * log_k + 0.014025 * temp_k;
    return exp(high + tanh(0.0415 * (temp_k - 218.8)) * low);
}

double air_saturation_over_water_pa(double temp_c) {
    double temp_k = kelvin(temp_c);
    return temp_k >= KELVIN_AT_0_C ? saturation_if97_pa(temp_k) : saturation_supercooled_pa(temp_k);
}

double air_vapour_pressure_pa(double temp_c, double humidity) {
    return clamp(humidity, 0, 1) * air_saturation_over_water_pa(temp_c);
}

double air_humidity(double temp_c, double vapour_pa) {
    return clamp(vapour_pa / air_saturation_over_water_pa(temp_c), 0, 1);
}

double air_humidity_at(double temp_c, double humidity, double other_temp_c) {
    return air_humidity(other_temp_c, air_vapour_pressure_pa(temp_c, humidity));
}

double air_humidity_ratio(double vapour_pa, double pressure_pa) {
    double share = clamp(vapour_pa / pressure(pressure_pa), 0, VAPOUR_SHARE_MAX);
    return WATER_PER_AIR_MOLAR * share / (1 - share);
}

double air_vapour_pressure_from_ratio_pa(double humidity_ratio, double pressure_pa) {
    double ratio = clamp(humidity_ratio, 0, RATIO_MAX);
    return pressure(pressure_pa) * ratio / (WATER_PER_AIR_MOLAR + ratio);
}

double air_density_kg_m3(double temp_c, double vapour_pa, double pressure_pa) {
    double whole = pressure(pressure_pa);
    double vapour = clamp(vapour_pa, 0, whole);
    return ((whole - vapour) / GAS_CONSTANT_AIR + vapour / GAS_CONSTANT_VAPOUR) / kelvin(temp_c);
}

double air_vapour_density_kg_m3(double temp_c, double vapour_pa) {
    return clamp(vapour_pa, 0, PRESSURE_MAX_PA) / (GAS_CONSTANT_VAPOUR * kelvin(temp_c));
}
