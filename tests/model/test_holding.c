/* Holding: expectation propagation against brute-force sums, and simulated smokehouses against
 * what is believed of them. */
#include "model/holding.h"
#include "model/holding_constants.h"
#include "model/speed_factor.h"

#include "support/close.h"
#include "support/table.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdio.h>

static const Dust beech = {.id = "beech"}, cherry = {.id = "cherry"};
static const Tray tray_a = {.id = "a"}, tray_b = {.id = "b"};

/* The kinds of tests/reference/holding.csv. */
static BurnKind kind_number(int number) {
    BurnKind kind = {.tray = number == 2 ? &tray_b : &tray_a, .count = 1, .dry_shares = {1}};
    kind.dusts[0] = number == 1 ? &cherry : &beech;
    if (number == 3) {
        kind.count = 2;
        kind.dusts[1] = &cherry;
        kind.dry_shares[0] = kind.dry_shares[1] = 0.5;
    }
    return kind;
}

static void nothing_measured(void **state) {
    (void)state;
    HoldingObservations none = {0};
    BurnKind kind = kind_number(0);
    Holding holding = holding_learnt(&none, &kind), unmeasured = holding_unmeasured();
    assert_close(holding.log_mean, 0, 0);
    assert_close(holding.common_spread, unmeasured.common_spread, 1e-12);
    assert_close(hypot(holding.common_spread, holding.burn_spread), 0.22, 0.005);
    assert_int_equal(holding.nights, 0);
}

/* tests/reference/holding.csv: sums over a grid, by another program in another language. One night
 * is exact. Of several, expectation propagation is good to some thousandths; where all terms are
 * one-sided and the answer is skew, the spread comes out up to a tenth too small. */
static void nights_agree_with_brute_force(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Table table = table_read(arena, "tests/reference/holding.csv");
    for (size_t row = 0; row < table.count; row++) {
        const double *cell = table.rows[row].cell;
        HoldingObservation nights[3];
        HoldingObservations observations = {nights, 0, 3};
        for (int i = 0; i < 3 && !isnan(cell[3 * i]); i++) {
            double low = cell[3 * i + 1], high = cell[3 * i + 2];
            nights[observations.count++] =
                (HoldingObservation){.kind = kind_number((int)cell[3 * i]),
                                     .low = isnan(low) ? -INFINITY : low,
                                     .high = isnan(high) ? INFINITY : high};
        }
        BurnKind tonight = kind_number((int)cell[9]);
        Holding holding = holding_learnt(&observations, &tonight);
        bool exact = observations.count == 1;
        assert_close(holding.log_mean, cell[10], exact ? 1e-7 : 6e-3);
        assert_close_share(holding.common_spread, cell[11], exact ? 1e-6 : 0.08);
    }
    assert_true(table.count >= 10);
    arena_free(arena);
}

/* Bounds that contradict all that is believed, or each other, still give figures. */
static void nothing_breaks_it(void **state) {
    (void)state;
    static const double ends[] = {-INFINITY, -9, -0.5, 0, 0.5, 9, INFINITY};
    HoldingObservation nights[200];
    uint64_t seed = 5;
    for (int turn = 0; turn < 300; turn++) {
        HoldingObservations observations = {nights, (size_t)close_random(&seed, 0, 200), 200};
        for (size_t i = 0; i < observations.count; i++) {
            int low = (int)close_random(&seed, 0, 6);
            int high = low + 1 + (int)close_random(&seed, 0, 6 - low);
            nights[i] = (HoldingObservation){.kind = kind_number((int)close_random(&seed, 0, 4)),
                                             .low = ends[low],
                                             .high = ends[high],
                                             .lasted = low % 2};
        }
        BurnKind kind = kind_number((int)close_random(&seed, 0, 4));
        Holding holding = holding_learnt(&observations, &kind);
        assert_true(isfinite(holding.log_mean) && fabs(holding.log_mean) < 10);
        assert_true(holding.common_spread > 0 && holding.common_spread < 0.21);
        assert_true(holding.lasted <= holding.nights);
    }
}

