/* Pace: how fast a smokehouse's dust burns against the model's reference, and how sure that is.
 *
 * The front's speed is log-normal about the model's: ln(speed / model speed) is normal. What is
 * known beforehand is mean 0 and a wide spread; every timed trial and every recorded burn
 * narrows it. Burns share what they have in common: the smokehouse, the tray, the dusts. The
 * covariance of two burns is
 *
 *     shop² + tray² [same tray] + dust² cos(their blends)      and, for a burn with itself, + burn²
 *
 * where cos is that of the angle between the two vectors of dry shares. The update is the
 * conjugate one for a normal mean with known spread (a Gaussian process; from memory).
 */
#ifndef MODEL_PACE_H
#define MODEL_PACE_H

#include "base/arena.h"
#include "base/list.h"
#include "domain/dust.h"
#include "domain/tray.h"

#include <stdbool.h>

enum { PACE_DUSTS_MAX = 32, PACE_OBSERVATIONS_MAX = 64 };

/* What a burn has in common with others: its tray and the dry shares of its dusts. */
typedef struct PaceKind {
    const Tray *tray; /* NULL: not known, taken as a tray of its own */
    int count;
    const Dust *dusts[PACE_DUSTS_MAX];
    double dry_shares[PACE_DUSTS_MAX];
} PaceKind;

/* One measured speed, as ln(measured / model at the same moisture, density, air and tray). */
typedef struct PaceObservation {
    PaceKind kind;
    double log_pace;
    bool trial; /* a short timed trial, else a recorded burn */
} PaceObservation;

typedef LIST_OF(PaceObservation) PaceObservations;

/* What is believed of the next burn: its speed is `pace` times the model's at the middle, with
 * that spread of its logarithm (burn-to-burn variation included). */
typedef struct Pace {
    double pace;       /* 0.2 to 5; 1 when nothing was measured */
    double log_spread; /* over 0 */
    int trials;
    int records;
} Pace;

/* Nothing measured: pace 1 and the uncalibrated spread. */
Pace pace_unmeasured(void);

/* What the observations say of a burn of that kind. Only the last PACE_OBSERVATIONS_MAX count. */
Pace pace_learnt(const PaceObservations *observations, const PaceKind *kind);

/* The pace that the next burn stays under with probability `chance` (0 to 1, not included). */
double pace_factor_at(const Pace *pace, double chance);

/* Quantile of the standard normal distribution, for 0 < chance < 1; absolute error under 1e-9
 * (rational start by Acklam, one Halley step; from memory). */
double pace_normal_quantile(double chance);

#endif
