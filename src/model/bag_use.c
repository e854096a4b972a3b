#include "model/bag_use.h"

#include "base/date.h"
#include "model/look_ins.h"
#include "model/plan.h"

/* Of the day of packing: in steady weather any hour is like another. */
static Instant noon_of(const Bagging *bagging) {
    return date_to_days(bagging->packed) * SECONDS_PER_DAY + SECONDS_PER_DAY / 2;
}

static Batch *night_with(Arena *arena, const Bagging *bagging, const Blend *blend,
                         const Tray *tray) {
    Batch *batch = ARENA_NEW(arena, Batch);
    *batch = (Batch){
        .place = blend->place,
        .file = bagging->file,
        .name = bagging->name,
        .workshop = bagging->workshop,
        .cabinet = &bagging->workshop->cabinets.items[0],
        .product = {.kind = PRODUCT_OTHER,
                    .not_raw = true,
                    .mass_kg = NOT_STATED,
                    .smoke_time_s = NOT_STATED,
                    .salt = NOT_STATED,
                    .water = NOT_STATED,
                    .limit_temp_c = NOT_STATED},
        .blend = *blend,
        .predry = {.stated = true,
                   .oven_temp_c = BAG_USE_OVEN_C,
                   .time_s = NOT_STATED,
                   .target = BAG_USE_DRY_TO,
                   .wait_s = NOT_STATED},
        .timing = {.kind = TIMING_LIGHT_AT, .at = noon_of(bagging)},
        .record = {.burnt_m = NOT_STATED, .ash_kg = NOT_STATED},
    };
    LIST_ADD(arena, &batch->weather.readings,
             ((WeatherReading){.temp_c = BAG_USE_NIGHT_C,
                               .humidity = BAG_USE_NIGHT_HUMIDITY,
                               .wind_mps = NOT_STATED}));
    LIST_ADD(arena, &batch->fills,
             ((Fill){.tray = tray,
                     .level = 1,
                     .heap_angle_rad = NOT_STATED,
                     .packing = PACKING_LEVELLED,
                     .repeat = 1,
                     .burn_time_s = NOT_STATED,
                     .whole = true}));
    return batch;
}

void bag_use(Arena *arena, const Bagging *bagging, const Blend *blend, PlanBag *bag) {
    const Tray *tray = bag->order->tray;
    bag->dry_to = BAG_USE_DRY_TO;
    bag->oven_c = BAG_USE_OVEN_C;
    bag->look_after_s = LOOK_INS_FIRST_S;
    bag->tray_channel_m = tray ? tray_channel_m(tray) : NOT_STATED;
    bag->burns_from_s = bag->burns_to_s = NOT_STATED;
    if (!tray || !date_valid(bagging->packed) || bagging->workshop->cabinets.count == 0) {
        return;
    }
    const Plan *plan = plan_make(arena, night_with(arena, bagging, blend, tray));
    const PlanBurn *burn = &plan->burn;
    if (!burn->dies && burn->chance >= burn->chance_good) {
        bag->burns_from_s = (double)(burn->out_early - burn->light_at);
        bag->burns_to_s = (double)(burn->out_late - burn->light_at);
    }
}
