#include "base/zone_rule.h"

enum { HOURS_MAX = 167, SHORTEST_NAME = 3, LONGEST_NAME = 15 };

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

/* Goes behind CEST, or <+0530> with digits and signs. */
static bool skip_name(const char **at) {
    bool quoted = take(at, '<');
    const char *start = *at;
    while (quoted ? is_quoted_sign(**at) : is_letter(**at))
        (*at)++;
    return *at - start >= SHORTEST_NAME && *at - start <= LONGEST_NAME &&
           (!quoted || take(at, '>'));
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
    if (!skip_name(&text) || !read_clock(&text, &west))
        return false;
    read.standard_offset = -west;
    if (*text) {
        read.has_summer = true;
        read.summer_offset = read.standard_offset + SECONDS_PER_HOUR;
        if (!skip_name(&text))
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

/* The last change at or before the instant says which clock is in force. Where an end and a start
 * fall on the same instant the start has the last word: that is how a rule says "summer time all
 * the year". */
int zone_rule_offset(const ZoneRule *rule, Instant instant) {
    int offset = rule->standard_offset;
    Instant latest = INT64_MIN;
    int year = civil_from_utc(instant).date.year;
    for (int of = year - 1; rule->has_summer && of <= year + 1; of++) {
        Instant end = instant_of_rule_day(rule->summer_end, of, rule->summer_offset);
        Instant start = instant_of_rule_day(rule->summer_start, of, rule->standard_offset);
        if (end <= instant && end > latest) {
            latest = end;
            offset = rule->standard_offset;
        }
        if (start <= instant && start >= latest) {
            latest = start;
            offset = rule->summer_offset;
        }
    }
    return offset;
}
