#include "input/sleep.h"

/* Nights before and after the hours that a batch names: eight fills are out within days, and so are
 * those of finish-by, counted back from its end; what is done to a product before takes as long. */
enum { DAYS_BEFORE = 9, DAYS_AFTER = 9 };

/* Who lights a tray in hours of sleep is up till it has caught: judgement, with the look after
 * twenty minutes in it. */
static const Instant UP_AFTER_S = 30 * SECONDS_PER_MINUTE;

bool sleep_clock(Arena *arena, const char *text, CivilTime *clock) {
    return civil_parse(arena_format(arena, "2000-01-01T%s", text), clock) && clock->second == 0;
}

static Instant on_day(const Zone *zone, int64_t days, CivilTime clock) {
    clock.date = date_from_days(days);
    return zone_instant(zone, clock, ZONE_EARLIER);
}

/* A night in which somebody lights leaves out the time till it has caught. */
static Away one_night(const Timing *timing, Instant from, Instant to) {
    bool lit = timing->kind == TIMING_LIGHT_AT && timing->at >= from && timing->at < to;
    return (Away){.from = lit ? timing->at + UP_AFTER_S : from, .to = to};
}

void sleep_add(Arena *arena, const Workshop *workshop, Timing *timing) {
    const Sleep *sleep = &workshop->sleep;
    if (!sleep->stated || !workshop->zone || !timing->at) {
        return;
    }
    bool over_midnight = sleep->to.hour * 60 + sleep->to.minute <=
                         sleep->from.hour * 60 + sleep->from.minute;
    Instant last = timing->to > timing->at ? timing->to : timing->at;
    int64_t first_day = date_to_days(zone_civil(workshop->zone, timing->at).date) - DAYS_BEFORE;
    int64_t last_day = date_to_days(zone_civil(workshop->zone, last).date) + DAYS_AFTER;
    for (int64_t day = first_day; day <= last_day; day++) {
        Away night = one_night(timing, on_day(workshop->zone, day, sleep->from),
                               on_day(workshop->zone, day + over_midnight, sleep->to));
        night.place = sleep->place;
        if (night.from < night.to) {
            LIST_ADD(arena, &timing->away, night);
        }
    }
}
