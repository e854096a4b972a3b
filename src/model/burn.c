#include "model/burn.h"

#include "model/bounds.h"
#include "model/uptake.h"

#include <math.h>

static const double STEP_OF_TAU = 1.0 / 8;
static const double LEAST_STEP_S = 60;
/* A step is never more than this share of the whole burn, so that a path can be read off well. */
static const double STEP_OF_BURN = 1.0 / 12;
/* A burn of weeks is not followed through every hour of every day: nor is a step less. */
static const double DAYS_STEP_OF_BURN = 1.0 / 300;
/* Moisture change, over one time constant, that no longer counts. */
static const double STILL_MOISTURE = 1e-9;
/* And under which a bed is taken as following the air, and its step then. */
static const double FOLLOWS_MOISTURE = 1e-3;
static const double FOLLOWING_STEP_OF_TAU = 1.0 / 2;
/* A step that Runge–Kutta still bears: what is off shrinks to a third. */
static const double STABLE_STEP_OF_TAU = 2;
enum { STEPS_MAX = 100000 };

static WaitingBed waiting_of(const Bed *bed) {
    return (WaitingBed){bed->section.uptake_depth_m, bed->dry_kg_m3};
}

static CabinetAir air_with(const BurnSetup *setup, double time_s, const double moisture[2],
                           OutsideAir *outside) {
    *outside = weather_at(setup->weather, setup->start + time_s);
    outside->wind_mps = setup->sheltered ? 0 : outside->wind_mps;
    CabinetFire fire = {
        setup->bed, setup->speed_factor, {moisture[0], moisture[1]}, setup->fronts, setup->rich};
    return cabinet_air(setup->cabinet, *outside, &fire);
}

CabinetAir burn_air(const BurnSetup *setup, const BurnPoint *point, OutsideAir *outside) {
    return air_with(setup, point->time_s, point->moisture, outside);
}

/* Fills the slopes of a point. */
static void slopes(const BurnSetup *setup, BurnPoint *point) {
    OutsideAir outside;
    CabinetAir air = burn_air(setup, point, &outside);
    WaitingBed waiting = waiting_of(setup->bed);
    point->air = air;
    for (int front = 0; front < setup->fronts; front++) {
        point->speed_mps[front] = air.speed_mps[front];
        point->uptake_per_s[front] = uptake_rate_per_s(&waiting, point->moisture[front], air.temp_c,
                                                       air.tray_humidity, &point->tau_s[front]);
    }
}

static BurnPoint moved(const BurnSetup *setup, const BurnPoint *from, const BurnPoint *slope,
                       double step_s) {
    BurnPoint to = *from;
    to.time_s += step_s;
    for (int front = 0; front < setup->fronts; front++) {
        to.along_m[front] += slope->speed_mps[front] * step_s;
        to.moisture[front] = fmax(to.moisture[front] + slope->uptake_per_s[front] * step_s, 0);
    }
    slopes(setup, &to);
    return to;
}

static BurnPoint runge_kutta(const BurnSetup *setup, const BurnPoint *a, double step_s) {
    BurnPoint b = moved(setup, a, a, step_s / 2);
    BurnPoint c = moved(setup, a, &b, step_s / 2);
    BurnPoint d = moved(setup, a, &c, step_s);
    BurnPoint mean = *a;
    for (int front = 0; front < setup->fronts; front++) {
        mean.speed_mps[front] = (a->speed_mps[front] + 2 * b.speed_mps[front] +
                                 2 * c.speed_mps[front] + d.speed_mps[front]) /
                                6;
        mean.uptake_per_s[front] = (a->uptake_per_s[front] + 2 * b.uptake_per_s[front] +
                                    2 * c.uptake_per_s[front] + d.uptake_per_s[front]) /
                                   6;
    }
    return moved(setup, a, &mean, step_s);
}

static double burnt_m(const BurnSetup *setup, const BurnPoint *point) {
    return point->along_m[0] + (setup->fronts == 2 ? point->along_m[1] : 0);
}

static double closing_mps(const BurnSetup *setup, const BurnPoint *point) {
    return point->speed_mps[0] + (setup->fronts == 2 ? point->speed_mps[1] : 0);
}

/* Shortest time constant of the fronts' beds, s, and how much moisture has yet to change. */
static double time_constant_s(const BurnSetup *setup, const BurnPoint *point, double *change) {
    double least_s = INFINITY;
    *change = 0;
    for (int front = 0; front < setup->fronts; front++) {
        *change = fmax(*change, fabs(point->uptake_per_s[front]) * point->tau_s[front]);
        least_s = fmin(least_s, point->tau_s[front]);
    }
    return least_s;
}

/* A bed that follows the air closely is stepped by half its time constant: nothing in it is left to
 * die away, and what drives it takes hours. A burn of weeks is not followed through every hour. */
static double next_step_s(const BurnSetup *setup, const BurnPoint *point) {
    double change;
    double tau_s = time_constant_s(setup, point, &change);
    double now = setup->start + point->time_s;
    double change_s = weather_next_reading(setup->weather, now) - now;
    double whole_s = setup->length_m / closing_mps(setup, point);
    double share = change < FOLLOWS_MOISTURE ? FOLLOWING_STEP_OF_TAU : STEP_OF_TAU;
    double usual_s = fmin(fmax(tau_s * share, LEAST_STEP_S), whole_s * STEP_OF_BURN);
    if (weather_night_fall_k(setup->weather) > 0) {
        double days_s = whole_s * DAYS_STEP_OF_BURN;
        change_s = fmax(change_s, days_s);
        usual_s = fmax(usual_s, fmin(days_s, tau_s * STABLE_STEP_OF_TAU));
    }
    return fmin(usual_s * setup->step_share, change_s);
}

