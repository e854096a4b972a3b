#include "base/zone_rule.h"

#include <string.h>

enum { HOURS_MAX = 167, SHORTEST_ABBREVIATION = 3, CHANGES_TRIED = 6 };

static bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

static bool is_letter(char letter) {
    return (letter >= 'A' && letter <= 'Z') || (letter >= 'a' && letter <= 'z');
}

/* Reads 1…3 digits not above `most`; -1 if there are none or too many. */
static int read_number(const char **at, int most) {
    int value = 0;
    int digits = 0;
    for (; is_digit(**at) && digits < 4; (*at)++, digits++)
        value = value * 10 + (**at - '0');
    return digits > 0 && digits < 4 && value <= most ? value : -1;
}

static bool take(const char **at, char letter) {
    if (**at != letter)
        return false;
    (*at)++;
    return true;
}

/* [+-]hh[:mm[:ss]] */
static bool read_clock(const char **at, int *seconds) {
    int sign = take(at, '-') ? -1 : 1;
    if (sign > 0)
        take(at, '+');
    int hours = read_number(at, HOURS_MAX);
    int minutes = take(at, ':') ? read_number(at, 59) : 0;
    int rest = minutes >= 0 && take(at, ':') ? read_number(at, 59) : 0;
    if (hours < 0 || minutes < 0 || rest < 0)
        return false;
    *seconds = sign * (hours * SECONDS_PER_HOUR + minutes * SECONDS_PER_MINUTE + rest);
    return true;
}

static bool is_quoted_sign(char letter) {
    return is_letter(letter) || is_digit(letter) || letter == '+' || letter == '-';
}

/* CEST, or <+0530> with digits and signs. */
static bool read_name(const char **at, char name[ZONE_ABBREVIATION_SIZE]) {
    bool quoted = take(at, '<');
    const char *start = *at;
    while (quoted ? is_quoted_sign(**at) : is_letter(**at))
        (*at)++;
    size_t length = (size_t)(*at - start);
    if (length < SHORTEST_ABBREVIATION || length >= ZONE_ABBREVIATION_SIZE)
        return false;
    memcpy(name, start, length);
    name[length] = '\0';
    return !quoted || take(at, '>');
}

static bool read_day_of_year(const char **at, RuleDay *day) {
    if (take(at, 'J')) {
        day->kind = RULE_DAY_WITHOUT_LEAP;
        day->day = read_number(at, 365);
        return day->day >= 1;
    }
    if (take(at, 'M')) {
        day->kind = RULE_WEEKDAY_OF_MONTH;
        day->month = read_number(at, 12);
        day->week = take(at, '.') ? read_number(at, 5) : -1;
        day->day = take(at, '.') ? read_number(at, 6) : -1;
        return day->month >= 1 && day->week >= 1 && day->day >= 0;
    }
    day->kind = RULE_DAY_WITH_LEAP;
    day->day = read_number(at, 365);
    return day->day >= 0;
}

/* ,date[/time]; two in the morning where no time is given. */
static bool read_rule_day(const char **at, RuleDay *day) {
    if (!take(at, ',') || !read_day_of_year(at, day))
        return false;
    day->seconds = 2 * SECONDS_PER_HOUR;
    return !take(at, '/') || read_clock(at, &day->seconds);
}

bool zone_rule_parse(const char *text, ZoneRule *rule) {
    ZoneRule read = {0};
    int west = 0;
    if (!read_name(&text, read.standard_name) || !read_clock(&text, &west))
        return false;
    read.standard_offset = -west;
    if (*text) {
        read.has_summer = true;
        read.summer_offset = read.standard_offset + SECONDS_PER_HOUR;
        if (!read_name(&text, read.summer_name))
            return false;
        if (*text != ',') {
            if (!read_clock(&text, &west))
                return false;
            read.summer_offset = -west;
        }
        if (!read_rule_day(&text, &read.summer_start) || !read_rule_day(&text, &read.summer_end))
            return false;
    }
    if (*text)
        return false;
    *rule = read;
    return true;
}

static int64_t days_of_rule_day(RuleDay rule, int year) {
    Date new_year = {year, 1, 1};
    if (rule.kind == RULE_DAY_WITH_LEAP)
        return date_to_days(new_year) + rule.day;
    if (rule.kind == RULE_DAY_WITHOUT_LEAP)
        return date_to_days(new_year) + rule.day - 1 + (date_leap_year(year) && rule.day >= 60);
    Date first = {year, rule.month, 1};
    int days_to_weekday = (rule.day - date_weekday(first) % 7 + 7) % 7;
    int day = 1 + days_to_weekday + 7 * (rule.week - 1);
    while (day > date_days_in_month(year, rule.month))
        day -= 7;
    return date_to_days(first) + day - 1;
}

static Instant instant_of_rule_day(RuleDay rule, int year, int offset) {
    return days_of_rule_day(rule, year) * SECONDS_PER_DAY + rule.seconds - offset;
}

typedef struct Change {
    Instant instant;
    bool to_summer;
} Change;

/* The changes of the year around the instant and of its neighbours. Where an end and a start
 * fall on the same instant the start comes later in the list and so has the last word: that is
 * how a rule says "summer time all the year". */
static void changes_around(const ZoneRule *rule, Instant instant, Change changes[CHANGES_TRIED]) {
    int year = civil_from_utc(instant).date.year;
    for (int i = 0; i < 3; i++) {
        changes[2 * i] = (Change){
            instant_of_rule_day(rule->summer_end, year - 1 + i, rule->summer_offset), false};
        changes[2 * i + 1] = (Change){
            instant_of_rule_day(rule->summer_start, year - 1 + i, rule->standard_offset), true};
    }
}

bool zone_rule_is_summer(const ZoneRule *rule, Instant instant) {
    if (!rule->has_summer)
        return false;
    Change changes[CHANGES_TRIED];
    changes_around(rule, instant, changes);
    Change latest = {INT64_MIN, false};
    for (int i = 0; i < CHANGES_TRIED; i++) {
        bool passed = changes[i].instant <= instant;
        bool later = changes[i].instant > latest.instant ||
                     (changes[i].instant == latest.instant && changes[i].to_summer);
        if (passed && later)
            latest = changes[i];
    }
    return latest.to_summer;
}

bool zone_rule_next_change(const ZoneRule *rule, Instant after, Instant *change) {
    if (!rule->has_summer)
        return false;
    Change changes[CHANGES_TRIED];
    changes_around(rule, after, changes);
    Instant next = INT64_MAX;
    for (int i = 0; i < CHANGES_TRIED; i++)
        if (changes[i].instant > after && changes[i].instant < next)
            next = changes[i].instant;
    *change = next;
    return true;
}
