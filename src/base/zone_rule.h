/* ZoneRule: the rule for all later years that closes a time zone file, in the form of the
 * POSIX TZ variable with the extension of RFC 9636: "CET-1CEST,M3.5.0,M10.5.0/3".
 */
#ifndef BASE_ZONE_RULE_H
#define BASE_ZONE_RULE_H

#include "base/date.h"

#include <stdbool.h>

typedef enum RuleDayKind {
    RULE_WEEKDAY_OF_MONTH, /* Mm.w.d: the w-th (5: last) weekday d (0 Sunday) of month m */
    RULE_DAY_WITHOUT_LEAP, /* Jn: day 1…365, 29 February never counted */
    RULE_DAY_WITH_LEAP     /* n: day 0…365, 29 February counted */
} RuleDayKind;

typedef struct RuleDay {
    RuleDayKind kind;
    int month;
    int week;
    int day;
    int seconds; /* after local midnight; −167 h … 167 h */
} RuleDay;

typedef struct ZoneRule {
    bool has_summer;
    int standard_offset; /* seconds east of UTC */
    int summer_offset;
    RuleDay summer_start; /* read on the standard clock */
    RuleDay summer_end;   /* read on the summer clock */
} ZoneRule;

/* Reads the NUL-ended rule. Returns false on anything that does not follow the form, and where
 * summer time is named without its dates (which POSIX leaves to the system). */
bool zone_rule_parse(const char *text, ZoneRule *rule);

/* Seconds east of UTC by the rule (whose "summer" in Dublin's case is the winter). */
int zone_rule_offset(const ZoneRule *rule, Instant instant);

#endif
