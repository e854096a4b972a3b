#include "model/weather.h"

#include "base/pi.h"
#include "model/air.h"
#include "model/bounds.h"

#include <math.h>

/* An ordinary night: from nine in the evening to six, the coldest hour, it cools by 4 K, and by 2
 * more under a clear sky; warmest at three in the afternoon. Judgement; the whole day's swing is
 * then 6 K and 9 K, as the means of temperate lands have it (from memory). The sun does not put
 * its clock back, so the hours are those of the clock at the time of the reading. */
static const double NIGHT_FALL_K = 4;
static const double CLEAR_FALL_K = 2;
static const double EVENING_S = 21.0 * SECONDS_PER_HOUR;
static const double COLDEST_S = 6.0 * SECONDS_PER_HOUR;
static const double WARMEST_S = 15.0 * SECONDS_PER_HOUR;

/* How far between its coldest (0) and warmest (1) the day is: smooth, a day long. */
static double warmth_at(double clock_s) {
    double since_s =
        fmod(fmod(clock_s - COLDEST_S, SECONDS_PER_DAY) + SECONDS_PER_DAY, SECONDS_PER_DAY);
    double rising_s = WARMEST_S - COLDEST_S;
    double turn = since_s < rising_s ? 1 - since_s / rising_s
                                     : (since_s - rising_s) / (SECONDS_PER_DAY - rising_s);
    return (1 + cos(PI * turn)) / 2;
}

double weather_night_fall_k(const Weather *weather) {
    bool swings = weather->swings && weather->readings.count == 1;
    return swings ? NIGHT_FALL_K + (weather->clear ? CLEAR_FALL_K : 0) : 0;
}

/* The reading's air, brought to another hour of the day. */
static OutsideAir swung(const Weather *weather, OutsideAir read, double at) {
    double range_k = weather_night_fall_k(weather) / warmth_at(EVENING_S);
    double clock_s = weather->read_clock_s + (at - (double)weather->read_at);
    double rise_k = range_k * (warmth_at(clock_s) - warmth_at(weather->read_clock_s));
    double temp_c = read.temp_c + rise_k;
    return (OutsideAir){temp_c, air_humidity_at(read.temp_c, read.humidity, temp_c), read.wind_mps};
}

static OutsideAir of_reading(const WeatherReading *reading) {
    return (OutsideAir){clamp(reading->temp_c, -60, 60), clamp(reading->humidity, 0, 1),
                        clamp(reading->wind_mps, 0, 60)};
}

/* Number of readings at or before a time. */
static size_t readings_until(const Weather *weather, double at) {
    size_t low = 0;
    size_t high = weather->readings.count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if ((double)weather->readings.items[middle].at <= at) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

OutsideAir weather_at(const Weather *weather, double at) {
    size_t count = weather->readings.count;
    if (count == 0) {
        return (OutsideAir){10, 0.80, 0};
    }
    if (weather_night_fall_k(weather) > 0) {
        return swung(weather, of_reading(&weather->readings.items[0]), at);
    }
    size_t after = readings_until(weather, at);
    if (after == 0 || after == count) {
        return of_reading(&weather->readings.items[after == 0 ? 0 : count - 1]);
    }
    const WeatherReading *reading = &weather->readings.items[after];
    OutsideAir a = of_reading(reading - 1);
    OutsideAir b = of_reading(reading);
    double span = (double)(reading->at - reading[-1].at);
    double share = span > 0 ? clamp((at - (double)reading[-1].at) / span, 0, 1) : 1;
    return (OutsideAir){a.temp_c + share * (b.temp_c - a.temp_c),
                        a.humidity + share * (b.humidity - a.humidity),
                        a.wind_mps + share * (b.wind_mps - a.wind_mps)};
}

double weather_next_reading(const Weather *weather, double at) {
    if (weather_night_fall_k(weather) > 0) {
        return at + SECONDS_PER_HOUR;
    }
    size_t after = readings_until(weather, at);
    return after < weather->readings.count ? (double)weather->readings.items[after].at : INFINITY;
}

double weather_holds_until(const Weather *weather, double at) {
    if (weather_night_fall_k(weather) > 0) {
        return at;
    }
    size_t after = readings_until(weather, at);
    bool before_all = after == 0 && weather->readings.count > 0;
    return before_all                         ? (double)weather->readings.items[0].at
           : after == weather->readings.count ? INFINITY
                                              : at;
}
