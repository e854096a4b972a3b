#include "layout/plural.h"

#include <math.h>

static bool between(double value, double least, double most) {
    return value >= least && value <= most;
}

/* 2 to 4, 22 to 24 and so on, but not 12 to 14. */
static bool ends_in_few(double whole) {
    return between(fmod(whole, 10.0), 2.0, 4.0) && !between(fmod(whole, 100.0), 12.0, 14.0);
}

static Plural french(double whole) {
    return whole < 2.0 ? PLURAL_ONE : PLURAL_OTHER;
}

static Plural polish(double whole, int decimals) {
    if (decimals > 0)
        return PLURAL_OTHER;
    if (whole == 1.0)
        return PLURAL_ONE;
    return ends_in_few(whole) ? PLURAL_FEW : PLURAL_MANY;
}

static Plural east_slavic(double whole, int decimals) {
    if (decimals > 0)
        return PLURAL_OTHER;
    if (fmod(whole, 10.0) == 1.0 && fmod(whole, 100.0) != 11.0)
        return PLURAL_ONE;
    return ends_in_few(whole) ? PLURAL_FEW : PLURAL_MANY;
}

static Plural czech(double whole, int decimals) {
    if (decimals > 0)
        return PLURAL_MANY;
    if (whole == 1.0)
        return PLURAL_ONE;
    return between(whole, 2.0, 4.0) ? PLURAL_FEW : PLURAL_OTHER;
}

Plural plural_form(PluralRule rule, double value, int decimals) {
    double whole = floor(fabs(value) + (decimals > 0 ? 0.0 : 0.5));
    switch (rule) {
    case PLURAL_RULE_GERMANIC: return whole == 1.0 && decimals <= 0 ? PLURAL_ONE : PLURAL_OTHER;
    case PLURAL_RULE_FRENCH: return french(whole);
    case PLURAL_RULE_POLISH: return polish(whole, decimals);
    case PLURAL_RULE_EAST_SLAVIC: return east_slavic(whole, decimals);
    case PLURAL_RULE_CZECH: return czech(whole, decimals);
    case PLURAL_RULE_NONE:
    case PLURAL_RULE_COUNT: break;
    }
    return PLURAL_OTHER;
}

bool plural_needed(PluralRule rule, Plural form) {
    if (form == PLURAL_OTHER)
        return true;
    if (form == PLURAL_ONE)
        return rule != PLURAL_RULE_NONE;
    return rule == PLURAL_RULE_POLISH || rule == PLURAL_RULE_EAST_SLAVIC ||
           rule == PLURAL_RULE_CZECH;
}

const char *plural_name(Plural form) {
    static const char *const names[PLURAL_COUNT] = {"one", "few", "many", "other"};
    return form < PLURAL_COUNT ? names[form] : "other";
}
