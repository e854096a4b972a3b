#include "model/margin.h"

#include "model/bounds.h"
#include "model/fire_constants.h"
#include "model/front.h"
#include "model/wood.h"

static double permeability(double sauter_m, double porosity) {
    double solid = 1 - porosity;
    return sauter_m * sauter_m * porosity * porosity * porosity / (solid * solid);
}

static double air_factor(const Bed *bed) {
    double porosity = wood_porosity(bed->dry_kg_m3, bed->fuel.particle_kg_m3);
    double relative = permeability(bed->fuel.sauter_m, porosity) /
                      permeability(FIRE_REFERENCE_SAUTER_M, FIRE_REFERENCE_POROSITY);
    return fmin(pow(relative, FIRE_CHOKE_POWER), 1);
}

static double glow_kept(double d50_m) {
    double ratio = d50_m / FIRE_COARSE_D50_M;
    return 1 / (1 + ratio * ratio);
}

HoldFactors margin_factors(const Bed *bed) {
    double metal_ratio = bed->section.metal_kg_per_m / bed->dry_kg_per_m;
    return (HoldFactors){
        .steadiness = bed->fuel.steadiness,
        .air = air_factor(bed),
        .keep = fmin(glow_kept(bed->fuel.d50_m) / glow_kept(FIRE_REFERENCE_D50_M), 1),
        .metal_j_per_kg = metal_ratio * FIRE_STEEL_J_PER_KG_K * FIRE_METAL_RISE_K *
                          bed->section.wall_share,
    };
}

double margin_hold(const HoldFactors *factors, double moisture, double temp_c) {
    double heat = FIRE_HEAT_KEPT_J_PER_KG * factors->steadiness * factors->air * factors->keep;
    return heat / (front_heat_needed_j_per_kg(moisture, temp_c) + factors->metal_j_per_kg);
}

/* The factors with one of them at its reference value. */
static HoldFactors without(HoldFactors factors, Cause cause) {
    switch (cause) {
    case CAUSE_FINES: factors.air = 1; break;
    case CAUSE_COARSE: factors.keep = 1; break;
    case CAUSE_SULKY: factors.steadiness = fmax(factors.steadiness, 1); break;
    case CAUSE_METAL: factors.metal_j_per_kg = 0; break;
    default: break;
    }
    return factors;
}

Cause margin_cause(const HoldFactors *factors, double moisture_lit, double moisture, double temp_c,
                   double oxygen) {
    static const Cause causes[] = {CAUSE_DAMP_DUST, CAUSE_DAMP_AIR, CAUSE_FINES, CAUSE_COARSE,
                                   CAUSE_SULKY,     CAUSE_METAL,    CAUSE_OXYGEN};
    double best = oxygen * margin_hold(factors, moisture, temp_c) + 0.01;
    Cause found = CAUSE_NONE;
    for (size_t i = 0; i < sizeof causes / sizeof *causes; i++) {
        double dry = moisture;
        if (causes[i] == CAUSE_DAMP_DUST) {
            dry -= clamp(fmin(moisture_lit, moisture) - FIRE_REFERENCE_MOISTURE, 0, moisture);
        } else if (causes[i] == CAUSE_DAMP_AIR) {
            dry = fmin(moisture, moisture_lit);
        }
        HoldFactors bettered = without(*factors, causes[i]);
        double air = causes[i] == CAUSE_OXYGEN ? 1 : oxygen;
        double margin = air * margin_hold(&bettered, dry, temp_c);
        if (margin > best) {
            best = margin;
            found = causes[i];
        }
    }
    return found;
}
