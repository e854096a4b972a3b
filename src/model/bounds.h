/* Bounds: keeping an argument inside the range a formula was made for. */
#ifndef MODEL_BOUNDS_H
#define MODEL_BOUNDS_H

#include <math.h>

/* The nearest value in low…high; what is not a number becomes low. So a formula fed through it
 * never gives NaN. */
static inline double clamp(double value, double low, double high) {
    return fmin(fmax(value, low), high);
}

#endif
