#include "model/fill_plan.h"

#include "model/fire_constants.h"

#include <math.h>

/* A mark so near the channel's end can not be told from it when filling. Judgement. */
static const double MARK_LEAST_M = 1e-3;

Instant fill_plan_instant(const LightingRun *run, double time_s) {
    return (Instant)llround(run->setup.start + time_s);
}

double fill_plan_margin_at(const Lighting *lighting, double time_s) {
    const LightingRun *run = &lighting->middle;
    BurnPoint point = burn_at(&run->path, time_s);
    OutsideAir outside;
    CabinetAir air = burn_air(&run->setup, &point, &outside);
    return lighting_margin(lighting, &point, &air);
}

/* The time between two, at one of which the margin is over the level and at the other under it, at
 * which it crosses. */
static double crossing_s(const Lighting *lighting, double level, double from_s, double to_s) {
    bool over = fill_plan_margin_at(lighting, from_s) >= level;
    double low_s = from_s;
    double high_s = to_s;
    for (int turn = 0; turn < 40 && high_s - low_s > 0.5; turn++) {
        double middle_s = (low_s + high_s) / 2;
        if ((fill_plan_margin_at(lighting, middle_s) >= level) == over) {
            low_s = middle_s;
        } else {
            high_s = middle_s;
        }
    }
    return (low_s + high_s) / 2;
}

static const BurnPoint *point_of(const Lighting *lighting, size_t index) {
    return &lighting->middle.path.points.items[index];
}

static double margin_of(const Lighting *lighting, size_t index) {
    const BurnPoint *point = point_of(lighting, index);
    return lighting_margin(lighting, point, &point->air);
}

static void death(const Lighting *lighting, PlanFill *fill) {
    size_t count = lighting->middle.path.points.count;
    size_t first = 0;
    while (first < count && margin_of(lighting, first) >= FIRE_MARGIN_HOLD) {
        first++;
    }
    fill->dies = first < count;
    fill->dies_along_m = NOT_STATED;
    if (!fill->dies) {
        return;
    }
    if (first == 0) {
        fill->dies_at = fill->light_at;
        fill->dies_along_m = 0;
        return;
    }
    double when_s = crossing_s(lighting, FIRE_MARGIN_HOLD, point_of(lighting, first - 1)->time_s,
                               point_of(lighting, first)->time_s);
    fill->dies_at = fill_plan_instant(&lighting->middle, when_s);
    fill->dies_along_m = burn_at(&lighting->middle.path, when_s).along_m[0];
}

static Cause cause_at(const Lighting *lighting, const BurnPoint *point, const CabinetAir *air) {
    int front = lighting_worse_front(lighting, point);
    return margin_cause(&lighting->factors, lighting->lit_moisture, point->moisture[front],
                        air->temp_c, air->oxygen_factor);
}

static void least(const Lighting *lighting, PlanFill *fill) {
    size_t count = lighting->middle.path.points.count;
    size_t worst = 0;
    for (size_t i = 1; i < count; i++) {
        worst = margin_of(lighting, i) < margin_of(lighting, worst) ? i : worst;
    }
    const BurnPoint *point = point_of(lighting, worst);
    fill->margin_at_start = margin_of(lighting, 0);
    fill->margin_least = margin_of(lighting, worst);
    fill->margin_least_at = fill_plan_instant(&lighting->middle, point->time_s);
    fill->margin_least_along_m = point->along_m[0];
    fill->cause = cause_at(lighting, point, &point->air);
}

/* Soaked dust dries while it waits, so that a slower front may even be out sooner: then the band
 * ends at the middle estimate, never short of it. */
static void band(const Lighting *lighting, PlanFill *fill) {
    Instant early = fill_plan_instant(&lighting->early, lighting->early.path.time_s);
    Instant late = fill_plan_instant(&lighting->late, lighting->late.path.time_s);
    fill->out_early = early < fill->out_at ? early : fill->out_at;
    fill->out_late = late > fill->out_at ? late : fill->out_at;
}

PlanFill fill_plan_figures(const Night *night, size_t index, double blend_moisture) {
    const Lighting *lighting = &night->lightings.items[index];
    const Section *section = &lighting->bed.section;
    PlanFill fill = {
        .fill = lighting->fill,
        .tray = lighting->fill->tray,
        .number = (int)index + 1,
        .channel_m = lighting->channel_m,
        .filled_m = lighting->filled_m,
        .whole = lighting->filled_m > lighting->channel_m - MARK_LEAST_M,
        .chosen = lighting->chosen,
        .depth_m = section->depth_m,
        .volume_m3 = section->area_m2 * lighting->filled_m,
        .dry_kg = lighting->dry_kg,
        .wet_kg = lighting->dry_kg * (1 + blend_moisture),
        .bulk_density_kg_m3 = lighting->bed.dry_kg_m3,
        .both_ends = lighting->fill->both_ends,
        .light_at = fill_plan_instant(&lighting->middle, 0),
        .out_at = fill_plan_instant(&lighting->middle, lighting->middle.path.time_s),
    };
    fill.end_lane = tray_lane_at(fill.tray, fill.filled_m, &fill.end_in_lane);
    fill.out_early = fill.out_late = fill.out_at;
    if (lighting->late.path.points.count > 0) {
        band(lighting, &fill);
    }
    least(lighting, &fill);
    death(lighting, &fill);
    return fill;
}

