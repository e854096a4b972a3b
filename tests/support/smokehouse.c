#include "support/smokehouse.h"

#include "model/session.h"
#include "support/close.h"

#include <math.h>
#include <string.h>

Dust smokehouse_dust(const char *wood, double moisture, double from_m, double to_m) {
    return (Dust){.id = wood,
                  .name = wood,
                  .material = wood,
                  .moisture = moisture,
                  .grain_from_m = from_m,
                  .grain_to_m = to_m,
                  .bulk_density_kg_m3 = NAN,
                  .steadiness = NAN,
                  .stock_kg = NAN,
                  .sieve = {.sample_kg = NAN}};
}

static Dust sieved(Arena *arena, const char *wood, double moisture, const double *aperture_m,
                   const double *retained_kg, size_t count) {
    Dust dust = smokehouse_dust(wood, moisture, NAN, NAN);
    for (size_t i = 0; i < count; i++) {
        SieveClass class = {.aperture_m = aperture_m[i], .retained = retained_kg[i]};
        LIST_ADD(arena, &dust.sieve.classes, class);
    }
    return dust;
}

static void add_dusts(Smokehouse *house) {
    static const double cherry_m[] = {1.4e-3, 1e-3, 710e-6, 500e-6, 355e-6, 250e-6, 0};
    static const double cherry_kg[] = {4.1e-3, 18.3e-3, 27e-3, 24.2e-3, 14.1e-3, 7.4e-3, 4.2e-3};
    static const double residue_m[] = {500e-6, 355e-6, 250e-6, 125e-6, 0};
    static const double residue_kg[] = {4e-3, 7.5e-3, 11.5e-3, 15e-3, 11.8e-3};
    house->carrier = smokehouse_dust("beech", 0.04, 500e-6, 750e-6);
    house->cherry = sieved(house->arena, "cherry", 0.04, cherry_m, cherry_kg, 7);
    house->residue = sieved(house->arena, "oak", 0.04, residue_m, residue_kg, 5);
    house->residue.charred = true;
    house->sulky = smokehouse_dust("sulky", 0.04, 500e-6, 750e-6);
    house->sulky.steadiness = 0.62;
}

Smokehouse *smokehouse_new(Arena *arena) {
    Smokehouse *house = ARENA_NEW(arena, Smokehouse);
    house->arena = arena;
    house->fold = (Tray){.id = "fold",
                         .path = PATH_LANES,
                         .lanes = 5,
                         .lane_length_m = 0.150,
                         .pitch_m = 0.024,
                         .channel_width_m = 0.020,
                         .channel_depth_m = 0.020,
                         .bottom_width_m = 0.020,
                         .wall = WALL_MESH,
                         .metal_kg_m2 = 0.9};
    house->trough = (Tray){.id = "trough",
                           .path = PATH_LANES,
                           .lanes = 3,
                           .lane_length_m = 0.400,
                           .pitch_m = 0.040,
                           .channel_width_m = 0.030,
                           .channel_depth_m = 0.025,
                           .bottom_width_m = 0.030,
                           .wall = WALL_PLATE,
                           .metal_kg_m2 = 15.7};
    house->cabinet = (Cabinet){.id = "tall",
                               .width_m = 0.6,
                               .depth_m = 0.5,
                               .height_m = 1.4,
                               .wall = CABINET_WOOD,
                               .wall_w_m2k = NAN,
                               .inlet_m2 = 40e-4,
                               .outlet_m2 = 40e-4,
                               .inlet_full_m2 = NAN,
                               .outlet_full_m2 = NAN,
                               .rise_m = 1.2};
    house->workshop = (Workshop){
        .zone = zone_load(arena, "UTC"),
        .room = {.stated = true, .outdoors = true, .volume_m3 = NAN, .air_changes_per_h = NAN},
        .oven = {.stated = true, .fan = true, .heat_transfer_w_m2k = NAN},
        .scale = {.resolution_kg = 0.001, .capacity_kg = NAN},
        .store = {.sealed = true, .temp_c = NAN, .humidity = NAN}};
    add_dusts(house);
    return house;
}

static Fill level_fill(const Tray *tray) {
    return (Fill){.tray = tray,
                  .level = 1,
                  .heap_angle_rad = NAN,
                  .packing = PACKING_LEVELLED,
                  .repeat = 1,
                  .burn_time_s = NAN};
}

