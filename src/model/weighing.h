/* Weighing: masses in whole steps of the scale that still add up. */
#ifndef MODEL_WEIGHING_H
#define MODEL_WEIGHING_H

#include <stddef.h>

/* Splits a total into parts by shares (0 or more, any scale, not all 0), each a whole number of
 * steps. The total is rounded up to a whole number of steps and met exactly; every part is off its
 * exact share by less than a step (largest remainders; ties go to the earlier part).
 * steps[count] takes the numbers; returns their sum. */
long long weighing_split(double total_kg, double step_kg, const double *shares, size_t count,
                         long long *steps);

/* Fineness of the scale, or 1 g where the step is not stated or absurd. */
double weighing_step_kg(double resolution_kg);

#endif
