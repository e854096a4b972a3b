/* Weather: the outside air at any time of the night. */
#ifndef MODEL_WEATHER_H
#define MODEL_WEATHER_H

#include "domain/batch.h"

typedef struct OutsideAir {
    double temp_c;
    double humidity; /* over water, 0 to 1 */
    double wind_mps; /* at 10 m over open ground, as weather services give it */
} OutsideAir;

/* Temperature, relative humidity and wind at a time, straight between the readings and held before
 * the first and after the last. Without a reading: 10 °C, 80 %, still. A single reading that swings
 * holds at its own hour; from there the temperature follows the day (warmest at three in the
 * afternoon, coldest at six), half a cosine down and half a cosine up, with the vapour kept: the
 * air gets damper as it cools, and what would be over saturation falls as dew. `at` is in seconds
 * since 1970, with fractions. */
OutsideAir weather_at(const Weather *weather, double at);

/* The time by which a step of reckoning has to end, s since 1970: the first reading after `at`; an
 * hour on where the temperature swings; INFINITY where nothing changes any more. */
double weather_next_reading(const Weather *weather, double at);

/* Until when, s since 1970, the air stays exactly as it is: `at` where it changes all along. */
double weather_holds_until(const Weather *weather, double at);

/* By how much it cools from nine in the evening to six, K; 0 where no single reading swings. */
double weather_night_fall_k(const Weather *weather);

#endif
