#include "model/night.h"

#include "model/air.h"
#include "model/bounds.h"
#include "model/care.h"
#include "model/speed_constants.h"
#include "model/quadrature.h"
#include "model/uptake.h"

#include <math.h>

/* Air of a kitchen in which the oven stands, and where trays are filled: common practice. */
static const double KITCHEN_C = 20;
static const double KITCHEN_HUMIDITY = 0.5;
/* The shortest fill that a wanted burn time can ask for. */
static const double LEAST_FILL_M = 1e-3;
/* The least time for which a further lighting is worth a fire; judgement. */
static const double LEAST_LAST_S = 1800;
/* Steps of the speeds' paths, against the usual: the margin on them differs in the fifth digit. */
static const double SPEED_STEP_SHARE = 2;

OutsideAir night_store_air(const Batch *batch, double at) {
    OutsideAir air = weather_at(&batch->weather, at);
    const Store *store = &batch->workshop->store;
    air.temp_c = isnan(store->temp_c) ? air.temp_c : clamp(store->temp_c, -60, 60);
    air.humidity = isnan(store->humidity) ? air.humidity : clamp(store->humidity, 0, 1);
    return air;
}

static Lighting lighting_of(const Fill *fill, const Fuel *fuel) {
    Lighting lighting = {.fill = fill, .bed = bed_of(fuel, fill->tray, fill)};
    lighting.factors = margin_factors(&lighting.bed);
    lighting.channel_m = tray_channel_m(fill->tray);
    lighting.filled_m = lighting.channel_m;
    if (fill->filled_m > 0) {
        lighting.filled_m = clamp(fill->filled_m, LEAST_FILL_M, lighting.channel_m);
    }
    return lighting;
}

static void add_lightings(Arena *arena, const Fuel *fuel, Night *night) {
    for (size_t i = 0; i < night->batch->fills.count; i++) {
        const Fill *fill = &night->batch->fills.items[i];
        for (int turn = 0; turn < (fill->repeat > 1 ? fill->repeat : 1); turn++) {
            LIST_ADD(arena, &night->lightings, lighting_of(fill, fuel));
        }
    }
}

/* The oven heats by the open top and, through mesh, by half the floor and walls that show: lanes
 * stand side by side, so that of these only the floor does. */
static double oven_area_m2(const Lighting *lighting) {
    const Tray *tray = lighting->fill->tray;
    double floor_m = tray->wall == WALL_MESH ? tray->bottom_width_m / 2 : 0;
    return (lighting->bed.section.top_m + floor_m) * lighting->channel_m;
}

/* Load of all trays, filled over their whole channels: a part-filled one is alike per metre. */
static DryingLoad load_of(const Night *night, double moisture) {
    const Batch *batch = night->batch;
    DryingLoad load = {
        .moisture = moisture,
        .start_c = KITCHEN_C,
        .air_vapour_pa = air_vapour_pressure_pa(KITCHEN_C, KITCHEN_HUMIDITY),
        .oven_c = batch->predry.oven_temp_c,
        .transfer_w_m2k = drying_transfer_w_m2k(&batch->workshop->oven),
    };
    for (size_t i = 0; i < night->lightings.count; i++) {
        const Lighting *lighting = &night->lightings.items[i];
        load.dry_kg += lighting->bed.dry_kg_per_m * lighting->channel_m;
        load.metal_kg += lighting->bed.section.metal_kg_per_m * lighting->channel_m;
        load.area_m2 += oven_area_m2(lighting);
    }
    return load;
}

static NightDrying drying_of(const Night *night, double moisture) {
    const Predry *predry = &night->batch->predry;
    NightDrying drying = {.moisture = moisture};
    if (!predry->stated) {
        return drying;
    }
    drying.load = load_of(night, moisture);
    drying.wait_s = DRYING_COOLING_S + (isnan(predry->wait_s) ? 0 : fmax(predry->wait_s, 0));
    if (!isnan(predry->target)) {
        drying.time_s = drying_time_s(&drying.load, fmax(predry->target, 0));
        if (drying.time_s > 0) {
            drying.moisture = fmax(predry->target, drying_floor(&drying.load));
        }
    } else if (!isnan(predry->time_s)) {
        drying.time_s = fmax(predry->time_s, 0);
        drying.moisture = drying_moisture_after(&drying.load, drying.time_s);
    }
    return drying;
}

