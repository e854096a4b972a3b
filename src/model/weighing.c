#include "model/weighing.h"

#include <math.h>

/* A total this little over a whole step, in steps, is rounding of the arithmetic. */
static const double WHISKER = 1e-6;

double weighing_step_kg(double resolution_kg) {
    return resolution_kg >= 1e-6 && resolution_kg <= 10 ? resolution_kg : 1e-3;
}

/* The part whose exact share is furthest above its steps. */
static size_t most_short(const double *shares, double per_share, const long long *steps,
                         size_t count) {
    size_t found = 0;
    double most = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        double missing = shares[i] * per_share - (double)steps[i];
        if (missing > most + 1e-9) {
            most = missing;
            found = i;
        }
    }
    return found;
}

long long weighing_split(double total_kg, double step_kg, const double *shares, size_t count,
                         long long *steps) {
    long long total = (long long)ceil(fmin(total_kg / step_kg, 1e15) - WHISKER);
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        sum += shares[i];
    }
    double per_share = sum > 0 ? (double)total / sum : 0;
    long long given = 0;
    for (size_t i = 0; i < count; i++) {
        steps[i] = (long long)floor(shares[i] * per_share + 1e-9);
        given += steps[i];
    }
    for (; given < total; given++) {
        steps[most_short(shares, per_share, steps, count)]++;
    }
    return total;
}
