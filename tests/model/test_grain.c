/* Grain: size statistics against ASABE S319 and closed forms, and the laws of curves under
 * mixing and sieving. */
#include "model/grain.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

enum { MIXES = 400 };

/* 4–2.8 … 0.5–0.355 mm with 0, 5, 20, 35, 25, 10, 5 g: worked by hand with the formulas of ASABE
 * S319 (from memory): dgw 1.0694 mm, Slog 0.17748. */
static const double example_aperture_m[] = {2.8e-3,  2e-3,   1.4e-3,   1e-3,
                                            0.71e-3, 0.5e-3, 0.355e-3, 0};
static const double example_retained[] = {0, 5, 20, 35, 25, 10, 5, 0};

static Grain example(void) {
    Grain grain;
    double recovered = 0;
    assert_int_equal(
        grain_from_sieves(example_aperture_m, example_retained, 8, 100, &grain, &recovered),
        GRAIN_WHOLE);
    assert_close(recovered, 1, 1e-12);
    return grain;
}

static void assert_whole(const Grain *grain) {
    assert_in_range(grain->count, 2, GRAIN_SIZES_MAX);
    assert_true(grain->finer[0] == 0 && grain->finer[grain->count - 1] == 1);
    assert_true(grain->size_m[0] > 0);
    for (size_t i = 1; i < grain->count; i++) {
        assert_true(grain->size_m[i] > grain->size_m[i - 1]);
        assert_true(grain->finer[i] >= grain->finer[i - 1]);
    }
}

/* A random analysis: 2–14 sieves, pan or not. */
static Grain random_grain(uint64_t *seed) {
    double aperture_m[16];
    double retained[16];
    size_t sieves = (size_t)close_random(seed, 2, 15);
    double size_m = close_random(seed, 2e-3, 8e-3);
    for (size_t i = 0; i < sieves; i++) {
        aperture_m[i] = size_m;
        size_m /= close_random(seed, 1.1, 1.8);
        retained[i] = close_random(seed, 0, 1) < 0.2 ? 0 : close_random(seed, 0, 50);
    }
    retained[0] += 0.001;
    size_t count = sieves;
    if (close_random(seed, 0, 1) < 0.7) {
        aperture_m[count] = 0;
        retained[count++] = close_random(seed, 0, 30);
    }
    Grain grain;
    assert_int_equal(grain_from_sieves(aperture_m, retained, count, NAN, &grain, NULL),
                     GRAIN_WHOLE);
    assert_whole(&grain);
    return grain;
}

static Grain range(double from_m, double to_m) {
    Grain grain;
    assert_int_equal(grain_from_range(from_m, to_m, &grain), GRAIN_WHOLE);
    assert_whole(&grain);
    return grain;
}

static void worked_example_of_s319(void **state) {
    (void)state;
    Grain grain = example();
    assert_close(1e3 * grain_geometric_mean_m(&grain), 1.0694, 5e-5);
    assert_close(grain_s319_log_deviation(&grain), 0.17748, 5e-6);
    assert_close(pow(10, grain_s319_log_deviation(&grain)), 1.5048, 1e-4);
}

/* Percentiles by hand: d50 lies in 1–1.4 mm, where finer rises from 0.40 to 0.75; d10 in
 * 0.5–0.71 mm (0.05 to 0.15), d90 in 1.4–2 mm (0.75 to 0.95). */
static void percentiles_on_log_size(void **state) {
    (void)state;
    Grain grain = example();
    assert_close_share(grain_size_at_m(&grain, 0.50), 1e-3 * pow(1.4, 0.10 / 0.35), 1e-12);
    assert_close_share(grain_size_at_m(&grain, 0.10), 0.5e-3 * sqrt(1.42), 1e-12);
    assert_close_share(grain_size_at_m(&grain, 0.90), 1.4e-3 * pow(2 / 1.4, 0.15 / 0.20), 1e-12);
    assert_close(grain_finer(&grain, 1e-3), 0.40, 1e-12);
    assert_close(grain_finer(&grain, 0.71e-3), 0.15, 1e-12);
    assert_close(grain_coarser(&grain, 2e-3), 0.05, 1e-12);
    assert_close(grain_finer(&grain, sqrt(1.0 * 1.4) * 1e-3), 0.40 + 0.35 / 2, 1e-12);
    assert_close(grain_finer(&grain, 1e-5), 0, 0);
    assert_close(grain_finer(&grain, 1), 1, 0);
}

