#include "model/bed.h"

#include "model/fire_constants.h"

#include <math.h>

static const double DENSEST_SHARE = 0.9;

Bed bed_of(const Fuel *fuel, const Tray *tray, const Fill *fill) {
    Bed bed = {.section = tray_section(tray, fill), .fuel = *fuel};
    double packed_kg_m3 = fuel->bulk_dry_kg_m3 * tray_packing_factor(fill->packing);
    bed.dry_kg_m3 = fmin(packed_kg_m3, DENSEST_SHARE * fuel->particle_kg_m3);
    bed.dry_kg_per_m = bed.dry_kg_m3 * bed.section.area_m2;
    return bed;
}

Bed bed_reference(void) {
    Fuel fuel = {.bulk_dry_kg_m3 = FIRE_REFERENCE_DRY_KG_M3,
                 .particle_kg_m3 = FIRE_REFERENCE_DRY_KG_M3 / (1 - FIRE_REFERENCE_POROSITY),
                 .sauter_m = FIRE_REFERENCE_SAUTER_M,
                 .d50_m = FIRE_REFERENCE_D50_M,
                 .steadiness = 1};
    Tray tray = {.path = PATH_STRAIGHT,
                 .lane_length_m = 1,
                 .channel_width_m = FIRE_REFERENCE_SIDE_M,
                 .channel_depth_m = FIRE_REFERENCE_SIDE_M,
                 .bottom_width_m = FIRE_REFERENCE_SIDE_M,
                 .wall = WALL_MESH};
    Fill fill = {.tray = &tray, .level = 1, .packing = PACKING_LEVELLED, .repeat = 1};
    return bed_of(&fuel, &tray, &fill);
}
