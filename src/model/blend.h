/* Blend: what comes of mixing dusts.
 *
 * Masses add. Moisture, steadiness: by dry mass. Loose volumes add before settling, so that the
 * blend's bulk volume is the sum of its parts'. Grain curves mix by grain volume for what the bed's
 * pores see (d50, Sauter mean) and by mass for what a sieve would show.
 *
 * Charred dust: its steadiness is that of its wood, no more and no less. Char glows readily, but no
 * figure for it was found; what makes charred residue die in a channel is its fineness, and that
 * the grain curve carries. */
#ifndef MODEL_BLEND_H
#define MODEL_BLEND_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/bed.h"
#include "model/grain.h"
#include "model/store.h"

/* One dust as the model sees it: what was stated, or what stands in for it. */
typedef struct DustFigures {
    const Dust *dust;
    double moisture;     /* dry basis, 0 to 1 */
    double moisture_low; /* between these it may well lie; both the same when stated */
    double moisture_high;
    bool moisture_assumed; /* not stated: that of the store */
    double bulk_dry_kg_m3; /* weighed, or 0.40 of the grains' density */
    double particle_kg_m3;
    double steadiness;
    Grain grain;
} DustFigures;

/* Any dust that the reader accepts. `kept`: how damp dust is in the store. A grain that is not
 * stated is that of the clean carrier. */
DustFigures blend_dust(const Dust *dust, const StoreMoisture *kept);

typedef struct Mix {
    Fuel fuel;
    double moisture; /* as mixed, dry basis */
    Grain grain_by_mass;
    Grain grain_by_volume;
} Mix;

/* Mixes `count` dusts (at least 1) by dry shares that sum to 1. */
Mix blend_mix(const DustFigures *dusts, const double *dry_shares, size_t count);

/* The same without the curves' figures by mass: for searches. */
Fuel blend_fuel(const DustFigures *dusts, const double *dry_shares, size_t count);

/* Shares as stated (by mass as weighed, or by loose volume; any scale) to dry shares. */
void blend_dry_shares(const DustFigures *dusts, const double *shares, size_t count, bool by_volume,
                      double *dry_shares);

/* The figures for print, of a curve by mass and one by volume. */
GrainFigures blend_grain_figures(const Grain *by_mass, const Grain *by_volume);

#endif
