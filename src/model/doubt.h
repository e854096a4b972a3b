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

#endif
