/* Zone place: what the machine and the time zone database know of where a smokehouse stands. */
#ifndef BASE_ZONE_PLACE_H
#define BASE_ZONE_PLACE_H

#include "base/arena.h"

/* Name of the machine's own zone: TZ when it names one of the database, else where /etc/localtime
 * leads to, else Etc/UTC. It can be loaded with zone_load. */
const char *zone_of_machine(Arena *arena);

/* Latitude of the place that a zone is named after, degrees, north positive, from the file zone.tab
 * of the database (its coordinates are of ISO 6709). NAN: it is not in there. */
double zone_latitude_deg(Arena *arena, const char *name);

#endif
