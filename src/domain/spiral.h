/* Spiral: the Archimedean spiral of a tray's channel, r = rate · angle; angles count from its
 * centre. */
#ifndef DOMAIN_SPIRAL_H
#define DOMAIN_SPIRAL_H

#include "base/pi.h"
#include "domain/tray.h"

#include <math.h>

typedef struct Spiral {
    double rate_m;    /* radius per radian */
    double inner_rad; /* angle of the inner end */
    double outer_rad; /* angle of the outer end */
} Spiral;

static inline Spiral spiral_of(const Tray *tray) {
    static const double whole_turn_rad = 2 * PI;
    double outer_m = tray->outer_m / 2;
    double rate_m = tray->pitch_m / whole_turn_rad;
    double inner_m = fmax(outer_m - tray->turns * tray->pitch_m, 0);
    return (Spiral){rate_m, inner_m / rate_m, outer_m / rate_m};
}

/* Arc length from the centre, exact (any calculus text). */
static inline double spiral_arc_m(Spiral spiral, double angle_rad) {
    double root = sqrt(1 + angle_rad * angle_rad);
    return spiral.rate_m / 2 * (angle_rad * root + asinh(angle_rad));
}

#endif
