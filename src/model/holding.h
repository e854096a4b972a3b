/* Holding: what is believed of how well a smokehouse's burns hold, against the model's margin.
 *
 * The margin that a front has is the model's times an unknown factor. Its logarithm, the offset,
 * is normal: part of it all burns of a kind share (smokehouse, tray, dusts, as in model/kind.h),
 * part is each burn's own. A burn lasts while log margin + offset stays above 0. So a burn that
 * lasted says that its offset was above minus the least log margin on its way; one that died
 * between two times, that it lay between those of the ways up to them.
 *
 * What all recorded nights say together of the shared parts is a normal distribution cut by one
 * such probit term for each night. It has no closed form; expectation propagation (Minka 2001;
 * Rasmussen & Williams, Gaussian Processes for Machine Learning, 3.6; from memory) puts in place
 * of each term the normal factor that has the same mean and variance beside all others. */
#ifndef MODEL_HOLDING_H
#define MODEL_HOLDING_H

#include "base/arena.h"
#include "base/list.h"
#include "model/kind.h"

enum { HOLDING_OBSERVATIONS_MAX = 64 };

typedef struct Holding {
    double log_mean;      /* of the offset; 0 when nothing was measured */
    double common_spread; /* of what the next burns of this kind share; over 0 */
    double burn_spread;   /* from one burn to the next; over 0 */
    int nights;           /* recorded nights with a dust of the kind that told something */
    int lasted;           /* of them, those that burnt to their end */
} Holding;

/* What one recorded night says of its offset: it lay between the two. */
typedef struct HoldingObservation {
    BurnKind kind;
    double low;  /* −INFINITY: no bound */
    double high; /* over low; INFINITY: no bound */
    bool lasted;
    double doubt; /* spread of the log margins behind the two, of what was not known that night */
} HoldingObservation;

typedef LIST_OF(HoldingObservation) HoldingObservations;

/* Nothing measured: mean 0, and together a spread of 0.22, so that a margin of 1.35 lasts in about
 * nine nights of ten and one of 1.10 in two of three. */
Holding holding_unmeasured(void);

/* What the observations say of a burn of that kind; the last HOLDING_OBSERVATIONS_MAX count. */
Holding holding_learnt(const HoldingObservations *observations, const BurnKind *kind);

#endif
