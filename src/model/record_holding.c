#include "model/record_holding.h"

#include "model/bounds.h"
#include "model/doubt.h"
#include "model/holding_constants.h"

#include <math.h>

/* Up to the end of an 80 % band. */
static const double CARE_SPREADS = 1.2815515655446004;

/* Least log margin of one lighting up to a time since it was lit; between the points of its path
 * straight. */
static double least_in(const Lighting *lighting, double until_s) {
    const BurnPath *path = &lighting->middle.path;
    double least = INFINITY, last = 0, last_s = 0;
    for (size_t i = 0; i < path->points.count; i++) {
        const BurnPoint *point = &path->points.items[i];
        double log_margin = log(lighting_margin(lighting, point, &point->air));
        if (point->time_s > until_s) {
            double share = clamp((until_s - last_s) / (point->time_s - last_s), 0, 1);
            return i ? fmin(least, last + (log_margin - last) * share) : log_margin;
        }
        least = fmin(least, log_margin);
        last = log_margin;
        last_s = point->time_s;
    }
    return least;
}

/* Least log margin up to a time since the first lighting; at least that of being lit. */
static double least_by(const Night *night, double elapsed_s) {
    double least = least_in(&night->lightings.items[0], 0);
    for (size_t i = 0; i < night->lightings.count; i++) {
        const Lighting *lighting = &night->lightings.items[i];
        double lit_s = lighting->middle.setup.start - (double)night->light_at;
        if (elapsed_s > lit_s) {
            least = fmin(least, least_in(lighting, elapsed_s - lit_s));
        }
    }
    return least;
}

/* Time since lighting of the last reading that saw it alight, up to a time; 0: none did. */
static double seen_alight_s(const Record *record, Instant until) {
    Instant last = record->lit;
    for (size_t i = 0; i < record->readings.count; i++) {
        const Reading *reading = &record->readings.items[i];
        bool alight = reading->front_m > 0 && reading->at < until;
        last = alight && reading->at > last ? reading->at : last;
    }
    return (double)(last - record->lit);
}

/* Died between two times. Of one that was not seen alight it is not known that it ever caught. */
static void died_between(const Night *night, double alive_s, double dead_s,
                         HoldingObservation *observation) {
    observation->low = alive_s > 0 ? -least_by(night, alive_s) : -INFINITY;
    observation->high = -least_by(night, dead_s);
}

/* Died at a place, which is known, as the margin there is, only roughly. */
static void died_at(const Night *night, double burnt_m, HoldingObservation *observation) {
    double before_m = burnt_m - HOLDING_PLACE_ERROR_M;
    double dead_s = past_night_time_to_s(night, burnt_m + HOLDING_PLACE_ERROR_M);
    died_between(night, 0, dead_s, observation);
    if (before_m > 0) {
        double before = -least_by(night, past_night_time_to_s(night, before_m));
        double lit = -least_by(night, 0), end = -least_by(night, past_night_end_s(night));
        observation->low = fmax(before - HOLDING_PLACE_FLOOR, lit);
        observation->high = fmin(observation->high + HOLDING_PLACE_FLOOR, end);
    }
}

static void died(const Record *record, const Night *night, HoldingObservation *observation) {
    double end_s = past_night_end_s(night);
    double dead_s = record->out > record->lit ? (double)(record->out - record->lit) : end_s;
    Instant until = record->out > record->lit ? record->out : INT64_MAX;
    if (record->burnt_m > 0 && night->lightings.count == 1) {
        died_at(night, record->burnt_m, observation);
    } else {
        died_between(night, seen_alight_s(record, until), fmin(dead_s, end_s), observation);
    }
}

/* Weather that nobody knew makes the margins uncertain. One that held did so in air that may be
 * kinder than is thought: as a mere spread that would be a reason to think the better of it. */
static void allow_for_weather(double spread, HoldingObservation *observation) {
    if (isinf(observation->high)) {
        observation->low -= CARE_SPREADS * spread;
    } else {
        observation->doubt = spread;
    }
}

bool record_holding(const PastNight *past, const Night *night, HoldingObservation *observation) {
    const Record *record = past->record;
    *observation = (HoldingObservation){.kind = past->kind, .low = -INFINITY, .high = INFINITY};
    if (record->relit.count > 0) {
        Instant first = record->relit.items[0];
        died_between(night, seen_alight_s(record, first), (double)(first - record->lit),
                     observation);
    } else if (record->went_out_early) {
        died(record, night, observation);
    } else if (record->out <= record->lit) {
        return false;
    } else if (record->burnt_m > 0) {
        observation->low = -least_by(night, past_night_time_to_s(night, record->burnt_m));
    } else {
        observation->low = -least_by(night, past_night_end_s(night));
        observation->lasted = true;
    }
    allow_for_weather(doubt_weather_spread(past->batch, record->lit), observation);
    /* A margin that never fell tells no two ends apart. */
    if (!(observation->high > observation->low)) {
        double middle = (observation->low + observation->high) / 2;
        observation->low = middle - HOLDING_PLACE_FLOOR;
        observation->high = middle + HOLDING_PLACE_FLOOR;
    }
    return true;
}