static void a_death_lowers_and_a_night_that_lasted_raises(void **state) {
    (void)state;
    HoldingObservation nights[12];
    BurnKind kind = kind_number(0), other = kind_number(2);
    double before = 0;
    for (size_t count = 1; count <= 12; count++) {
        nights[count - 1] = (HoldingObservation){.kind = kind, .low = -INFINITY, .high = -0.1};
        HoldingObservations observations = {nights, count, 12};
        Holding own = holding_learnt(&observations, &kind);
        Holding elsewhere = holding_learnt(&observations, &other);
        assert_true(own.log_mean < before && own.log_mean < elsewhere.log_mean);
        assert_true(elsewhere.log_mean < 0 && own.common_spread < elsewhere.common_spread);
        assert_int_equal(own.nights, count);
        before = own.log_mean;
    }
    nights[0] = (HoldingObservation){.kind = kind, .low = 0.1, .high = INFINITY, .lasted = true};
    HoldingObservations one = {nights, 1, 12};
    assert_true(holding_learnt(&one, &kind).log_mean > 0);
    assert_int_equal(holding_learnt(&one, &kind).lasted, 1);
    BurnKind cherries = kind_number(1);
    assert_int_equal(holding_learnt(&one, &cherries).nights, 0);
}

/* ---- Simulated smokehouses ------------------------------------------------------------------- */

/* Normal numbers from uniform ones (Box & Muller). */
static double normal(uint64_t *seed) {
    double a = close_random(seed, 1e-12, 1), b = close_random(seed, 0, 1);
    return sqrt(-2 * log(a)) * cos(6.283185307179586 * b);
}

/* A night whose log margin falls evenly from `start` to `end`; a share of 1 is the end. */
typedef struct Way {
    double start, end;
} Way;

static double least_by(const Way *way, double share) {
    return fmin(way->start, way->start + (way->end - way->start) * share);
}

/* The night burns with an offset, and is written down: lasted, died at a place, which the tray
 * shows to a fiftieth of its way, or, one in ten of those that died, died and nobody looked
 * where. */
static HoldingObservation written_down(const BurnKind *kind, const Way *way, double offset,
                                       uint64_t *seed) {
    HoldingObservation night = {
        .kind = *kind, .low = -least_by(way, 1), .high = INFINITY, .lasted = true};
    if (way->end + offset > 0 && way->start + offset > 0) {
        return night;
    }
    night.lasted = false;
    night.high = night.low;
    night.low = -INFINITY;
    if (close_random(seed, 0, 1) > 0.1) {
        double share = way->start > way->end ? (way->start + offset) / (way->start - way->end) : 0;
        share = fmin(fmax(share, 0), 1);
        double before = -least_by(way, share - 0.02), after = -least_by(way, share + 0.02);
        bool caught = share > 0.02; /* one that did not may have been far from it */
        night.low = caught ? fmax(before - HOLDING_PLACE_FLOOR, -way->start) : -INFINITY;
        night.high = fmin(after + (caught ? HOLDING_PLACE_FLOOR : 0), night.high);
    }
    return night;
}

typedef struct Tenths {
    int nights[10], lasted[10];
    double believed[10];
} Tenths;

/* The dust of a house: drawn as believed, or one of two that are unlike what is believed. */
typedef struct Dusts {
    bool as_believed;
    double offset[2];
} Dusts;

/* Houses drawn as believed but for their dust. So many records each, about the edge of that dust,
 * then a night with any margin. */
static void simulate(int houses, int records, const Dusts *dusts, uint64_t seed, Tenths *tenths) {
    BurnKind kind = kind_number(0);
    for (int house = 0; house < houses; house++) {
        double dust = dusts->as_believed ? NAN : dusts->offset[house % 2];
        double drawn = HOLDING_SHOP_SPREAD * normal(&seed) + HOLDING_TRAY_SPREAD * normal(&seed);
        drawn += isnan(dust) ? HOLDING_DUST_SPREAD * normal(&seed) : dust;
        double edge = isnan(dust) ? 0 : -dust;
        HoldingObservation nights[40];
        for (int i = 0; i < records; i++) {
            double end = edge + close_random(&seed, -0.2, 0.2);
            Way way = {end + close_random(&seed, 0.1, 0.5), end};
            double offset = drawn + HOLDING_BURN_SPREAD * normal(&seed);
            nights[i] = written_down(&kind, &way, offset, &seed);
        }
        HoldingObservations observations = {nights, (size_t)records, 40};
        Holding holding = holding_learnt(&observations, &kind);
        double margin = edge + close_random(&seed, -0.5, 0.6);
        double z = (margin + holding.log_mean) / hypot(holding.common_spread, holding.burn_spread);
        double chance = 0.5 * erfc(-z / sqrt(2));
        int tenth = (int)fmin(chance * 10, 9);
        tenths->nights[tenth]++;
        tenths->believed[tenth] += chance;
        tenths->lasted[tenth] += margin + drawn + HOLDING_BURN_SPREAD * normal(&seed) > 0;
    }
}

