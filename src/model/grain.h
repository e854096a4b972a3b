/* Grain: the size curve of a dust.
 *
 * A curve is the share by mass that is finer than each of a few sizes, from nothing at the
 * smallest to all at the largest. Between two sizes the mass is taken as spread evenly over the
 * logarithm of size: the same assumption as ASABE S319 makes with its class means, and the one
 * that a plain range ("500–750 µm") stands for. Grains of one dust have one density, so that for
 * one dust shares by mass and by grain volume are the same; where dusts of different density
 * are mixed, mix once with masses and once with volumes as weights.
 *
 * Two ends of a sieve analysis are not measured and are assumed:
 * - what lies in the pan reaches down to a quarter of the finest aperture, so that its geometric
 *   mean is half that aperture;
 * - what stays on the coarsest sieve reaches up to the next sieve of the R20/3 series, as ASABE
 *   S319 does with the next sieve of its own series.
 *
 * The structs are plain values. A curve made by the functions here is always whole: 2 to
 * GRAIN_SIZES_MAX sizes, rising; shares rising from exactly 0 to exactly 1.
 */
#ifndef MODEL_GRAIN_H
#define MODEL_GRAIN_H

#include <stdbool.h>
#include <stddef.h>

enum { GRAIN_SIZES_MAX = 32 };

/* Below this is "fines", m. A principal sieve of ISO 565 R20/3 (0.25 mm; ASTM E11 No. 60): the
 * second below the 0.5 mm that a clean carrier dust starts from, so that its own undersize is
 * left out; coarser than the 0.2 mm mean below which wood dust is handled as an explosion risk
 * (HSE WIS32, second hand), so that what is sieved out is what has to be kept from flames too.
 * That fines begin here in a smoulder tray is common practice, no source. */
#define GRAIN_FINES_APERTURE_M 0.25e-3

/* Above this is "coarse", m: 1–2 mm grains are about the coarsest that hold (common practice, no
 * source); 2 mm is a sieve of R20/3 (ASTM E11 No. 10). */
#define GRAIN_COARSE_APERTURE_M 2.0e-3

/* Most of the sample that may go missing, or be gained, in sieving. ASTM C136 and ISO 2591-1
 * put the limit near this (from memory). */
#define GRAIN_LOSS_MAX 0.02

/* Share of the undersize that some minutes of sieving by hand get through. Common practice, no
 * source. */
#define GRAIN_SIEVE_EFFICIENCY 0.90

typedef struct Grain {
    size_t count;
    double size_m[GRAIN_SIZES_MAX];
    double finer[GRAIN_SIZES_MAX]; /* share by mass finer than the size */
} Grain;

typedef enum GrainFault {
    GRAIN_WHOLE,                /* no fault */
    GRAIN_NO_SIEVE,             /* no aperture above 0 */
    GRAIN_TOO_MANY_SIEVES,      /* more than GRAIN_SIZES_MAX − 2, pan not counted */
    GRAIN_APERTURE_NOT_FALLING, /* apertures must fall; only the last, the pan, may be 0 */
    GRAIN_APERTURE_ABSURD,      /* not between 1 µm and 1 m */
    GRAIN_MASS_ABSURD,          /* negative or not a number */
    GRAIN_NOTHING_RETAINED,     /* all masses are 0 */
    GRAIN_LOST_TOO_MUCH,        /* classes make less than 0.98 of the sample */
    GRAIN_GAINED_TOO_MUCH,      /* or more than 1.02 of it */
    GRAIN_RANGE_NOT_RISING      /* a range must go from the finer to the coarser */
} GrainFault;

/* The curve of a sieve analysis.
 * Given:    aperture_m[count], falling, the last 0 if there is a pan; retained[count], what lay on
 *           each, in kg or percent or any one unit; sample, the whole in the same unit, NAN if it
 *           was not weighed.
 * Returns:  the fault, GRAIN_WHOLE if none; then *grain holds the curve, made up to 1 from the sum
 *           of the classes, and *recovered (may be NULL) the sum over the sample, 1 if not
 *           weighed. With a fault neither is touched. */
GrainFault grain_from_sieves(const double *aperture_m, const double *retained, size_t count,
                             double sample, Grain *grain, double *recovered);

/* The curve of a plain range, log-uniform. Equal ends stand for grains of one size and are
 * widened by 1 % to both sides. */
GrainFault grain_from_range(double from_m, double to_m, Grain *grain);

/* Share by mass finer than a size, 0…1. */
double grain_finer(const Grain *grain, double size_m);

/* Share by mass at or above a size: 1 − grain_finer. */
double grain_coarser(const Grain *grain, double size_m);

/* Size, m, that the share is finer than, interpolated on log size: 0.10 gives d10. Shares
 * outside 0…1 give the ends; where the curve is flat, the smallest such size. */
double grain_size_at_m(const Grain *grain, double share);

/* Geometric mean size by mass, m. ASABE S319:
 * log d_gw = Σ W_i log d̄_i / Σ W_i, d̄_i = √(d_i d_{i+1}). */
double grain_geometric_mean_m(const Grain *grain);

/* S_log of ASABE S319, decimal logarithm, from the class means alone:
 * √(Σ W_i (log d̄_i − log d_gw)² / Σ W_i). Zero for a single class. */
double grain_s319_log_deviation(const Grain *grain);

/* Geometric standard deviation, a ratio of at least 1, with the spread inside each class
 * counted as well: exp √(Σ W_i [(ln d̄_i − ln d_gw)² + (ln d_{i+1}/d_i)²/12]). Unlike S_log it
 * does not depend on how finely the curve was sieved, and holds for a plain range. */
double grain_geometric_deviation(const Grain *grain);

/* Sauter mean diameter, m: the size of equal grains with the same surface per volume,
 * 1 / ∫ dF/d. Exact for the log-uniform classes. */
double grain_sauter_m(const Grain *grain);

/* Mixes curves by weight: masses for a curve by mass, masses over density for one by volume.
 * Weights that are negative or no number count as 0; if all are 0 all count alike. At least one
 * curve must be given. Exact while the sizes of all fit in GRAIN_SIZES_MAX; beyond that the
 * sizes that matter least are dropped (see the test for how little that costs). */
Grain grain_mix(const Grain *const *grains, const double *weights, size_t count);

/* Sieving out what is finer than `sieve_m`, to bring the share finer than `fines_m` down. */
typedef struct Sieving {
    bool needed;          /* the share is above the wanted one */
    bool reachable;       /* the wanted share can be met by this sieve */
    double removed_share; /* of the dust's mass, to be taken out; 0 if not needed */
    double sieved_share;  /* of the dust's mass, to be put through the sieve; the rest is left */
    double fines_share;   /* after it */
    Grain left;           /* after it; its mass is 1 − removed_share of what there was */
} Sieving;

/* Plans the sieving. At `efficiency` 0…1 sieving all of a dust takes out efficiency × finer
 * (sieve_m) of it, in the proportions it has below the sieve. Taking out r leaves the fines
 * (F − rφ)/(1 − r), φ the share of fines in what is taken out; r follows for the wanted share.
 * If the whole dust through the sieve is not enough, that is planned and `reachable` is false. */
Sieving grain_sieve_out(const Grain *grain, double fines_m, double wanted_share, double sieve_m,
                        double efficiency);

#endif
