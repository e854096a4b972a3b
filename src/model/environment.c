#include "model/environment.h"

#include "model/air.h"
#include "model/doubt.h"
#include "model/fill_plan.h"
#include "model/fire_constants.h"
#include "model/room_night.h"

#include <math.h>

/* Weather a few hours old is still much the same; longer it is not (common practice, no source). */
static const double FORECAST_SLACK_S = 2 * SECONDS_PER_HOUR;

/* Where the forecast ends, and whether the burn, with the late end of its band, leaves it. */
static void judge_forecast(const Night *night, PlanWeather *weather) {
    const Weather *outside = &night->batch->weather;
    if (!weather->forecast) {
        return;
    }
    const Lighting *last = &night->lightings.items[night->lightings.count - 1];
    const LightingRun *run = last->late.path.points.count > 0 ? &last->late : &last->middle;
    double out = run->setup.start + run->path.time_s;
    weather->known_from = outside->readings.items[0].at;
    weather->known_to = outside->readings.items[outside->readings.count - 1].at;
    weather->beyond_forecast = out > (double)weather->known_to + FORECAST_SLACK_S ||
                               (double)night->light_at <
                                   (double)weather->known_from - FORECAST_SLACK_S;
}

void environment_weather(const Night *night, PlanWeather *weather) {
    const Weather *outside = &night->batch->weather;
    OutsideAir lit = weather_at(outside, (double)night->light_at);
    *weather = (PlanWeather){.temp_c = lit.temp_c,
                             .humidity = lit.humidity,
                             .coldest_c = lit.temp_c,
                             .dampest = lit.humidity,
                             .wind_mps = lit.wind_mps,
                             .windiest_mps = lit.wind_mps,
                             .night_fall_k = weather_night_fall_k(outside),
                             .forecast = outside->readings.count > 1,
                             .lead_s = doubt_lead_s(night)};
    weather->forecast_far = weather->lead_s > DOUBT_FORECAST_FAR_S;
    judge_forecast(night, weather);
    for (size_t i = 0; i < night->lightings.count; i++) {
        const LightingRun *run = &night->lightings.items[i].middle;
        for (size_t j = 0; j < run->path.points.count; j++) {
            double at = run->setup.start + run->path.points.items[j].time_s;
            OutsideAir air = weather_at(outside, at);
            weather->coldest_c = fmin(weather->coldest_c, air.temp_c);
            weather->dampest = fmax(weather->dampest, air.humidity);
            weather->windiest_mps = fmax(weather->windiest_mps, air.wind_mps);
        }
    }
}

static const double SAMPLE_S = 600;
static const double SAMPLES_MOST = 600;

/* Margin when a slow front of the 80 % band comes to the same place. */
static double margin_if_late(const Lighting *lighting, double along_m) {
    const LightingRun *late = &lighting->late;
    BurnPoint point = burn_at(&late->path, burn_time_at_s(&late->path, along_m));
    OutsideAir outside;
    CabinetAir air = burn_air(&late->setup, &point, &outside);
    return lighting_margin(lighting, &point, &air);
}

static PlanSample sample_of(const Lighting *lighting, int number, const BurnPoint *point,
                            double co_mg_m3) {
    const LightingRun *run = &lighting->middle;
    OutsideAir outside;
    CabinetAir air = burn_air(&run->setup, point, &outside);
    double margin = lighting_margin(lighting, point, &air);
    return (PlanSample){
        .at = fill_plan_instant(run, point->time_s),
        .fill = number,
        .along_m = point->along_m[0],
        .second_m = run->setup.fronts == 2 ? lighting->filled_m - point->along_m[1] : NOT_STATED,
        .lane = tray_lane_at(lighting->fill->tray, point->along_m[0], NULL),
        .speed_mps = air.speed_mps[0],
        .moisture = point->moisture[lighting_worse_front(lighting, point)],
        .margin = margin,
        .margin_low = fmin(margin, margin_if_late(lighting, point->along_m[0])),
        .power_w = air.power_w,
        .outside_temp_c = outside.temp_c,
        .outside_humidity = outside.humidity,
        .cabinet_temp_c = air.temp_c,
        .cabinet_humidity = air.humidity,
        .co_mg_m3 = co_mg_m3,
    };
}

static double sample_step_s(const Night *night) {
    double whole_s = 0;
    for (size_t i = 0; i < night->lightings.count; i++) {
        whole_s += night->lightings.items[i].middle.path.time_s;
    }
    return SAMPLE_S * ceil(fmax(whole_s / SAMPLES_MOST / SAMPLE_S, 1));
}

/* Samples of one lighting on the night's own raster, and at its two ends. */
static void sample_lighting(Arena *arena, const Night *night, size_t index, double step_s,
                            const RoomTrace *room, Plan *plan) {
    const Lighting *lighting = &night->lightings.items[index];
    const LightingRun *run = &lighting->middle;
    double offset_s = run->setup.start - (double)night->light_at;
    double next_s = (floor(offset_s / step_s) + 1) * step_s - offset_s;
    double time_s = 0;
    for (;;) {
        BurnPoint point = burn_at(&run->path, time_s);
        RoomAir air = room_trace_air(&night->batch->workshop->room, room, offset_s + time_s);
        LIST_ADD(arena, &plan->samples, sample_of(lighting, (int)index + 1, &point, air.co_mg_m3));
        if (time_s >= run->path.time_s) {
            return;
        }
        /* a raster time so close to the end would be the end twice */
        time_s = run->path.time_s - next_s < 1 ? run->path.time_s : next_s;
        next_s += step_s;
    }
}

void environment_samples(Arena *arena, const Night *night, Plan *plan) {
    double step_s = sample_step_s(night);
    RoomTrace room = room_night_trace(arena, night, false, FIRE_CO_KG_PER_KG);
    for (size_t i = 0; i < night->lightings.count; i++) {
        sample_lighting(arena, night, i, step_s, &room, plan);
    }
}
