#include "model/record_speed.h"

#include "model/bounds.h"
#include "model/doubt.h"
#include "model/speed_constants.h"

#include <math.h>

enum { POINTS_MAX = 64 };

/* How well people read and write (judgement): the place of a front, a time when somebody stood
 * there, and the time of the end, which is found at the next look. */
static const double PLACE_ERROR_M = 0.010;
static const double TIME_ERROR_S = 2 * 60;
static const double OUT_ERROR_S = 10 * 60;
/* How much the speed over a part of a burn may differ from that over all of it (judgement). */
static const double WITHIN_SPREAD = 0.10;
static const double AT_ODDS_SPREADS = 3;

/* So much burnt by then. */
typedef struct Point {
    double time_s, burnt_m;
    double error; /* spread of the logarithm of the speed it tells */
} Point;

typedef struct Points {
    int count; /* the last one leads */
    Point items[POINTS_MAX];
} Points;

static double error_of(double time_s, double time_error_s, double burnt_m) {
    return hypot(time_error_s / time_s, PLACE_ERROR_M / burnt_m);
}

/* Fronts read while it had burnt on without a break. Of several lightings nobody knows which one
 * a reading means. */
static void add_readings(const PastNight *past, const Night *night, Points *points) {
    const Record *record = past->record;
    Instant until = record->relit.count ? record->relit.items[0] : INT64_MAX;
    double whole_m = night->lightings.items[0].filled_m;
    for (size_t i = 0; i < record->readings.count && night->lightings.count == 1; i++) {
        const Reading *reading = &record->readings.items[i];
        bool told = reading->front_m > 0 && reading->at > record->lit && reading->at < until;
        if (told && points->count < POINTS_MAX - 1) {
            double time_s = (double)(reading->at - record->lit);
            double left = clamp(1 - reading->front_m / whole_m, 0, 1);
            double error =
                hypot(error_of(time_s, TIME_ERROR_S, reading->front_m), WITHIN_SPREAD * sqrt(left));
            points->items[points->count++] = (Point){time_s, reading->front_m, error};
        }
    }
}

/* The end of a burn without a break: out, and how much had burnt by then. */
static bool has_end(const PastNight *past, size_t lightings) {
    const Record *record = past->record;
    bool place = record->burnt_m > 0 && lightings == 1;
    bool whole = !record->went_out_early && isnan(record->burnt_m);
    return record->out > record->lit && record->relit.count == 0 && (place || whole);
}

static void add_end(const PastNight *past, const Night *night, Points *points) {
    const Record *record = past->record;
    double time_s = (double)(record->out - record->lit);
    double burnt_m = record->burnt_m;
    if (isnan(burnt_m)) {
        burnt_m = 0;
        for (size_t i = 0; i < night->lightings.count; i++) {
            burnt_m += night->lightings.items[i].filled_m;
        }
    }
    points->items[points->count++] =
        (Point){time_s, burnt_m, error_of(time_s, OUT_ERROR_S, burnt_m)};
}

static double model_time_s(const Night *night, double burnt_m) {
    const Lighting *first = &night->lightings.items[0];
    bool part = night->lightings.count == 1 && burnt_m < first->filled_m * (1 - 1e-9);
    return part ? past_night_time_to_s(night, burnt_m) : past_night_end_s(night);
}

/* The speed factor at which the model comes to the leading point when the record does. A slower
 * front finds damper dust, so that time falls a little faster than the speed factor rises: a few
 * corrections settle it. *night is run at it. */
static double leading_log_factor(Arena *arena, const PastNight *past, const Point *point,
                                 const Night **night) {
    double log_factor = 0;
    for (int turn = 0; turn < 12; turn++) {
        *night = past_night_run(arena, past, exp(log_factor));
        double off = log(model_time_s(*night, point->burnt_m) / point->time_s);
        if (fabs(off) < 1e-5) {
            break;
        }
        log_factor = clamp(log_factor + 0.8 * off, log(SPEED_LEAST), log(SPEED_MOST));
    }
    return log_factor;
}

/* All points as one speed, each weighed by how well it was measured. Near the leading speed factor,
 * time goes by its inverse. */
static RecordSpeed combined(const PastNight *past, const Points *points, const Night *night,
                            double log_factor) {
    const Point *lead = &points->items[points->count - 1];
    RecordSpeed speed = {
        .told = RECORD_TOLD_SPEED, .took_s = lead->time_s, .burnt_m = lead->burnt_m};
    double weights = 0;
    for (int i = 0; i < points->count; i++) {
        const Point *point = &points->items[i];
        double off = log(model_time_s(night, point->burnt_m) / point->time_s);
        double own = point == lead ? 0 : off;
        double allowed = hypot(hypot(point->error, lead->error), WITHIN_SPREAD);
        if (fabs(own) > AT_ODDS_SPREADS * allowed) {
            speed.told = RECORD_TOLD_AT_ODDS;
        }
        double weight = 1 / (point->error * point->error);
        speed.log_factor += weight * (log_factor + own);
        weights += weight;
    }
    speed.log_factor /= weights;
    speed.error = hypot(sqrt(1 / weights), doubt_weather_spread(past->batch, past->record->lit));
    return speed;
}

RecordSpeed record_speed(Arena *arena, const PastNight *past) {
    const Night *night = past_night_run(arena, past, 1);
    Points points = {0};
    add_readings(past, night, &points);
    bool end = has_end(past, night->lightings.count);
    bool short_of_length = end && isnan(past->record->burnt_m) && !past->length_known;
    if (end && !short_of_length) {
        add_end(past, night, &points);
    }
    if (points.count == 0) {
        return (RecordSpeed){.told = short_of_length ? RECORD_TOLD_LENGTH_UNKNOWN
                                                     : RECORD_TOLD_NOTHING};
    }
    double log_factor = leading_log_factor(arena, past, &points.items[points.count - 1], &night);
    return combined(past, &points, night, log_factor);
}

double record_speed_took_s(Arena *arena, const PastNight *past, const RecordSpeed *speed,
                           double speed_factor) {
    return model_time_s(past_night_run(arena, past, speed_factor), speed->burnt_m);
}
