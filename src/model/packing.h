/* Packing: what a day of bagging takes of each dust, in bowls that the scale can take, and what it
 * leaves.
 *
 * Backwards from the bags: their net masses, what handling loses and what the oven drives out give
 * the mass to weigh out, rounded up to whole steps of the scale. The parts keep their shares of it;
 * each bowl has the same recipe. Each dust is sieved by itself before it is weighed: what the sieve
 * takes out is taken from the shelf beside what is weighed. */
#ifndef MODEL_PACKING_H
#define MODEL_PACKING_H

#include "base/arena.h"
#include "domain/label_sheet.h"
#include "domain/packing_plan.h"

/* What handling loses where nobody stated it, as a share of what is weighed out: judgement. */
#define PACKING_HANDLING_LOSS 0.01

/* So much of the scale's capacity one bowl of dust may take; the rest is for the bowl itself
 * (judgement). */
#define PACKING_BOWL_SHARE 0.75

/* The plan of a bagging, in the arena; any bagging that the readers accept will do. Bags that
 * the shelf cannot fill are told as `missing_kg` of the dust. */
PackingPlan *packing_plan(Arena *arena, const Bagging *bagging);

/* The same of the bags of a night, with the shares that its plan found. What its trays take leaves
 * the shelf too. */
PackingPlan *packing_plan_of_night(Arena *arena, const Plan *plan);

/* Counts the labels of all bags, in their order, on the sheets that earlier ones have begun, from
 * the first free ones that are said. Bags on a stock that there is not are left out. */
void packing_count_labels(Arena *arena, PackingPlan *plan, const StockSet *stocks,
                          FirstLabels firsts, LabelSheets *sheets);

#endif
