/* Cabinet: the box the smoke goes through, its walls and its vents. */
#ifndef DOMAIN_CABINET_H
#define DOMAIN_CABINET_H

#include "domain/place.h"

typedef enum CabinetWall {
    CABINET_WOOD,
    CABINET_STEEL,
    CABINET_INSULATED,
    CABINET_BRICK,
    CABINET_CARDBOARD
} CabinetWall;

/* How far the wind gets at its vents, out of doors. */
typedef enum CabinetExposure {
    EXPOSURE_SHELTERED, /* a yard, trees or houses close by on most sides */
    EXPOSURE_HALF_OPEN, /* a garden, some of that */
    EXPOSURE_OPEN       /* a field, a shore, a hill */
} CabinetExposure;

typedef struct Cabinet {
    Place place;
    const char *id;
    const char *name;
    double width_m;
    double depth_m;
    double height_m;
    CabinetWall wall;
    double wall_w_m2k; /* heat passed per area and kelvin; NAN: from the kind of wall */
    double inlet_m2;   /* free area of the lower vent */
    double outlet_m2;  /* free area of the upper vent */
    double inlet_full_m2, outlet_full_m2; /* wide open; NAN: not stated */
    double rise_m;                        /* height between the two; NAN: the cabinet's height */
    CabinetExposure exposure;
} Cabinet;

/* The room (or yard) the cabinet stands in and breathes into. */
typedef struct Room {
    Place place;
    bool stated;
    bool outdoors;
    double volume_m3;         /* NAN outdoors */
    double air_changes_per_h; /* NAN outdoors */
    double ducted_share;      /* share of the smoke led outside through a duct, 0 to 1 */
} Room;

#endif
