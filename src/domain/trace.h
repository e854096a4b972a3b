/* Trace: lots of dust, the lots of products and bags they went into, and the way from one lot
 * through them. SI units; shares are fractions of 1. */
#ifndef DOMAIN_TRACE_H
#define DOMAIN_TRACE_H

#include "base/date.h"
#include "base/list.h"
#include "domain/field.h"

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
    size_t order; /* in which it was added, from 0 */
} TraceLink;

typedef LIST_OF(TraceLink) TraceLinks;

/* A step of a way: 1 is next to the lot asked for. */
typedef struct TraceStep {
    const TraceLink *link;
    int depth;
} TraceStep;

typedef LIST_OF(TraceStep) TraceSteps;

/* What is known of a lot, or a page of it. */
typedef struct Trace {
    const char *lot;
    TraceSteps into; /* what it went into */
    TraceSteps of;   /* what is in it */
    bool used, made; /* whether there is anything of either, on whatever page */
    int page, pages; /* from 1 */
} Trace;

/* All figures of the trace, in the arena; the root group is named "trace", with rows `into` and
 * `of` (domain/field.h says how fields are found). */
FieldGroup *trace_fields(Arena *arena, const Trace *trace);

#endif