static void sizes_and_shares_round_trip(void **state) {
    (void)state;
    uint64_t seed = 31;
    for (int i = 0; i < MIXES; i++) {
        Grain grain = random_grain(&seed);
        for (double share = 0.01; share < 1; share += 0.07) {
            double size_m = grain_size_at_m(&grain, share);
            assert_close(grain_finer(&grain, size_m), share, 1e-9);
            assert_true(size_m <= grain_size_at_m(&grain, share + 0.01));
        }
        assert_close_share(grain_size_at_m(&grain, -1), grain.size_m[0], 1e-12);
        assert_close_share(grain_size_at_m(&grain, 2), grain.size_m[grain.count - 1], 1e-12);
        assert_true(isfinite(grain_size_at_m(&grain, NAN)));
        double fines = grain_finer(&grain, GRAIN_FINES_APERTURE_M);
        double coarse = grain_coarser(&grain, GRAIN_COARSE_APERTURE_M);
        double middle = grain_finer(&grain, GRAIN_COARSE_APERTURE_M) - fines;
        assert_true(fines >= 0 && coarse >= 0 && middle >= 0);
        assert_close(fines + middle + coarse, 1, 1e-12);
    }
}

/* Closed forms of the log-uniform distribution on a…b: mean √(ab), variance of ln (ln b/a)²/12,
 * Sauter mean ln(b/a)/(1/a − 1/b), median √(ab). */
static void plain_range_is_log_uniform(void **state) {
    (void)state;
    Grain grain = range(0.5e-3, 0.75e-3);
    double a = 0.5e-3;
    double b = 0.75e-3;
    assert_close_share(grain_geometric_mean_m(&grain), sqrt(a * b), 1e-12);
    assert_close_share(grain_size_at_m(&grain, 0.5), sqrt(a * b), 1e-12);
    assert_close_share(grain_geometric_deviation(&grain), exp(log(b / a) / sqrt(12)), 1e-12);
    assert_close_share(grain_sauter_m(&grain), log(b / a) / (1 / a - 1 / b), 1e-12);
    Grain single = range(1e-3, 1e-3);
    assert_close_share(grain_sauter_m(&single), 1e-3, 1e-3);
    assert_close(grain_geometric_deviation(&single), 1, 0.01);
}

/* The three means against direct summation over a hundred thousand grains of equal mass, taken
 * from the curve by their rank. */
static void statistics_agree_with_summation(void **state) {
    (void)state;
    const int grains = 100000;
    uint64_t seed = 32;
    for (int i = 0; i < 5; i++) {
        Grain grain = random_grain(&seed);
        double logs = 0;
        double squares = 0;
        double inverse = 0;
        for (int n = 0; n < grains; n++) {
            double size_m = grain_size_at_m(&grain, (n + 0.5) / grains);
            logs += log(size_m) / grains;
            squares += log(size_m) * log(size_m) / grains;
            inverse += 1 / size_m / grains;
        }
        assert_close_share(grain_geometric_mean_m(&grain), exp(logs), 1e-5);
        assert_close_share(log(grain_geometric_deviation(&grain)), sqrt(squares - logs * logs),
                           1e-4);
        assert_close_share(grain_sauter_m(&grain), 1 / inverse, 1e-4);
    }
}

static void means_are_in_order(void **state) {
    (void)state;
    uint64_t seed = 33;
    for (int i = 0; i < MIXES; i++) {
        Grain grain = random_grain(&seed);
        double mean = grain_geometric_mean_m(&grain);
        double sauter = grain_sauter_m(&grain);
        assert_true(sauter <= mean); /* harmonic below geometric mean */
        assert_true(sauter >= grain.size_m[0] && mean <= grain.size_m[grain.count - 1]);
        assert_true(grain_geometric_deviation(&grain) >=
                    pow(10, grain_s319_log_deviation(&grain)) - 1e-12);
    }
}

/* The ends that are not measured: a quarter of the finest aperture, the next R20/3 sieve. */
static void pan_and_top_class(void **state) {
    (void)state;
    const double aperture_m[] = {1e-3, 0.5e-3, 0};
    const double retained[] = {10, 30, 60};
    Grain grain;
    assert_int_equal(grain_from_sieves(aperture_m, retained, 3, NAN, &grain, NULL), GRAIN_WHOLE);
    assert_int_equal(grain.count, 4);
    assert_close_share(grain.size_m[0], 0.125e-3, 1e-12);
    assert_close_share(grain.size_m[3], 1.41254e-3, 1e-5);
    assert_close_share(grain_size_at_m(&grain, 0.30), 0.25e-3, 1e-12); /* middle of the pan */
    /* Without a pan nothing is finer than the last sieve. */
    assert_int_equal(grain_from_sieves(aperture_m, retained, 2, NAN, &grain, NULL), GRAIN_WHOLE);
    assert_close(grain_finer(&grain, 0.5e-3), 0, 0);
    assert_close_share(grain.size_m[0], 0.5e-3, 1e-12);
}

