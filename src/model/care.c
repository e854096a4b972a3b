#include "model/care.h"

#include "model/care_rule.h"

#include <math.h>

/* Warmer than this it is no cold smoke, whatever the product stands or states: judgement. */
#define COLD_MOST_C 40

/* What a kind of product is like. Times and rests: common practice, no source. */
typedef struct CareKind {
    CareCeiling ceiling;
    CareTime time;
    const char *prepare;
    const char *rest;
    CareTime rest_time; /* 0: none */
    bool chilled;
    double loss_per_day; /* share of its mass, in the air of a smokehouse */
} CareKind;

/* Ceilings. Cheese: milk fat starts to melt at 32 °C (second hand), no extension figure found, so
 * 25 and 30 °C are a judgement. Butter: a thin liquid at 32-35 °C (second hand); 20 and 25 °C are
 * a judgement. Fish: 27-32 °C or below, PNW 238; the lower end of AFDO's 20-30 °C range is kept
 * as limit 30 and caution 27 °C; meat as fish. Other: as cheese, since nobody knows what it is.
 * Salt: no warmth harms it, but what is warmer than COLD_MOST_C is no cold smoke; caution 35 °C,
 * judgement.
 * Loss in a day: what is usual where such things are smoked and hung (common practice, no source):
 * the finished loss of cold-smoked fish is given as some 5 to 10 %, ham and bacon lose 1 to 2 % a
 * day, a rindless cheese about 1 %. */
static const CareKind kinds[] = {
    [PRODUCT_CHEESE] = {{25, 30},
                        {1 * SECONDS_PER_HOUR, 12 * SECONDS_PER_HOUR},
                        "cheese_prepare",
                        "rest_wrapped",
                        {1 * SECONDS_PER_DAY, 14 * SECONDS_PER_DAY},
                        true,
                        0.01},
    [PRODUCT_BUTTER] = {{20, 25},
                        {1 * SECONDS_PER_HOUR, 4 * SECONDS_PER_HOUR},
                        "butter_prepare",
                        "rest_wrapped",
                        {1 * SECONDS_PER_DAY, 3 * SECONDS_PER_DAY},
                        true,
                        0.002},
    [PRODUCT_FISH] = {{27, 30},
                      {4 * SECONDS_PER_HOUR, 20 * SECONDS_PER_HOUR},
                      "fish_prepare",
                      "rest_chilled",
                      {12 * SECONDS_PER_HOUR, 24 * SECONDS_PER_HOUR},
                      true,
                      0.05},
    [PRODUCT_SALT] = {{35, COLD_MOST_C},
                      {8 * SECONDS_PER_HOUR, 48 * SECONDS_PER_HOUR},
                      "salt_prepare",
                      "rest_jar",
                      {1 * SECONDS_PER_DAY, 7 * SECONDS_PER_DAY},
                      false,
                      0},
    [PRODUCT_MEAT] = {{27, 30},
                      {4 * SECONDS_PER_HOUR, 24 * SECONDS_PER_HOUR},
                      "meat_prepare",
                      "rest_chilled",
                      {12 * SECONDS_PER_HOUR, 48 * SECONDS_PER_HOUR},
                      true,
                      0.02},
    [PRODUCT_OTHER] = {{25, 30},
                       {1 * SECONDS_PER_HOUR, 24 * SECONDS_PER_HOUR},
                       "other_unknown",
                       NULL,
                       {0, 0},
                       true,
                       0.01},
};

/* Of raw flesh and of what nobody knows, warmth breeds what no statement takes away. */
static bool may_raise(ProductKind kind) {
    return kind == PRODUCT_CHEESE || kind == PRODUCT_BUTTER || kind == PRODUCT_SALT;
}

CareCeiling care_ceiling(const Product *product) {
    CareCeiling ceiling = kinds[product->kind].ceiling;
    if (is_stated(product->limit_temp_c)) {
        double most_c = may_raise(product->kind) ? COLD_MOST_C : ceiling.limit_c;
        ceiling.limit_c = fmin(product->limit_temp_c, most_c);
        if (!(ceiling.caution_c < ceiling.limit_c)) {
            ceiling.caution_c = ceiling.limit_c;
        }
    }
    return ceiling;
}

void care_judge_cabinet(const Product *product, PlanCabinet *cabinet) {
    CareCeiling ceiling = care_ceiling(product);
    cabinet->caution_temp_c = ceiling.caution_c;
    cabinet->limit_temp_c = ceiling.limit_c;
    cabinet->over_caution = cabinet->peak_temp_c > ceiling.caution_c ||
                            cabinet->peak_fast_c > ceiling.limit_c;
    cabinet->over_away = cabinet->peak_away_c > ceiling.caution_c;
    cabinet->over_limit = cabinet->peak_temp_c > ceiling.limit_c;
}

double care_drying_kg_per_s(const Product *product) {
    double loss_kg = fmax(product->mass_kg, 0) * kinds[product->kind].loss_per_day;
    return is_stated(product->mass_kg) ? loss_kg / SECONDS_PER_DAY : 0;
}

CareTime care_smoke_time(ProductKind kind) {
    return kinds[kind].time;
}

