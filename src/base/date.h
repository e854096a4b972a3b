/* Date: civil dates and times, and instants.
 *
 * Dates are of the Gregorian calendar carried back before its introduction (proleptic), years
 * 1 to 9999. A CivilTime is what a wall clock shows: it knows no time zone. An Instant is a
 * point in time. Between the two stands a Zone (base/zone.h); where no zone is wanted the
 * clock of Greenwich (UTC) is used. Leap seconds do not exist here, as in POSIX.
 */
#ifndef BASE_DATE_H
#define BASE_DATE_H

#include <stdbool.h>
#include <stdint.h>

/* Seconds since 1970-01-01T00:00:00Z, leap seconds not counted. */
typedef int64_t Instant;

typedef struct Date {
    int year;  /* 1…9999 */
    int month; /* 1…12 */
    int day;   /* 1…31 */
} Date;

typedef struct CivilTime {
    Date date;
    int hour;   /* 0…23 */
    int minute; /* 0…59 */
    int second; /* 0…59 */
} CivilTime;

enum {
    DATE_YEAR_MIN = 1,
    DATE_YEAR_MAX = 9999,
    SECONDS_PER_MINUTE = 60,
    SECONDS_PER_HOUR = 3600,
    SECONDS_PER_DAY = 86400,
    DATE_TEXT_SIZE = 11,  /* 2026-12-05 and NUL */
    CIVIL_TEXT_SIZE = 20, /* 2026-12-05T21:30:00 and NUL */
};

/* Whether the year divides so as to have 29 February (Gregorian rule). */
bool date_leap_year(int year);

/* Days in a month; 0 for a month outside 1…12. */
int date_days_in_month(int year, int month);

/* Whether the date exists and its year is within DATE_YEAR_MIN…DATE_YEAR_MAX. */
bool date_valid(Date date);

/* Whether the date exists and the clock reading is within 00:00:00…23:59:59. */
bool civil_valid(CivilTime civil);

/* Days since 1970-01-01, negative before. Also right for years outside 1…9999. */
int64_t date_to_days(Date date);

/* The date that lies `days` days after 1970-01-01. Valid for |days| up to 7·10^11. */
Date date_from_days(int64_t days);

/* Negative, zero or positive as `a` is before, at or after `b`. */
int date_compare(Date a, Date b);

/* 1 (Monday) … 7 (Sunday), ISO 8601. */
int date_weekday(Date date);

/* Day of the year, 1…366: the DDD of the ISO 8601 ordinal date. */
int date_ordinal(Date date);

/* Reads exactly `YYYY-MM-DD`. Returns false, and leaves *date, on anything else: other
 * lengths, spaces, signs, a day that does not exist, the year 0000. */
bool date_parse(const char *text, Date *date);

/* Reads exactly `YYYY-MM-DDTHH:MM` or `YYYY-MM-DDTHH:MM:SS`, local time without a zone.
 * Hours run 00…23 (24:00 is refused), seconds 00…59. Returns false, and leaves *civil,
 * on anything else. */
bool civil_parse(const char *text, CivilTime *civil);

/* Writes `YYYY-MM-DD` and `YYYY-MM-DDTHH:MM:SS`. Fields outside the valid range
 * print their last digits, negative ones as 0. */
void date_format(Date date, char text[DATE_TEXT_SIZE]);
void civil_format(CivilTime civil, char text[CIVIL_TEXT_SIZE]);

/* The instant at which a clock in Greenwich (UTC) reads `civil`, and back. Every instant has
 * exactly one such reading. */
Instant civil_to_utc(CivilTime civil);
CivilTime civil_from_utc(Instant instant);

#endif
