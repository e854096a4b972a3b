#include "model/doubt.h"

#include <math.h>

/* Spreads between the ends of an 80 % band of the normal distribution. */
static const double SPREADS_IN_BAND = 2 * 1.2815515655446004;

/* By how much the log margin may be off for every further day that a forecast reaches ahead.
 * Judgement: a forecast of a week is about as good as knowing the season, humidity off by some 15
 * in a hundred (from memory); a bed that waits takes up some 2 % more water in such air, each of
 * which costs about 3.6 % of the margin. What a day's forecast is off by stands in the spread of
 * the single burn, which was learnt with such weather. */
static const double LOG_MARGIN_PER_DAY = 0.012;
static const double FIRST_DAY_S = SECONDS_PER_DAY;
static const double DAYS_MOST = 10;

/* Log margin of the first lighting when lit, with its dust so damp. */
static double log_margin_when(const Night *night, double moisture) {
    const Lighting *first = &night->lightings.items[0];
    BurnPoint lit = first->middle.path.points.items[0];
    lit.moisture[0] = lit.moisture[1] = moisture;
    return log(lighting_margin(first, &lit, &lit.air));
}

Holding doubt_of_moisture(const Night *night, const DustFigures *dusts, const double *dry_shares,
                          size_t count, Holding holding) {
    double low = 0, high = 0;
    bool assumed = false;
    for (size_t i = 0; i < count; i++) {
        low += dry_shares[i] * dusts[i].moisture_low;
        high += dry_shares[i] * dusts[i].moisture_high;
        assumed = assumed || dusts[i].moisture_assumed;
    }
    if (!assumed || night->batch->predry.stated) {
        return holding;
    }
    double apart = log_margin_when(night, low) - log_margin_when(night, high);
    holding.common_spread = hypot(holding.common_spread, apart / SPREADS_IN_BAND);
    return holding;
}

static double lead_s_of(const Weather *weather, Instant light_at) {
    return weather->readings.count > 1 ? fmax((double)(light_at - weather->readings.items[0].at), 0)
                                       : NOT_STATED;
}

double doubt_lead_s(const Night *night) {
    return lead_s_of(&night->batch->weather, night->light_at);
}

double doubt_weather_spread(const Batch *batch, Instant light_at) {
    double season_s = FIRST_DAY_S + DAYS_MOST * SECONDS_PER_DAY;
    double lead_s = batch->weather.usual ? season_s : lead_s_of(&batch->weather, light_at);
    double days = fmin((lead_s - FIRST_DAY_S) / SECONDS_PER_DAY, DAYS_MOST);
    return lead_s > FIRST_DAY_S ? LOG_MARGIN_PER_DAY * days : 0;
}

Holding doubt_of_forecast(const Night *night, Holding holding) {
    double spread = doubt_weather_spread(night->batch, night->light_at);
    if (spread > 0) {
        holding.common_spread = hypot(holding.common_spread, spread);
    }
    return holding;
}

Holding doubt_of_judged(const Night *night, const DustFigures *dusts, const double *dry_shares,
                        size_t count, Holding holding) {
    double judged = 0;
    bool metal = false;
    for (size_t i = 0; i < count; i++) {
        judged += dusts[i].dust->grain_judged ? dry_shares[i] : 0;
    }
    for (size_t i = 0; i < night->batch->fills.count; i++) {
        metal = metal || night->batch->fills.items[i].tray->metal_judged;
    }
    double grain_spread = judged * DOUBT_GRAIN_SPREAD;
    double metal_spread = metal ? DOUBT_METAL_SPREAD : 0;
    if (judged > 0 || metal) {
        holding.common_spread = hypot(holding.common_spread, hypot(grain_spread, metal_spread));
    }
    return holding;
}
