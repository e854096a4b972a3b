/* Weather: the outside air at any time of the night. */
#ifndef MODEL_WEATHER_H
#define MODEL_WEATHER_H

#include "domain/batch.h"

typedef struct OutsideAir {
    double temp_c;
    double humidity; /* over water, 0 to 1 */
} OutsideAir;

/* Temperature and relative humidity at a time, straight between the readings and held before the
 * first and after the last. Without a reading: 10 °C and 80 %. `at` is in seconds since 1970, with
 * fractions. */
OutsideAir weather_at(const Weather *weather, double at);

/* The first reading after `at`, as a time in seconds; INFINITY if there is none. */
double weather_next_reading(const Weather *weather, double at);

#endif
