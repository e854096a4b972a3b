#include "model/quadrature.h"

#include "base/pi.h"
#include <math.h>

/* The Legendre polynomial of that degree, and its slope. */
static double legendre(int degree, double x, double *slope) {
    double before = 1, value = x;
    for (int k = 2; k <= degree; k++) {
        double next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
        before = value;
        value = next;
    }
    *slope = degree * (x * value - before) / (x * x - 1);
    return value;
}

void quadrature_legendre(int count, double *points, double *weights) {
    for (int i = 0; i < count; i++) {
        double x = -cos(PI * (i + 0.75) / (count + 0.5));
        double slope = 1;
        for (int turn = 0; turn < 50; turn++) {
            double step = legendre(count, x, &slope) / slope;
            x -= step;
            if (fabs(step) < 1e-15) {
                break;
            }
        }
        legendre(count, x, &slope);
        points[i] = (1 + x) / 2;
        weights[i] = 1 / ((1 - x * x) * slope * slope);
    }
}

double quadrature_normal(double x) {
    return 0.5 * erfc(-x / sqrt(2));
}
