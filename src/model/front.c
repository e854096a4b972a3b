#include "model/front.h"

#include "model/bounds.h"
#include "model/fire_constants.h"

double front_heat_needed_j_per_kg(double moisture, double temp_c) {
    double water = clamp(moisture, 0, 2);
    double temp = clamp(temp_c, -50, FIRE_BOILING_C - 1);
    double per_water = FIRE_WATER_J_PER_KG_K * (FIRE_BOILING_C - temp) + FIRE_LATENT_J_PER_KG +
                       FIRE_STEAM_J_PER_KG_K * (FIRE_SMOULDER_C - FIRE_BOILING_C);
    return FIRE_WOOD_J_PER_KG_K * (FIRE_SMOULDER_C - temp) + water * per_water;
}

double front_speed_mps(const Bed *bed, double speed_factor, double moisture, double temp_c) {
    double reference_j_per_kg =
        front_heat_needed_j_per_kg(FIRE_REFERENCE_MOISTURE, FIRE_REFERENCE_AIR_C);
    double heat = FIRE_REFERENCE_DRY_KG_M3 * reference_j_per_kg /
                  (bed->dry_kg_m3 * front_heat_needed_j_per_kg(moisture, temp_c));
    double air = bed->section.air_m / bed->section.area_m2 / FIRE_REFERENCE_AIR_SIDE_PER_M;
    return FIRE_REFERENCE_MPS * speed_factor * heat * air;
}
