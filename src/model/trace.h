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

typedef enum TraceKind { TRACE_NIGHT, TRACE_BAGS } TraceKind;

/* A lot of dust that went into a lot of product or of bags. */
typedef struct TraceLink {
    TraceKind kind;
    const char *dust;     /* its name */
    const char *dust_lot; /* NULL: the workshop gives it none */
    double share;         /* of what was made, by mass */
    double mass_kg;   /* weighed out, or as the record says; planned where nobody wrote it down */
    bool happened;    /* written down, not only planned */
    const char *lot;  /* what was made */
    const char *made; /* the product, or the blend */
    double made_kg;   /* NAN: not stated */
    int pieces;       /* of product, or bags; 0: not stated */
    Date date;
    const char *file;
} TraceLink;

typedef LIST_OF(TraceLink) TraceLinks;

/* Adds what a night took, and what a day of bagging took, in the order of the recipe. */
void trace_add_night(Arena *arena, TraceLinks *links, const Plan *plan);
void trace_add_packing(Arena *arena, TraceLinks *links, const PackingPlan *plan);

/* A step of a way: 1 is next to the lot asked for. */
typedef struct TraceStep {
    const TraceLink *link;
    int depth;
} TraceStep;

typedef LIST_OF(TraceStep) TraceSteps;

/* All that the lot went into, and what that went into in turn: nearest first along each way. A link
 * stands once, however many ways lead to it; so a chain that bites its tail ends. */
TraceSteps trace_forward(Arena *arena, const TraceLinks *links, const char *lot);

/* All that is in the lot, and what is in that in turn. */
TraceSteps trace_back(Arena *arena, const TraceLinks *links, const char *lot);

#endif
