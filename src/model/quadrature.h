/* Quadrature: integrals by weighted sums at fixed points, the same in every run. */
#ifndef MODEL_QUADRATURE_H
#define MODEL_QUADRATURE_H

enum { QUADRATURE_MOST = 32 };

/* Gauss–Legendre points inside 0…1 and their weights, rising, for 1 to QUADRATURE_MOST points:
 * exact for polynomials up to degree 2 count − 1. Newton on the recurrence of the Legendre
 * polynomials (Abramowitz & Stegun 22.7.10 and 25.4.29, from memory; checked against Table 25.4's
 * figures and by its exactness). */
void quadrature_legendre(int count, double *points, double *weights);

/* Probability that a standard normal value is under x. */
double quadrature_normal(double x);

#endif
