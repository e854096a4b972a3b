#include "model/pace.h"

#include "model/bounds.h"
#include "model/pace_constants.h"
#include "model/quadrature.h"

#include <math.h>
#include <string.h>

static const KindSpreads SPREADS = {PACE_SHOP_SPREAD, PACE_TRAY_SPREAD, PACE_DUST_SPREAD};

/* ---- The spread from burn to burn: nodes evenly spaced on its logarithm ---------------------- */

static double node_spread(int node) {
    double share = (double)node / (PACE_NODES - 1);
    return PACE_BURN_LEAST * pow(PACE_BURN_MOST / PACE_BURN_LEAST, share);
}

/* Logarithm of the inverse gamma density of spread², carried over to ln spread, times the width
 * that the node stands for. */
static double node_log_prior(int node) {
    double ratio = PACE_BURN_SPREAD / node_spread(node);
    double width = node == 0 || node == PACE_NODES - 1 ? 0.5 : 1;
    return log(width) + 2 * PACE_BURN_SHAPE * log(ratio) - PACE_BURN_SHAPE * ratio * ratio;
}

/* Logarithms made into weights that add up to 1. */
static void weigh(double *logs, int count) {
    double most = -INFINITY, sum = 0;
    for (int i = 0; i < count; i++) {
        most = fmax(most, logs[i]);
    }
    for (int i = 0; i < count; i++) {
        logs[i] = exp(logs[i] - most);
        sum += logs[i];
    }
    for (int i = 0; i < count; i++) {
        logs[i] /= sum;
    }
}

/* ---- Mixtures -------------------------------------------------------------------------------- */

/* Chance of less than x (side 1), or of more (side −1). */
static double chance_beside(const PaceNode *nodes, int count, double x, int side) {
    double chance = 0;
    for (int i = 0; i < count; i++) {
        chance += nodes[i].weight * quadrature_normal(side * (x - nodes[i].off) / nodes[i].spread);
    }
    return chance;
}

static double density(const PaceNode *nodes, int count, double x) {
    static const double root_of_two_pi = 2.5066282746310002;
    double sum = 0;
    for (int i = 0; i < count; i++) {
        double z = (x - nodes[i].off) / nodes[i].spread;
        sum += nodes[i].weight * exp(-z * z / 2) / (nodes[i].spread * root_of_two_pi);
    }
    return sum;
}

/* Newton's steps, kept between the least and the greatest of the parts' own quantiles; where a step
 * would leave what is left of that, it is halved instead. */
static double mixture_quantile(const PaceNode *nodes, int count, double chance) {
    double z = pace_normal_quantile(chance), low = INFINITY, high = -INFINITY;
    for (int i = 0; i < count; i++) {
        low = fmin(low, nodes[i].off + z * nodes[i].spread);
        high = fmax(high, nodes[i].off + z * nodes[i].spread);
    }
    double x = (low + high) / 2;
    for (int turn = 0; turn < 60 && high - low > 1e-12; turn++) {
        double over = chance_beside(nodes, count, x, 1) - chance;
        low = over < 0 ? x : low;
        high = over < 0 ? high : x;
        double step = over / fmax(density(nodes, count, x), 1e-300);
        bool inside = x - step > low && x - step < high;
        double next = inside ? x - step : (low + high) / 2;
        bool settled = fabs(next - x) < 1e-12;
        x = next;
        if (settled) {
            break;
        }
    }
    return x;
}

double pace_factor_at(const Pace *pace, double chance) {
    double off = pace->nodes > 0 ? mixture_quantile(pace->node, pace->nodes, chance)
                                 : pace->log_spread * pace_normal_quantile(chance);
    return pace->pace * exp(off);
}

