#include "model/blend.h"

#include "model/bounds.h"
#include "model/fire_constants.h"
#include "model/wood.h"

#include <math.h>

enum { PARTS_MAX = 64 };

/* Char shields itself from the air and goes out sooner than the wood it was made of, apart from how
 * fine it is (common practice, no source). */
static const double charred_steadiness = 0.85;

/* The sieve analysis, else the range, else the clean carrier's range. */
static Grain grain_of(const Dust *dust) {
    Grain grain;
    double aperture_m[GRAIN_SIZES_MAX];
    double retained[GRAIN_SIZES_MAX];
    size_t count = dust->sieve.classes.count;
    for (size_t i = 0; i < count && i < GRAIN_SIZES_MAX; i++) {
        aperture_m[i] = dust->sieve.classes.items[i].aperture_m;
        retained[i] = dust->sieve.classes.items[i].retained;
    }
    double sample = dust->sieve.by_percent ? NAN : dust->sieve.sample_kg;
    if (count > 0 && count <= GRAIN_SIZES_MAX &&
        grain_from_sieves(aperture_m, retained, count, sample, &grain, NULL) == GRAIN_WHOLE) {
        return grain;
    }
    if (grain_from_range(dust->grain_from_m, dust->grain_to_m, &grain) == GRAIN_WHOLE) {
        return grain;
    }
    grain_from_range(0.5e-3, 0.75e-3, &grain);
    return grain;
}

/* A stated one is that of the dust as it lies, char and all. */
static double steadiness_of(const Dust *dust, const Wood *wood) {
    if (!isnan(dust->steadiness)) {
        return dust->steadiness;
    }
    return wood->steadiness * (dust->charred ? charred_steadiness : 1);
}

DustFigures blend_dust(const Dust *dust, const StoreMoisture *kept) {
    const Wood *wood = dust->material ? wood_find(dust->material) : NULL;
    if (!wood) {
        wood = wood_unknown(dust->form == FORM_LEAF);
    }
    DustFigures figures = {.dust = dust, .grain = grain_of(dust)};
    figures.moisture_assumed = isnan(dust->moisture);
    bool assumed = figures.moisture_assumed;
    figures.moisture = clamp(assumed ? kept->middle : dust->moisture, 0, 1);
    figures.moisture_low = clamp(assumed ? kept->low : dust->moisture, 0, 1);
    figures.moisture_high = clamp(assumed ? kept->high : dust->moisture, 0, 1);
    figures.particle_kg_m3 = wood_particle_density_kg_m3(wood->basic_gravity);
    double weighed_kg_m3 = dust->bulk_density_kg_m3 / (1 + figures.moisture);
    figures.bulk_dry_kg_m3 = isnan(weighed_kg_m3) ? wood_loose_density_kg_m3(wood->basic_gravity)
                                                  : clamp(weighed_kg_m3, 10, 1000);
    figures.particle_kg_m3 = fmax(figures.particle_kg_m3, figures.bulk_dry_kg_m3 / 0.9);
    figures.steadiness = clamp(steadiness_of(dust, wood), 0.05, 2);
    return figures;
}

/* Mixes curves with dry shares over grain density, or with dry shares. */
static Grain mix_grains(const DustFigures *dusts, const double *dry_shares, size_t count,
                        bool by_volume) {
    const Grain *grains[PARTS_MAX];
    double weights[PARTS_MAX];
    for (size_t i = 0; i < count && i < PARTS_MAX; i++) {
        grains[i] = &dusts[i].grain;
        weights[i] = dry_shares[i] / (by_volume ? dusts[i].particle_kg_m3 : 1);
    }
    return grain_mix(grains, weights, count < PARTS_MAX ? count : PARTS_MAX);
}

static Fuel fuel_of(const DustFigures *dusts, const double *dry_shares, size_t count,
                    const Grain *by_volume) {
    double bulk_m3 = 0, grains_m3 = 0, steadiness = 0;
    for (size_t i = 0; i < count; i++) {
        bulk_m3 += dry_shares[i] / dusts[i].bulk_dry_kg_m3;
        grains_m3 += dry_shares[i] / dusts[i].particle_kg_m3;
        steadiness += dry_shares[i] * dusts[i].steadiness;
    }
    return (Fuel){.bulk_dry_kg_m3 = 1 / bulk_m3,
                  .particle_kg_m3 = 1 / grains_m3,
                  .sauter_m = grain_sauter_m(by_volume),
                  .d50_m = grain_size_at_m(by_volume, 0.5),
                  .steadiness = steadiness};
}

Fuel blend_fuel(const DustFigures *dusts, const double *dry_shares, size_t count) {
    Grain by_volume = mix_grains(dusts, dry_shares, count, true);
    return fuel_of(dusts, dry_shares, count, &by_volume);
}

Mix blend_mix(const DustFigures *dusts, const double *dry_shares, size_t count) {
    Mix mix = {.grain_by_mass = mix_grains(dusts, dry_shares, count, false),
               .grain_by_volume = mix_grains(dusts, dry_shares, count, true)};
    mix.fuel = fuel_of(dusts, dry_shares, count, &mix.grain_by_volume);
    for (size_t i = 0; i < count; i++) {
        mix.moisture += dry_shares[i] * dusts[i].moisture;
    }
    return mix;
}

void blend_dry_shares(const DustFigures *dusts, const double *shares, size_t count, bool by_volume,
                      double *dry_shares) {
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        double dry = by_volume ? dusts[i].bulk_dry_kg_m3 : 1 / (1 + dusts[i].moisture);
        dry_shares[i] = fmax(shares[i], 0) * dry;
        sum += dry_shares[i];
    }
    for (size_t i = 0; i < count; i++) {
        dry_shares[i] = sum > 0 ? dry_shares[i] / sum : 1.0 / (double)count;
    }
}

GrainFigures blend_grain_figures(const Grain *by_mass, const Grain *by_volume) {
    GrainFigures figures = {
        .d10_m = grain_size_at_m(by_mass, 0.1),
        .d50_m = grain_size_at_m(by_mass, 0.5),
        .d90_m = grain_size_at_m(by_mass, 0.9),
        .geometric_mean_m = grain_geometric_mean_m(by_mass),
        .geometric_deviation = grain_geometric_deviation(by_mass),
        .fines_mass_share = grain_finer(by_mass, GRAIN_FINES_APERTURE_M),
        .fines_volume_share = grain_finer(by_volume, GRAIN_FINES_APERTURE_M),
        .fines_below_m = GRAIN_FINES_APERTURE_M,
        .coarse_share = grain_coarser(by_mass, GRAIN_COARSE_APERTURE_M),
        .coarse_above_m = GRAIN_COARSE_APERTURE_M,
    };
    for (int i = 0; i < MIDDLE_SIZES; i++) {
        figures.middle_m[i] = grain_size_at_m(by_mass, 0.1 + 0.8 * i / (MIDDLE_SIZES - 1));
    }
    return figures;
}
