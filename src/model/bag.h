/* Bag: what a label of the blend has to say, and the dust that the bags take from the shelf. */
#ifndef MODEL_BAG_H
#define MODEL_BAG_H

#include "base/arena.h"
#include "domain/plan.h"

/* So long an unopened bag, filled from a sealed store, stays about as dry as its label says.
 * Judgement: no law sets a date for wood dust. 0.1 mm of polyethylene lets some 0.3 g of water
 * through a square metre a day between a dry bag and a room (from memory), and 250 g of dust have
 * about 0.05 m2 of it: some 3 g in half a year, one point of moisture. */
#define BAG_DRY_DAYS 180

/* Whose rules the label of an order follows: its own market's, or the workshop's. */
Market bag_market(const Workshop *workshop, const BagOrder *order);

/* Works out plan->bags from the batch's orders, and what they leave of each dust: the parts'
 * packed_kg, stock_left_kg and short_of_stock, bags or none. Needs the blend of the plan. Bags are
 * filled from the blend as mixed, before the tray's share of it goes through the oven.
 *
 * `session_date`: stands for a packing date that is not stated. */
void bag_plan(Arena *arena, const Batch *batch, Date session_date, Plan *plan);

/* What a label of such a bag says, of a blend that has its parts and its grain. `day`: stands for a
 * packing date that is not stated. `sieved`: its grain is no more the one that was declared. */
PlanBag bag_of_order(Arena *arena, const Workshop *workshop, const BagOrder *order, Date day,
                     const PlanBlend *blend, bool sieved);

/* Until when an unopened bag stays about as dry as its label says: told only of what was measured
 * and kept sealed until it was packed; else of year 0. Needs the bag's moisture and its day. */
Date bag_dry_until(const Workshop *workshop, const PlanBag *bag);

/* What tonight's weigh-out takes of that dust, kg, bags not counted. */
double bag_tonight_kg(const PlanBlend *blend, const Dust *dust);

#endif