/* Takes the middle of a mixture out of its parts, and the width of its band as its spread. */
static void settle(Pace *pace) {
    double middle = mixture_quantile(pace->node, pace->nodes, 0.5);
    for (int i = 0; i < pace->nodes; i++) {
        pace->node[i].off -= middle;
    }
    double high = mixture_quantile(pace->node, pace->nodes, PACE_LATE_CHANCE);
    double low = mixture_quantile(pace->node, pace->nodes, PACE_EARLY_CHANCE);
    double normal = pace_normal_quantile(PACE_LATE_CHANCE) -
                    pace_normal_quantile(PACE_EARLY_CHANCE);
    pace->pace = within(exp(middle), PACE_LEAST, PACE_MOST);
    pace->log_spread = (high - low) / normal;
}

/* ---- Observations ---------------------------------------------------------------------------- */

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

static double half_log_determinant(const Covariance *matrix) {
    double sum = 0;
    for (int i = 0; i < matrix->count; i++) {
        sum += log(matrix->lower[i][i]);
    }
    return sum;
}

/* The last observations, what they share, and what was seen. */
typedef struct Seen {
    int count;
    const PaceObservation *items;
    double seen[PACE_OBSERVATIONS_MAX];
    double shared[PACE_OBSERVATIONS_MAX][PACE_OBSERVATIONS_MAX]; /* own parts left out */
} Seen;

static void look_at(const PaceObservations *observations, Seen *seen) {
    size_t most = PACE_OBSERVATIONS_MAX;
    size_t skipped = observations->count > most ? observations->count - most : 0;
    seen->count = (int)(observations->count - skipped);
    seen->items = seen->count ? observations->items + skipped : NULL;
    for (int i = 0; i < seen->count; i++) {
        seen->seen[i] = within(seen->items[i].log_pace, log(PACE_LEAST), log(PACE_MOST));
        for (int j = 0; j < i; j++) {
            seen->shared[i][j] = kind_shared(&SPREADS, &seen->items[i].kind, &seen->items[j].kind);
        }
        seen->shared[i][i] = kind_common(&SPREADS, &seen->items[i].kind);
    }
}

/* What an observation has of its own, when burns differ by `burn`. */
static double own_variance(const PaceObservation *observation, double burn) {
    double spread = observation->trial ? PACE_TRIAL_SPREAD : burn;
    return spread * spread + observation->error * observation->error;
}

static void covariance_at(const Seen *seen, int node, Covariance *matrix) {
    matrix->count = seen->count;
    for (int i = 0; i < seen->count; i++) {
        memcpy(matrix->lower[i], seen->shared[i], (size_t)(i + 1) * sizeof(double));
        matrix->lower[i][i] += own_variance(&seen->items[i], node_spread(node));
    }
    factorize(matrix);
}

static double product(const double *a, const double *b, int count) {
    double sum = 0;
    for (int i = 0; i < count; i++) {
        sum += a[i] * b[i];
    }
    return sum;
}

Pace pace_learnt(const PaceObservations *observations, const BurnKind *kind) {
    Pace pace = {.nodes = PACE_NODES};
    double with_seen[PACE_OBSERVATIONS_MAX] = {0}, logs[PACE_NODES];
    double a[PACE_OBSERVATIONS_MAX] = {0}, b[PACE_OBSERVATIONS_MAX] = {0};
    Seen seen = {0};
    look_at(observations, &seen);
    for (int i = 0; i < seen.count; i++) {
        with_seen[i] = kind_shared(&SPREADS, &seen.items[i].kind, kind);
        pace.trials += seen.items[i].trial ? 1 : 0;
        pace.records += seen.items[i].trial ? 0 : 1;
    }
    for (int node = 0; node < PACE_NODES; node++) {
        Covariance matrix;
        covariance_at(&seen, node, &matrix);
        forward(&matrix, seen.seen, a);
        forward(&matrix, with_seen, b);
        logs[node] = node_log_prior(node) - product(a, a, seen.count) / 2 -
                     half_log_determinant(&matrix);
        double left = fmax(kind_common(&SPREADS, kind) - product(b, b, seen.count), 0);
        pace.node[node].off = product(a, b, seen.count);
        pace.node[node].spread = sqrt(left + node_spread(node) * node_spread(node));
    }
    weigh(logs, PACE_NODES);
    for (int node = 0; node < PACE_NODES; node++) {
        pace.node[node].weight = logs[node];
    }
    settle(&pace);
    return pace;
}

