/* Doubt: how much wider the belief in a burn gets by what was assumed and not measured. */
#ifndef MODEL_DOUBT_H
#define MODEL_DOUBT_H

#include "model/blend.h"
#include "model/night.h"

/* Spreads of the log margin, shared by all lightings, that come of grains known by a kitchen sieve
 * and of a tray of which only the kind of metal is known. A margin with grains off by a factor of
 * 1.5, or with metal off by one of 1.4, is off by no more than 1.28 of these (tests/model): the
 * ends of an 80 % band. What the factors are is judgement. */
#define DOUBT_GRAIN_SPREAD 0.26
#define DOUBT_METAL_SPREAD 0.08

/* The holding of a night some of whose dusts and trays were judged and not measured; with all
 * measured as it is. A dust counts by its dry share. */
Holding doubt_of_judged(const Night *night, const DustFigures *dusts, const double *dry_shares,
                        size_t count, Holding holding);

/* The holding of a night whose dusts may be drier or damper than was assumed. The margin when lit
 * at the damp end of what the store makes of them against that at the dry end is taken as the
 * 80 % band of what is not known, shared by all lightings (judgement: normal in the logarithm).
 * Dust that is dried counts as measured, since it is weighed until it loses no more. Measured dust
 * leaves the holding as it is. `dusts` and `dry_shares` are of the blend's parts. */
Holding doubt_of_moisture(const Night *night, const DustFigures *dusts, const double *dry_shares,
                          size_t count, Holding holding);

/* From a forecast's first reading to lighting, s: it was made then or earlier, and printing it
 * later makes it no fresher. NAN: there is no forecast. */
double doubt_lead_s(const Night *night);

/* From where on a page says that the forecast is far ahead. Judgement: half a week. */
#define DOUBT_FORECAST_FAR_S (3.0 * SECONDS_PER_DAY)

/* Spread of the log margin that comes of weather which nobody knew when a night of that batch was
 * lit: of a forecast for every day after its first, up to ten days, which is as good as weather
 * that is usual and was not forecast. 0: it was read, or forecast within the day. How fast a front
 * goes is off by no more (tests/model/test_learning.c). */
double doubt_weather_spread(const Batch *batch, Instant light_at);

/* The holding of a night whose weather was forecast days ahead or is only what is usual: the spread
 * that all lightings share gets wider by doubt_weather_spread. */
Holding doubt_of_forecast(const Night *night, Holding holding);

#endif
