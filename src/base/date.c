#include "base/date.h"

#include <stddef.h>
#include <string.h>

/* Howard Hinnant's "chrono-compatible low-level date algorithms": years are counted from
 * 1 March, so that the leap day is the last of its year; an era is 400 years. */
enum { DAYS_PER_ERA = 146097, YEARS_PER_ERA = 400, DAYS_FROM_YEAR_0_MARCH_TO_EPOCH = 719468 };

bool date_leap_year(int year) {
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int date_days_in_month(int year, int month) {
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (month < 1 || month > 12)
        return 0;
    return days[month - 1] + (month == 2 && date_leap_year(year));
}

bool date_valid(Date date) {
    return date.year >= DATE_YEAR_MIN && date.year <= DATE_YEAR_MAX && date.day >= 1 &&
           date.day <= date_days_in_month(date.year, date.month);
}

bool civil_valid(CivilTime civil) {
    return date_valid(civil.date) && civil.hour >= 0 && civil.hour < 24 && civil.minute >= 0 &&
           civil.minute < 60 && civil.second >= 0 && civil.second < 60;
}

static int64_t floor_divide(int64_t number, int64_t divisor) {
    int64_t quotient = number / divisor;
    return quotient - (number % divisor < 0);
}

int64_t date_to_days(Date date) {
    int64_t year = (int64_t)date.year - (date.month <= 2);
    int64_t era = floor_divide(year, YEARS_PER_ERA);
    int64_t year_of_era = year - era * YEARS_PER_ERA;
    int64_t month_from_march = (date.month + 9) % 12;
    int64_t day_of_year = (153 * month_from_march + 2) / 5 + date.day - 1;
    int64_t day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * DAYS_PER_ERA + day_of_era - DAYS_FROM_YEAR_0_MARCH_TO_EPOCH;
}

Date date_from_days(int64_t days) {
    int64_t since_march = days + DAYS_FROM_YEAR_0_MARCH_TO_EPOCH;
    int64_t era = floor_divide(since_march, DAYS_PER_ERA);
    int64_t day_of_era = since_march - era * DAYS_PER_ERA;
    int64_t year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    int64_t day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    int64_t month_from_march = (5 * day_of_year + 2) / 153;
    int month = (int)(month_from_march < 10 ? month_from_march + 3 : month_from_march - 9);
    return (Date){.year = (int)(year_of_era + era * YEARS_PER_ERA + (month <= 2)),
                  .month = month,
                  .day = (int)(day_of_year - (153 * month_from_march + 2) / 5 + 1)};
}

int date_compare(Date a, Date b) {
    int64_t difference = date_to_days(a) - date_to_days(b);
    return (difference > 0) - (difference < 0);
}

int date_weekday(Date date) {
    /* 1970-01-01 was a Thursday, weekday 4. */
    int64_t days = date_to_days(date) + 3;
    return (int)(days - floor_divide(days, 7) * 7) + 1;
}

int date_ordinal(Date date) {
    Date new_year = {date.year, 1, 1};
    return (int)(date_to_days(date) - date_to_days(new_year)) + 1;
}

/* Reads exactly `count` digits; -1 if one of them is none. Stops at the closing NUL. */
static int read_digits(const char *text, int count) {
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

/* Reads YYYY-MM-DD at the start of `text`, which may go on. */
static bool read_date(const char *text, Date *date) {
    size_t length = strlen(text);
    if (length < 10 || text[4] != '-' || text[7] != '-')
        return false;
    Date read = {read_digits(text, 4), read_digits(text + 5, 2), read_digits(text + 8, 2)};
    if (!date_valid(read))
        return false;
    *date = read;
    return true;
}

bool date_parse(const char *text, Date *date) {
    return strlen(text) == 10 && read_date(text, date);
}

bool civil_parse(const char *text, CivilTime *civil) {
    size_t length = strlen(text);
    CivilTime read = {0};
    if ((length != 16 && length != 19) || !read_date(text, &read.date))
        return false;
    if (text[10] != 'T' || text[13] != ':' || (length == 19 && text[16] != ':'))
        return false;
    read.hour = read_digits(text + 11, 2);
    read.minute = read_digits(text + 14, 2);
    read.second = length == 19 ? read_digits(text + 17, 2) : 0;
    if (!civil_valid(read))
        return false;
    *civil = read;
    return true;
}

/* Writes the last `count` digits of `value` and returns the place behind them. */
static char *write_digits(char *at, int count, int value) {
    unsigned rest = value < 0 ? 0 : (unsigned)value;
    for (int i = count - 1; i >= 0; i--) {
        at[i] = (char)('0' + rest % 10);
        rest /= 10;
    }
    return at + count;
}

void date_format(Date date, char text[DATE_TEXT_SIZE]) {
    char *at = write_digits(text, 4, date.year);
    *at++ = '-';
    at = write_digits(at, 2, date.month);
    *at++ = '-';
    at = write_digits(at, 2, date.day);
    *at = '\0';
}

void civil_format(CivilTime civil, char text[CIVIL_TEXT_SIZE]) {
    date_format(civil.date, text);
    char *at = text + strlen(text);
    *at++ = 'T';
    at = write_digits(at, 2, civil.hour);
    *at++ = ':';
    at = write_digits(at, 2, civil.minute);
    *at++ = ':';
    at = write_digits(at, 2, civil.second);
    *at = '\0';
}

Instant civil_to_utc(CivilTime civil) {
    return date_to_days(civil.date) * SECONDS_PER_DAY + (int64_t)civil.hour * SECONDS_PER_HOUR +
           (int64_t)civil.minute * SECONDS_PER_MINUTE + civil.second;
}

CivilTime civil_from_utc(Instant instant) {
    int64_t days = floor_divide(instant, SECONDS_PER_DAY);
    int seconds = (int)(instant - days * SECONDS_PER_DAY);
    return (CivilTime){.date = date_from_days(days),
                       .hour = seconds / SECONDS_PER_HOUR,
                       .minute = seconds % SECONDS_PER_HOUR / SECONDS_PER_MINUTE,
                       .second = seconds % SECONDS_PER_MINUTE};
}
