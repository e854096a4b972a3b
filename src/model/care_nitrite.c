/* Care about nitrite: what goes in against what the market's law allows. */
#include "model/care_rule.h"
#include "model/cure.h"

/* US: 120 ppm at least in cured meat that is kept cold (FSIS handbook, at second hand). */
static const double nitrite_least_ppm = 120;

static void put(Arena *arena, Plan *plan, const char *key, CareLevel level, double ppm,
                double limit_ppm) {
    care_put(arena, plan, key, level, quantity(QUANTITY_PPM, ppm),
             quantity(QUANTITY_PPM, limit_ppm));
}

static void add_over(Arena *arena, const CureLimit *limit, double ppm, Plan *plan) {
    const char *key = limit->found    ? "nitrite_found_over"
                      : limit->as_ion ? "nitrite_ion_over"
                                      : "nitrite_over";
    put(arena, plan, key, CARE_FORBIDS, ppm, limit->ppm);
}

static void add_within(Arena *arena, const CureLimit *limit, double ppm, Plan *plan) {
    const char *key = limit->found ? "nitrite_found" : limit->as_ion ? "nitrite_ion" : "nitrite";
    put(arena, plan, key, CARE_NOTE, ppm, limit->ppm);
}

/* On the basis that the law counts on. */
static void add_known(Arena *arena, const Batch *batch, double salt_ppm, const CureLimit *limit,
                      Plan *plan) {
    double ppm = limit->as_ion ? cure_nitrite_ion_ppm(salt_ppm) : salt_ppm;
    if (ppm > limit->ppm * (1 + CURE_HAIR)) {
        add_over(arena, limit, ppm, plan);
        return;
    }
    add_within(arena, limit, ppm, plan);
    bool us_meat = batch->workshop->market == MARKET_US && batch->product.kind == PRODUCT_MEAT;
    if (us_meat && salt_ppm < nitrite_least_ppm * (1 - CURE_HAIR)) {
        put(arena, plan, "nitrite_low", CARE_CAUTION, salt_ppm, nitrite_least_ppm);
    }
}

/* A cure without nitrite breaks no law about it. Where none may be in, how much does not matter. */
void care_add_nitrite(Arena *arena, const Batch *batch, Plan *plan) {
    const Product *product = &batch->product;
    if (!product->cure.stated || product->cure.nitrite <= 0) {
        return;
    }
    CureLimit limit = cure_limit(batch->workshop->market, product);
    double salt_ppm = cure_nitrite_ppm(&product->cure, product->mass_kg);
    bool any = product->cure.nitrite > 0;
    if (any && limit.rule == CURE_NOT_AT_ALL) {
        put(arena, plan, "nitrite_none", CARE_FORBIDS, salt_ppm, 0);
    } else if (any && limit.rule == CURE_WHICH_FISH) {
        put(arena, plan, "nitrite_fish", CARE_FORBIDS, salt_ppm, NOT_STATED);
    } else if (!is_stated(salt_ppm)) {
        put(arena, plan, "nitrite_unknown", CARE_CAUTION, NOT_STATED, limit.ppm);
    } else {
        add_known(arena, batch, salt_ppm, &limit, plan);
    }
}