static void losses_up_to_two_percent_are_made_up(void **state) {
    (void)state;
    Grain whole = example();
    const struct {
        double sample;
        GrainFault fault;
    } cases[] = {{100 / 0.98, GRAIN_WHOLE}, {100 / 0.979, GRAIN_LOST_TOO_MUCH},
                 {100 / 1.02, GRAIN_WHOLE}, {100 / 1.021, GRAIN_GAINED_TOO_MUCH},
                 {0, GRAIN_MASS_ABSURD},    {INFINITY, GRAIN_MASS_ABSURD},
                 {200, GRAIN_LOST_TOO_MUCH}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Grain grain = {0};
        double recovered = -1;
        GrainFault fault = grain_from_sieves(example_aperture_m, example_retained, 8,
                                             cases[i].sample, &grain, &recovered);
        assert_int_equal(fault, cases[i].fault);
        if (fault == GRAIN_WHOLE) {
            assert_close(recovered, 100 / cases[i].sample, 1e-12);
            assert_close_share(grain_geometric_mean_m(&grain), grain_geometric_mean_m(&whole),
                               1e-12);
        } else {
            assert_int_equal(grain.count, 0);
            assert_close(recovered, -1, 0);
        }
    }
}

static void broken_analyses_are_refused(void **state) {
    (void)state;
    const struct {
        double aperture_m[3];
        double retained[3];
        size_t count;
        GrainFault fault;
    } cases[] = {
        {{0}, {1}, 0, GRAIN_NO_SIEVE},
        {{0}, {1}, 1, GRAIN_NO_SIEVE},
        {{1e-3, 1e-3, 0}, {1, 1, 1}, 3, GRAIN_APERTURE_NOT_FALLING},
        {{1e-3, 2e-3, 0}, {1, 1, 1}, 3, GRAIN_APERTURE_NOT_FALLING},
        {{1e-3, 0, 0.5e-3}, {1, 1, 1}, 3, GRAIN_APERTURE_ABSURD},
        {{NAN, 1e-3, 0}, {1, 1, 1}, 3, GRAIN_APERTURE_ABSURD},
        {{5, 1e-3, 0}, {1, 1, 1}, 3, GRAIN_APERTURE_ABSURD},
        {{2e-3, 1e-3, -1}, {1, 1, 1}, 3, GRAIN_APERTURE_ABSURD},
        {{2e-3, 1e-3, 0}, {1, -1, 1}, 3, GRAIN_MASS_ABSURD},
        {{2e-3, 1e-3, 0}, {1, 1, NAN}, 3, GRAIN_MASS_ABSURD},
        {{2e-3, 1e-3, 0}, {1, INFINITY, 1}, 3, GRAIN_MASS_ABSURD},
        {{2e-3, 1e-3, 0}, {0, 0, 0}, 3, GRAIN_NOTHING_RETAINED},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Grain grain;
        assert_int_equal(grain_from_sieves(cases[i].aperture_m, cases[i].retained, cases[i].count,
                                           NAN, &grain, NULL),
                         cases[i].fault);
    }
    double many_m[GRAIN_SIZES_MAX];
    double much[GRAIN_SIZES_MAX];
    for (size_t i = 0; i < GRAIN_SIZES_MAX; i++) {
        many_m[i] = 8e-3 * pow(0.8, (double)i);
        much[i] = 1;
    }
    Grain grain;
    assert_int_equal(grain_from_sieves(many_m, much, GRAIN_SIZES_MAX - 1, NAN, &grain, NULL),
                     GRAIN_TOO_MANY_SIEVES);
    assert_int_equal(grain_from_sieves(many_m, much, GRAIN_SIZES_MAX - 2, NAN, &grain, NULL),
                     GRAIN_WHOLE);
    assert_int_equal(grain_from_range(2e-3, 1e-3, &grain), GRAIN_RANGE_NOT_RISING);
    assert_int_equal(grain_from_range(0, 1e-3, &grain), GRAIN_APERTURE_ABSURD);
    assert_int_equal(grain_from_range(NAN, 1e-3, &grain), GRAIN_APERTURE_ABSURD);
}

