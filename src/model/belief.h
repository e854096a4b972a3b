/* Belief: what is believed of a burn before it is lit, from trials and recorded nights. */
#ifndef MODEL_BELIEF_H
#define MODEL_BELIEF_H

#include "model/holding.h"
#include "model/speed_factor.h"

typedef struct Belief {
    SpeedFactor speed;
    Holding holding;
} Belief;

/* Nothing measured. */
Belief belief_unmeasured(void);

#endif
