#include "domain/workshop.h"

bool workshop_twelve_hours(const Workshop *workshop) {
    return workshop->units == UNITS_US || workshop->market == MARKET_US;
}