/* How long nothing changes any more, s: neither the weather nor the beds. */
static double rest_s(const BurnSetup *setup, const BurnPoint *point) {
    double change;
    double now = setup->start + point->time_s;
    time_constant_s(setup, point, &change);
    return change < STILL_MOISTURE ? weather_holds_until(setup->weather, now) - now : 0;
}

/* The step, shortened, that ends with the channel burnt: secant on its length, kept between ends
 * that close in, since in a burn of years a step may hold many days. */
static BurnPoint last_step(const BurnSetup *setup, const BurnPoint *from, double step_s) {
    double left_m = setup->length_m - burnt_m(setup, from);
    double low_s = 0, high_s = step_s;
    double guess_s = fmin(step_s, left_m / closing_mps(setup, from));
    BurnPoint to = runge_kutta(setup, from, guess_s);
    for (int turn = 0; turn < 60; turn++) {
        double off_m = setup->length_m - burnt_m(setup, &to);
        double change_s = off_m / closing_mps(setup, &to);
        if (fabs(change_s) < 1e-7 || fabs(change_s) < 1e-13 * guess_s) {
            break;
        }
        *(off_m > 0 ? &low_s : &high_s) = guess_s;
        double next_s = guess_s + change_s;
        guess_s = next_s > low_s && next_s < high_s ? next_s : (low_s + high_s) / 2;
        to = runge_kutta(setup, from, guess_s);
    }
    return to;
}

/* A time in which nothing changes, and at most the rest of the burn: one step, exact. */
static BurnPoint coast(const BurnSetup *setup, BurnPoint *from, double still_s, bool *out) {
    double left_s = (setup->length_m - burnt_m(setup, from)) / closing_mps(setup, from);
    double step_s = fmin(still_s, left_s);
    from->uptake_per_s[0] = from->uptake_per_s[1] = 0;
    BurnPoint to = *from;
    to.time_s += step_s;
    for (int front = 0; front < setup->fronts; front++) {
        to.along_m[front] += from->speed_mps[front] * step_s;
    }
    *out = still_s >= left_s;
    if (!*out) {
        slopes(setup, &to);
    }
    return to;
}

/* The next point of a path, and whether the channel is burnt with it. */
static BurnPoint onwards(const BurnSetup *setup, BurnPoint *from, bool *out) {
    double still_s = rest_s(setup, from);
    if (still_s > 0) {
        return coast(setup, from, still_s, out);
    }
    double step_s = next_step_s(setup, from);
    BurnPoint next = runge_kutta(setup, from, step_s);
    *out = burnt_m(setup, &next) >= setup->length_m;
    return *out ? last_step(setup, from, step_s) : next;
}

BurnPath burn_path(Arena *arena, const BurnSetup *setup) {
    BurnPath path = {0};
    BurnPoint first = {.moisture = {setup->moistures[0], setup->moistures[1]}};
    bool out = false;
    slopes(setup, &first);
    LIST_ADD(arena, &path.points, first);
    for (int turn = 0; turn < STEPS_MAX && !out; turn++) {
        BurnPoint next = onwards(setup, &path.points.items[path.points.count - 1], &out);
        LIST_ADD(arena, &path.points, next);
    }
    path.time_s = path.points.items[path.points.count - 1].time_s;
    return path;
}

static size_t step_holding(const BurnPath *path, double time_s) {
    size_t low = 1;
    size_t high = path->points.count - 1;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (path->points.items[middle].time_s < time_s) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

/* Cubic Hermite on a step, with its slope. */
static double hermite(double a, double slope_a, double b, double slope_b, double step, double share,
                      double *slope) {
    double u = share, v = 1 - share;
    double rise = step > 0 ? (b - a) / step : slope_a;
    *slope = 6 * u * v * rise + v * (1 - 3 * u) * slope_a + u * (3 * u - 2) * slope_b;
    return a * v * v * (1 + 2 * u) + b * u * u * (3 - 2 * u) +
           step * u * v * (v * slope_a - u * slope_b);
}

BurnPoint burn_at(const BurnPath *path, double time_s) {
    double when_s = clamp(time_s, 0, path->time_s);
    size_t step = step_holding(path, when_s);
    const BurnPoint *a = &path->points.items[step - 1];
    const BurnPoint *b = a + 1;
    double length_s = b->time_s - a->time_s;
    double share = length_s > 0 ? clamp((when_s - a->time_s) / length_s, 0, 1) : 1;
    BurnPoint point = {.time_s = when_s};
    for (int front = 0; front < 2; front++) {
        point.along_m[front] = hermite(a->along_m[front], a->speed_mps[front], b->along_m[front],
                                       b->speed_mps[front], length_s, share,
                                       &point.speed_mps[front]);
        point.moisture[front] =
            fmax(hermite(a->moisture[front], a->uptake_per_s[front], b->moisture[front],
                         b->uptake_per_s[front], length_s, share, &point.uptake_per_s[front]),
                 0);
    }
    return point;
}

double burn_time_at_s(const BurnPath *path, double along_m) {
    double low_s = 0;
    double high_s = path->time_s;
    for (int turn = 0; turn < 60 && high_s - low_s > 1e-6; turn++) {
        double middle_s = (low_s + high_s) / 2;
        if (burn_at(path, middle_s).along_m[0] < along_m) {
            low_s = middle_s;
        } else {
            high_s = middle_s;
        }
    }
    return (low_s + high_s) / 2;
}
