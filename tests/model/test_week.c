/* Week: the search against every combination there is, tried one by one, on random small weeks; the
 * rule it goes by against cases worked out by hand. */
#include "model/week.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { HOUR_S = 3600, BATCHES = 4, HOURS = 6, WEEKS = 3000 };

/* Batches that share one of two trays, some a cabinet, some the oven. */
typedef struct House {
    Workshop workshop;
    Tray trays[2];
    Cabinet cabinets[2];
    Batch batches[WEEK_BATCHES_MOST];
    Fill fills[WEEK_BATCHES_MOST];
    char files[WEEK_BATCHES_MOST][8];
} House;

static int dice(uint64_t *seed, int sides) {
    int side = (int)close_random(seed, 0, sides);
    return side < sides ? side : sides - 1;
}

static void build(House *house, uint64_t *seed, int trays) {
    memset(house, 0, sizeof *house);
    house->workshop.file = "workshop.xml";
    house->trays[0].id = "a";
    house->trays[1].id = "b";
    house->cabinets[0].id = "a";
    house->cabinets[1].id = "b";
    for (int i = 0; i < WEEK_BATCHES_MOST; i++) {
        Batch *batch = &house->batches[i];
        house->files[i][0] = (char)('a' + i);
        batch->workshop = &house->workshop;
        batch->file = house->files[i];
        batch->cabinet = &house->cabinets[dice(seed, trays)];
        batch->predry.stated = trays > 1 && dice(seed, 2);
        house->fills[i].tray = &house->trays[dice(seed, trays)];
        batch->fills.items = &house->fills[i];
        batch->fills.count = 1;
    }
}

static WeekHour hour_at(const Batch *batch, Instant at, int length_h, Verdict verdict,
                        double chance) {
    WeekHour hour = {.light_at = at, .verdict = verdict, .chance = chance};
    hour.use = (ClashUse){.batch = batch,
                          .trays = {at - HOUR_S, at + length_h * HOUR_S},
                          .cabinet = {at, at + length_h * HOUR_S}};
    if (batch->predry.stated) {
        hour.use.oven = (ClashSpan){at - HOUR_S, at - HOUR_S / 2};
    }
    return hour;
}

static void random_week(Arena *arena, House *house, uint64_t *seed, WeekBatch *batches) {
    build(house, seed, 1 + dice(seed, 2));
    for (int i = 0; i < BATCHES; i++) {
        batches[i] = (WeekBatch){.file = house->batches[i].file};
        int length_h = 2 + dice(seed, 8);
        int count = dice(seed, HOURS + 1);
        for (int j = 0; j < count; j++) {
            Instant at = (Instant)dice(seed, 30) * HOUR_S + 1000000;
            double chance = dice(seed, 6) * 0.2;
            Verdict verdict = (Verdict)dice(seed, 4);
            WeekHour hour = hour_at(&house->batches[i], at, length_h, verdict, chance);
            LIST_ADD(arena, &batches[i].hours, hour);
        }
    }
}

/* The worth of a combination as the header states it. */
typedef struct Worth {
    int unlit, stays, tended;
    double log_chance, late;
} Worth;

static Worth worth_of(const WeekBatch *batches, const size_t *chosen) {
    Worth worth = {0};
    for (int i = 0; i < BATCHES; i++) {
        if (chosen[i] == WEEK_NO_HOUR) {
            worth.unlit++;
            worth.log_chance += log(0.005);
            continue;
        }
        const WeekHour *hour = &batches[i].hours.items[chosen[i]];
        worth.unlit += hour->verdict == VERDICT_DO_NOT_LIGHT;
        worth.stays += hour->verdict == VERDICT_STAY;
        worth.tended += hour->verdict == VERDICT_TEND;
        worth.log_chance += log(hour->chance > 0 ? hour->chance : 0.005);
    }
    return worth;
}