/* Moisture of a lighting that has waited `elapsed_s` since the first one was lit. */
static double moisture_when_lit(const Night *night, const Lighting *lighting, double elapsed_s) {
    double waited_s = elapsed_s;
    if (night->drying.time_s > 0) {
        waited_s += night->drying.wait_s - DRYING_COOLING_S;
    }
    if (night->batch->workshop->store.sealed || !(waited_s > 0)) {
        return night->drying.moisture;
    }
    OutsideAir air = night_store_air(night->batch, (double)night->light_at);
    WaitingBed bed = {lighting->bed.section.uptake_depth_m, lighting->bed.dry_kg_m3};
    return uptake_after(&bed, night->drying.moisture, air.temp_c, air.humidity, waited_s);
}

static BurnSetup setup_of(const Night *night, const Lighting *lighting, double speed_factor,
                          double elapsed_s) {
    double moisture = moisture_when_lit(night, lighting, elapsed_s);
    const Room *room = &night->batch->workshop->room;
    return (BurnSetup){.bed = &lighting->bed,
                       .speed_factor = speed_factor,
                       .length_m = lighting->filled_m,
                       .fronts = lighting->fill->both_ends ? 2 : 1,
                       .moistures = {moisture, moisture},
                       .weather = &night->batch->weather,
                       .cabinet = &night->cabinet,
                       .start = (double)night->light_at + elapsed_s,
                       .sheltered = room->stated && !room->outdoors,
                       .step_share = 1};
}

/* Length burnt by a time, carried on at the last speed beyond the path's end. */
static double burnt_by(const LightingRun *run, double time_s) {
    BurnPoint then = burn_at(&run->path, time_s);
    double burnt_m = 0;
    for (int front = 0; front < run->setup.fronts; front++) {
        burnt_m += then.along_m[front] + (time_s - then.time_s) * then.speed_mps[front];
    }
    return burnt_m;
}

bool night_chooses_length(const Batch *batch) {
    for (size_t i = 0; i < batch->fills.count; i++) {
        const Fill *fill = &batch->fills.items[i];
        if (fill->burn_time_s > 0 || (!fill->whole && batch->product.smoke_time_s > 0)) {
            return true;
        }
    }
    return false;
}

/* How long a lighting is to burn; NAN: the whole channel. What is left of the smoke time falls to
 * the last lighting; if the others leave it nothing to speak of it stays whole, and the plan says
 * that it is too long. */
static double wanted_s(const Night *night, size_t index, double smoked_s) {
    const Fill *fill = night->lightings.items[index].fill;
    if (fill->burn_time_s > 0) {
        return fill->burn_time_s;
    }
    double left_s = night->batch->product.smoke_time_s - smoked_s;
    bool last = index + 1 == night->lightings.count;
    bool wanted = last && !fill->whole && left_s > 0;
    return wanted && (index == 0 || left_s >= LEAST_LAST_S) ? left_s : NAN;
}

/* Fills only as far as the wanted time burns: the fronts' places then, on the whole channel. How
 * far a front has come does not depend on what lies ahead; one correction takes up what reading
 * between steps leaves. */
static void shorten(Arena *arena, Lighting *lighting, LightingRun *run, double wanted_s) {
    if (isnan(wanted_s) || lighting->fill->filled_m > 0) {
        return;
    }
    lighting->chosen = true;
    for (int turn = 0; turn < 4; turn++) {
        double over_s = wanted_s - run->path.time_s;
        bool whole = run->setup.length_m >= lighting->channel_m;
        if ((whole && over_s >= 0) || fabs(over_s) < 0.1) {
            break;
        }
        lighting->filled_m = clamp(burnt_by(run, wanted_s), LEAST_FILL_M, lighting->channel_m);
        run->setup.length_m = lighting->filled_m;
        run->path = burn_path(arena, &run->setup);
    }
}

/* A further lighting waits until somebody is there. Spans of absence may touch, so each is asked
 * again after every move. */
static double when_somebody_is_there_s(const Night *night, double elapsed_s) {
    size_t count = night->batch->timing.away.count;
    for (size_t turn = 0; turn < count; turn++) {
        for (size_t i = 0; i < count; i++) {
            const Away *away = &night->batch->timing.away.items[i];
            double from_s = (double)(away->from - night->light_at);
            double to_s = (double)(away->to - night->light_at);
            elapsed_s = elapsed_s > from_s && elapsed_s < to_s ? to_s : elapsed_s;
        }
    }
    return elapsed_s;
}

