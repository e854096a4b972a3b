/* Air: moist air as an ideal mixture of dry air and water vapour.
 *
 * Relative humidity is always over liquid water, below freezing too, as weather services give
 * it (WMO-No. 8, Guide to Instruments and Methods of Observation), as a fraction 0…1. The real-gas
 * enhancement of vapour in air (0.4 % at room temperature) is left out, as it is in the
 * psychrometric tables in common use.
 *
 * All functions are defined for every argument: a temperature outside
 * AIR_TEMP_MIN_C…AIR_TEMP_MAX_C is taken as the nearer end, a humidity outside 0…1 likewise, a
 * total pressure outside 1 Pa…10 MPa likewise, a negative vapour pressure as 0. They are meant
 * for, and checked over, −30…120 °C.
 */
#ifndef MODEL_AIR_H
#define MODEL_AIR_H

/* Range in which the saturation formulas hold. */
#define AIR_TEMP_MIN_C (-100.0)
#define AIR_TEMP_MAX_C 200.0

/* Standard atmosphere at sea level, Pa. ISO 2533. */
#define AIR_PRESSURE_SEA_LEVEL_PA 101325.0

/* Saturation vapour pressure over liquid water, Pa, supercooled below 0 °C.
 * From 0 °C: IAPWS-IF97 region 4. Below: Murphy & Koop 2005, equation 10 (123–332 K). The two
 * agree to 2·10⁻⁶ where they meet. */
double air_saturation_over_water_pa(double temp_c);

/* Partial pressure of vapour, Pa, in air of that temperature and relative humidity. */
double air_vapour_pressure_pa(double temp_c, double humidity);

/* Relative humidity, 0…1, of air of that temperature and vapour pressure; 1 when saturated. */
double air_humidity(double temp_c, double vapour_pa);

/* Relative humidity, 0…1, of the same air brought to another temperature at constant pressure
 * with its vapour neither gained nor lost (what condenses on cooling still counts as 1). */
double air_humidity_at(double temp_c, double humidity, double other_temp_c);

/* kg vapour per kg dry air: 0.621945 p_v/(p − p_v). Vapour above 0.99 of the whole pressure,
 * where the ratio runs away, is taken as 0.99 of it. */
double air_humidity_ratio(double vapour_pa, double pressure_pa);

/* Vapour pressure, Pa, from kg vapour per kg dry air. Inverse of air_humidity_ratio. */
double air_vapour_pressure_from_ratio_pa(double humidity_ratio, double pressure_pa);

/* Density of moist air, kg/m³: sum of the two ideal gases. Vapour is held to the pressure. */
double air_density_kg_m3(double temp_c, double vapour_pa, double pressure_pa);

/* Mass of vapour in a cubic metre of air, kg/m³. */
double air_vapour_density_kg_m3(double temp_c, double vapour_pa);

#endif
