/* Units: every unit a file may be written in, and what it is in SI. */
#ifndef SCHEMA_UNIT_H
#define SCHEMA_UNIT_H

#include "base/nearest.h"

#include <stdbool.h>
#include <stddef.h>

/* What a number with a unit measures. */
typedef enum Measure {
    MEASURE_MASS,          /* kg */
    MEASURE_LENGTH,        /* m */
    MEASURE_AREA,          /* m2 */
    MEASURE_VOLUME,        /* m3 */
    MEASURE_TEMPERATURE,   /* C */
    MEASURE_DURATION,      /* s */
    MEASURE_SHARE,         /* fraction of 1 */
    MEASURE_ANGLE,         /* rad */
    MEASURE_AREAL_MASS,    /* kg/m2 */
    MEASURE_HEAT_TRANSFER, /* W/(m2 K) */
    MEASURE_PER_HOUR,      /* 1/h */
    MEASURE_WIND,          /* m/s */
    MEASURE_PAPER,         /* mm */
    MEASURE_STRENGTH,      /* of brine, fraction of its mass */
    MEASURE_COUNT
} Measure;

typedef struct Unit {
    Measure measure;
    const char *name;
    double times; /* SI value = (number − zero) × times ÷ over */
    double over;
    double zero;
    bool listed; /* named to a person who asks what would do; others are spellings */
} Unit;

/* "a mass", "a duration", … */
const char *measure_name(Measure measure);

/* "250 g", "8 h", …: how such a value looks. */
const char *measure_example(Measure measure);

/* Whether a value may be written in parts, as "1 h 30 min" and "1 lb 4 oz". */
bool measure_in_parts(Measure measure);

/* The unit whose name `text` begins with, the longest such one: of this measure if there is one,
 * else of any. NULL when there is none. A letter may not follow the name. */
const Unit *unit_at(Measure measure, const char *text);

/* The names of the units of a measure that are told to people, and all names. */
Names units_listed(Arena *arena, Measure measure);
Names units_known(Arena *arena, Measure measure);

/* The number in that unit as SI value. */
double unit_to_si(const Unit *unit, double number);

#endif
