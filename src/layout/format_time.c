#include "layout/format_time.h"

#include <math.h>
#include <string.h>

#define NOT_STATED_TEXT "\xE2\x80\x93" /* en dash */
#define NO_BREAK "\xC2\xA0"
#define THIN "\xE2\x80\xAF" /* narrow no-break space */

enum { DAYS_A_WEEK = 7, HOURS_A_HALF_DAY = 12 };

/* Days and more are counted in days from here on. */
#define DAYS_FROM_S (3.0 * SECONDS_PER_DAY)

/* The text that stands for one {name} of a date pattern; NULL: no such name. */
static const char *date_part(Arena *arena, const DateWords *words, Date date, const char *name) {
    int weekday = date_weekday(date) - 1;
    if (strcmp(name, "d") == 0)
        return arena_format(arena, "%d", date.day);
    if (strcmp(name, "dd") == 0)
        return arena_format(arena, "%02d", date.day);
    if (strcmp(name, "mm") == 0)
        return arena_format(arena, "%02d", date.month);
    if (strcmp(name, "mon") == 0)
        return words->month_short[date.month - 1];
    if (strcmp(name, "month") == 0)
        return words->month_long[date.month - 1];
    if (strcmp(name, "yyyy") == 0)
        return arena_format(arena, "%04d", date.year);
    if (strcmp(name, "ddd") == 0)
        return words->weekday_short[weekday];
    if (strcmp(name, "weekday") == 0)
        return words->weekday_long[weekday];
    return NULL;
}

static const char *date_pattern(Arena *arena, const DateWords *words, Date date,
                                const char *pattern) {
    Text text = text_new(arena);
    while (*pattern) {
        size_t plain = strcspn(pattern, "{");
        text_add_bytes(&text, pattern, plain);
        pattern += plain;
        if (!*pattern)
            break;
        size_t length = strcspn(pattern + 1, "}");
        const char *name = arena_copy(arena, pattern + 1, length);
        const char *part = date_part(arena, words, date, name);
        text_add(&text, part ? part : name);
        pattern += 1 + length;
        if (*pattern)
            pattern++;
    }
    return text.bytes;
}

const char *format_date(Arena *arena, const Locale *locale, Date date, const char *style) {
    if (!date_valid(date))
        return NOT_STATED_TEXT;
    const DateWords *words = &locale->words->dates;
    if (!style || !*style || strcmp(style, "date") == 0)
        return date_pattern(arena, words, date, words->date);
    if (strcmp(style, "day") == 0)
        return date_pattern(arena, words, date, words->day);
    if (strcmp(style, "full") == 0)
        return date_pattern(arena, words, date, words->full);
    if (strcmp(style, "month") == 0)
        return arena_format(arena, "%s" NO_BREAK "%d", words->month_alone[date.month - 1],
                            date.year);
    if (strcmp(style, "month-short") == 0)
        return arena_format(arena, "%s" NO_BREAK "%d", words->month_short[date.month - 1],
                            date.year);
    if (strcmp(style, "weekday") == 0)
        return words->weekday_long[date_weekday(date) - 1];
    if (strcmp(style, "iso") != 0)
        return NULL;
    char iso[DATE_TEXT_SIZE];
    date_format(date, iso);
    return arena_string(arena, iso);
}

/* Instants are shown to the nearest minute. */
static CivilTime civil_minute(const Locale *locale, Instant at) {
    Instant half = SECONDS_PER_MINUTE / 2;
    return locale->zone ? zone_civil(locale->zone, at + half) : civil_from_utc(at + half);
}

/* "06:20 Sat" on another day than that of lighting; beyond a week the weekday alone would mislead.
 */
static const char *clock_with_day(Arena *arena, const Locale *locale, Date date,
                                  const char *clock) {
    if (!date_valid(locale->day))
        return clock;
    int64_t days = date_to_days(date) - date_to_days(locale->day);
    if (days == 0)
        return clock;
    if (days <= -DAYS_A_WEEK || days >= DAYS_A_WEEK)
        return arena_format(arena, "%s %s", format_date(arena, locale, date, "day"), clock);
    const char *weekday = locale->words->dates.weekday_short[date_weekday(date) - 1];
    return arena_format(arena, "%s" NO_BREAK "%s", clock, weekday);
}

