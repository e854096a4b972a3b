/* Recipe: what to weigh out, and the blend's figures, for a night that has been worked out. */
#ifndef MODEL_RECIPE_H
#define MODEL_RECIPE_H

#include "model/blend.h"
#include "model/carrier.h"
#include "model/night.h"

/* The dusts of the batch's blend in their order; those of no stated moisture as the store keeps
 * them. */
DustFigures *recipe_dusts(Arena *arena, const Batch *batch);

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
