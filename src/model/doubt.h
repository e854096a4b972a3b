/* Doubt: how much wider the belief in a burn gets by what was assumed and not measured. */
#ifndef MODEL_DOUBT_H
#define MODEL_DOUBT_H

#include "model/blend.h"
#include "model/night.h"

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

/* The holding of a night whose weather was forecast days ahead: for every day after the first the
 * spread that all lightings share gets wider, up to ten days. Without a forecast, and within its
 * first day, it stays as it is. */
Holding doubt_of_forecast(const Night *night, Holding holding);

#endif