/* What lies behind the parts that are named is none of them. */
static void a_mix_is_of_its_parts_alone(void **state) {
    (void)state;
    Grain fine = range(0.1e-3, 0.2e-3), middle = range(0.5e-3, 1e-3), coarse = range(2e-3, 4e-3);
    const Grain *grains[] = {&fine, &middle, &coarse};
    const double weights[] = {1, 3, 5};
    Grain mixed = grain_mix(grains, weights, 2);
    assert_close(mixed.size_m[mixed.count - 1], 1e-3, 1e-12);
    assert_close(grain_finer(&mixed, 0.3e-3), 0.25, 1e-12);
    Grain one = grain_mix(grains, weights, 1);
    assert_close(one.size_m[one.count - 1], 0.2e-3, 1e-12);
}

/* Law: at every size the mix holds what its parts hold; means mix as they must. */
static void mixing_adds_masses(void **state) {
    (void)state;
    uint64_t seed = 34;
    for (int i = 0; i < MIXES; i++) {
        Grain a = random_grain(&seed);
        Grain b = random_grain(&seed);
        double share = close_random(&seed, 0.01, 0.99);
        const Grain *parts[] = {&a, &b};
        const double masses[] = {7 * share, 7 * (1 - share)};
        Grain mixed = grain_mix(parts, masses, 2);
        assert_whole(&mixed);
        double off = 0;
        for (double size_m = 1e-5; size_m < 2e-2; size_m *= 1.07) {
            double wanted = share * grain_finer(&a, size_m) + (1 - share) * grain_finer(&b, size_m);
            off = fmax(off, fabs(grain_finer(&mixed, size_m) - wanted));
        }
        assert_true(off < 1e-9);
        assert_close_share(log(grain_geometric_mean_m(&mixed)),
                           share * log(grain_geometric_mean_m(&a)) +
                               (1 - share) * log(grain_geometric_mean_m(&b)),
                           1e-9);
        assert_close_share(1 / grain_sauter_m(&mixed),
                           share / grain_sauter_m(&a) + (1 - share) / grain_sauter_m(&b), 1e-9);
    }
}

/* Law: a dust mixed with itself stays as it is, whatever sieves it was measured with. */
static void mixing_with_itself_changes_nothing(void **state) {
    (void)state;
    uint64_t seed = 35;
    Grain a = random_grain(&seed);
    const Grain *parts[] = {&a, &a, &a};
    Grain mixed = grain_mix(parts, (const double[]){1, 2, 3}, 3);
    assert_int_equal(mixed.count, a.count);
    assert_close_share(grain_sauter_m(&mixed), grain_sauter_m(&a), 1e-12);
    Grain first = grain_mix(parts, (const double[]){1, 0, NAN}, 3);
    assert_close_share(grain_sauter_m(&first), grain_sauter_m(&a), 1e-12);
    Grain alike = grain_mix(parts, (const double[]){0, -1, NAN}, 3);
    assert_close_share(grain_sauter_m(&alike), grain_sauter_m(&a), 1e-12);
}

/* Twelve dusts with sieves all of their own need more sizes than a curve has. What is dropped
 * must stay below what sieving can tell (0.5 %). */
static void mixing_many_stays_close(void **state) {
    (void)state;
    uint64_t seed = 36;
    double worst = 0;
    for (int i = 0; i < 60; i++) {
        Grain grains[12];
        const Grain *parts[12];
        double masses[12];
        double sum = 0;
        for (int n = 0; n < 12; n++) {
            grains[n] = random_grain(&seed);
            parts[n] = &grains[n];
            sum += masses[n] = close_random(&seed, 0.1, 1);
        }
        Grain mixed = grain_mix(parts, masses, 12);
        assert_whole(&mixed);
        double sauter = 0;
        for (int n = 0; n < 12; n++)
            sauter += masses[n] / sum / grain_sauter_m(&grains[n]);
        assert_close_share(grain_sauter_m(&mixed), 1 / sauter, 0.02);
        for (double size_m = 1e-5; size_m < 1e-2; size_m *= 1.1) {
            double wanted = 0;
            for (int n = 0; n < 12; n++)
                wanted += masses[n] / sum * grain_finer(&grains[n], size_m);
            worst = fmax(worst, fabs(grain_finer(&mixed, size_m) - wanted));
        }
    }
    assert_true(worst < 0.005);
}

/* By hand: 20 % finer than 0.25 mm, 10 % wanted, so (0.20 − 0.10)/(1 − 0.10) = 1/9 of the dust
 * has to go; a sieve that passes 90 % takes 0.18 of what is put on it. */
