#include "model/room.h"

#include "model/bounds.h"

#include <math.h>

static const double WINDOW_S = 8 * 3600.0;
/* Steps in which the room is followed while it airs. */
static const double AIRING_S = 600;
static const double MG_PER_KG = 1e6;

double room_ppm(double co_mg_m3) {
    return co_mg_m3 * 24.46 / 28.01;
}

static bool breathes(const Room *room) {
    return room->stated && !room->outdoors && room->volume_m3 > 0;
}

RoomAir room_after(const Room *room, RoomAir air, double emission_kg_per_s, double time_s) {
    if (!breathes(room) || !(time_s > 0)) {
        return air;
    }
    double hours = time_s / 3600;
    double indoors = 1 - within(room->ducted_share, 0, 1);
    double per_h = emission_kg_per_s * indoors * MG_PER_KG * 3600 / room->volume_m3;
    double changes = fmax(room->air_changes_per_h, 1e-6);
    double steady = per_h / changes;
    double gone = -expm1(-changes * hours);
    RoomAir later = {.co_mg_m3 = air.co_mg_m3 + (steady - air.co_mg_m3) * gone};
    later.dose_mg_h_m3 = air.dose_mg_h_m3 + steady * hours +
                         (air.co_mg_m3 - steady) * gone / changes;
    return later;
}

/* Dose up to a time: between two known times the concentration is taken as running straight. */
static double dose_at(const double *times_s, const RoomAir *airs, size_t count, double time_s) {
    if (count == 1 || time_s <= times_s[0]) {
        return airs[0].dose_mg_h_m3;
    }
    size_t after = 1;
    size_t last = count - 1;
    while (after < last) {
        size_t middle = (after + last) / 2;
        if (times_s[middle] < time_s) {
            after = middle + 1;
        } else {
            last = middle;
        }
    }
    double span = times_s[after] - times_s[after - 1];
    double share = span > 0 ? within((time_s - times_s[after - 1]) / span, 0, 1) : 1;
    double step = airs[after].dose_mg_h_m3 - airs[after - 1].dose_mg_h_m3;
    return airs[after - 1].dose_mg_h_m3 + share * step;
}

double room_worst_8h_mg_m3(const Room *room, const double *times_s, const RoomAir *airs,
                           size_t count) {
    double worst = 0;
    for (size_t i = 1; i < count; i++) {
        double before = dose_at(times_s, airs, count, times_s[i] - WINDOW_S);
        worst = fmax(worst, airs[i].dose_mg_h_m3 - before);
    }
    double end_s = times_s[count - 1];
    for (int step = 1; step * AIRING_S <= WINDOW_S; step++) {
        double after_s = step * AIRING_S;
        RoomAir later = room_after(room, airs[count - 1], 0, after_s);
        double before = dose_at(times_s, airs, count, end_s + after_s - WINDOW_S);
        worst = fmax(worst, later.dose_mg_h_m3 - before);
    }
    return worst * 3600 / WINDOW_S;
}
