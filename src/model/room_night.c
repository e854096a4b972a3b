#include "model/room_night.h"

#include "model/dark.h"
#include "model/fire_constants.h"

#include <math.h>

/* Raster in which the night is looked through for hours when nobody is awake. */
static const double LOOK_S = 300;

static const LightingRun *run_of(const Lighting *lighting, bool fast) {
    return fast && lighting->early.path.points.count > 0 ? &lighting->early : &lighting->middle;
}

static double burnt_between_kg(const Lighting *lighting, const BurnPoint *a, const BurnPoint *b) {
    double length_m = b->along_m[0] - a->along_m[0];
    length_m += lighting->middle.setup.fronts == 2 ? b->along_m[1] - a->along_m[1] : 0;
    return length_m * lighting->bed.dry_kg_per_m;
}

RoomTrace room_night_trace(Arena *arena, const Night *night, bool fast, double co_kg_per_kg) {
    const Room *room = &night->batch->workshop->room;
    RoomTrace trace = {0};
    for (size_t i = 0; i < night->lightings.count; i++) {
        const Lighting *lighting = &night->lightings.items[i];
        const LightingRun *run = run_of(lighting, fast);
        const BurnPoint *points = run->path.points.items;
        double begins_s = run->setup.start - (double)night->light_at;
        for (size_t j = 0; j + 1 < run->path.points.count; j++) {
            double time_s = points[j + 1].time_s - points[j].time_s;
            double burnt_kg = burnt_between_kg(lighting, &points[j], &points[j + 1]);
            double emission = time_s > 0 ? co_kg_per_kg * burnt_kg / time_s : 0;
            room_trace_add(arena, room, &trace, begins_s + points[j].time_s, emission);
        }
        /* between two lightings the room airs */
        room_trace_add(arena, room, &trace, begins_s + run->path.time_s, 0);
    }
    return trace;
}

static Instant instant(const Night *night, double time_s) {
    return night->light_at + (Instant)llround(time_s);
}

static void find_peak(const Night *night, const RoomTrace *trace, PlanRoom *room) {
    for (size_t i = 0; i < trace->count; i++) {
        if (trace->items[i].air.co_mg_m3 > room->peak_mg_m3) {
            room->peak_mg_m3 = trace->items[i].air.co_mg_m3;
            room->peak_at = instant(night, trace->items[i].time_s);
        }
    }
    room->peak_ppm = room_ppm(room->peak_mg_m3);
}

static bool nobody_awake(const Batch *batch, Instant at) {
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        const Away *away = &batch->timing.away.items[i];
        if (at >= away->from && at < away->to) {
            return true;
        }
    }
    return dark_at(batch->workshop->zone, at);
}

/* Whether the air still holds more than the least limit while nobody is awake to feel ill. */
static bool foul_while_asleep(const Night *night, const RoomTrace *trace) {
    const Room *room = &night->batch->workshop->room;
    double last_s = trace->count > 0 ? trace->items[trace->count - 1].time_s : 0;
    int steps = (int)((last_s + SECONDS_PER_DAY) / LOOK_S);
    for (int i = 0; i <= steps; i++) {
        double time_s = i * LOOK_S;
        bool foul = room_trace_air(room, trace, time_s).co_mg_m3 > room_least_limit_mg_m3();
        if (foul && nobody_awake(night->batch, instant(night, time_s))) {
            return true;
        }
    }
    return false;
}

/* Which of two windows is nearer its limit, or further over it: by the ordinary smoke where that
 * passes any limit, else by the rich. */
static bool worse(const PlanRoom *room, const PlanRoomWindow *one, const PlanRoomWindow *other) {
    if (room->over_limit) {
        return one->mean_mg_m3 / one->limit_mg_m3 > other->mean_mg_m3 / other->limit_mg_m3;
    }
    return one->rich_mg_m3 / one->limit_mg_m3 > other->rich_mg_m3 / other->limit_mg_m3;
}

static void judge_windows(PlanRoom *room) {
    for (size_t i = 0; i < room->windows.count; i++) {
        const PlanRoomWindow *window = &room->windows.items[i];
        room->over_limit = room->over_limit || window->mean_mg_m3 > window->limit_mg_m3;
        room->near_limit = room->near_limit || window->rich_mg_m3 > window->limit_mg_m3;
    }
    room->near_limit = room->near_limit && !room->over_limit;
    room->worst = room->windows.items[0];
    for (size_t i = 1; i < room->windows.count; i++) {
        if (worse(room, &room->windows.items[i], &room->worst)) {
            room->worst = room->windows.items[i];
        }
    }
}

/* First the ordinary night, then the rich and fast one. */
static PlanRoomWindow window_of(const Night *night, const RoomTrace traces[2], RoomLimit limit) {
    const Room *room = &night->batch->workshop->room;
    RoomMean ordinary = room_worst_mean(room, &traces[0], limit.window_s);
    RoomMean rich = room_worst_mean(room, &traces[1], limit.window_s);
    return (PlanRoomWindow){.length_s = limit.window_s,
                            .mean_mg_m3 = ordinary.mean_mg_m3,
                            .rich_mg_m3 = fmax(rich.mean_mg_m3, ordinary.mean_mg_m3),
                            .limit_mg_m3 = limit.limit_mg_m3,
                            .edition = limit.edition,
                            .until = instant(night, ordinary.until_s)};
}

static PlanRoom unjudged(const Night *night) {
    const Room *stated = &night->batch->workshop->room;
    const double none = NOT_STATED;
    return (PlanRoom){.stated = stated->stated,
                      .outdoors = stated->stated && stated->outdoors,
                      .peak_at = night->light_at,
                      .worst = {none, none, none, none, NULL, 0}};
}

void room_night_figures(Arena *arena, const Night *night, PlanRoom *room) {
    *room = unjudged(night);
    if (!room->stated || room->outdoors) {
        return;
    }
    RoomTrace traces[] = {room_night_trace(arena, night, false, FIRE_CO_KG_PER_KG),
                          room_night_trace(arena, night, true, FIRE_CO_RICH_KG_PER_KG)};
    find_peak(night, &traces[0], room);
    size_t count = 0;
    const RoomLimit *limits = room_limits(&count);
    for (size_t i = 0; i < count; i++) {
        LIST_ADD(arena, &room->windows, window_of(night, traces, limits[i]));
    }
    judge_windows(room);
    room->near_asleep = room->near_limit && foul_while_asleep(night, &traces[1]);
}