static void sieving_by_hand(void **state) {
    (void)state;
    const double aperture_m[] = {1e-3, 0.5e-3, 0.25e-3, 0};
    const double retained[] = {0, 60, 20, 20};
    Grain grain;
    assert_int_equal(grain_from_sieves(aperture_m, retained, 4, NAN, &grain, NULL), GRAIN_WHOLE);
    Sieving plan = grain_sieve_out(&grain, 0.25e-3, 0.10, 0.25e-3, 0.9);
    assert_true(plan.needed && plan.reachable);
    assert_close(plan.removed_share, 1.0 / 9, 1e-12);
    assert_close(plan.sieved_share, 1.0 / 9 / 0.18, 1e-12);
    assert_close(plan.fines_share, 0.10, 1e-12);
    assert_close(grain_finer(&plan.left, 0.5e-3), 1 - 0.6 / (8.0 / 9), 1e-12);

    /* 1 % is beyond the sieve: all of it through leaves 0.02/0.82. */
    plan = grain_sieve_out(&grain, 0.25e-3, 0.01, 0.25e-3, 0.9);
    assert_true(plan.needed && !plan.reachable);
    assert_close(plan.removed_share, 0.18, 1e-12);
    assert_close(plan.fines_share, 0.02 / 0.82, 1e-12);
    assert_close(plan.sieved_share, 1, 1e-12);

    plan = grain_sieve_out(&grain, 0.25e-3, 0.25, 0.25e-3, 0.9);
    assert_true(!plan.needed && plan.reachable);
    assert_close(plan.removed_share, 0, 0);

    /* A sieve finer than any grain, one coarser than all, a sieve that passes nothing. */
    assert_false(grain_sieve_out(&grain, 0.25e-3, 0.1, 1e-6, 0.9).reachable);
    assert_false(grain_sieve_out(&grain, 0.25e-3, 0.1, 1, 0.9).reachable);
    assert_false(grain_sieve_out(&grain, 0.25e-3, 0.1, 0.25e-3, 0).reachable);
    assert_false(grain_sieve_out(&grain, 0.25e-3, 0.1, 0.25e-3, NAN).reachable);
}

/* Laws of sieving, whatever the sieve: what was there is what is left and what was taken, at
 * every size; fines never rise; the wanted share is met exactly when that can be. */
static void sieving_keeps_the_books(void **state) {
    (void)state;
    uint64_t seed = 38;
    int reached = 0;
    for (int i = 0; i < MIXES * 5; i++) {
        Grain grain = random_grain(&seed);
        double fines_m = close_random(&seed, 0.1e-3, 1e-3);
        double sieve_m = close_random(&seed, 0.1e-3, 1e-3);
        double wanted = close_random(&seed, 0, 0.3);
        double efficiency = close_random(&seed, 0.5, 1);
        double fines = grain_finer(&grain, fines_m);
        Sieving plan = grain_sieve_out(&grain, fines_m, wanted, sieve_m, efficiency);
        assert_whole(&plan.left);
        assert_true(plan.removed_share >= 0 && plan.removed_share < 1);
        assert_true(plan.sieved_share >= 0 && plan.sieved_share <= 1 + 1e-12);
        assert_true(plan.fines_share <= fines + 1e-12);
        assert_int_equal(plan.needed, fines > wanted);
        if (plan.needed && plan.reachable) {
            assert_close(plan.fines_share, wanted, 1e-9);
            reached++;
        }
        if (plan.needed && !plan.reachable)
            assert_true(plan.fines_share > wanted);
        double undersize = grain_finer(&grain, sieve_m);
        for (double size_m = 5e-5; size_m < 1e-2; size_m *= 1.3) {
            double taken = undersize > 0 ? fmin(grain_finer(&grain, size_m) / undersize, 1) : 0;
            double left = (1 - plan.removed_share) * grain_finer(&plan.left, size_m);
            assert_close(left + plan.removed_share * taken, grain_finer(&grain, size_m), 1e-9);
        }
    }
    assert_true(reached > 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worked_example_of_s319),
        cmocka_unit_test(percentiles_on_log_size),
        cmocka_unit_test(sizes_and_shares_round_trip),
        cmocka_unit_test(plain_range_is_log_uniform),
        cmocka_unit_test(statistics_agree_with_summation),
        cmocka_unit_test(means_are_in_order),
        cmocka_unit_test(pan_and_top_class),
        cmocka_unit_test(losses_up_to_two_percent_are_made_up),
        cmocka_unit_test(broken_analyses_are_refused),
        cmocka_unit_test(a_mix_is_of_its_parts_alone),
        cmocka_unit_test(mixing_adds_masses),
        cmocka_unit_test(mixing_with_itself_changes_nothing),
        cmocka_unit_test(mixing_many_stays_close),
        cmocka_unit_test(sieving_by_hand),
        cmocka_unit_test(sieving_keeps_the_books),
    };
    const char *against = "grain: worked example of ASABE S319, closed forms";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
