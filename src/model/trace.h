/* Trace: where the dust of a lot went, and what is in a lot.
 *
 * Every night and every bagged blend takes lots of dust and makes a lot of its own: the batch's
 * products, or bags. A blend that was bagged and later stands on the shelf as a dust carries its
 * lot with it, so that the chain goes on through it. */
#ifndef MODEL_TRACE_H
#define MODEL_TRACE_H

#include "base/arena.h"
#include "domain/packing_plan.h"
#include "domain/plan.h"
#include "domain/trace.h"

/* Adds what a night took, and what a day of bagging took, in the order of the recipe. */
void trace_add_night(Arena *arena, TraceLinks *links, const Plan *plan);
void trace_add_packing(Arena *arena, TraceLinks *links, const PackingPlan *plan);

/* Puts the links in the order of their dates, those of one day in the order they were added. */
void trace_by_date(TraceLinks *links);

/* All that the lot went into, and what that went into in turn: nearest first along each way. A link
 * stands once, however many ways lead to it; so a chain that bites its tail ends. */
TraceSteps trace_forward(Arena *arena, const TraceLinks *links, const char *lot);

/* All that is in the lot, and what is in that in turn. */
TraceSteps trace_back(Arena *arena, const TraceLinks *links, const char *lot);

#endif
