#include "model/weather.h"

#include "model/bounds.h"

#include <math.h>

static OutsideAir of_reading(const WeatherReading *reading) {
    return (OutsideAir){within(reading->temp_c, -60, 60), within(reading->humidity, 0, 1)};
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
        return (OutsideAir){10, 0.80};
    }
    size_t after = readings_until(weather, at);
    if (after == 0 || after == count) {
        return of_reading(&weather->readings.items[after == 0 ? 0 : count - 1]);
    }
    const WeatherReading *reading = &weather->readings.items[after];
    OutsideAir a = of_reading(reading - 1);
    OutsideAir b = of_reading(reading);
    double span = (double)(reading->at - reading[-1].at);
    double share = span > 0 ? within((at - (double)reading[-1].at) / span, 0, 1) : 1;
    return (OutsideAir){a.temp_c + share * (b.temp_c - a.temp_c),
                        a.humidity + share * (b.humidity - a.humidity)};
}

double weather_next_reading(const Weather *weather, double at) {
    size_t after = readings_until(weather, at);
    return after < weather->readings.count ? (double)weather->readings.items[after].at : INFINITY;
}
