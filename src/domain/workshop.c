#include "domain/workshop.h"

#include <string.h>

bool workshop_twelve_hours(const Workshop *workshop) {
    return workshop->units == UNITS_US || workshop->market == MARKET_US;
}

bool workshop_same(const Workshop *one, const Workshop *other) {
    return one == other || (one->file && other->file && !strcmp(one->file, other->file));
}
