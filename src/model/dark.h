/* Dark: the hours of the wall clock in which people sleep, since no place on the earth is known.
 * Common practice, no source. */
#ifndef MODEL_DARK_H
#define MODEL_DARK_H

#include "base/zone.h"

#include <stdbool.h>

enum { DARK_FROM_HOUR = 22, DARK_TO_HOUR = 6 };

/* Whether the instant falls into them; zone NULL: UTC. */
static inline bool dark_at(const Zone *zone, Instant at) {
    int hour = zone ? zone_civil(zone, at).hour : civil_from_utc(at).hour;
    return hour >= DARK_FROM_HOUR || hour < DARK_TO_HOUR;
}

#endif
