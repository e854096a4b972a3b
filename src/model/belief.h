/* Belief: what is believed of a burn before it is lit, from trials and recorded nights. */
#ifndef MODEL_BELIEF_H
#define MODEL_BELIEF_H

#include "model/holding.h"
#include "model/pace.h"

typedef struct Belief {
    Pace speed;
    Holding holding;
} Belief;

/* Nothing measured. */
Belief belief_unmeasured(void);

#endif
