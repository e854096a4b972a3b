/* Remedy trials: the single changes that model/remedy.h tries, one function each. */
#ifndef MODEL_REMEDY_TRIAL_H
#define MODEL_REMEDY_TRIAL_H

#include "model/session.h"

#include <stdbool.h>

/* A change that helps, and the plan after it. */
typedef struct RemedyTried {
    Remedy remedy;
    const Plan *after;
} RemedyTried;

typedef LIST_OF(RemedyTried) RemedyTries;

/* What a trial works on: the batch with its shares fixed, the plan to be bettered, and the list
 * that gets the changes that help. */
typedef struct RemedyAsk {
    Arena *arena;
    const Batch *batch;
    const Belief *belief;
    const Plan *plan;
    RemedyTries *tries;
} RemedyAsk;

/* Whether the change is worth something: a better verdict, one thing less that forbids the night, a
 * weak chance that gets better, or a warm cabinet that gets cooler. */
bool remedy_helps(const Plan *before, const Plan *after);

/* Better verdict, or else a higher chance by a hundredth. */
bool remedy_better(const Plan *one, const Plan *other);

/* Adds the remedy if the plan after it helps. NULL is passed over. */
void remedy_keep(const RemedyAsk *ask, const Plan *after, Remedy remedy);

/* A copy of the batch to change; its fills and blend parts are copies too. */
Batch *remedy_copy(const RemedyAsk *ask);

/* The changed batch worked out, figures only, food as in the plan to be bettered. */
const Plan *remedy_work_out(const RemedyAsk *ask, const Batch *changed, Instant light_at);

void remedy_try_drying(const RemedyAsk *ask);
void remedy_try_sieving(const RemedyAsk *ask);
void remedy_try_carrier(const RemedyAsk *ask);
void remedy_try_heap(const RemedyAsk *ask);
void remedy_try_lighter_fill(const RemedyAsk *ask);
void remedy_try_tray(const RemedyAsk *ask);
void remedy_try_shorter_burn(const RemedyAsk *ask);
void remedy_try_vent(const RemedyAsk *ask);
void remedy_try_hour(const RemedyAsk *ask);
void remedy_try_room(const RemedyAsk *ask);

#endif
