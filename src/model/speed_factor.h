/* Speed factor: how fast a smokehouse's dust burns against the model's reference, and how sure that
 * is.
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
#ifndef MODEL_SPEED_FACTOR_H
#define MODEL_SPEED_FACTOR_H

#include "base/arena.h"
#include "base/list.h"
#include "model/kind.h"

#include <stdbool.h>

enum { SPEED_OBSERVATIONS_MAX = 64, SPEED_NODES = 24 };

/* One measured speed, as ln(measured / model at the same moisture, density, air and tray). */
typedef struct SpeedObservation {
    BurnKind kind;
    double log_factor;
    bool trial;   /* a short timed trial, else a recorded burn */
    double error; /* spread with which it was measured; 0: exact */
} SpeedObservation;

typedef LIST_OF(SpeedObservation) SpeedObservations;

/* One part of the mixture: a normal for one spread from burn to burn. */
typedef struct SpeedNode {
    double weight; /* all together 1 */
    double off;    /* mean of ln speed, less ln factor */
    double spread;
} SpeedNode;

/* What is believed of the next burn: its speed is `middle` times the model's at the middle, with
 * that spread of its logarithm (burn-to-burn variation included). */
typedef struct SpeedFactor {
    double middle;     /* 0.2 to 5; 1 when nothing was measured */
    double log_spread; /* over 0: half the width of the 80 % band, over 1.28 */
    int trials;
    int records;
    int nodes; /* parts of the mixture; 0: a normal of log_spread */
    SpeedNode node[SPEED_NODES];
} SpeedFactor;

/* How an observation lies to what all others make one expect of it. */
typedef struct SpeedDeviance {
    double tail;         /* chance of one as far out on that side; 0 to 1/2 */
    double expected_low; /* 80 % band of ln factor by the others */
    double expected_high;
} SpeedDeviance;

/* Nothing measured: speed factor 1 and the uncalibrated spread. */
SpeedFactor speed_factor_unmeasured(void);

/* What the observations say of a burn of that kind. Only the last SPEED_OBSERVATIONS_MAX count. */
SpeedFactor speed_factor_learnt(const SpeedObservations *observations, const BurnKind *kind);

/* The speed factor that the next burn stays under with probability `chance` (0 to 1, not
 * included). */
double speed_factor_at(const SpeedFactor *speed_factor, double chance);

/* Leave-one-out: deviances[i] is that of observation i (at most SPEED_OBSERVATIONS_MAX of them). */
void speed_deviances(const SpeedObservations *observations, SpeedDeviance *deviances);

/* Quantile of the standard normal distribution, for 0 < chance < 1; absolute error under 1e-9
 * (rational start by Acklam, one Halley step; from memory). */
double speed_normal_quantile(double chance);

#endif
