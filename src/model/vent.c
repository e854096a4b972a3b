#include "model/vent.h"

#include "base/number.h"

#include <math.h>

static const double QUARTER = 0.25;
static const double COARSE_STEP = 0.05, FINE_STEP = 0.01; /* of what a hand can set: judgement */
static const double FINE_BELOW = 0.1;

PlanVent vent_set(double area_m2, double full_m2) {
    PlanVent vent = {.opening = VENT_AREA, .area_m2 = area_m2, .share = NOT_STATED};
    if (!is_stated(full_m2)) {
        return vent;
    }
    double share = fmin(area_m2 / full_m2, 1);
    double step = share < FINE_BELOW ? FINE_STEP : COARSE_STEP;
    double steps = floor(share / step + 0.5);
    if (steps < 1) {
        return vent;
    }
    vent.share = steps * step;
    double quarters = vent.share / QUARTER;
    bool even = fabs(quarters - floor(quarters + 0.5)) < 1e-9;
    vent.opening = even ? (VentOpening)(VENT_QUARTER + (int)floor(quarters + 0.5) - 1) : VENT_PART;
    return vent;
}

double vent_widened_m2(double now_m2, double wanted_m2, double full_m2) {
    if (!is_stated(full_m2)) {
        return fmax(now_m2, wanted_m2);
    }
    double quarters = ceil(wanted_m2 / full_m2 / QUARTER - 1e-9);
    return fmax(now_m2, fmin(quarters * QUARTER, 1) * full_m2);
}
