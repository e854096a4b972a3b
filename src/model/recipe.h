/* Recipe: what to weigh out, and the blend's figures, for a night that has been worked out. */
#ifndef MODEL_RECIPE_H
#define MODEL_RECIPE_H

#include "model/blend.h"
#include "model/carrier.h"
#include "model/night.h"

/* The dusts of a blend in their order, on a day; those of no stated moisture, or of one measured
 * too long ago (model/store.h), as the store keeps them. */
DustFigures *recipe_dusts(Arena *arena, const Blend *blend, const Store *store, Date on);

/* Fills what needs no night of *blend: the parts with their shares, moisture, grain, density, and
 * what had better not be smouldered. */
void recipe_mix(Arena *arena, const Blend *order, const DustFigures *dusts,
                const double *dry_shares, const Mix *mix, PlanBlend *blend);

/* Fills *blend: shares, weigh-out in the scale's steps for all lightings together, grain, density;
 * the search's result when there was one; the sieving that would help when fines are too many. */
void recipe_fill(Arena *arena, const Night *night, const DustFigures *dusts,
                 const double *dry_shares, const Mix *mix, const CarrierFound *found,
                 PlanBlend *blend);

/* Fills *drying from the night and the scale. */
void recipe_drying(const Night *night, PlanDrying *drying);

/* Brings the masses that somebody weighs to whole steps of the scale, once blend, drying and fills
 * are known: what goes on the trays adds up to the weigh-out, and the water to lose is the
 * difference of the two readings. */
void recipe_on_scale(Arena *arena, Plan *plan);

#endif
