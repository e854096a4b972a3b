/* Uptake: how the dust that waits for the front takes up water from the air, or gives it off. */
#ifndef MODEL_UPTAKE_H
#define MODEL_UPTAKE_H

/* Depth and dry density of a waiting bed. */
typedef struct WaitingBed {
    double depth_m; /* over the sides that air reaches, weighed alike (Section) */
    double dry_kg_m3;
} WaitingBed;

/* Relative humidity, 0…1, at which wood keeps that moisture: inverse of the equilibrium to 1e-9;
 * 1 above fibre saturation, 0 at no moisture. */
double uptake_bed_humidity(double temp_c, double moisture);

/* Time constant, s, at which the bed's mean moisture goes to that of the air:
 *   L² (rho dM/dc)/((pi²/4) D) + grain lag,
 * L the bed depth, dM/dc the mean slope of the sorption curve per vapour density between the bed
 * and the air. With the mean (secant) slope this is diffusion driven by the difference of vapour
 * density; the slope at either end alone would overstate or understate it by half near
 * saturation. Own estimate, factor 2. Over 0, finite. */
double uptake_time_s(const WaitingBed *bed, double moisture, double temp_c, double humidity);

/* dM/dt = (EMC − M)/tau, per second, and tau (*time_s; NULL: not wanted). */
double uptake_rate_per_s(const WaitingBed *bed, double moisture, double temp_c, double humidity,
                         double *time_s);

/* Moisture after a time in steady air, by Runge–Kutta steps of a quarter of tau at most. Goes to
 * the equilibrium, never past it. Times under 0 count as 0. */
double uptake_after(const WaitingBed *bed, double moisture, double temp_c, double humidity,
                    double time_s);

#endif