Batch *smokehouse_batch(Smokehouse *house, const Tray *tray, double temp_c, double humidity) {
    Batch *batch = ARENA_NEW(house->arena, Batch);
    WeatherReading reading = {.temp_c = temp_c, .humidity = humidity};
    *batch = (Batch){.name = "a batch",
                     .workshop = &house->workshop,
                     .cabinet = &house->cabinet,
                     .product = {.limit_temp_c = NAN, .mass_kg = NAN, .smoke_time_s = NAN},
                     .blend = {.target_margin = NAN},
                     .predry = {.time_s = NAN, .target = NAN, .wait_s = NAN},
                     .timing = {.kind = TIMING_LIGHT_AT, .at = SMOKEHOUSE_EVENING},
                     .record = {.burnt_m = NAN, .ash_kg = NAN}};
    LIST_ADD(house->arena, &batch->weather.readings, reading);
    LIST_ADD(house->arena, &batch->fills, level_fill(tray));
    return batch;
}

void smokehouse_part(Smokehouse *house, Batch *batch, const Dust *dust, double share) {
    BlendPart part = {.dust = dust, .kind = SHARE_FIXED, .share = share};
    LIST_ADD(house->arena, &batch->blend.parts, part);
}

void smokehouse_carrier(Smokehouse *house, Batch *batch, const Dust *dust, double weight) {
    BlendPart part = {.dust = dust, .kind = SHARE_LEAST, .share = weight};
    LIST_ADD(house->arena, &batch->blend.parts, part);
}

void smokehouse_dry_for(Batch *batch, double minutes) {
    batch->predry = (Predry){
        .stated = true, .oven_temp_c = 100, .time_s = minutes * 60, .target = NAN, .wait_s = NAN};
}

void smokehouse_dry_to(Batch *batch, double moisture) {
    batch->predry = (Predry){
        .stated = true, .oven_temp_c = 100, .time_s = NAN, .target = moisture, .wait_s = NAN};
}

static bool chance(uint64_t *seed, double share) {
    return close_random(seed, 0, 1) < share;
}

static int whole(uint64_t *seed, int low, int high) {
    int value = low + (int)close_random(seed, 0, high - low + 1);
    return value > high ? high : value;
}

static Tray random_tray(uint64_t *seed) {
    Tray tray = {.id = "random",
                 .path = (ChannelPath)whole(seed, 0, 2),
                 .lanes = whole(seed, 1, 40),
                 .lane_length_m = close_random(seed, 0.05, 1.2),
                 .turns = close_random(seed, 0.5, 5),
                 .channel_width_m = close_random(seed, 0.006, 0.06),
                 .channel_depth_m = close_random(seed, 0.006, 0.06),
                 .wall = chance(seed, 0.5) ? WALL_MESH : WALL_PLATE};
    tray.metal_kg_m2 = tray.wall == WALL_MESH ? close_random(seed, 0.3, 2)
                                              : close_random(seed, 2, 25);
    tray.pitch_m = tray.channel_width_m * close_random(seed, 1, 1.6);
    tray.bottom_width_m = tray.channel_width_m * (chance(seed, 0.5) ? 1 : close_random(seed, 0, 1));
    tray.outer_m = 2 * tray.pitch_m * (tray.turns + close_random(seed, 0.1, 2));
    return tray;
}

static Dust random_dust(Arena *arena, uint64_t *seed) {
    static const char *const woods[] = {"beech", "oak", "cherry", "alder", "rosemary", "moonwood"};
    double from_m = exp(close_random(seed, log(50e-6), log(3e-3)));
    double moisture = chance(seed, 0.1) ? NAN : close_random(seed, 0, 0.35);
    const char *wood = woods[whole(seed, 0, 5)];
    Dust dust = smokehouse_dust(wood, moisture, from_m, from_m * close_random(seed, 1, 6));
    if (chance(seed, 0.4)) {
        double aperture_m[] = {2e-3, 1e-3, 500e-6, 250e-6, 125e-6, 0};
        double retained_kg[6];
        for (size_t i = 0; i < 6; i++) {
            retained_kg[i] = chance(seed, 0.3) ? 0 : close_random(seed, 0.001, 0.05);
        }
        retained_kg[2] += 0.01;
        dust = sieved(arena, wood, moisture, aperture_m, retained_kg, 6);
    }
    dust.charred = chance(seed, 0.2);
    dust.steadiness = chance(seed, 0.3) ? close_random(seed, 0.2, 1.5) : NAN;
    dust.bulk_density_kg_m3 = chance(seed, 0.3) ? close_random(seed, 60, 400) : NAN;
    return dust;
}

static void random_fill(Arena *arena, uint64_t *seed, Batch *batch) {
    Tray *tray = ARENA_NEW(arena, Tray);
    *tray = random_tray(seed);
    Fill fill = level_fill(tray);
    fill.level = chance(seed, 0.5) ? 1 : close_random(seed, 0.01, 1);
    fill.heaped = chance(seed, 0.3);
    fill.heap_angle_rad = chance(seed, 0.5) ? NAN : close_random(seed, 0.05, 1.2);
    fill.packing = (Packing)whole(seed, 0, 2);
    fill.both_ends = chance(seed, 0.3);
    fill.repeat = chance(seed, 0.8) ? 1 : whole(seed, 1, 3);
    fill.burn_time_s = chance(seed, 0.7) ? NAN : close_random(seed, 600, 15 * 3600);
    LIST_ADD(arena, &batch->fills, fill);
}

