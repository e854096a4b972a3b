#include "model/care_rule.h"

#include "model/absence.h"
#include "model/care.h"
#include "model/cure.h"
#include "model/weather.h"

#include <math.h>
#include <string.h>

/* FDA Food Code 3-402.11, as adopted in WAC 246-215-03425. A home freezer gets cold slowly, so
 * the week at -20 °C is the figure that is asked for. */
static const double freezing_c = -20;
static const double freezing_s = 168.0 * SECONDS_PER_HOUR;
static const double deep_freezing_c = -35;
static const double deep_freezing_s = 15.0 * SECONDS_PER_HOUR;
/* Regulation (EC) 853/2004, annex III, section VIII, chapter III D: -20 °C for 24 h throughout. */
static const double eu_freezing_s = 24.0 * SECONDS_PER_HOUR;

/* FDA Fish and Fishery Products Hazards guide, chapter 13: refrigerated smoked fish packed
 * without air has 3.5 % salt in its water. The 3.0 % allowed with nitrite are not used. */
static const double water_phase_salt_least = 0.035;

/* Non-proteolytic C. botulinum grows from 3.3 °C: FDA guide, appendix 4, table A-1. */
static const double botulinum_growth_c = 3.3;

/* Hours in the growth zone: common practice, no source. */
static const double growth_hours_most = 4;

/* Non-proteolytic C. botulinum: how long fish may be that warm in all before it can make its
 * poison. FDA guide, appendix 4, table A-2 (from memory); between the rows the warmer one. */
typedef struct GrowthTime {
    double below_c;
    double most_s;
} GrowthTime;

static const GrowthTime growth_times[] = {{3.3, INFINITY},
                                          {5, 7 * 24.0 * SECONDS_PER_HOUR},
                                          {10, 2 * 24.0 * SECONDS_PER_HOUR},
                                          {21, 11.0 * SECONDS_PER_HOUR}};
static const double growth_time_warmest_s = 6.0 * SECONDS_PER_HOUR;

/* S. aureus, which salt does not hold back: how long without fire and smoke before it can make its
 * poison. The same table (from memory): 12 h from 10 to 21 °C, 3 h above. */
static const GrowthTime left_times[] = {{10, INFINITY}, {21, 12.0 * SECONDS_PER_HOUR}};
static const double left_time_warmest_s = 3.0 * SECONDS_PER_HOUR;

/* Raster in which hours without a fire are looked through; longer ones in so many steps. */
enum { REST_STEP_S = 1800, REST_STEPS_MOST = 600 };

/* 50 to 150 mg/kg of nitrite hold C. botulinum back in most meats (EFSA 2003, from memory). */
static const double nitrite_guard_ppm = 50;

double care_water_phase_salt(double salt, double water) {
    return salt / (salt + water);
}

bool care_freezing_enough(double temp_c, double time_s) {
    return (temp_c <= freezing_c && time_s >= freezing_s) ||
           (temp_c <= deep_freezing_c && time_s >= deep_freezing_s);
}

static void put(Arena *arena, Plan *plan, const char *key, CareLevel level, QuantityKind kind,
                double value, double limit) {
    care_put(arena, plan, key, level, quantity(kind, value), quantity(kind, limit));
}

/* The law of the EU and the UK is met by 24 h; the FDA's figure is not. */
static void add_short_freezing(Arena *arena, Market market, double time_s, Plan *plan) {
    bool european = market == MARKET_EU || market == MARKET_UK;
    bool lawful = european && time_s >= eu_freezing_s;
    put(arena, plan, lawful ? "parasites_short_home" : "parasites_short",
        lawful ? CARE_CAUTION : CARE_FORBIDS, QUANTITY_DURATION, time_s, freezing_s);
}

static void add_parasites(Arena *arena, const Batch *batch, Plan *plan) {
    const Freezing *freezing = &batch->product.freezing;
    Quantity temp = quantity(QUANTITY_TEMPERATURE, freezing->temp_c);
    Quantity time = quantity(QUANTITY_DURATION, freezing->time_s);
    Quantity asked_temp = quantity(QUANTITY_TEMPERATURE, freezing_c);
    Quantity asked_time = quantity(QUANTITY_DURATION, freezing_s);
    if (freezing->stated && freezing->farmed) {
        care_put(arena, plan, "parasites_farmed", CARE_NOTE, no_quantity(), no_quantity());
    } else if (!freezing->stated || !is_stated(freezing->temp_c) || !is_stated(freezing->time_s)) {
        care_put(arena, plan, "parasites_unstated", CARE_CAUTION, asked_temp, asked_time);
    } else if (care_freezing_enough(freezing->temp_c, freezing->time_s)) {
        care_put(arena, plan, freezing->planned ? "parasites_planned" : "parasites_frozen",
                 CARE_NOTE, temp, time);
    } else if (freezing->temp_c > freezing_c) {
        care_put(arena, plan, "parasites_warm", CARE_FORBIDS, temp, asked_temp);
    } else {
        add_short_freezing(arena, batch->workshop->market, freezing->time_s, plan);
    }
}

