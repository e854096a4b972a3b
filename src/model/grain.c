#include "model/grain.h"

#include "model/bounds.h"

#include <math.h>
#include <string.h>

#define SIZE_MIN_M 1e-6
#define SIZE_MAX_M 1.0
#define SERIES_STEP 1.4125375446227544 /* 10^(3/20): R20/3 of ISO 565; from memory */
#define PAN_REACH 0.25                 /* of the finest aperture; judgement, see grain.h */
#define ONE_SIZE_WIDENING 1.01
#define SAME_SIZE 1e-9 /* relative; nearer sizes are one */

/* Drops empty classes at both ends, so that the ends are the smallest and the largest grain. */
static void trim(Grain *grain) {
    size_t first = 0;
    size_t last = grain->count - 1;
    while (first + 1 < last && grain->finer[first + 1] <= 0)
        first++;
    while (last > first + 1 && grain->finer[last - 1] >= 1)
        last--;
    grain->count = last - first + 1;
    memmove(grain->size_m, grain->size_m + first, grain->count * sizeof *grain->size_m);
    memmove(grain->finer, grain->finer + first, grain->count * sizeof *grain->finer);
    grain->finer[0] = 0;
    grain->finer[grain->count - 1] = 1;
}

static GrainFault check_sieves(const double *aperture_m, const double *retained, size_t count) {
    size_t sieves = count > 0 && aperture_m[count - 1] == 0 ? count - 1 : count;
    if (sieves == 0)
        return GRAIN_NO_SIEVE;
    if (sieves > GRAIN_SIZES_MAX - 2)
        return GRAIN_TOO_MANY_SIEVES;
    for (size_t i = 0; i < sieves; i++) {
        if (i > 0 && !(aperture_m[i] < aperture_m[i - 1] * (1 - SAME_SIZE)))
            return GRAIN_APERTURE_NOT_FALLING;
        if (!(aperture_m[i] >= SIZE_MIN_M && aperture_m[i] <= SIZE_MAX_M))
            return GRAIN_APERTURE_ABSURD;
    }
    for (size_t i = 0; i < count; i++)
        if (!(retained[i] >= 0 && isfinite(retained[i])))
            return GRAIN_MASS_ABSURD;
    return GRAIN_WHOLE;
}

static GrainFault check_recovery(double sum, double sample, double *recovered) {
    *recovered = 1;
    if (!(sum > 0 && isfinite(sum)))
        return GRAIN_NOTHING_RETAINED;
    if (isnan(sample))
        return GRAIN_WHOLE;
    if (!(sample > 0 && isfinite(sample)))
        return GRAIN_MASS_ABSURD;
    /* A hair's breadth is let through, so that exactly 2 % is not refused by its last bit. */
    const double loss_max = GRAIN_LOSS_MAX + 1e-9;
    *recovered = sum / sample;
    return *recovered < 1 - loss_max   ? GRAIN_LOST_TOO_MUCH
           : *recovered > 1 + loss_max ? GRAIN_GAINED_TOO_MUCH
                                       : GRAIN_WHOLE;
}

GrainFault grain_from_sieves(const double *aperture_m, const double *retained, size_t count,
                             double sample, Grain *grain, double *recovered) {
    GrainFault fault = check_sieves(aperture_m, retained, count);
    if (fault != GRAIN_WHOLE)
        return fault;
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += retained[i];
    double found = 1;
    fault = check_recovery(sum, sample, &found);
    if (fault != GRAIN_WHOLE)
        return fault;
    bool pan = aperture_m[count - 1] == 0;
    size_t sieves = pan ? count - 1 : count;
    Grain read = {.count = sieves + 2};
    read.size_m[0] = aperture_m[sieves - 1] * PAN_REACH;
    double below = pan ? retained[count - 1] : 0;
    for (size_t i = 1; i <= sieves; i++) {
        read.size_m[i] = aperture_m[sieves - i];
        read.finer[i] = fmin(below / sum, 1);
        below += retained[sieves - i];
    }
    read.size_m[sieves + 1] = aperture_m[0] * SERIES_STEP;
    read.finer[sieves + 1] = 1;
    trim(&read);
    *grain = read;
    if (recovered)
        *recovered = found;
    return GRAIN_WHOLE;
}

