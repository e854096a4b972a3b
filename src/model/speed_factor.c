#include "model/speed_factor.h"

#include "model/bounds.h"
#include "model/speed_constants.h"
#include "model/quadrature.h"

#include <math.h>
#include <string.h>

static const KindSpreads SPREADS = {SPEED_SHOP_SPREAD, SPEED_TRAY_SPREAD, SPEED_DUST_SPREAD};

/* ---- The spread from burn to burn: nodes evenly spaced on its logarithm ---------------------- */

static double node_spread(int node) {
    double share = (double)node / (SPEED_NODES - 1);
    return SPEED_BURN_LEAST * pow(SPEED_BURN_MOST / SPEED_BURN_LEAST, share);
}

/* Logarithm of the inverse gamma density of spread², carried over to ln spread, times the width
 * that the node stands for. */
static double node_log_prior(int node) {
    double ratio = SPEED_BURN_SPREAD / node_spread(node);
    double width = node == 0 || node == SPEED_NODES - 1 ? 0.5 : 1;
    return log(width) + 2 * SPEED_BURN_SHAPE * log(ratio) - SPEED_BURN_SHAPE * ratio * ratio;
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
static double chance_beside(const SpeedNode *nodes, int count, double x, int side) {
    double chance = 0;
    for (int i = 0; i < count; i++) {
        chance += nodes[i].weight * quadrature_normal(side * (x - nodes[i].off) / nodes[i].spread);
    }
    return chance;
}

static double density(const SpeedNode *nodes, int count, double x) {
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
static double mixture_quantile(const SpeedNode *nodes, int count, double chance) {
    double z = speed_normal_quantile(chance), low = INFINITY, high = -INFINITY;
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

double speed_factor_at(const SpeedFactor *speed_factor, double chance) {
    double off = speed_factor->nodes > 0
                     ? mixture_quantile(speed_factor->node, speed_factor->nodes, chance)
                     : speed_factor->log_spread * speed_normal_quantile(chance);
    return speed_factor->middle * exp(off);
}

/* Takes the middle of a mixture out of its parts, and the width of its band as its spread. */
static void settle(SpeedFactor *speed_factor) {
    double middle = mixture_quantile(speed_factor->node, speed_factor->nodes, 0.5);
    for (int i = 0; i < speed_factor->nodes; i++) {
        speed_factor->node[i].off -= middle;
    }
    double high = mixture_quantile(speed_factor->node, speed_factor->nodes, SPEED_LATE_CHANCE);
    double low = mixture_quantile(speed_factor->node, speed_factor->nodes, SPEED_EARLY_CHANCE);
    double normal = speed_normal_quantile(SPEED_LATE_CHANCE) -
                    speed_normal_quantile(SPEED_EARLY_CHANCE);
    speed_factor->middle = clamp(exp(middle), SPEED_LEAST, SPEED_MOST);
    speed_factor->log_spread = (high - low) / normal;
}

/* ---- Observations ---------------------------------------------------------------------------- */

/* A covariance matrix with its Cholesky factor in place (lower triangle). */
typedef struct Covariance {
    int count;
    double lower[SPEED_OBSERVATIONS_MAX][SPEED_OBSERVATIONS_MAX];
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
    const SpeedObservation *items;
    double seen[SPEED_OBSERVATIONS_MAX];
    double shared[SPEED_OBSERVATIONS_MAX][SPEED_OBSERVATIONS_MAX]; /* own parts left out */
} Seen;

static void look_at(const SpeedObservations *observations, Seen *seen) {
    size_t most = SPEED_OBSERVATIONS_MAX;
    size_t skipped = observations->count > most ? observations->count - most : 0;
    seen->count = (int)(observations->count - skipped);
    seen->items = seen->count ? observations->items + skipped : NULL;
    for (int i = 0; i < seen->count; i++) {
        seen->seen[i] = clamp(seen->items[i].log_factor, log(SPEED_LEAST), log(SPEED_MOST));
        for (int j = 0; j < i; j++) {
            seen->shared[i][j] = kind_shared(&SPREADS, &seen->items[i].kind, &seen->items[j].kind);
        }
        seen->shared[i][i] = kind_common(&SPREADS, &seen->items[i].kind);
    }
}

/* What an observation has of its own, when burns differ by `burn`. */
static double own_variance(const SpeedObservation *observation, double burn) {
    double spread = observation->trial ? SPEED_TRIAL_SPREAD : burn;
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

SpeedFactor speed_factor_learnt(const SpeedObservations *observations, const BurnKind *kind) {
    SpeedFactor speed_factor = {.nodes = SPEED_NODES};
    double with_seen[SPEED_OBSERVATIONS_MAX] = {0}, logs[SPEED_NODES];
    double a[SPEED_OBSERVATIONS_MAX] = {0}, b[SPEED_OBSERVATIONS_MAX] = {0};
    Seen seen = {0};
    look_at(observations, &seen);
    for (int i = 0; i < seen.count; i++) {
        with_seen[i] = kind_shared(&SPREADS, &seen.items[i].kind, kind);
        speed_factor.trials += seen.items[i].trial ? 1 : 0;
        speed_factor.records += seen.items[i].trial ? 0 : 1;
    }
    for (int node = 0; node < SPEED_NODES; node++) {
        Covariance matrix;
        covariance_at(&seen, node, &matrix);
        forward(&matrix, seen.seen, a);
        forward(&matrix, with_seen, b);
        logs[node] = node_log_prior(node) - product(a, a, seen.count) / 2 -
                     half_log_determinant(&matrix);
        double left = fmax(kind_common(&SPREADS, kind) - product(b, b, seen.count), 0);
        speed_factor.node[node].off = product(a, b, seen.count);
        speed_factor.node[node].spread = sqrt(left + node_spread(node) * node_spread(node));
    }
    weigh(logs, SPEED_NODES);
    for (int node = 0; node < SPEED_NODES; node++) {
        speed_factor.node[node].weight = logs[node];
    }
    settle(&speed_factor);
    return speed_factor;
}

/* A burn of some dust in some tray. */
SpeedFactor speed_factor_unmeasured(void) {
    static const Dust SOME_DUST;
    BurnKind kind = {.count = 1, .dusts = {&SOME_DUST}, .dry_shares = {1}};
    SpeedObservations none = {0};
    return speed_factor_learnt(&none, &kind);
}

/* ---- Leave one out --------------------------------------------------------------------------- */

/* Diagonal of the inverse, and the inverse times what was seen. */
static void inverse_parts(const Covariance *matrix, const double *seen, double *diagonal,
                          double *times) {
    double unit[SPEED_OBSERVATIONS_MAX], column[SPEED_OBSERVATIONS_MAX] = {0};
    double a[SPEED_OBSERVATIONS_MAX] = {0};
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
static void leave_out_at(const Seen *seen, int node, SpeedNode parts[][SPEED_NODES],
                         double logs[][SPEED_NODES]) {
    double diagonal[SPEED_OBSERVATIONS_MAX] = {0}, times[SPEED_OBSERVATIONS_MAX] = {0};
    Covariance matrix;
    covariance_at(seen, node, &matrix);
    inverse_parts(&matrix, seen->seen, diagonal, times);
    double all = node_log_prior(node) - product(seen->seen, times, seen->count) / 2 -
                 half_log_determinant(&matrix);
    bool granted = node_spread(node) <= SPEED_ASIDE_BURN_MOST;
    for (int i = 0; i < seen->count; i++) {
        double off = times[i] / diagonal[i]; /* seen less expected */
        double own = -off * off * diagonal[i] / 2 + log(diagonal[i]) / 2;
        parts[i][node] = (SpeedNode){.off = seen->seen[i] - off, .spread = sqrt(1 / diagonal[i])};
        logs[i][node] = granted ? all - own : -INFINITY;
    }
}

void speed_deviances(const SpeedObservations *observations, SpeedDeviance *deviances) {
    SpeedNode parts[SPEED_OBSERVATIONS_MAX][SPEED_NODES];
    double logs[SPEED_OBSERVATIONS_MAX][SPEED_NODES];
    Seen seen = {0};
    look_at(observations, &seen);
    for (int node = 0; node < SPEED_NODES; node++) {
        leave_out_at(&seen, node, parts, logs);
    }
    size_t skipped = observations->count - (size_t)seen.count;
    for (int i = 0; i < seen.count; i++) {
        weigh(logs[i], SPEED_NODES);
        for (int node = 0; node < SPEED_NODES; node++) {
            parts[i][node].weight = logs[i][node];
        }
        double under = chance_beside(parts[i], SPEED_NODES, seen.seen[i], 1);
        double over = chance_beside(parts[i], SPEED_NODES, seen.seen[i], -1);
        deviances[skipped + (size_t)i] = (SpeedDeviance){
            .tail = fmin(under, over),
            .expected_low = mixture_quantile(parts[i], SPEED_NODES, SPEED_EARLY_CHANCE),
            .expected_high = mixture_quantile(parts[i], SPEED_NODES, SPEED_LATE_CHANCE)};
    }
}
