#include "domain/workshop.h"

#include "base/text.h"

bool workshop_twelve_hours(const Workshop *workshop) {
    return workshop->units == UNITS_US || workshop->market == MARKET_US;
}

bool workshop_same(const Workshop *one, const Workshop *other) {
    return one == other || text_same(one->file, other->file);
}
