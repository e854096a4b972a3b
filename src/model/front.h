/* Front: how fast the smouldering zone moves along a bed. */
#ifndef MODEL_FRONT_H
#define MODEL_FRONT_H

#include "model/bed.h"

/* Heat to bring a kilogram of dry fuel with its water from the air's temperature to that of the
 * smouldering zone, J per kg dry:
 *   c_wood (T_s − T) + M [c_water (100 − T) + L + c_steam (T_s − 100)].
 * Moisture on dry basis, 0…2; temperature −50…99 °C (outside: the nearer end). */
double front_heat_needed_j_per_kg(double moisture, double temp_c);

/* Speed in m/s: v_ref · speed factor · (rho_ref need_ref)/(rho need(M, T)) · a/a_ref, where a is
 * the side open to air over the section's area. Oxygen sets the heat and heat the speed, so
 * the mass burnt per hour barely depends on how hard the dust is packed. Over 0, finite. */
double front_speed_mps(const Bed *bed, double speed_factor, double moisture, double temp_c);

#endif