/* Salted, or to be salted in the days before. */
static bool salted(const Product *product) {
    return product->cured || product->salting.stated;
}

/* Fish has only its salt to be kept by, whatever it is said to be. */
static void add_unstated_salt(Arena *arena, const Product *product, Plan *plan) {
    if (product->vacuum_packed && !care_has_nitrite(product)) {
        put(arena, plan, "salt_unstated", CARE_CAUTION, QUANTITY_SHARE, NOT_STATED,
            water_phase_salt_least);
    } else if (salted(product) && product->kind != PRODUCT_MEAT) {
        put(arena, plan, "salt_unmeasured", CARE_CAUTION, QUANTITY_SHARE, NOT_STATED,
            CARE_CURED_SALT_LEAST);
    }
}

/* Too little salt forbids the vacuum pack; what is said to be cured with less than any cure leaves
 * has to be seen to; else it is a caution. Meat with nitrite keeps by that. */
static void add_water_phase_salt(Arena *arena, const Product *product, Plan *plan) {
    double salt = care_water_phase_salt(product->salt, product->water);
    bool nitrite = care_has_nitrite(product);
    if (!is_stated(salt)) {
        add_unstated_salt(arena, product, plan);
    } else if (salted(product) && salt < CARE_CURED_SALT_LEAST &&
               (nitrite || !product->vacuum_packed)) {
        put(arena, plan, "cure_weak", CARE_CAUTION, QUANTITY_SHARE, salt, CARE_CURED_SALT_LEAST);
    } else if (nitrite) {
        return;
    } else if (salt >= water_phase_salt_least) {
        put(arena, plan, "salt_enough", CARE_NOTE, QUANTITY_SHARE, salt, water_phase_salt_least);
    } else {
        put(arena, plan, "salt_low", product->vacuum_packed ? CARE_FORBIDS : CARE_CAUTION,
            QUANTITY_SHARE, salt, water_phase_salt_least);
    }
}

void care_add_fish(Arena *arena, const Batch *batch, Plan *plan) {
    add_parasites(arena, batch, plan);
    care_put(arena, plan, "listeria", CARE_CAUTION, no_quantity(), no_quantity());
}

static void add_curing(Arena *arena, const Product *product, Plan *plan) {
    if (salted(product)) {
        return;
    }
    bool said = product->cured_stated;
    care_put(arena, plan, said ? "not_cured" : "cure_unstated", said ? CARE_FORBIDS : CARE_CAUTION,
             no_quantity(), no_quantity());
}

double care_time_above_s(const Plan *plan, double temp_c) {
    double sum_s = 0;
    for (size_t i = 1; i < plan->samples.count; i++) {
        const PlanSample *from = &plan->samples.items[i - 1];
        const PlanSample *to = &plan->samples.items[i];
        if (from->cabinet_temp_c > temp_c || to->cabinet_temp_c > temp_c) {
            sum_s += (double)(to->at - from->at);
        }
    }
    return sum_s;
}

/* The cabinet without a fire is as warm as the air outside. */
static void add_rest(Arena *arena, const Weather *weather, Instant from, Instant to, Plan *held) {
    Instant step = (to - from) / REST_STEPS_MOST;
    step = step > REST_STEP_S ? step : REST_STEP_S;
    for (Instant at = from; at < to + step; at += step) {
        Instant then = at < to ? at : to;
        PlanSample sample = {.at = then,
                             .cabinet_temp_c = weather_at(weather, (double)then).temp_c};
        LIST_ADD(arena, &held->samples, sample);
    }
}

/* When somebody is there to take the food out: of a slow night too. */
static Instant taken_out(const Batch *batch, const PlanBurn *burn) {
    Away span;
    Instant out = absence_back(batch, burn->out_at);
    bool late = absence_at(batch, burn->out_late, &span);
    return late && span.to > out ? span.to : out;
}

Plan care_food_exposure(Arena *arena, const Batch *batch, const Plan *plan) {
    Plan held = *plan;
    memset(&held.samples, 0, sizeof held.samples);
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        const PlanSample *before = i > 0 ? sample - 1 : sample;
        if (before->fill != sample->fill && before->at < sample->at) {
            add_rest(arena, &batch->weather, before->at, sample->at, &held);
        }
        LIST_ADD(arena, &held.samples, *sample);
    }
    Instant out = taken_out(batch, &plan->burn);
    if (out > plan->burn.out_at) {
        add_rest(arena, &batch->weather, plan->burn.out_at, out, &held);
    }
    return held;
}

static double growth_time_s(double temp_c) {
    for (size_t i = 0; i < sizeof growth_times / sizeof *growth_times; i++) {
        if (temp_c <= growth_times[i].below_c) {
            return growth_times[i].most_s;
        }
    }
    return growth_time_warmest_s;
}

static double left_time_s(double temp_c) {
    for (size_t i = 0; i < sizeof left_times / sizeof *left_times; i++) {
        if (temp_c <= left_times[i].below_c) {
            return left_times[i].most_s;
        }
    }
    return left_time_warmest_s;
}

