#include "model/cure.h"

static const double parts_per_million = 1e6;

double cure_nitrite_ppm(const Cure *cure, double meat_kg) {
    double nitrite_kg = cure->cure_kg * cure->nitrite;
    double share = 1;
    double basis_kg = meat_kg;
    if (cure->method == CURE_PUMPED) {
        share = cure->pump_share;
        basis_kg = cure->pickle_kg;
    } else if (cure->method == CURE_IMMERSED) {
        basis_kg += is_stated(cure->pickle_kg) ? cure->pickle_kg : cure->water_kg;
    }
    if (!(nitrite_kg >= 0 && share > 0 && basis_kg > 0)) {
        return NOT_STATED;
    }
    return nitrite_kg * share / basis_kg * parts_per_million;
}

double cure_nitrite_ion_ppm(double sodium_nitrite_ppm) {
    const double ion_molar_mass = 46.0055;
    const double salt_molar_mass = 68.9953;
    return sodium_nitrite_ppm * ion_molar_mass / salt_molar_mass;
}

CureLimit cure_limit(Market market, ProductKind kind, CureMethod method) {
    bool fish = kind == PRODUCT_FISH;
    CureLimit none = {NOT_STATED, false};
    if (!fish && kind != PRODUCT_MEAT) {
        return none;
    }
    switch (market) {
    case MARKET_US:
        /* Whole muscle, looked up at second hand; fish: sablefish, salmon and shad. */
        return (CureLimit){!fish && method == CURE_DRY ? 625 : 200, false};
    case MARKET_EU:
        return fish ? none : (CureLimit){80, true}; /* from 9 October 2025, at second hand */
    case MARKET_UK: return fish ? none : (CureLimit){150, false};
    case MARKET_AU: return fish ? none : (CureLimit){125, false}; /* from memory */
    }
    return none;
}