static int compare_worth(Worth a, Worth b) {
    if (a.unlit != b.unlit) {
        return a.unlit - b.unlit;
    }
    if (a.stays != b.stays) {
        return a.stays - b.stays;
    }
    if (a.tended != b.tended) {
        return a.tended - b.tended;
    }
    double more = b.log_chance - a.log_chance;
    return more > 1e-5 ? 1 : more < -1e-5 ? -1 : 0;
}

static bool possible(const WeekBatch *batches, const size_t *chosen) {
    for (int i = 0; i < BATCHES; i++) {
        for (int j = 0; j < i; j++) {
            if (chosen[i] != WEEK_NO_HOUR && chosen[j] != WEEK_NO_HOUR &&
                week_apart(&batches[i].hours.items[chosen[i]],
                           &batches[j].hours.items[chosen[j]])) {
                return false;
            }
        }
    }
    return true;
}

/* Tries hour by hour, and none, for batch after batch. */
static void brute(const WeekBatch *batches, int batch, size_t *chosen, Worth *best, int *ways) {
    if (batch == BATCHES) {
        if (possible(batches, chosen)) {
            Worth worth = worth_of(batches, chosen);
            *best = !*ways || compare_worth(worth, *best) < 0 ? worth : *best;
            ++*ways;
        }
        return;
    }
    chosen[batch] = WEEK_NO_HOUR;
    brute(batches, batch + 1, chosen, best, ways);
    for (size_t i = 0; i < batches[batch].hours.count; i++) {
        chosen[batch] = i;
        brute(batches, batch + 1, chosen, best, ways);
    }
}

static void finds_what_trying_everything_finds(void **state) {
    (void)state;
    uint64_t seed = 20261207;
    int crowded = 0, left_out = 0;
    for (int week = 0; week < WEEKS; week++) {
        Arena *arena = arena_new();
        House house;
        WeekBatch batches[BATCHES];
        size_t chosen[BATCHES], tried[BATCHES];
        random_week(arena, &house, &seed, batches);
        week_choose(arena, batches, BATCHES, chosen);
        assert_true(possible(batches, chosen));
        Worth best = {0};
        int ways = 0;
        brute(batches, 0, tried, &best, &ways);
        if (compare_worth(worth_of(batches, chosen), best) != 0) {
            fail_msg("week %d: not the best of %d ways", week, ways);
        }
        size_t all = 1;
        for (int i = 0; i < BATCHES; i++) {
            all *= batches[i].hours.count + 1;
            left_out += chosen[i] == WEEK_NO_HOUR && batches[i].hours.count > 0;
        }
        crowded += (size_t)ways < all;
        arena_free(arena);
    }
    assert_true(crowded > WEEKS / 2);
    assert_true(left_out > WEEKS / 100);
}

static void chooses_the_same_whatever_the_order_of_the_batches(void **state) {
    (void)state;
    uint64_t seed = 424242;
    for (int week = 0; week < WEEKS; week++) {
        Arena *arena = arena_new();
        House house;
        WeekBatch batches[BATCHES], turned[BATCHES];
        size_t chosen[BATCHES], other[BATCHES];
        random_week(arena, &house, &seed, batches);
        for (int i = 0; i < BATCHES; i++) {
            turned[i] = batches[(i * 3 + week) % BATCHES];
        }
        week_choose(arena, batches, BATCHES, chosen);
        week_choose(arena, turned, BATCHES, other);
        for (int i = 0; i < BATCHES; i++) {
            assert_true(chosen[(i * 3 + week) % BATCHES] == other[i]);
        }
        arena_free(arena);
    }
}

