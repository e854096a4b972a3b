/* Bed: the dust as it lies in one channel, with all that its fire depends on. */
#ifndef MODEL_BED_H
#define MODEL_BED_H

#include "model/tray.h"

/* What a blend of dusts is, apart from its moisture. All figures are over 0. */
typedef struct Fuel {
    double bulk_dry_kg_m3; /* dry mass per volume, loose and levelled */
    double particle_kg_m3; /* dry mass per volume of a grain */
    double sauter_m;
    double d50_m;
    double steadiness; /* against the carrier = 1 */
} Fuel;

typedef struct Bed {
    Section section;
    Fuel fuel;
    double dry_kg_m3; /* as packed on the tray */
    double dry_kg_per_m;
} Bed;

/* The bed of a fuel in a tray: the fill's packing sets its density, held to 0.9 of the grains'. */
Bed bed_of(const Fuel *fuel, const Tray *tray, const Fill *fill);

/* The reference bed that FIRE_REFERENCE_… describes. */
Bed bed_reference(void);

#endif