/* A burn of some dust in some tray. */
Pace pace_unmeasured(void) {
    static const Dust SOME_DUST;
    BurnKind kind = {.count = 1, .dusts = {&SOME_DUST}, .dry_shares = {1}};
    PaceObservations none = {0};
    return pace_learnt(&none, &kind);
}

/* ---- Leave one out --------------------------------------------------------------------------- */

/* Diagonal of the inverse, and the inverse times what was seen. */
static void inverse_parts(const Covariance *matrix, const double *seen, double *diagonal,
                          double *times) {
    double unit[PACE_OBSERVATIONS_MAX], column[PACE_OBSERVATIONS_MAX] = {0};
    double a[PACE_OBSERVATIONS_MAX] = {0};
    forward(matrix, seen, a);
    for (int i = 0; i < matrix->count; i++) {
        memset(unit, 0, sizeof unit);
        unit[i] = 1;
        forward(matrix, unit, column);
        diagonal[i] = product(column, column, matrix->count);
        times[i] = product(column, a, matrix->count);
    }
}

/* What all others say of each observation, for one spread (closed forms from the inverse of the
 * covariance: Rasmussen & Williams, Gaussian Processes, 5.4.2; from memory). `logs` gets the
 * weight of the spread when that observation was not seen. */
static void leave_out_at(const Seen *seen, int node, PaceNode parts[][PACE_NODES],
                         double logs[][PACE_NODES]) {
    double diagonal[PACE_OBSERVATIONS_MAX] = {0}, times[PACE_OBSERVATIONS_MAX] = {0};
    Covariance matrix;
    covariance_at(seen, node, &matrix);
    inverse_parts(&matrix, seen->seen, diagonal, times);
    double all = node_log_prior(node) - product(seen->seen, times, seen->count) / 2 -
                 half_log_determinant(&matrix);
    bool granted = node_spread(node) <= PACE_ASIDE_BURN_MOST;
    for (int i = 0; i < seen->count; i++) {
        double off = times[i] / diagonal[i]; /* seen less expected */
        double own = -off * off * diagonal[i] / 2 + log(diagonal[i]) / 2;
        parts[i][node] = (PaceNode){.off = seen->seen[i] - off, .spread = sqrt(1 / diagonal[i])};
        logs[i][node] = granted ? all - own : -INFINITY;
    }
}

void pace_deviances(const PaceObservations *observations, PaceDeviance *deviances) {
    PaceNode parts[PACE_OBSERVATIONS_MAX][PACE_NODES];
    double logs[PACE_OBSERVATIONS_MAX][PACE_NODES];
    Seen seen = {0};
    look_at(observations, &seen);
    for (int node = 0; node < PACE_NODES; node++) {
        leave_out_at(&seen, node, parts, logs);
    }
    size_t skipped = observations->count - (size_t)seen.count;
    for (int i = 0; i < seen.count; i++) {
        weigh(logs[i], PACE_NODES);
        for (int node = 0; node < PACE_NODES; node++) {
            parts[i][node].weight = logs[i][node];
        }
        double under = chance_beside(parts[i], PACE_NODES, seen.seen[i], 1);
        double over = chance_beside(parts[i], PACE_NODES, seen.seen[i], -1);
        deviances[skipped + (size_t)i] = (PaceDeviance){
            .tail = fmin(under, over),
            .expected_low = mixture_quantile(parts[i], PACE_NODES, PACE_EARLY_CHANCE),
            .expected_high = mixture_quantile(parts[i], PACE_NODES, PACE_LATE_CHANCE)};
    }
}