GrainFault grain_from_range(double from_m, double to_m, Grain *grain) {
    if (!(from_m >= SIZE_MIN_M && to_m <= SIZE_MAX_M))
        return GRAIN_APERTURE_ABSURD;
    if (!(from_m <= to_m))
        return GRAIN_RANGE_NOT_RISING;
    bool one_size = to_m - from_m <= SAME_SIZE * to_m;
    double widening = one_size ? ONE_SIZE_WIDENING : 1;
    *grain = (Grain){.count = 2, .size_m = {from_m / widening, to_m * widening}, .finer = {0, 1}};
    return GRAIN_WHOLE;
}

double grain_finer(const Grain *grain, double size_m) {
    size_t last = grain->count - 1;
    if (!(size_m > grain->size_m[0]))
        return 0;
    if (size_m >= grain->size_m[last])
        return 1;
    size_t upper = 1;
    while (grain->size_m[upper] < size_m)
        upper++;
    double low = grain->size_m[upper - 1];
    double part = log(size_m / low) / log(grain->size_m[upper] / low);
    return grain->finer[upper - 1] + part * (grain->finer[upper] - grain->finer[upper - 1]);
}

double grain_coarser(const Grain *grain, double size_m) {
    return 1 - grain_finer(grain, size_m);
}

double grain_size_at_m(const Grain *grain, double share) {
    double wanted = clamp(share, 0, 1);
    size_t upper = 1;
    while (upper < grain->count - 1 && grain->finer[upper] < wanted)
        upper++;
    double low = grain->size_m[upper - 1];
    double rise = grain->finer[upper] - grain->finer[upper - 1];
    double part = rise > 0 ? clamp((wanted - grain->finer[upper - 1]) / rise, 0, 1) : 0;
    return low * pow(grain->size_m[upper] / low, part);
}

/* Mass in the class below size `upper`. */
static double class_share(const Grain *grain, size_t upper) {
    return grain->finer[upper] - grain->finer[upper - 1];
}

static double class_log_mean(const Grain *grain, size_t upper) {
    return 0.5 * (log(grain->size_m[upper - 1]) + log(grain->size_m[upper]));
}

static double log_mean(const Grain *grain) {
    double sum = 0;
    for (size_t i = 1; i < grain->count; i++)
        sum += class_share(grain, i) * class_log_mean(grain, i);
    return sum;
}

/* Variance of the natural logarithm; `inside` weighs the spread within each class. */
static double log_variance(const Grain *grain, double inside) {
    double mean = log_mean(grain);
    double sum = 0;
    for (size_t i = 1; i < grain->count; i++) {
        double off = class_log_mean(grain, i) - mean;
        double width = log(grain->size_m[i] / grain->size_m[i - 1]);
        sum += class_share(grain, i) * (off * off + inside * width * width / 12);
    }
    return sum;
}

double grain_geometric_mean_m(const Grain *grain) {
    return exp(log_mean(grain));
}

double grain_s319_log_deviation(const Grain *grain) {
    return sqrt(log_variance(grain, 0)) / log(10);
}

double grain_geometric_deviation(const Grain *grain) {
    return exp(sqrt(log_variance(grain, 1)));
}

/* Mean of 1/d over a log-uniform class, 1/m. */
static double inverse_size(double low_m, double high_m) {
    return (1 / low_m - 1 / high_m) / log(high_m / low_m);
}

static double surface_per_volume(const double *size_m, const double *finer, size_t count) {
    double surface = 0;
    for (size_t i = 1; i < count; i++)
        surface += (finer[i] - finer[i - 1]) * inverse_size(size_m[i - 1], size_m[i]);
    return surface;
}

double grain_sauter_m(const Grain *grain) {
    return 1 / surface_per_volume(grain->size_m, grain->finer, grain->count);
}

/* What dropping the inner size i would change: the curve there, or the surface as a share. */
static double change_without(const double *size_m, const double *finer, size_t i, double surface) {
    double whole = inverse_size(size_m[i - 1], size_m[i + 1]);
    double lower = finer[i] - finer[i - 1];
    double upper = finer[i + 1] - finer[i];
    double part = log(size_m[i] / size_m[i - 1]) / log(size_m[i + 1] / size_m[i - 1]);
    double off_curve = fabs(lower - part * (lower + upper));
    double off_surface = fabs(lower * (inverse_size(size_m[i - 1], size_m[i]) - whole) +
                              upper * (inverse_size(size_m[i], size_m[i + 1]) - whole));
    return fmax(off_curve, off_surface / surface);
}

