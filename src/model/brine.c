#include "model/brine.h"

#include "base/salometer.h"

/* Water at 20 °C, and how much heavier salt makes it: a parabola through the seafood training
 * table; the CRC Handbook's 1070.7 and 1147.8 kg/m3 of 10 and 20 % (from memory) lie within 1. */
static const double water_kg_m3 = 998.2;
static const double heavier_kg_m3 = 700;
static const double heavier_still_kg_m3 = 262;

double brine_strength(double degrees) {
    return SALOMETER_SATURATED * degrees / SALOMETER_DEGREES;
}

double brine_degrees(double strength) {
    return strength / SALOMETER_SATURATED * SALOMETER_DEGREES;
}

double brine_salt_per_water(double strength) {
    return strength / (1 - strength);
}

double brine_strength_made(double salt_kg, double water_kg) {
    return salt_kg / (salt_kg + water_kg);
}

double brine_density_kg_m3(double strength) {
    return water_kg_m3 + strength * (heavier_kg_m3 + heavier_still_kg_m3 * strength);
}
