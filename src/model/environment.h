/* Environment: what the night does to the cabinet, and what the weather does to it. */
#ifndef MODEL_ENVIRONMENT_H
#define MODEL_ENVIRONMENT_H

#include "model/night.h"

/* Warmth, oxygen, water and draught of the cabinet's air, and what its walls make of them. Limits
 * of the product are left NAN unless the batch states its own; whether they are passed is judged
 * where the product's limits are known. */
void environment_cabinet(const Night *night, PlanCabinet *cabinet);

/* Weather when lit, and its worst over the burn. */
void environment_weather(const Night *night, PlanWeather *weather);

/* State of the night at regular times (every 10 minutes; a longer night at a whole multiple, so
 * that there are at most some 600) and at the ends of every lighting. */
void environment_samples(Arena *arena, const Night *night, Plan *plan);

#endif
