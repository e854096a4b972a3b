#include "model/cure.h"

#include "model/name_words.h"

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

static CureLimit going_in(double ppm, bool as_ion) {
    return (CureLimit){.rule = CURE_ALLOWED, .ppm = ppm, .as_ion = as_ion};
}

static CureLimit found_later(double ppm) {
    return (CureLimit){.rule = CURE_ALLOWED, .ppm = ppm, .found = true};
}

/* 21 CFR 172.170 and 172.175: "in the finished product", 200 ppm in smoked cured sablefish, salmon
 * and shad, 10 in tuna (looked up). 21 CFR 172.177, chub: 200 in the loin muscle when processing is
 * complete (from memory). Of other fish they say nothing. */
static CureLimit us_fish(const char *name) {
    if (name_has_words(name, "tuna")) {
        return found_later(10);
    }
    if (name_has_any(name, "sablefish|sable|black cod|salmon|shad|chub|chubs")) {
        return found_later(200);
    }
    return (CureLimit){CURE_WHICH_FISH, NOT_STATED, false, false};
}

/* USDA FSIS Processing Inspectors' Calculations Handbook (1995), chapter 3, by 9 CFR 424.21 and
 * 424.22: based on the green weight "and not the finished weight" (looked up); the figures at
 * second hand. */
static CureLimit us_meat(const Product *product) {
    bool dry = product->cure.method == CURE_DRY;
    if (name_has_words(product->name, "bacon")) {
        return going_in(dry ? 200 : 120, false);
    }
    if (name_has_any(product->name, "sausage|sausages|salami|frankfurter|frankfurters|bologna")) {
        return going_in(156, false);
    }
    return going_in(dry ? 625 : 200, false);
}

/* Nitrite is a meat cure: Regulation (EC) 1333/2008 lists E 249-250 for meat alone, in fish and
 * cheese only nitrate E 251-252 (Regulation (EU) 2023/2108 for the cheese, looked up; that nothing
 * else lists nitrite from memory, and so for 9 CFR and FSANZ). */
CureLimit cure_limit(Market market, const Product *product) {
    if (product->kind == PRODUCT_FISH && market == MARKET_US) {
        return us_fish(product->name);
    }
    if (product->kind != PRODUCT_MEAT) {
        return (CureLimit){CURE_NOT_AT_ALL, NOT_STATED, false, false};
    }
    switch (market) {
    case MARKET_US: return us_meat(product);
    /* Regulation (EU) 2023/2108, from 9 October 2025: 80 as ion going in (at second hand). What is
     * found later has limits of its own, 25 to 50, which nobody can work out. */
    case MARKET_EU: return going_in(80, true);
    /* SI 2007/1778, schedule 1: "may be added during manufacture" (looked up). */
    case MARKET_UK: return going_in(150, false);
    /* FSANZ standard 1.3.1 and schedule 15: of the food for sale (from memory). */
    case MARKET_AU: return found_later(125);
    }
    return (CureLimit){CURE_NOT_AT_ALL, NOT_STATED, false, false};
}
