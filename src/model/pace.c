#include "model/pace.h"

#include "model/bounds.h"
#include "model/pace_constants.h"

#include <math.h>
#include <string.h>

Pace pace_unmeasured(void) {
    return (Pace){.pace = 1, .log_spread = PACE_LOG_SPREAD};
}

/* A dust or tray is known by its id, so that batches read each with a workshop of their own are
 * still told alike. */
static bool same(const void *a, const char *id_a, const void *b, const char *id_b) {
    return a == b || (id_a && id_b && strcmp(id_a, id_b) == 0);
}

static bool same_tray(const Tray *a, const Tray *b) {
    return a && b && same(a, a->id, b, b->id);
}

static double share_of(const PaceKind *kind, const Dust *dust) {
    double share = 0;
    for (int i = 0; i < kind->count; i++) {
        share += same(kind->dusts[i], kind->dusts[i]->id, dust, dust->id) ? kind->dry_shares[i] : 0;
    }
    return share;
}

static double shares_product(const PaceKind *a, const PaceKind *b) {
    double product = 0;
    for (int i = 0; i < a->count; i++) {
        product += a->dry_shares[i] * share_of(b, a->dusts[i]);
    }
    return product;
}

/* Cosine between the two blends; 0 when one names no dust. */
static double likeness(const PaceKind *a, const PaceKind *b) {
    double sizes = shares_product(a, a) * shares_product(b, b);
    return sizes > 0 ? within(shares_product(a, b) / sqrt(sizes), 0, 1) : 0;
}

/* What two different burns have in common, as a covariance of log speed. */
static double shared(const PaceKind *a, const PaceKind *b) {
    double tray = same_tray(a->tray, b->tray) ? PACE_TRAY_SPREAD * PACE_TRAY_SPREAD : 0;
    return PACE_SHOP_SPREAD * PACE_SHOP_SPREAD + tray + PACE_DUST_VARIANCE * likeness(a, b);
}

/* Variance of one burn before anything was measured, less what repeats differ by. */
static double common(const PaceKind *kind) {
    double tray = PACE_TRAY_SPREAD * PACE_TRAY_SPREAD;
    return PACE_SHOP_SPREAD * PACE_SHOP_SPREAD + tray +
           PACE_DUST_VARIANCE * (likeness(kind, kind) > 0 ? 1 : 0);
}

/* A covariance matrix with its Cholesky factor in place (lower triangle). */
typedef struct Covariance {
    int count;
    double lower[PACE_OBSERVATIONS_MAX][PACE_OBSERVATIONS_MAX];
} Covariance;

static void factorize(Covariance *matrix) {
    for (int i = 0; i < matrix->count; i++) {
        for (int j = 0; j <= i; j++) {
            double sum = matrix->lower[i][j];
            for (int k = 0; k < j; k++) {
                sum -= matrix->lower[i][k] * matrix->lower[j][k];
            }
            matrix->lower[i][j] = i == j ? sqrt(fmax(sum, 1e-12)) : sum / matrix->lower[j][j];
        }
    }
}

/* Solves lower · result = right. */
static void forward(const Covariance *matrix, const double *right, double *result) {
    for (int i = 0; i < matrix->count; i++) {
        double sum = right[i];
        for (int k = 0; k < i; k++) {
            sum -= matrix->lower[i][k] * result[k];
        }
        result[i] = sum / matrix->lower[i][i];
    }
}

static double own_variance(const PaceObservation *observation) {
    double spread = observation->trial ? PACE_TRIAL_SPREAD : PACE_BURN_SPREAD;
    return common(&observation->kind) + spread * spread;
}

static void covariance_of(const PaceObservation *items, int count, Covariance *matrix) {
    matrix->count = count;
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < i; j++) {
            matrix->lower[i][j] = shared(&items[i].kind, &items[j].kind);
        }
        matrix->lower[i][i] = own_variance(&items[i]);
    }
    factorize(matrix);
}

Pace pace_learnt(const PaceObservations *observations, const PaceKind *kind) {
    Pace pace = pace_unmeasured();
    size_t skipped = observations->count > PACE_OBSERVATIONS_MAX
                         ? observations->count - PACE_OBSERVATIONS_MAX
                         : 0;
    int count = (int)(observations->count - skipped);
    if (count == 0) {
        return pace;
    }
    const PaceObservation *items = observations->items + skipped;
    double seen[PACE_OBSERVATIONS_MAX] = {0}, with_seen[PACE_OBSERVATIONS_MAX] = {0};
    double a[PACE_OBSERVATIONS_MAX] = {0}, b[PACE_OBSERVATIONS_MAX] = {0};
    for (int i = 0; i < count; i++) {
        seen[i] = within(items[i].log_pace, log(PACE_LEAST), log(PACE_MOST));
        with_seen[i] = shared(&items[i].kind, kind);
        pace.trials += items[i].trial ? 1 : 0;
        pace.records += items[i].trial ? 0 : 1;
    }
    Covariance matrix;
    covariance_of(items, count, &matrix);
    forward(&matrix, seen, a);
    forward(&matrix, with_seen, b);
    double mean = 0, known = 0;
    for (int i = 0; i < count; i++) {
        mean += a[i] * b[i];
        known += b[i] * b[i];
    }
    double left = fmax(common(kind) - known, 0) + PACE_BURN_SPREAD * PACE_BURN_SPREAD;
    pace.pace = within(exp(mean), PACE_LEAST, PACE_MOST);
    pace.log_spread = sqrt(left);
    return pace;
}

double pace_factor_at(const Pace *pace, double chance) {
    return pace->pace * exp(pace->log_spread * pace_normal_quantile(chance));
}

static double acklam_tail(double q) {
    static const double c[] = {-7.784894002430293e-03, -3.223964580411365e-01,
                               -2.400758277161838e+00, -2.549732539343734e+00,
                               4.374664141464968e+00,  2.938163982698783e+00};
    static const double d[] = {7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00,
                               3.754408661907416e+00};
    return (((((c[0] * q + c[1]) * q + c[2]) * q + c[3]) * q + c[4]) * q + c[5]) /
           ((((d[0] * q + d[1]) * q + d[2]) * q + d[3]) * q + 1);
}

static double acklam_middle(double q) {
    static const double a[] = {-3.969683028665376e+01, 2.209460984245205e+02,
                               -2.759285104469687e+02, 1.383577518672690e+02,
                               -3.066479806614716e+01, 2.506628277459239e+00};
    static const double b[] = {-5.447609879822406e+01, 1.615858368580409e+02,
                               -1.556989798598866e+02, 6.680131188771972e+01,
                               -1.328068155288572e+01};
    double r = q * q;
    return (((((a[0] * r + a[1]) * r + a[2]) * r + a[3]) * r + a[4]) * r + a[5]) * q /
           (((((b[0] * r + b[1]) * r + b[2]) * r + b[3]) * r + b[4]) * r + 1);
}

double pace_normal_quantile(double chance) {
    double p = within(chance, 1e-12, 1 - 1e-12);
    double x;
    if (p < 0.02425) {
        x = acklam_tail(sqrt(-2 * log(p)));
    } else if (p > 1 - 0.02425) {
        x = -acklam_tail(sqrt(-2 * log(1 - p)));
    } else {
        x = acklam_middle(p - 0.5);
    }
    double off = 0.5 * erfc(-x / sqrt(2)) - p;
    double step = off * 2.5066282746310002 * exp(x * x / 2);
    return x - step / (1 + x * step / 2);
}