static void add_ceiling(Arena *arena, const Product *product, Plan *plan) {
    CareCeiling ceiling = care_ceiling(product);
    double own_c = kinds[product->kind].ceiling.limit_c;
    if (is_stated(ceiling.limit_c)) {
        care_put(arena, plan, "ceiling", CARE_NOTE,
                 quantity(QUANTITY_TEMPERATURE, ceiling.caution_c),
                 quantity(QUANTITY_TEMPERATURE, ceiling.limit_c));
    }
    if (is_stated(own_c) && ceiling.limit_c > own_c) {
        care_put(arena, plan, "ceiling_raised", CARE_CAUTION,
                 quantity(QUANTITY_TEMPERATURE, ceiling.limit_c),
                 quantity(QUANTITY_TEMPERATURE, own_c));
    }
    if (product->limit_temp_c > ceiling.limit_c) {
        care_put(arena, plan, "ceiling_kept", CARE_CAUTION,
                 quantity(QUANTITY_TEMPERATURE, product->limit_temp_c),
                 quantity(QUANTITY_TEMPERATURE, ceiling.limit_c));
    }
}

static void add_time(Arena *arena, const Product *product, Plan *plan) {
    CareTime usual = care_smoke_time(product->kind);
    if (plan->burn.smoking_s > usual.most_s) {
        care_put(arena, plan, "time_long", CARE_CAUTION,
                 quantity(QUANTITY_DURATION, plan->burn.smoking_s),
                 quantity(QUANTITY_DURATION, usual.most_s));
    }
    care_put(arena, plan, "time_usual", CARE_NOTE, quantity(QUANTITY_DURATION, usual.least_s),
             quantity(QUANTITY_DURATION, usual.most_s));
}

static void add_handling(Arena *arena, const Product *product, Plan *plan) {
    const CareKind *kind = &kinds[product->kind];
    CareLevel level = product->kind == PRODUCT_OTHER ? CARE_CAUTION : CARE_NOTE;
    care_put(arena, plan, kind->prepare, level, no_quantity(), no_quantity());
    if (kind->rest) {
        care_put(arena, plan, kind->rest, CARE_NOTE,
                 quantity(QUANTITY_DURATION, kind->rest_time.least_s),
                 quantity(QUANTITY_DURATION, kind->rest_time.most_s));
    }
    if (kind->chilled) {
        /* Listeria advice: below 5 °C; NCHFP asks for 40 °F (4.4 °C). */
        care_put(arena, plan, "chill", CARE_NOTE, no_quantity(), quantity(QUANTITY_TEMPERATURE, 5));
    }
}

/* Contaminants of treated wood reach the food: "Possible toxic components in smoked fish
 * products" (abstract); Codex CXS 311-2013 asks for wood free of them. What was said to be treated
 * is judged with the woods (model/verdict.c). */
static void add_wood(Arena *arena, Plan *plan) {
    for (size_t i = 0; i < plan->blend.parts.count; i++) {
        const Dust *dust = plan->blend.parts.items[i].dust;
        if (!dust->untreated && !dust->untreated_stated) {
            care_put(arena, plan, "wood_not_declared", CARE_CAUTION, no_quantity(), no_quantity());
            return;
        }
    }
}

/* Insertion keeps the order of what is equally grave. */
static void gravest_first(Plan *plan) {
    Care *care = plan->care.items;
    for (size_t i = 1; i < plan->care.count; i++) {
        Care moved = care[i];
        size_t at = i;
        for (; at > 0 && care[at - 1].level < moved.level; at--) {
            care[at] = care[at - 1];
        }
        care[at] = moved;
    }
}

void care_put(Arena *arena, Plan *plan, const char *key, CareLevel level, Quantity value,
              Quantity limit) {
    Care care = {key, level, value, limit};
    LIST_ADD(arena, &plan->care, care);
}

void care_add(Arena *arena, const Batch *batch, Plan *plan) {
    const Product *product = &batch->product;
    bool other = product->kind == PRODUCT_OTHER;
    bool like_fish = product->kind == PRODUCT_FISH || (other && !product->not_raw);
    if (like_fish) {
        care_add_fish(arena, batch, plan);
    }
    if (like_fish || product->kind == PRODUCT_MEAT) {
        care_add_flesh(arena, batch, plan);
    } else if (other) {
        care_add_packing(arena, product, plan);
    }
    care_add_nitrite(arena, batch, plan);
    add_wood(arena, plan);
    add_ceiling(arena, product, plan);
    add_time(arena, product, plan);
    add_handling(arena, product, plan);
    gravest_first(plan);
}

static const char *const keys[] = {
    "ceiling",
    "ceiling_raised",
    "ceiling_kept",
    "time_long",
    "time_usual",
    "cheese_prepare",
    "butter_prepare",
    "fish_prepare",
    "salt_prepare",
    "meat_prepare",
    "other_unknown",
    "rest_wrapped",
    "rest_chilled",
    "rest_jar",
    "chill",
    "wood_not_declared",
    "parasites_farmed",
    "parasites_frozen",
    "parasites_planned",
    "parasites_unstated",
    "parasites_warm",
    "parasites_short",
    "parasites_short_home",
    "salt_enough",
    "salt_low",
    "salt_unstated",
    "salt_unmeasured",
    "cure_weak",
    "no_vacuum",
    "vacuum_chill",
    "listeria",
    "not_cured",
    "cure_unstated",
    "cure_planned",
    "salt_beyond",
    "salt_over",
    "salting_warm",
    "salting_weak",
    "salting_short",
    "kept_long",
    "prepare_odd",
    "warm_hours",
    "left_warm",
    "meat_raw",
    "warm_unstated",
    "warm_unguarded",
    "nitrite",
    "nitrite_ion",
    "nitrite_found",
    "nitrite_over",
    "nitrite_ion_over",
    "nitrite_found_over",
    "nitrite_none",
    "nitrite_fish",
    "nitrite_low",
    "nitrite_unknown",
};

const char *const *care_keys(size_t *count) {
    *count = sizeof keys / sizeof *keys;
    return keys;
}