double care_left_share(const Plan *held) {
    double share = 0;
    for (size_t i = 1; i < held->samples.count; i++) {
        const PlanSample *from = &held->samples.items[i - 1];
        const PlanSample *to = &held->samples.items[i];
        if (from->fill == 0 && to->fill == 0) {
            double warmest_c = fmax(from->cabinet_temp_c, to->cabinet_temp_c);
            share += (double)(to->at - from->at) / left_time_s(warmest_c);
        }
    }
    return share;
}

double care_growth_share(const Plan *plan) {
    double share = 0;
    for (size_t i = 1; i < plan->samples.count; i++) {
        const PlanSample *from = &plan->samples.items[i - 1];
        const PlanSample *to = &plan->samples.items[i];
        double warmest_c = fmax(from->cabinet_temp_c, to->cabinet_temp_c);
        share += (double)(to->at - from->at) / growth_time_s(warmest_c);
    }
    return share;
}

bool care_has_nitrite(const Product *product) {
    return product->kind == PRODUCT_MEAT && product->cure.stated &&
           cure_nitrite_ppm(&product->cure, product->mass_kg) >= nitrite_guard_ppm;
}

/* Whether what could hold botulinum back may be there and was only not stated. */
static bool guard_unknown(const Product *product) {
    if (is_stated(care_water_phase_salt(product->salt, product->water))) {
        return false;
    }
    bool none = product->cure.stated && product->cure.nitrite <= 0;
    return !none && !is_stated(cure_nitrite_ppm(&product->cure, product->mass_kg));
}

/* Neither nitrite nor salt known to hold the poison back, and warm for so long that it could be
 * made. Said to be without nitrite, only salt could help; nothing said, it may be either. */
static void add_warm_unguarded(Arena *arena, const Product *product, const Plan *held, Plan *plan) {
    double salt = care_water_phase_salt(product->salt, product->water);
    const double hair = 1e-9;
    if (!(care_growth_share(held) > 1 + hair) || care_has_nitrite(product) ||
        salt >= water_phase_salt_least) {
        return;
    }
    bool unknown = guard_unknown(product);
    put(arena, plan, unknown ? "warm_unstated" : "warm_unguarded",
        unknown ? CARE_CAUTION : CARE_FORBIDS, QUANTITY_SHARE, NOT_STATED, water_phase_salt_least);
}

/* Raw food that lies too long in the warm without smoke. Cured with nitrite it may hang. */
static void add_left_warm(Arena *arena, const Product *product, const Plan *held, Plan *plan) {
    if (care_left_share(held) > 1 && !care_has_nitrite(product)) {
        const PlanSample *last = &held->samples.items[held->samples.count - 1];
        care_put(arena, plan, "left_warm", CARE_FORBIDS,
                 quantity(QUANTITY_INSTANT, (double)last->at),
                 quantity(QUANTITY_TEMPERATURE, left_times[0].below_c));
    }
}

static void add_warm_hours(Arena *arena, const Batch *batch, Plan *plan) {
    const Product *product = &batch->product;
    Plan held = care_food_exposure(arena, batch, plan);
    double warm_s = care_time_above_s(&held, CARE_GROWTH_C);
    if (warm_s > growth_hours_most * SECONDS_PER_HOUR) {
        care_put(arena, plan, "warm_hours", CARE_CAUTION, quantity(QUANTITY_DURATION, warm_s),
                 quantity(QUANTITY_TEMPERATURE, CARE_GROWTH_C));
    }
    add_warm_unguarded(arena, product, &held, plan);
    add_left_warm(arena, product, &held, plan);
}

void care_add_packing(Arena *arena, const Product *product, Plan *plan) {
    put(arena, plan, product->vacuum_packed ? "vacuum_chill" : "no_vacuum", CARE_CAUTION,
        QUANTITY_TEMPERATURE, NOT_STATED, botulinum_growth_c);
}

void care_add_flesh(Arena *arena, const Batch *batch, Plan *plan) {
    add_curing(arena, &batch->product, plan);
    care_add_salting(arena, &batch->product, plan);
    add_water_phase_salt(arena, &batch->product, plan);
    care_add_packing(arena, &batch->product, plan);
    add_warm_hours(arena, batch, plan);
    if (batch->product.kind == PRODUCT_MEAT) {
        care_put(arena, plan, "meat_raw", CARE_CAUTION, no_quantity(), no_quantity());
    }
}

bool care_weak(const Care *care) {
    static const char *const keys[] = {"cure_weak", "salting_weak", "salting_short", "kept_long"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (strcmp(care->key, keys[i]) == 0) {
            return true;
        }
    }
    return false;
}

bool care_unstated(const Care *care) {
    static const char *const keys[] = {"parasites_unstated", "salt_unstated",   "salt_unmeasured",
                                       "cure_unstated",      "nitrite_unknown", "warm_unstated"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (strcmp(care->key, keys[i]) == 0) {
            return true;
        }
    }
    return false;
}
