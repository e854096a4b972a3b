#include "model/room.h"

#include "base/date.h"
#include "model/bounds.h"

#include <math.h>

static const double MG_PER_KG = 1e6;

/* WHO Regional Office for Europe, Air quality guidelines for Europe, 2nd edition, 2000 (looked up);
 * WHO global air quality guidelines, 2021 (looked up). The WHO guidelines for indoor air quality
 * of 2010 (from memory) have 100 mg/m³ for 15 min, 35 for 1 h, 10 for 8 h and 7 for 24 h: nowhere
 * the strictest. */
static const RoomLimit limits[] = {
    {15 * SECONDS_PER_MINUTE, 100, "limit.who_2000"}, /* the same in 2010 */
    {30 * SECONDS_PER_MINUTE, 60, "limit.who_2000"},  /* none in 2010 */
    {SECONDS_PER_HOUR, 30, "limit.who_2000"},         /* 35 in 2010 */
    {8 * SECONDS_PER_HOUR, 10, "limit.who_2000"},     /* the same in 2010 */
    {24 * SECONDS_PER_HOUR, 4, "limit.who_2021"},     /* 7 in 2010 */
};

const RoomLimit *room_limits(size_t *count) {
    *count = sizeof limits / sizeof *limits;
    return limits;
}

double room_least_limit_mg_m3(void) {
    double least = limits[0].limit_mg_m3;
    for (size_t i = 1; i < sizeof limits / sizeof *limits; i++) {
        least = fmin(least, limits[i].limit_mg_m3);
    }
    return least;
}

double room_ppm(double co_mg_m3) {
    return co_mg_m3 * 24.46 / 28.01;
}

/* No duct leads all of the smoke outside, whatever is said of it: joints, the door, a cold flue.
 * Judgement. */
static const double most_ducted = 0.95;

static bool breathes(const Room *room) {
    return room->stated && !room->outdoors && room->volume_m3 > 0;
}

RoomAir room_after(const Room *room, RoomAir air, double emission_kg_per_s, double time_s) {
    if (!breathes(room) || !(time_s > 0)) {
        return air;
    }
    double hours = time_s / SECONDS_PER_HOUR;
    double indoors = 1 - clamp(room->ducted_share, 0, most_ducted);
    double per_h = emission_kg_per_s * indoors * MG_PER_KG * SECONDS_PER_HOUR / room->volume_m3;
    double changes = fmax(room->air_changes_per_h, 1e-6);
    double steady = per_h / changes;
    double gone = -expm1(-changes * hours);
    RoomAir later = {.co_mg_m3 = air.co_mg_m3 + (steady - air.co_mg_m3) * gone};
    later.dose_mg_h_m3 = air.dose_mg_h_m3 + steady * hours +
                         (air.co_mg_m3 - steady) * gone / changes;
    return later;
}

void room_trace_add(Arena *arena, const Room *room, RoomTrace *trace, double time_s,
                    double emission_kg_per_s) {
    RoomPoint point = {time_s, {0, 0}, emission_kg_per_s};
    if (trace->count > 0) {
        const RoomPoint *last = &trace->items[trace->count - 1];
        point.time_s = fmax(time_s, last->time_s);
        point.air =
            room_after(room, last->air, last->emission_kg_per_s, point.time_s - last->time_s);
    }
    LIST_ADD(arena, trace, point);
}

RoomAir room_trace_air(const Room *room, const RoomTrace *trace, double time_s) {
    if (trace->count == 0 || time_s <= trace->items[0].time_s) {
        return (RoomAir){0, 0};
    }
    size_t at = 0;
    size_t after = trace->count;
    while (after - at > 1) {
        size_t middle = (at + after) / 2;
        if (trace->items[middle].time_s <= time_s) {
            at = middle;
        } else {
            after = middle;
        }
    }
    const RoomPoint *point = &trace->items[at];
    return room_after(room, point->air, point->emission_kg_per_s, time_s - point->time_s);
}

static double mean_until(const Room *room, const RoomTrace *trace, double window_s,
                         double until_s) {
    double after = room_trace_air(room, trace, until_s).dose_mg_h_m3;
    double before = room_trace_air(room, trace, until_s - window_s).dose_mg_h_m3;
    return (after - before) * SECONDS_PER_HOUR / window_s;
}

/* The mean changes slowly over a part of its own window: so many steps of one find the hill, and
 * the top is then closed in. */
enum { STEPS_A_WINDOW = 16, STEPS_MOST = 2000, TURNS = 30 };

RoomMean room_worst_mean(const Room *room, const RoomTrace *trace, double window_s) {
    RoomMean worst = {0, 0};
    if (trace->count == 0 || !breathes(room)) {
        return worst;
    }
    double from_s = trace->items[0].time_s;
    double whole_s = trace->items[trace->count - 1].time_s - from_s + window_s;
    double step_s = fmax(window_s / STEPS_A_WINDOW, whole_s / STEPS_MOST);
    for (int step = 1; (step - 1) * step_s < whole_s; step++) {
        double until_s = from_s + fmin(step * step_s, whole_s);
        double mean = mean_until(room, trace, window_s, until_s);
        worst = mean > worst.mean_mg_m3 ? (RoomMean){mean, until_s} : worst;
    }
    double width_s = step_s;
    for (int turn = 0; turn < TURNS; turn++) {
        width_s /= 1.5;
        for (int side = -1; side <= 1; side += 2) {
            double until_s = clamp(worst.until_s + side * width_s, from_s, from_s + whole_s);
            double mean = mean_until(room, trace, window_s, until_s);
            worst = mean > worst.mean_mg_m3 ? (RoomMean){mean, until_s} : worst;
        }
    }
    return worst;
}