/* Every tenth of the chance with 200 nights or more: what was believed against what lasted. */
static void hold_against(const char *what, const Tenths *tenths, double points) {
    int held = 0;
    for (int i = 0; i < 10; i++) {
        if (tenths->nights[i] < 200) {
            continue;
        }
        double believed = tenths->believed[i] / tenths->nights[i];
        double lasted = (double)tenths->lasted[i] / tenths->nights[i];
        print_message("# %s: %d nights believed %.3f, lasted %.3f\n", what, tenths->nights[i],
                      believed, lasted);
        assert_close(lasted, believed, points);
        held++;
    }
    assert_true(held >= 5);
}

static void the_chance_is_what_lasts(void **state) {
    (void)state;
    const Dusts dusts = {.as_believed = true};
    for (int records = 0; records <= 10; records += 10) {
        Tenths tenths = {0};
        simulate(100000, records, &dusts, 2026 + (uint64_t)records, &tenths);
        hold_against("as believed", &tenths, 0.03);
    }
}

/* A dust of 0.8 or 1.2 times the steadiness believed, nobody knows which: after ten nights the
 * chance is as good as with dusts that are as believed. */
static void a_dust_that_is_unlike_is_found_out(void **state) {
    (void)state;
    const Dusts either = {.offset = {log(0.8), log(1.2)}};
    Tenths tenths = {0};
    simulate(200000, 10, &either, 8, &tenths);
    hold_against("0.8 or 1.2, 10 nights", &tenths, 0.03);
}

static double furthest_off(const Tenths *tenths) {
    double furthest = 0;
    for (int i = 0; i < 10; i++) {
        double off = (tenths->believed[i] - tenths->lasted[i]) / tenths->nights[i];
        furthest = fmax(furthest, tenths->nights[i] < 200 ? 0 : fabs(off));
    }
    return furthest;
}

/* Each of the two taken alone lies nearly two spreads off what is believed of dusts, and some of
 * that belief is left after ten nights: a sulky dust is then overrated by up to a tenth. No belief
 * about all dusts can be right for every single one (with every offset known to a hair, ten nights
 * would leave two points). It is bounded here, and more nights bring it nearer. */
static void one_unlike_dust_alone_comes_nearer(void **state) {
    (void)state;
    static const double steadiness[] = {0.8, 1.2};
    for (int i = 0; i < 2; i++) {
        const Dusts alone = {.offset = {log(steadiness[i]), log(steadiness[i])}};
        Tenths none = {0}, ten = {0}, forty = {0};
        simulate(20000, 0, &alone, 31 + (uint64_t)i, &none);
        simulate(20000, 10, &alone, 31 + (uint64_t)i, &ten);
        simulate(20000, 40, &alone, 31 + (uint64_t)i, &forty);
        print_message("# %.1f alone: furthest off %.3f, after 10 nights %.3f, after 40 %.3f\n",
                      steadiness[i], furthest_off(&none), furthest_off(&ten), furthest_off(&forty));
        assert_true(furthest_off(&none) > 0.15);
        assert_true(furthest_off(&ten) < 0.10);
        assert_true(furthest_off(&forty) < 0.06);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_measured),
        cmocka_unit_test(nights_agree_with_brute_force),
        cmocka_unit_test(nothing_breaks_it),
        cmocka_unit_test(a_death_lowers_and_a_night_that_lasted_raises),
        cmocka_unit_test(the_chance_is_what_lasts),
        cmocka_unit_test(a_dust_that_is_unlike_is_found_out),
        cmocka_unit_test(one_unlike_dust_alone_comes_nearer),
    };
    const char *against = "holding: brute-force sums, 600,000 simulated smokehouses";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
