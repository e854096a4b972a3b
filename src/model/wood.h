/* Wood: how wood takes up water from air, what it weighs, and what the trade's woods are like.
 *
 * Moisture is a fraction on dry basis, kg water per kg oven-dry wood, unless the name says wet.
 * Swelling and shrinking are left out: a grain keeps its green volume at every moisture.
 */
#ifndef MODEL_WOOD_H
#define MODEL_WOOD_H

#include <stdbool.h>
#include <stddef.h>

/* Where a figure comes from. */
typedef enum WoodStanding {
    WOOD_LOOKED_UP,      /* seen in its source */
    WOOD_FROM_MEMORY,    /* not looked up, about 5 % */
    WOOD_ROUGH,          /* from memory, 10 % at best */
    WOOD_COMMON_PRACTICE /* what the trade goes by; no source */
} WoodStanding;

/* A wood or herb, by the name the trade gives it. */
typedef struct Wood {
    const char *name;       /* lower case */
    const char *other_name; /* the fuller one it is also found by; "" if none */
    const char *latin;      /* "" where the name covers several */
    bool herb;              /* leaf and stalk rather than wood */
    double basic_gravity;   /* oven-dry mass over green volume, relative to water */
    WoodStanding gravity_from;
    double steadiness; /* readiness to smoulder, the beech carrier 1; common practice, no source */
} Wood;

/* Range over which the equilibrium equation was fitted, °C. Outside it the nearer end is used. */
#define WOOD_TEMP_MIN_C (-1.2)
#define WOOD_TEMP_MAX_C 55.0

/* Moisture that wood comes to in air of that temperature and relative humidity (0…1).
 * Hailwood & Horrobin 1946 with the constants of Simpson 1998 (FPL-RN-0268; Wood Handbook
 * FPL-GTR-190 eq. 4-5):
 *   M = 18/W [ Kh/(1−Kh) + (K1 Kh + 2 K1 K2 K²h²)/(1 + K1 Kh + K1 K2 K²h²) ].
 * Fitted for −1…55 °C and to 0.9, used to 1; humidity above 1 is taken as 1, below 0 as 0. */
double wood_equilibrium_moisture(double temp_c, double humidity);

/* Slope dM/dh of the same, per unit of relative humidity; outside 0…1 that of the nearer end. */
double wood_equilibrium_slope(double temp_c, double humidity);

/* Oven-dry mass per volume of one grain, kg/m³: basic gravity × 1000. Gravity 0.05…1.3. */
double wood_particle_density_kg_m3(double basic_gravity);

/* Oven-dry mass per volume of loose, levelled dust, kg/m³: solid share 0.40 × basic gravity ×
 * 1000. Solid share of sawdust: Briggs, Forest Products Measurements and Conversion Factors,
 * table 7-1 (0.30 sprinkled … 0.48 tamped is a judgement). Gravity 0.05…1.3. */
double wood_loose_density_kg_m3(double basic_gravity);

/* Share of a bed that is air between the grains, from dry densities; held to 0.05…0.98. */
double wood_porosity(double bulk_dry_kg_m3, double particle_kg_m3);

/* The wood or herb of that name, other name or Latin name, or called so in German or Polish, upper
 * and lower case alike, "wood" and "dust" left out; NULL if the table has none. That the table has
 * it does not say that it may be smouldered: model/wood_use.h does. */
const Wood *wood_find(const char *name);

/* What is assumed of a wood, or of a herb, that the table does not know. Never NULL. */
const Wood *wood_unknown(bool herb);

/* The table itself, for lists and spelling help: rows 0…wood_count()−1. */
size_t wood_count(void);
const Wood *wood_at(size_t row);

#endif
