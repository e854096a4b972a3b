#include "model/store.h"

#include "model/bounds.h"
#include "model/wood.h"

#include <math.h>

/* A room in which dust is kept, 15 to 20 °C (judgement). */
static const double room_c = 18;

/* Relative humidities. */
typedef struct Humidity {
    double middle, low, high;
} Humidity;

static const Humidity sealed_room = {0.55, 0.40, 0.70}; /* judgement */
static const Humidity open_room = {0.65, 0.45, 0.85};   /* judgement */
static const double stated_good_to = 0.10;              /* of a hygrometer over weeks: judgement */

static Humidity humidity_of(const Store *store) {
    if (isnan(store->humidity)) {
        return store->sealed ? sealed_room : open_room;
    }
    double stated = clamp(store->humidity, 0, 1);
    return (Humidity){stated, fmax(stated - stated_good_to, 0), fmin(stated + stated_good_to, 1)};
}

enum { OPEN_KEEPS_DAYS = 60, SEALED_KEEPS_DAYS = 365 }; /* judgement */

bool store_measure_is_old(const Store *store, Date measured, Date on) {
    int64_t keeps = store->sealed ? SEALED_KEEPS_DAYS : OPEN_KEEPS_DAYS;
    return measured.year != 0 && date_to_days(on) - date_to_days(measured) > keeps;
}

StoreMoisture store_moisture(const Store *store) {
    double temp_c = isnan(store->temp_c) ? room_c : store->temp_c;
    Humidity humidity = humidity_of(store);
    return (StoreMoisture){.middle = wood_equilibrium_moisture(temp_c, humidity.middle),
                           .low = wood_equilibrium_moisture(temp_c, humidity.low),
                           .high = wood_equilibrium_moisture(temp_c, humidity.high)};
}