/* Most hour marks on one map: a longer burn is marked at every second, third… full hour. */
enum { HOURS_MAX = 48 };

static int hours_apart(double burn_s) {
    static const int apart[] = {1, 2, 3, 4, 6, 12};
    for (size_t i = 0; i < sizeof apart / sizeof *apart; i++) {
        if (burn_s / SECONDS_PER_HOUR / apart[i] <= HOURS_MAX) {
            return apart[i];
        }
    }
    return 24 * (int)ceil(burn_s / SECONDS_PER_DAY / HOURS_MAX);
}

/* The next full hour of the local clock that is a multiple of `apart`. */
static Instant next_hour(const Zone *zone, Instant after, int apart) {
    int offset = zone ? zone_offset(zone, after) : 0;
    int64_t local = after + offset;
    int64_t span = (int64_t)apart * SECONDS_PER_HOUR;
    int64_t into = ((local % span) + span) % span;
    Instant at = after + span - into;
    int later = zone ? zone_offset(zone, at) : 0;
    Instant moved = at - (later - offset);
    return moved > after ? moved : at;
}

static void add_mark(Arena *arena, PlanFill *fill, Instant at, double along_m) {
    double heading;
    MapPoint place = tray_point(fill->tray, along_m, &heading);
    int lane = tray_lane_at(fill->tray, along_m, NULL);
    LIST_ADD(arena, &fill->hours, ((HourMark){at, place, heading, lane}));
}

static void add_hours(Arena *arena, const Night *night, const Lighting *lighting, PlanFill *fill) {
    const LightingRun *run = &lighting->middle;
    const Zone *zone = night->batch->workshop->zone;
    int apart = hours_apart(run->path.time_s);
    Instant at = next_hour(zone, fill->light_at, apart);
    for (; at < fill->out_at; at = next_hour(zone, at, apart)) {
        BurnPoint point = burn_at(&run->path, (double)at - run->setup.start);
        add_mark(arena, fill, at, point.along_m[0]);
        if (fill->both_ends) {
            add_mark(arena, fill, at, fill->filled_m - point.along_m[1]);
        }
    }
}

/* Adds the stretch that a front burns between two times. */
static void add_stretch(Arena *arena, const Lighting *lighting, double from_s, double to_s,
                        double margin, double least_s, int end, PlanFill *fill) {
    const LightingRun *run = &lighting->middle;
    BurnPoint worst = burn_at(&run->path, least_s);
    OutsideAir outside;
    CabinetAir air = burn_air(&run->setup, &worst, &outside);
    double a_m = burn_at(&run->path, from_s).along_m[end];
    double b_m = burn_at(&run->path, to_s).along_m[end];
    WeakStretch weak = {.from_m = end ? fill->filled_m - b_m : a_m,
                        .to_m = end ? fill->filled_m - a_m : b_m,
                        .least_margin = margin,
                        .cause = cause_at(lighting, &worst, &air),
                        .from_at = fill_plan_instant(run, from_s),
                        .to_at = fill_plan_instant(run, to_s)};
    weak.line = tray_line(arena, fill->tray, weak.from_m, weak.to_m);
    LIST_ADD(arena, &fill->weak, weak);
}

/* Stretches whose margin is under that of a good burn, found between the points of the path. */
static void add_weak(Arena *arena, const Lighting *lighting, PlanFill *fill) {
    size_t count = lighting->middle.path.points.count;
    for (size_t i = 0; i < count; i++) {
        if (margin_of(lighting, i) >= FIRE_MARGIN_GOOD) {
            continue;
        }
        size_t last = i, worst = i;
        while (last + 1 < count && margin_of(lighting, last + 1) < FIRE_MARGIN_GOOD) {
            last++;
            worst = margin_of(lighting, last) < margin_of(lighting, worst) ? last : worst;
        }
        double from_s = point_of(lighting, i)->time_s, to_s = point_of(lighting, last)->time_s;
        if (i > 0) {
            from_s =
                crossing_s(lighting, FIRE_MARGIN_GOOD, point_of(lighting, i - 1)->time_s, from_s);
        }
        if (last + 1 < count) {
            to_s =
                crossing_s(lighting, FIRE_MARGIN_GOOD, to_s, point_of(lighting, last + 1)->time_s);
        }
        for (int end = 0; end < lighting->middle.setup.fronts && to_s > from_s; end++) {
            add_stretch(arena, lighting, from_s, to_s, margin_of(lighting, worst),
                        point_of(lighting, worst)->time_s, end, fill);
        }
        i = last;
    }
}

void fill_plan_map(Arena *arena, const Night *night, size_t index, PlanFill *fill) {
    const Lighting *lighting = &night->lightings.items[index];
    BurnPoint out = burn_at(&lighting->middle.path, lighting->middle.path.time_s);
    fill->line = tray_line(arena, fill->tray, 0, fill->channel_m);
    fill->lit_end = tray_point(fill->tray, 0, NULL);
    fill->fill_mark = tray_point(fill->tray, fill->filled_m, NULL);
    fill->finish = tray_point(fill->tray, out.along_m[0], NULL);
    tray_map_size(fill->tray, &fill->map_width_m, &fill->map_height_m);
    add_hours(arena, night, lighting, fill);
    add_weak(arena, lighting, fill);
}
