/* Quantity: a number with what it measures. The number is in the SI unit given here; how it is
 * shown (unit, digits, language) is decided where it is printed. */
#ifndef DOMAIN_QUANTITY_H
#define DOMAIN_QUANTITY_H

#include "domain/place.h"

typedef enum QuantityKind {
    QUANTITY_NONE,
    QUANTITY_COUNT,         /* whole number */
    QUANTITY_RATIO,         /* no unit: hold margin, speed_factor, deviation */
    QUANTITY_SHARE,         /* fraction of 1, shown in percent */
    QUANTITY_MOISTURE,      /* dry basis fraction, shown in percent with its basis */
    QUANTITY_HUMIDITY,      /* relative, 0 to 1, shown in percent */
    QUANTITY_MASS,          /* kg */
    QUANTITY_LENGTH,        /* m: channels, trays, cabinets (shown in mm or in) */
    QUANTITY_GRAIN,         /* m: apertures and grain sizes (shown in µm or mm) */
    QUANTITY_AREA,          /* m2 (shown in cm2 or sq in) */
    QUANTITY_VOLUME,        /* m3 (shown in l or cu in) */
    QUANTITY_DENSITY,       /* kg/m3 */
    QUANTITY_TEMPERATURE,   /* C */
    QUANTITY_INSTANT,       /* UTC seconds */
    QUANTITY_DURATION,      /* s */
    QUANTITY_SPEED,         /* m/s (shown in mm/h or in/h) */
    QUANTITY_WIND,          /* m/s of air (shown in m/s or mph) */
    QUANTITY_KELVIN,        /* difference of temperature (shown in °C or °F) */
    QUANTITY_POWER,         /* W */
    QUANTITY_RATE,          /* kg/h */
    QUANTITY_CONCENTRATION, /* mg/m3 */
    QUANTITY_PPM,           /* parts per million by volume, or mg/kg */
    QUANTITY_AIR_CHANGES    /* per hour */
} QuantityKind;

typedef struct Quantity {
    QuantityKind kind;
    double value; /* NAN: not stated */
} Quantity;

static inline Quantity quantity(QuantityKind kind, double value) {
    return (Quantity){kind, value};
}

static inline Quantity no_quantity(void) {
    return (Quantity){QUANTITY_NONE, NOT_STATED};
}

#endif