static void of_one_batch_takes_the_earliest_of_its_best_hours(void **state) {
    (void)state;
    Arena *arena = arena_new();
    House house;
    uint64_t seed = 7;
    build(&house, &seed, 1);
    WeekBatch batch = {.file = "a"};
    const struct {
        Verdict verdict;
        double chance;
    } hours[] = {{VERDICT_TEND, 0.99},   {VERDICT_GOOD, 0.904}, {VERDICT_GOOD, 0.951},
                 {VERDICT_GOOD, 0.9549}, {VERDICT_GOOD, 0.93},  {VERDICT_DO_NOT_LIGHT, 1}};
    for (int i = 0; i < 6; i++) {
        WeekHour hour =
            hour_at(&house.batches[0], i * HOUR_S, 8, hours[i].verdict, hours[i].chance);
        LIST_ADD(arena, &batch.hours, hour);
    }
    size_t chosen = 0;
    week_choose(arena, &batch, 1, &chosen);
    assert_int_equal(chosen, 2); /* 0.951 and 0.9549 are 0.95 both: the former is earlier */
    arena_free(arena);
}

/* Two want Monday's tray: it goes to the one whose Tuesday is worse by far. */
static void gives_the_good_evening_to_the_one_that_needs_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    House house;
    uint64_t seed = 7;
    build(&house, &seed, 1);
    const double chances[2][2] = {{0.95, 0.60}, {0.50, 0.20}};
    WeekBatch batches[2];
    for (int i = 0; i < 2; i++) {
        batches[i] = (WeekBatch){.file = house.batches[i].file};
        for (int day = 0; day < 2; day++) {
            WeekHour hour = hour_at(&house.batches[i], (Instant)day * 24 * HOUR_S, 9, VERDICT_TEND,
                                    chances[i][day]);
            LIST_ADD(arena, &batches[i].hours, hour);
        }
    }
    size_t chosen[2];
    week_choose(arena, batches, 2, chosen);
    /* 0.60 times 0.50 is more than 0.95 times 0.20; by the sums 1.15 were more than 1.10 */
    assert_int_equal(chosen[0], 1);
    assert_int_equal(chosen[1], 0);
    arena_free(arena);
}

static void a_refused_night_is_in_nobodys_way(void **state) {
    (void)state;
    Arena *arena = arena_new();
    House house;
    uint64_t seed = 7;
    build(&house, &seed, 1);
    WeekBatch batches[2] = {{.file = "a"}, {.file = "b"}};
    WeekHour refused = hour_at(&house.batches[0], 0, 9, VERDICT_DO_NOT_LIGHT, 0.3);
    WeekHour good = hour_at(&house.batches[1], HOUR_S, 9, VERDICT_GOOD, 0.95);
    LIST_ADD(arena, &batches[0].hours, refused);
    LIST_ADD(arena, &batches[1].hours, good);
    size_t chosen[2];
    week_choose(arena, batches, 2, chosen);
    assert_int_equal(chosen[0], 0);
    assert_int_equal(chosen[1], 0);
    arena_free(arena);
}

static void leaves_out_the_one_that_finds_no_room(void **state) {
    (void)state;
    Arena *arena = arena_new();
    House house;
    uint64_t seed = 7;
    build(&house, &seed, 1);
    WeekBatch batches[3];
    for (int i = 0; i < 3; i++) {
        batches[i] = (WeekBatch){.file = house.batches[i].file};
        for (int day = 0; day < 2; day++) {
            WeekHour hour = hour_at(&house.batches[i], (Instant)day * 24 * HOUR_S, 9, VERDICT_GOOD,
                                    i == 1 ? 0.90 : 0.95);
            LIST_ADD(arena, &batches[i].hours, hour);
        }
    }
    size_t chosen[3];
    week_choose(arena, batches, 3, chosen);
    assert_true(chosen[1] == WEEK_NO_HOUR);
    assert_true(chosen[0] != WEEK_NO_HOUR && chosen[2] != WEEK_NO_HOUR);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_what_trying_everything_finds),
        cmocka_unit_test(chooses_the_same_whatever_the_order_of_the_batches),
        cmocka_unit_test(of_one_batch_takes_the_earliest_of_its_best_hours),
        cmocka_unit_test(gives_the_good_evening_to_the_one_that_needs_it),
        cmocka_unit_test(a_refused_night_is_in_nobodys_way),
        cmocka_unit_test(leaves_out_the_one_that_finds_no_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
