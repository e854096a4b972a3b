#include "domain/emergency.h"

const char *emergency_number(Market market) {
    switch (market) {
    case MARKET_UK: return "999";
    case MARKET_US: return "911";
    case MARKET_AU: return "000";
    case MARKET_EU: break;
    }
    return "112";
}
