/* Pace: how fast a smokehouse's dust burns against the model's reference, and how sure that is.
 *
 * The front's speed is log-normal about the model's: ln(speed / model speed) is normal. What is
 * known beforehand is mean 0 and a wide spread; every timed trial and every recorded burn
 * narrows it. Burns share what they have in common: the smokehouse, the tray, the dusts. The
 * covariance of two burns is
 *
 *     shop² + tray² [same tray] + dust² cos(their blends)      and, for a burn with itself, + burn²
 *
 * where cos is that of the angle between the two vectors of dry shares. For a known burn² the
 * update is the conjugate one for a normal mean (a Gaussian process; from memory). burn² itself is
 * learnt: it has an inverse gamma prior, and what is believed is the mixture over it, by
 * quadrature on its logarithm, weighed by how likely each makes what was seen. With one kind of
 * burn only that is Student's t.
 */
#ifndef MODEL_PACE_H
#define MODEL_PACE_H

#include "base/arena.h"
#include "base/list.h"
#include "model/kind.h"

#include <stdbool.h>

enum { PACE_OBSERVATIONS_MAX = 64, PACE_NODES = 24 };

/* One measured speed, as ln(measured / model at the same moisture, density, air and tray). */
typedef struct PaceObservation {
    BurnKind kind;
    double log_pace;
    bool trial;   /* a short timed trial, else a recorded burn */
    double error; /* spread with which it was measured; 0: exact */
} PaceObservation;

typedef LIST_OF(PaceObservation) PaceObservations;

/* One part of the mixture: a normal for one spread from burn to burn. */
typedef struct PaceNode {
    double weight; /* all together 1 */
    double off;    /* mean of ln speed, less ln pace */
    double spread;
} PaceNode;

/* What is believed of the next burn: its speed is `pace` times the model's at the middle, with
 * that spread of its logarithm (burn-to-burn variation included). */
typedef struct Pace {
    double pace;       /* 0.2 to 5; 1 when nothing was measured */
    double log_spread; /* over 0: half the width of the 80 % band, over 1.28 */
    int trials;
    int records;
    int nodes; /* parts of the mixture; 0: a normal of log_spread */
    PaceNode node[PACE_NODES];
} Pace;

/* How an observation lies to what all others make one expect of it. */
typedef struct PaceDeviance {
    double tail;         /* chance of one as far out on that side; 0 to 1/2 */
    double expected_low; /* 80 % band of ln pace by the others */
    double expected_high;
} PaceDeviance;

/* Nothing measured: pace 1 and the uncalibrated spread. */
Pace pace_unmeasured(void);

/* What the observations say of a burn of that kind. Only the last PACE_OBSERVATIONS_MAX count. */
Pace pace_learnt(const PaceObservations *observations, const BurnKind *kind);

/* The pace that the next burn stays under with probability `chance` (0 to 1, not included). */
double pace_factor_at(const Pace *pace, double chance);

/* Leave-one-out: deviances[i] is that of observation i (at most PACE_OBSERVATIONS_MAX of them). */
void pace_deviances(const PaceObservations *observations, PaceDeviance *deviances);

/* Quantile of the standard normal distribution, for 0 < chance < 1; absolute error under 1e-9
 * (rational start by Acklam, one Halley step; from memory). */
double pace_normal_quantile(double chance);

#endif