/* Takes out the inner size without which least changes. */
static void drop_least(double *size_m, double *finer, size_t *count) {
    double surface = surface_per_volume(size_m, finer, *count);
    size_t least = 1;
    double least_change = INFINITY;
    for (size_t i = 1; i + 1 < *count; i++) {
        double change = change_without(size_m, finer, i, surface);
        if (change < least_change) {
            least_change = change;
            least = i;
        }
    }
    size_t moved = *count - least - 1;
    memmove(size_m + least, size_m + least + 1, moved * sizeof *size_m);
    memmove(finer + least, finer + least + 1, moved * sizeof *finer);
    (*count)--;
}

/* The sizes of both curves in rising order, those that are the same once. */
static size_t merge_sizes(const Grain *a, const Grain *b, double *size_m) {
    size_t count = 0;
    size_t i = 0;
    size_t j = 0;
    while (i < a->count || j < b->count) {
        bool from_a = j == b->count || (i < a->count && a->size_m[i] <= b->size_m[j]);
        double next = from_a ? a->size_m[i++] : b->size_m[j++];
        if (count == 0 || next > size_m[count - 1] * (1 + SAME_SIZE))
            size_m[count++] = next;
    }
    return count;
}

static Grain mix_two(const Grain *a, double a_share, const Grain *b) {
    double size_m[2 * GRAIN_SIZES_MAX];
    double finer[2 * GRAIN_SIZES_MAX];
    size_t count = merge_sizes(a, b, size_m);
    for (size_t i = 0; i < count; i++) {
        double share = a_share * grain_finer(a, size_m[i]) +
                       (1 - a_share) * grain_finer(b, size_m[i]);
        finer[i] = i > 0 ? clamp(share, finer[i - 1], 1) : 0;
    }
    finer[count - 1] = 1;
    while (count > GRAIN_SIZES_MAX)
        drop_least(size_m, finer, &count);
    Grain mixed = {.count = count};
    memcpy(mixed.size_m, size_m, count * sizeof *size_m);
    memcpy(mixed.finer, finer, count * sizeof *finer);
    trim(&mixed);
    return mixed;
}

static double usable_weight(double weight) {
    return weight > 0 && isfinite(weight) ? weight : 0;
}

Grain grain_mix(const Grain *const *grains, const double *weights, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += usable_weight(weights[i]);
    bool alike = !(sum > 0 && isfinite(sum));
    Grain mixed = *grains[0];
    double so_far = 0;
    for (size_t i = 0; i < count; i++) {
        double weight = alike ? 1.0 : usable_weight(weights[i]) / sum;
        if (weight <= 0)
            continue;
        mixed = so_far > 0 ? mix_two(&mixed, so_far / (so_far + weight), grains[i]) : *grains[i];
        so_far += weight;
    }
    return mixed;
}

/* The curve with the share `removed` of the mass taken out below the sieve, in the proportions
 * it has there. */
static Grain without_undersize(const Grain *grain, double sieve_m, double removed) {
    double undersize = grain_finer(grain, sieve_m);
    /* Mixing with itself cut at the sieve brings the sieve in as a size of the curve. */
    Grain cut = {.count = 2, .size_m = {grain->size_m[0], sieve_m}, .finer = {0, 1}};
    Grain left = mix_two(grain, 1, &cut);
    for (size_t i = 0; i < left.count; i++) {
        double finer = grain_finer(grain, left.size_m[i]);
        double gone = removed * fmin(finer / undersize, 1);
        double lowest = i > 0 ? left.finer[i - 1] : 0;
        left.finer[i] = clamp((finer - gone) / (1 - removed), lowest, 1);
    }
    trim(&left);
    return left;
}

Sieving grain_sieve_out(const Grain *grain, double fines_m, double wanted_share, double sieve_m,
                        double efficiency) {
    double fines = grain_finer(grain, fines_m);
    double wanted = clamp(wanted_share, 0, 1);
    Sieving plan = {
        .needed = fines > wanted, .reachable = true, .fines_share = fines, .left = *grain};
    if (!plan.needed)
        return plan;
    double undersize = grain_finer(grain, sieve_m);
    double most = clamp(efficiency, 0, 1) * undersize;
    /* With all of the dust finer than the sieve nothing would be left to burn. */
    if (most <= 0 || undersize >= 1) {
        plan.reachable = false;
        return plan;
    }
    double fines_in_removed = fmin(fines / undersize, 1);
    double enough = fines_in_removed > wanted ? (fines - wanted) / (fines_in_removed - wanted)
                                              : INFINITY;
    plan.reachable = enough <= most;
    plan.removed_share = fmin(enough, most);
    plan.sieved_share = plan.removed_share / most;
    plan.left = without_undersize(grain, sieve_m, plan.removed_share);
    plan.fines_share = grain_finer(&plan.left, fines_m);
    return plan;
}
