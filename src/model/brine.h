/* Brine: its strength by mass and in degrees of the salometer, and what it takes to make it.
 *
 * A degree is a hundredth of saturation at 60 °F (15.6 °C), base/salometer.h. */
#ifndef MODEL_BRINE_H
#define MODEL_BRINE_H

/* Salt as a fraction of the brine's mass, 0 to 0.26395, from degrees, 0 to 100; and back. */
double brine_strength(double degrees);
double brine_degrees(double strength);

/* kg of salt for each kg of water; and the strength of so much salt in so much water, kg. */
double brine_salt_per_water(double strength);
double brine_strength_made(double salt_kg, double water_kg);

/* Density at room temperature, kg/m3, of a strength from 0 to 0.26395: within 0.6 of the seafood
 * training table (tests/reference/brine_salometer.csv), to which it was fitted. */
double brine_density_kg_m3(double strength);

#endif