/* "21:30", or of twelve hours "9:30 PM", of a full hour "9 PM". 12 AM is midnight and 12 PM noon:
 * U.S. Government Publishing Office Style Manual (2008), p. 271, as cited by others. */
static const char *clock_of(Arena *arena, const Locale *locale, CivilTime civil, bool full_hour) {
    if (!locale->twelve_hours)
        return arena_format(arena, "%02d:%02d", civil.hour, civil.minute);
    int hour = civil.hour % HOURS_A_HALF_DAY;
    hour = hour == 0 ? HOURS_A_HALF_DAY : hour;
    const char *half = civil.hour < HOURS_A_HALF_DAY ? "AM" : "PM";
    return full_hour ? arena_format(arena, "%d" THIN "%s", hour, half)
                     : arena_format(arena, "%d:%02d" THIN "%s", hour, civil.minute, half);
}

const char *format_instant(Arena *arena, const Locale *locale, Instant at, const char *style) {
    if (at == 0)
        return NOT_STATED_TEXT;
    CivilTime civil = civil_minute(locale, at);
    bool full_hour = civil.minute == 0 && style && strcmp(style, "hour") == 0;
    const char *clock = clock_of(arena, locale, civil, full_hour);
    if (!style || !*style || strcmp(style, "clock") == 0)
        return clock_with_day(arena, locale, civil.date, clock);
    if (strcmp(style, "bare") == 0 || strcmp(style, "hour") == 0)
        return clock;
    bool moment = strcmp(style, "moment") == 0;
    bool stamp = strcmp(style, "stamp") == 0;
    const char *date = format_date(arena, locale, civil.date,
                                   moment  ? "day"
                                   : stamp ? "iso"
                                           : style);
    return date && (moment || stamp) ? arena_format(arena, "%s %s", date, clock) : date;
}

static const char *amount(Arena *arena, const Locale *locale, double value, int decimals,
                          const char *unit) {
    const char *word = words_fixed(locale->words, unit);
    return arena_format(arena, "%s" THIN "%s", format_number(arena, locale, value, decimals),
                        word ? word : unit);
}

/* "7 days": the unit is a counted word whose form holds the number itself. */
static const char *days(Arena *arena, const Locale *locale, double count) {
    const Word *word = words_find(locale->words, "unit.day");
    const char *form = word ? words_form(locale->words, word, count, 0) : "unit.day";
    return arena_format(arena, "%s" THIN "%s", format_number(arena, locale, count, 0), form);
}

static const char *span(Arena *arena, const Locale *locale, double seconds) {
    if (seconds < SECONDS_PER_MINUTE && number_round(seconds, 0) < SECONDS_PER_MINUTE)
        return amount(arena, locale, seconds, 0, "unit.s");
    double minutes = number_round(seconds / SECONDS_PER_MINUTE, 0);
    double hours = floor(minutes / 60.0);
    double rest = minutes - hours * 60.0;
    if (hours == 0.0)
        return amount(arena, locale, rest, 0, "unit.min");
    if (minutes * SECONDS_PER_MINUTE >= DAYS_FROM_S && rest == 0.0 && fmod(hours, 24.0) == 0.0)
        return days(arena, locale, hours / 24.0);
    const char *whole = amount(arena, locale, hours, 0, "unit.h");
    if (rest == 0.0)
        return whole;
    return arena_format(arena, "%s" THIN "%s", whole, amount(arena, locale, rest, 0, "unit.min"));
}

const char *format_duration(Arena *arena, const Locale *locale, double seconds, const char *style) {
    if (!style || !*style || strcmp(style, "span") == 0)
        return seconds < 0 ? arena_format(arena, "\xE2\x88\x92%s", span(arena, locale, -seconds))
                           : span(arena, locale, seconds);
    if (strcmp(style, "minutes") == 0)
        return amount(arena, locale, seconds / SECONDS_PER_MINUTE, 0, "unit.min");
    if (strcmp(style, "hours") == 0)
        return amount(arena, locale, seconds / 3600.0, 1, "unit.h");
    if (strcmp(style, "days") == 0)
        return days(arena, locale, number_round(seconds / SECONDS_PER_DAY, 0));
    if (strcmp(style, "number") == 0)
        return format_number(arena, locale, seconds / SECONDS_PER_MINUTE, 0);
    return NULL;
}
