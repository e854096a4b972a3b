#include "model/holding.h"

#include "model/bounds.h"
#include "model/holding_constants.h"
#include "model/quadrature.h"

#include <math.h>

enum { SWEEPS_MAX = 60, LATENTS_MAX = HOLDING_OBSERVATIONS_MAX + 1 };

static const KindSpreads SPREADS = {HOLDING_SHOP_SPREAD, HOLDING_TRAY_SPREAD, HOLDING_DUST_SPREAD};
/* A change of a factor, against its own size, that no longer counts. */
static const double STILL = 1e-9;
/* Bounds further out than so many spreads are as good as none, or can not be met. */
static const double FAR = 30;

Holding holding_unmeasured(void) {
    double shared = HOLDING_SHOP_SPREAD * HOLDING_SHOP_SPREAD +
                    HOLDING_TRAY_SPREAD * HOLDING_TRAY_SPREAD +
                    HOLDING_DUST_SPREAD * HOLDING_DUST_SPREAD;
    return (Holding){.common_spread = sqrt(shared), .burn_spread = HOLDING_BURN_SPREAD};
}

/* Normal factor in place of a night's term: exp(strength · c − precision · c²/2). */
typedef struct Site {
    double precision;
    double strength;
} Site;

/* The shared parts of all nights and, last, of the burn to come: mean and covariance. */
typedef struct Shared {
    int count;
    double mean[LATENTS_MAX];
    double covariance[LATENTS_MAX][LATENTS_MAX];
    Site sites[LATENTS_MAX]; /* the last stays empty */
} Shared;

static double density(double z) {
    return exp(-z * z / 2) / 2.5066282746310002;
}

/* Chance of a standard normal between a and b, worked out where both tails are small. */
static double chance_between(double a, double b) {
    return a > 0 ? quadrature_normal(-a) - quadrature_normal(-b)
                 : quadrature_normal(b) - quadrature_normal(a);
}

/* Mean (in spreads, from its own) of a standard normal kept between a and b, and how much of its
 * variance is gone. */
static void cut(double a, double b, double *mean, double *gone) {
    double low = clamp(a, -FAR, FAR), high = clamp(b, low + 1e-3, FAR + 1);
    double chance = fmax(chance_between(low, high), 1e-300);
    double at_low = density(low), at_high = density(high);
    *mean = (at_low - at_high) / chance;
    *gone = clamp(*mean * *mean - (low * at_low - high * at_high) / chance, 1e-12, 1 - 1e-12);
}

/* The factor that gives the shared part the mean and variance it has with the night's own term,
 * beside all other factors. */
static Site matching(const Shared *shared, int i, const HoldingObservation *night) {
    double precision = 1 / shared->covariance[i][i] - shared->sites[i].precision;
    double strength = shared->mean[i] / shared->covariance[i][i] - shared->sites[i].strength;
    if (!(precision > 0)) {
        return shared->sites[i];
    }
    double mean = strength / precision, variance = 1 / precision;
    double own = HOLDING_BURN_SPREAD * HOLDING_BURN_SPREAD + night->doubt * night->doubt;
    double spread = sqrt(variance + own);
    double shift, gone;
    cut((night->low - mean) / spread, (night->high - mean) / spread, &shift, &gone);
    double share = variance / (spread * spread);
    double new_mean = mean + variance / spread * shift;
    double new_variance = variance * (1 - share * gone);
    return (Site){fmax(1 / new_variance - precision, 0), new_mean / new_variance - strength};
}

/* Puts a factor in place of the old one: the covariance changes by a product of one column. */
static void replace(Shared *shared, int i, Site site) {
    double column[LATENTS_MAX];
    double change = site.precision - shared->sites[i].precision;
    double factor = change / (1 + change * shared->covariance[i][i]);
    double push = site.strength - shared->sites[i].strength;
    double gain = push - factor * (shared->mean[i] + push * shared->covariance[i][i]);
    for (int j = 0; j < shared->count; j++) {
        column[j] = shared->covariance[j][i];
    }
    for (int j = 0; j < shared->count; j++) {
        shared->mean[j] += column[j] * gain;
        for (int k = 0; k < shared->count; k++) {
            shared->covariance[j][k] -= factor * column[j] * column[k];
        }
    }
    shared->sites[i] = site;
}

static void propagate(Shared *shared, const HoldingObservation *nights) {
    for (int sweep = 0; sweep < SWEEPS_MAX; sweep++) {
        double moved = 0;
        for (int i = 0; i + 1 < shared->count; i++) {
            Site site = matching(shared, i, &nights[i]);
            moved = fmax(moved,
                         fabs(site.precision - shared->sites[i].precision) / (1 + site.precision));
            replace(shared, i, site);
        }
        if (moved < STILL) {
            break;
        }
    }
}

static void before_any(const HoldingObservation *nights, int count, const BurnKind *kind,
                       Shared *shared) {
    shared->count = count + 1;
    for (int i = 0; i <= count; i++) {
        const BurnKind *own = i < count ? &nights[i].kind : kind;
        for (int j = 0; j < i; j++) {
            double both = kind_shared(&SPREADS, own, &nights[j].kind);
            shared->covariance[i][j] = shared->covariance[j][i] = both;
        }
        shared->covariance[i][i] = kind_common(&SPREADS, own);
        shared->mean[i] = 0;
        shared->sites[i] = (Site){0, 0};
    }
}

Holding holding_learnt(const HoldingObservations *observations, const BurnKind *kind) {
    size_t most = HOLDING_OBSERVATIONS_MAX;
    size_t skipped = observations->count > most ? observations->count - most : 0;
    int count = (int)(observations->count - skipped);
    const HoldingObservation *nights = count ? observations->items + skipped : NULL;
    Shared shared;
    before_any(nights, count, kind, &shared);
    propagate(&shared, nights);
    Holding holding = {.log_mean = shared.mean[count],
                       .common_spread = sqrt(fmax(shared.covariance[count][count], 1e-12)),
                       .burn_spread = HOLDING_BURN_SPREAD};
    for (int i = 0; i < count; i++) {
        bool alike = kind_likeness(&nights[i].kind, kind) > 0;
        holding.nights += alike;
        holding.lasted += alike && nights[i].lasted;
    }
    return holding;
}