static void run_middle(Arena *arena, Night *night, double speed_factor) {
    double elapsed_s = 0;
    double smoked_s = 0;
    for (size_t i = 0; i < night->lightings.count; i++) {
        Lighting *lighting = &night->lightings.items[i];
        LightingRun *run = &lighting->middle;
        elapsed_s = i > 0 ? when_somebody_is_there_s(night, elapsed_s) : 0;
        run->setup = setup_of(night, lighting, speed_factor, elapsed_s);
        run->path = burn_path(arena, &run->setup);
        shorten(arena, lighting, run, wanted_s(night, i, smoked_s));
        smoked_s += run->path.time_s;
        lighting->lit_moisture = run->setup.moistures[0];
        lighting->dry_kg = lighting->bed.dry_kg_per_m * lighting->filled_m;
        elapsed_s += run->path.time_s;
    }
}

/* All lightings at a speed factor. A step may be longer where only the margin is asked of it. */
static void run_at(Arena *arena, const Night *night, double speed_factor, double step_share,
                   LightingRun *runs) {
    double elapsed_s = 0;
    for (size_t i = 0; i < night->lightings.count; i++) {
        elapsed_s = i > 0 ? when_somebody_is_there_s(night, elapsed_s) : 0;
        runs[i].setup = setup_of(night, &night->lightings.items[i], speed_factor, elapsed_s);
        runs[i].setup.step_share = step_share;
        runs[i].path = burn_path(arena, &runs[i].setup);
        elapsed_s += runs[i].path.time_s;
    }
}

static void run_band(Arena *arena, Night *night, double speed_factor, bool late) {
    size_t count = night->lightings.count;
    LightingRun *runs = ARENA_ARRAY(arena, count, LightingRun);
    run_at(arena, night, speed_factor, 1, runs);
    for (size_t i = 0; i < count; i++) {
        Lighting *lighting = &night->lightings.items[i];
        *(late ? &lighting->late : &lighting->early) = runs[i];
    }
}

void night_at_speeds(Arena *arena, Night *night, const SpeedFactor *speed, int count) {
    double chances[QUADRATURE_MOST], weights[QUADRATURE_MOST];
    quadrature_legendre(count, chances, weights);
    night->speeds.count = 0;
    for (int i = 0; i < count; i++) {
        NightSpeed at = {weights[i], ARENA_ARRAY(arena, night->lightings.count, LightingRun)};
        run_at(arena, night, speed_factor_at(speed, chances[i]), SPEED_STEP_SHARE, at.runs);
        LIST_ADD(arena, &night->speeds, at);
    }
}

Night *night_of(Arena *arena, const Batch *batch, const Fuel *fuel, double moisture,
                const Belief *belief, Instant light_at, NightDepth depth) {
    Night *night = ARENA_NEW(arena, Night);
    night->batch = batch;
    night->cabinet = cabinet_model(batch->cabinet);
    night->cabinet.product_kg_per_s = care_drying_kg_per_s(&batch->product);
    night->light_at = light_at;
    const SpeedFactor *speed = &belief->speed;
    double fast = speed_factor_at(speed, 1 - SPEED_EARLY_CHANCE);
    night->fast = fast / speed->middle;
    add_lightings(arena, fuel, night);
    night->drying = drying_of(night, moisture);
    run_middle(arena, night, speed->middle);
    if (depth >= NIGHT_CHANCE) {
        night_at_speeds(arena, night, speed, NIGHT_SPEEDS);
    }
    if (depth >= NIGHT_FAST || depth == NIGHT_TIMES) {
        run_band(arena, night, fast, false);
    }
    if (depth == NIGHT_BAND || depth == NIGHT_TIMES) {
        run_band(arena, night, speed_factor_at(speed, 1 - SPEED_LATE_CHANCE), true);
    }
    return night;
}

int lighting_worse_front(const Lighting *lighting, const BurnPoint *point) {
    return lighting->middle.setup.fronts == 2 && point->moisture[1] > point->moisture[0] ? 1 : 0;
}

double lighting_margin(const Lighting *lighting, const BurnPoint *point, const CabinetAir *air) {
    double moisture = point->moisture[lighting_worse_front(lighting, point)];
    return air->oxygen_factor * margin_hold(&lighting->factors, moisture, air->temp_c);
}

LeastMargin night_least_margin(const Night *night) {
    LeastMargin least = {.margin = INFINITY};
    for (size_t i = 0; i < night->lightings.count; i++) {
        const Lighting *lighting = &night->lightings.items[i];
        const BurnPath *path = &lighting->middle.path;
        for (size_t point = 0; point < path->points.count; point++) {
            const BurnPoint *at = &path->points.items[point];
            double margin = lighting_margin(lighting, at, &at->air);
            if (margin < least.margin) {
                least = (LeastMargin){margin, i, point};
            }
        }
    }
    return least;
}