static void random_weather(Arena *arena, uint64_t *seed, Batch *batch) {
    batch->weather = (Weather){.place = {0}};
    int readings = chance(seed, 0.6) ? 1 : whole(seed, 2, 14);
    for (int i = 0; i < readings; i++) {
        WeatherReading reading = {.at = SMOKEHOUSE_EVENING + (i - 1) * (Instant)SECONDS_PER_HOUR,
                                  .temp_c = close_random(seed, -20, 38),
                                  .humidity = close_random(seed, 0.05, 1),
                                  .wind_mps = chance(seed, 0.5) ? NAN : close_random(seed, 0, 25)};
        LIST_ADD(arena, &batch->weather.readings, reading);
    }
    batch->weather.swings = readings == 1 && chance(seed, 0.5);
    batch->weather.clear = chance(seed, 0.5);
    batch->weather.read_at = SMOKEHOUSE_EVENING;
    batch->weather.read_clock_s = close_random(seed, 0, 24 * 3600);
}

static void random_environment(uint64_t *seed, Smokehouse *house, Batch *batch) {
    Cabinet *cabinet = &house->cabinet;
    cabinet->width_m = close_random(seed, 0.2, 2);
    cabinet->depth_m = close_random(seed, 0.2, 2);
    cabinet->height_m = close_random(seed, 0.3, 2.5);
    cabinet->wall = (CabinetWall)whole(seed, 0, 4);
    cabinet->inlet_m2 = chance(seed, 0.1) ? 0 : close_random(seed, 1e-4, 200e-4);
    cabinet->outlet_m2 = chance(seed, 0.1) ? 0 : close_random(seed, 1e-4, 200e-4);
    cabinet->rise_m = chance(seed, 0.3) ? NAN : close_random(seed, 0, 2);
    cabinet->exposure = (CabinetExposure)whole(seed, 0, 2);
    batch->cabinet = chance(seed, 0.1) ? NULL : cabinet;
    batch->product.kind = (ProductKind)whole(seed, 0, PRODUCT_OTHER);
    batch->product.mass_kg = chance(seed, 0.5) ? NAN : close_random(seed, 0.1, 60);
    house->workshop.room = (Room){.stated = chance(seed, 0.8),
                                  .outdoors = chance(seed, 0.3),
                                  .volume_m3 = close_random(seed, 5, 200),
                                  .air_changes_per_h = close_random(seed, 0, 8),
                                  .ducted_share = chance(seed, 0.7) ? 0 : close_random(seed, 0, 1)};
    house->workshop.store.sealed = chance(seed, 0.5);
    house->workshop.store.temp_c = chance(seed, 0.5) ? NAN : close_random(seed, 0, 30);
    house->workshop.store.humidity = chance(seed, 0.5) ? NAN : close_random(seed, 0.1, 1);
}

Batch *smokehouse_random(Arena *arena, uint64_t *seed) {
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 5, 0.8);
    int parts = whole(seed, 1, 5);
    for (int i = 0; i < parts; i++) {
        Dust *dust = ARENA_NEW(arena, Dust);
        *dust = random_dust(arena, seed);
        smokehouse_part(house, batch, dust, close_random(seed, 0.05, 1));
    }
    batch->blend.by_volume = chance(seed, 0.3);
    for (int i = whole(seed, 0, 2); i > 0; i--) {
        random_fill(arena, seed, batch);
    }
    random_weather(arena, seed, batch);
    random_environment(seed, house, batch);
    if (chance(seed, 0.4)) {
        smokehouse_dry_for(batch, close_random(seed, 1, 90));
    } else if (chance(seed, 0.4)) {
        smokehouse_dry_to(batch, close_random(seed, 0.005, 0.2));
    }
    batch->predry.oven_temp_c = close_random(seed, 50, 130);
    batch->predry.wait_s = chance(seed, 0.5) ? NAN : close_random(seed, 0, 24 * 3600);
    return batch;
}

Batch *smokehouse_recorded(Smokehouse *house, double speed_factor, double share) {
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, batch, &house->carrier, 1);
    Belief drawn = belief_unmeasured();
    drawn.speed.middle = speed_factor;
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(house->arena, batch, &drawn, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    const PlanSample *end = &plan.samples.items[0];
    const PlanSample *last = end + plan.samples.count - 1;
    while (end < last && end->along_m < share * plan.fills.items[0].filled_m) {
        end++;
    }
    batch->record = (Record){.stated = true,
                             .lit = SMOKEHOUSE_EVENING,
                             .out = end->at,
                             .burnt_m = share < 1 ? end->along_m : NAN,
                             .went_out_early = share < 1};
    return batch;
}
