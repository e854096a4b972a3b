#include "command/new_values.h"

#include "base/zone_place.h"

#include <math.h>
#include <string.h>

/* Lighting at nine suits who works by day, and the night cools; before it lie drying and filling
 * (common practice, no source). */
enum { EVENING_HOUR = 21, HOURS_TO_PREPARE = 4 };

/* Between the tropics the months hardly differ. */
static const double tropic_deg = 23.4;

static void add(Starter *starter, const char *name, const char *value) {
    LIST_ADD(starter->arena, &starter->values, (StarterValue){name, value});
}

static const char *day_text(Arena *arena, Date date) {
    char text[DATE_TEXT_SIZE];
    date_format(date, text);
    return arena_string(arena, text);
}

static Date next_day(Date date) {
    return date_from_days(date_to_days(date) + 1);
}

/* The next evening at nine that leaves time to prepare, as the wall clock there shows it. */
static CivilTime next_evening(const Zone *zone, Instant now) {
    CivilTime evening = zone_civil(zone, now);
    evening.hour = EVENING_HOUR;
    evening.minute = evening.second = 0;
    if (zone_instant(zone, evening, ZONE_EARLIER) - now < HOURS_TO_PREPARE * SECONDS_PER_HOUR)
        evening.date = next_day(evening.date);
    return evening;
}

/* The row of the weather by month that fits there: 1 to 12 as the months are in the north, 0 near
 * the equator. A zone of which no place is known counts as northern. */
static int season_of(Arena *arena, const char *timezone, Date date) {
    enum { HALF_A_YEAR = 6, YEAR = 12 };
    double latitude = zone_latitude_deg(arena, timezone);
    if (fabs(latitude) < tropic_deg)
        return 0;
    return latitude < 0 ? (date.month - 1 + HALF_A_YEAR) % YEAR + 1 : date.month;
}

/* ---- Workshop ------------------------------------------------------------------------------ */

static bool begins(const char *text, const char *with) {
    return !strncmp(text, with, strlen(with));
}

static const char *likely_market(const char *timezone, bool us) {
    if (us || begins(timezone, "America/"))
        return "US";
    if (begins(timezone, "Australia/"))
        return "AU";
    return !strcmp(timezone, "Europe/London") ? "UK" : "EU";
}

void new_workshop_values(Starter *starter, const NewAsked *asked) {
    const Options *options = asked->options;
    const char *timezone = zone_of_machine(starter->arena);
    starter->us = options->units && !strcmp(options->units, "us");
    const char *paper = starter->us ? "Letter" : "A4";
    add(starter, "name", asked->name ? asked->name : starter_fill(starter, "starter.smokehouse"));
    add(starter, "timezone", timezone);
    add(starter, "units", starter->us ? "us" : "metric");
    add(starter, "language", starter->words->language);
    add(starter, "paper", options->paper ? options->paper : paper);
    add(starter, "market", likely_market(timezone, starter->us));
}

/* ---- Batch and bagging --------------------------------------------------------------------- */

/* The first that is dust; the first of all when none is. */
static const Dust *usual_dust(const Workshop *workshop) {
    for (size_t i = 0; i < workshop->dusts.count; i++)
        if (workshop->dusts.items[i].form == FORM_DUST)
            return &workshop->dusts.items[i];
    return &workshop->dusts.items[0];
}

static bool in_us_units(const Options *options, const Workshop *workshop) {
    return options->units ? !strcmp(options->units, "us") : workshop->units == UNITS_US;
}

static void add_month(Starter *starter, const Workshop *workshop, Date date) {
    int season = season_of(starter->arena, workshop->timezone, date);
    add(starter, "month", arena_format(starter->arena, "%d", season));
}

const char *new_usual_weather(Starter *starter, const Options *options, const Workshop *workshop,
                              Date date) {
    starter->us = in_us_units(options, workshop);
    add_month(starter, workshop, date);
    return arena_format(starter->arena, "temperature=\"%s\" humidity=\"%s\" usual=\"yes\"",
                        starter_fill(starter, "{month.temperature}"),
                        starter_fill(starter, "{month.humidity}"));
}

static void add_hours(Starter *starter, const Workshop *workshop, Instant now) {
    CivilTime evening = next_evening(workshop->zone, now);
    const char *day = day_text(starter->arena, evening.date);
    const char *morning = day_text(starter->arena, next_day(evening.date));
    add(starter, "light", arena_format(starter->arena, "%sT%d:00", day, evening.hour));
    add(starter, "away.from", arena_format(starter->arena, "%sT23:30", day));
    add(starter, "away.to", arena_format(starter->arena, "%sT06:00", morning));
    add_month(starter, workshop, evening.date);
}

void new_night_values(Starter *starter, const NewAsked *asked, const Workshop *workshop) {
    starter->us = in_us_units(asked->options, workshop);
    const Dust *dust = usual_dust(workshop);
    add(starter, "kind", asked->kind);
    const char *made_up = asked->kind ? "{kind.name}" : "starter.bagging";
    add(starter, "name", asked->name ? asked->name : starter_fill(starter, made_up));
    add(starter, "dust", dust->id);
    add(starter, "dust.name", dust->name);
    bool english = workshop->market == MARKET_US && strcmp(workshop->language, "en") != 0;
    add(starter, "bag_language", english ? "en" : NULL); /* the law's language there */
    add(starter, "tray", workshop->trays.items[0].id);
    add(starter, "packed", day_text(starter->arena, zone_civil(workshop->zone, asked->now).date));
    add_hours(starter, workshop, asked->now);
}
