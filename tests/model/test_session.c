/* Session: what the whole night's figures must be among themselves, and simple nights by hand. */
#include "model/fire_constants.h"
#include "model/session.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static Plan plan_of(Arena *arena, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    return plan;
}

static Batch *plain(Smokehouse *house) {
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.78);
    smokehouse_part(house, batch, &house->carrier, 0.7);
    smokehouse_part(house, batch, &house->cherry, 0.3);
    smokehouse_dry_for(batch, 15);
    return batch;
}

/* The fold by hand: 0.846 m of 20 × 20 mm, and the bulk of 70 : 30 beech and cherry at 0.40 of
 * their gravities. */
static void dry_mass_of_a_maze_by_hand(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Plan plan = plan_of(arena, plain(smokehouse_new(arena)));
    double bulk = 1 / (0.7 / (0.4 * 580) + 0.3 / (0.4 * 470));
    assert_close_share(plan.fills.items[0].dry_kg, 0.846 * 4e-4 * bulk, 1e-9);
    assert_close(plan.fills.items[0].volume_m3, 0.846 * 4e-4, 1e-12);
    assert_int_equal(plan.fills.items[0].end_lane, 5);
    assert_close(plan.fills.items[0].end_in_lane, 1, 1e-9);
    arena_free(arena);
}

static void wanted_burn_time_is_met_to_the_second(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    for (int both = 0; both < 2; both++) {
        batch->fills.items[0].both_ends = both;
        for (double hours = 1; hours < 4.1; hours += 0.75) {
            batch->fills.items[0].burn_time_s = hours * 3600;
            Plan plan = plan_of(arena, batch);
            assert_close(plan.burn.duration_s, hours * 3600, 0.5);
            assert_true(plan.fills.items[0].filled_m < plan.fills.items[0].channel_m);
            assert_false(plan.fills.items[0].whole);
            assert_close(plan.fills.items[0].fill_mark.along_m, plan.fills.items[0].filled_m, 1e-9);
        }
    }
    batch->fills.items[0].burn_time_s = 99 * 3600;
    Plan plan = plan_of(arena, batch);
    assert_close(plan.fills.items[0].filled_m, plan.fills.items[0].channel_m, 0);
    assert_true(plan.fills.items[0].whole);
    assert_true(plan.burn.duration_s < 99 * 3600);
    arena_free(arena);
}

/* A smoke time alone fills as far as it burns; of several fills the last one; never beyond the
 * channel, and not at all where the whole of it is asked for. */
static void the_smoke_time_decides_how_far_to_fill(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    double whole_s = plan_of(arena, batch).burn.smoking_s;
    assert_false(plan_of(arena, batch).fills.items[0].chosen);
    batch->product.smoke_time_s = whole_s / 2;
    Plan half = plan_of(arena, batch);
    assert_close(half.burn.smoking_s, whole_s / 2, 0.5);
    assert_true(half.fills.items[0].chosen && !half.fills.items[0].whole);
    batch->product.smoke_time_s = whole_s * 2;
    Plan most = plan_of(arena, batch);
    assert_true(most.fills.items[0].whole);
    assert_close(most.burn.smoking_s, whole_s, 1e-6);
    batch->product.smoke_time_s = whole_s / 2;
    batch->fills.items[0].whole = true;
    assert_close(plan_of(arena, batch).burn.smoking_s, whole_s, 1e-6);
    batch->fills.items[0].whole = false;
    batch->fills.items[0].repeat = 2;
    batch->product.smoke_time_s = whole_s * 1.5;
    Plan two = plan_of(arena, batch);
    assert_true(two.fills.items[0].whole && !two.fills.items[1].whole);
    assert_close(two.burn.smoking_s, whole_s * 1.5, 0.5);
    /* what the first leaves is too little for a fire of its own: it is not made one */
    batch->product.smoke_time_s = whole_s + 600;
    assert_true(plan_of(arena, batch).fills.items[1].whole);
    arena_free(arena);
}

static void fills_burn_one_after_another(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    batch->fills.items[0].repeat = 2;
    Fill second = batch->fills.items[0];
    second.repeat = 1;
    second.burn_time_s = 2 * 3600;
    LIST_ADD(arena, &batch->fills, second);
    Plan plan = plan_of(arena, batch);
    assert_int_equal(plan.fills.count, 3);
    double smoking_s = 0;
    for (size_t i = 0; i < 3; i++) {
        const PlanFill *fill = &plan.fills.items[i];
        assert_int_equal(fill->number, i + 1);
        assert_true(i == 0 || fill->light_at == fill[-1].out_at);
        smoking_s += (double)(fill->out_at - fill->light_at);
    }
    assert_close(plan.burn.smoking_s, smoking_s, 3);
    assert_true(plan.burn.out_at == plan.fills.items[2].out_at);
    assert_true(plan.burn.out_late > plan.burn.out_at && plan.burn.out_early < plan.burn.out_at);
    double wet = plan.fills.items[0].wet_kg + plan.fills.items[1].wet_kg +
                 plan.fills.items[2].wet_kg;
    assert_close(plan.blend.wet_kg, wet, 1e-9);
    arena_free(arena);
}

static void a_second_tray_in_an_open_store_takes_up_water_while_it_waits(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    batch->fills.items[0].repeat = 2;
    Plan sealed = plan_of(arena, batch);
    house->workshop.store.sealed = false;
    Plan open = plan_of(arena, batch);
    assert_close(sealed.fills.items[1].margin_at_start, sealed.fills.items[0].margin_at_start,
                 1e-9);
    assert_true(open.fills.items[1].margin_at_start < open.fills.items[0].margin_at_start - 0.1);
    arena_free(arena);
}

static void both_ends_burn_twice_the_fuel_in_half_the_time(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    Plan one = plan_of(arena, batch);
    batch->fills.items[0].both_ends = true;
    Plan two = plan_of(arena, batch);
    assert_true(two.burn.duration_s < one.burn.duration_s / 2);
    assert_close_share(two.burn.dry_burnt_kg, one.burn.dry_burnt_kg, 1e-12);
    assert_true(two.cabinet.peak_power_w > 1.9 * one.cabinet.peak_power_w);
    const PlanFill *fill = &two.fills.items[0];
    assert_close(fill->finish.along_m, fill->filled_m / 2, 1e-6);
    for (size_t i = 0; i + 1 < fill->hours.count; i += 2) {
        const HourMark *a = &fill->hours.items[i], *b = a + 1;
        assert_true(a->at == b->at && a->place.along_m <= b->place.along_m);
        assert_close(a->place.along_m + b->place.along_m, fill->filled_m, 1e-9);
    }
    arena_free(arena);
}

static void hour_marks_stand_on_the_full_hours(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    Plan plan = plan_of(arena, batch);
    const PlanFill *fill = &plan.fills.items[0];
    assert_int_equal(fill->hours.count, (fill->out_at + 1799) / 3600 - fill->light_at / 3600);
    for (size_t i = 0; i < fill->hours.count; i++) {
        assert_int_equal(fill->hours.items[i].at % 3600, 0);
        assert_true(i == 0 ||
                    fill->hours.items[i].place.along_m > fill->hours.items[i - 1].place.along_m);
    }
    /* half an hour off Greenwich, and across a change of the clock by half an hour */
    house->workshop.zone = zone_load(arena, "Australia/Lord_Howe");
    assert_non_null(house->workshop.zone);
    Instant april = 1775305800; /* 2026-04-04T12:30Z, the night the clock is put back */
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, april, SESSION_WHOLE, &plan);
    for (size_t i = 0; i < plan.fills.items[0].hours.count; i++) {
        Instant at = plan.fills.items[0].hours.items[i].at;
        assert_int_equal(zone_civil(house->workshop.zone, at).minute, 0);
    }
    assert_true(plan.fills.items[0].hours.count >= 7);
    arena_free(arena);
}

static void long_burns_are_marked_more_thinly(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->fold.lanes = 60;
    house->fold.lane_length_m = 3;
    Plan plan = plan_of(arena, plain(house));
    assert_true(plan.burn.duration_s > 48 * 3600.0 * 24);
    assert_true(plan.fills.items[0].hours.count <= 49);
    assert_true(plan.fills.items[0].hours.count >= 20);
    assert_true(plan.samples.count <= 610);
    arena_free(arena);
}

/* Least margin, where it dies, and both times, on a night that loses it half-way. */
static void a_dying_burn_says_where_and_when(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.95);
    smokehouse_part(house, batch, &house->sulky, 0.9);
    smokehouse_part(house, batch, &house->carrier, 0.1);
    Plan plan = plan_of(arena, batch);
    const PlanFill *fill = &plan.fills.items[0];
    assert_true(plan.burn.dies && fill->dies);
    assert_true(fill->margin_at_start > 1);
    assert_true(fill->dies_at > fill->light_at && fill->dies_at < fill->out_at);
    assert_true(fill->dies_along_m > 0 && fill->dies_along_m < fill->filled_m);
    assert_true(plan.burn.dies_at == fill->dies_at);
    for (size_t i = 0; i < plan.samples.count; i++) {
        const PlanSample *sample = &plan.samples.items[i];
        assert_true((sample->margin >= 1) == (sample->at < fill->dies_at));
    }
    assert_int_equal(fill->weak.count, 1);
    assert_close(fill->weak.items[0].from_m, 0, 0);
    assert_close(fill->weak.items[0].least_margin, fill->margin_least, 0);
    arena_free(arena);
}

/* Of several fills that die the night ends with the first that does, whatever the later ones do. */
static void a_night_ends_with_the_first_fill_that_dies(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.95);
    smokehouse_part(house, batch, &house->sulky, 0.9);
    smokehouse_part(house, batch, &house->carrier, 0.1);
    batch->fills.items[0].repeat = 3;
    Plan plan = plan_of(arena, batch);
    assert_int_equal(plan.fills.count, 3);
    for (size_t i = 0; i < plan.fills.count; i++) {
        assert_true(plan.fills.items[i].dies);
        assert_true(plan.burn.dies_at <= plan.fills.items[i].dies_at);
    }
    assert_true(plan.burn.dies_at == plan.fills.items[0].dies_at);
    assert_true(plan.fills.items[2].dies_at > plan.fills.items[0].dies_at);
    arena_free(arena);
}

/* Two glows burn twice the wood in an hour and give twice the carbon monoxide: in a room whose air
 * changes often, where the peak follows the emission, nearly twice the peak. */
static void both_ends_give_twice_the_carbon_monoxide(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->workshop.room = (Room){.stated = true, .volume_m3 = 60, .air_changes_per_h = 6};
    Batch *batch = plain(house);
    double one = plan_of(arena, batch).room.peak_mg_m3;
    batch->fills.items[0].both_ends = true;
    double two = plan_of(arena, batch).room.peak_mg_m3;
    assert_true(one > 0);
    assert_close(two / one, 2, 0.15);
    arena_free(arena);
}

/* A forecast with a damp spell and a dry end: the weak stretch lies inside the burn. */
static void a_weak_stretch_has_two_ends(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    batch->weather = (Weather){.place = {0}};
    for (int hour = 0; hour <= 24; hour += 1) {
        bool damp = hour > 1 && hour < 8;
        LIST_ADD(arena, &batch->weather.readings,
                 ((WeatherReading){.at = SMOKEHOUSE_EVENING + hour * 3600,
                                   .temp_c = damp ? 14 : 30,
                                   .humidity = damp ? 0.98 : 0.10}));
    }
    batch->fills.items[0].tray = &house->fold;
    house->fold.lanes = 9;
    Plan plan = plan_of(arena, batch);
    const PlanFill *fill = &plan.fills.items[0];
    assert_true(plan.weather.forecast);
    assert_int_equal(fill->weak.count, 1);
    const WeakStretch *weak = &fill->weak.items[0];
    assert_true(weak->from_m > 0.05 && weak->to_m < fill->filled_m - 0.05);
    assert_true(weak->from_at > fill->light_at && weak->to_at < fill->out_at);
    assert_int_equal(weak->cause, CAUSE_DAMP_AIR);
    assert_close(weak->line.items[0].along_m, weak->from_m, 1e-12);
    assert_close(plan.weather.dampest, 0.98, 1e-12);
    assert_close(plan.weather.coldest_c, 14, 1e-12);
    arena_free(arena);
}

/* The same night, sampled and not: the figures of the burn stand still (laws test the rest). The
 * samples themselves keep the raster and the ends. */
static void samples_keep_their_raster(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    batch->fills.items[0].repeat = 2;
    Plan plan = plan_of(arena, batch);
    const PlanFill *first = &plan.fills.items[0], *second = first + 1;
    bool first_end = false, second_start = false;
    for (size_t i = 0; i < plan.samples.count; i++) {
        const PlanSample *sample = &plan.samples.items[i];
        first_end = first_end || (sample->at == first->out_at && sample->fill == 1);
        second_start = second_start || (sample->at == second->light_at && sample->fill == 2);
        bool end = sample->at == first->out_at || sample->at == second->out_at;
        assert_true(end || (sample->at - plan.burn.light_at) % 600 == 0);
        assert_true(sample->margin_low <= sample->margin);
    }
    assert_true(first_end && second_start);
    assert_true(plan.samples.items[plan.samples.count - 1].at == second->out_at);
    assert_close(plan.samples.items[plan.samples.count - 1].along_m, second->filled_m, 1e-9);
    arena_free(arena);
}

static void room_and_cabinet_follow_the_burn(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    Plan outdoors = plan_of(arena, batch);
    assert_true(outdoors.room.outdoors);
    assert_close(outdoors.room.peak_mg_m3, 0, 0);
    assert_false(outdoors.room.over_limit);
    house->workshop.room = (Room){.stated = true, .volume_m3 = 30, .air_changes_per_h = 0.5};
    Plan indoors = plan_of(arena, batch);
    /* worked figure: 12.5 g/h of dust gives 133 mg/m³ in the long run */
    double steady = 133.3 * indoors.burn.fuel_kg_per_h / 0.0125;
    assert_close_share(indoors.room.peak_mg_m3, steady, 0.12);
    assert_true(indoors.room.over_limit);
    assert_true(indoors.room.worst.mean_mg_m3 < indoors.room.peak_mg_m3);
    const PlanSample *last = &indoors.samples.items[indoors.samples.count - 1];
    assert_close_share(last->co_mg_m3, indoors.room.peak_mg_m3, 0.1);
    house->workshop.room.ducted_share = 1; /* no duct is counted for more than 95 % */
    double leaked = indoors.room.peak_mg_m3 * 0.05;
    assert_close_share(plan_of(arena, batch).room.peak_mg_m3, leaked, 1e-6);
    assert_true(outdoors.cabinet.stated);
    assert_true(outdoors.cabinet.peak_temp_c > 6.5 && outdoors.cabinet.peak_temp_c < 12);
    batch->cabinet = NULL;
    assert_false(plan_of(arena, batch).cabinet.stated);
    arena_free(arena);
}

/* A second fill that waits six hours for somebody to light it: the room airs meanwhile, so that
 * after the same burn it holds what is left of the first and what the second adds. */
static void the_room_airs_while_nothing_burns(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->workshop.room = (Room){.stated = true, .volume_m3 = 30, .air_changes_per_h = 0.5};
    Batch *batch = plain(house);
    double alone = plan_of(arena, batch).room.peak_mg_m3;
    batch->fills.items[0].repeat = 2;
    Plan at_once = plan_of(arena, batch);
    Instant out = at_once.fills.items[0].out_at;
    LIST_ADD(arena, &batch->timing.away, ((Away){.from = out - 60, .to = out + 6 * 3600}));
    Plan later = plan_of(arena, batch);
    double first_s = later.burn.smoking_s / 2;
    double gap_h = (double)(later.fills.items[1].light_at - out) / 3600;
    assert_close(gap_h, 6, 0.01);
    assert_close_share(later.room.peak_mg_m3, alone * (1 + exp(-0.5 * (gap_h + first_s / 3600))),
                       0.01); /* the peak comes a little before the end */
    assert_true(later.room.windows.items[3].mean_mg_m3 < at_once.room.windows.items[3].mean_mg_m3);
    const PlanSample *last = &later.samples.items[later.samples.count - 1];
    assert_close_share(last->co_mg_m3, later.room.peak_mg_m3, 0.05);
    arena_free(arena);
}

/* The ends of the band are those of the model run at the speeds that one burn in ten beats and
 * falls short of, over all fills of the night. */
static void the_band_is_that_of_the_fast_and_the_slow_run(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = plain(house);
    batch->fills.items[0].repeat = 3;
    Plan plan = plan_of(arena, batch);
    for (int late = 0; late < 2; late++) {
        Belief belief = belief_unmeasured();
        belief.speed.middle = speed_factor_at(&belief.speed, late ? 0.1 : 0.9);
        Plan run;
        memset(&run, 0, sizeof run);
        session_work_out(arena, batch, &belief, SMOKEHOUSE_EVENING, SESSION_FIGURES, &run);
        Instant end = late ? plan.burn.out_late : plan.burn.out_early;
        assert_true(llabs((long long)(end - run.burn.out_at)) <= 1);
    }
    arena_free(arena);
}

/* Soaked dust in dry air dries while it waits: a slow front may be out before a fast one. */
static void the_band_is_never_out_of_order(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Dust soaked = smokehouse_dust("beech", 1.0, 500e-6, 750e-6);
    Batch *batch = smokehouse_batch(house, &house->fold, 40, 0.05);
    house->fold.lanes = 40;
    smokehouse_part(house, batch, &soaked, 1);
    Plan plan = plan_of(arena, batch);
    assert_true(plan.burn.out_early <= plan.burn.out_at);
    assert_true(plan.burn.out_at <= plan.burn.out_late);
    arena_free(arena);
}

static void dust_without_moisture_is_as_damp_as_its_store(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->carrier.moisture = NAN;
    Batch *dry_night = smokehouse_batch(house, &house->fold, 20, 0.30);
    Batch *damp_night = smokehouse_batch(house, &house->fold, 2, 0.98);
    smokehouse_part(house, dry_night, &house->carrier, 1);
    smokehouse_part(house, damp_night, &house->carrier, 1);
    PlanBlend blend = plan_of(arena, dry_night).blend;
    assert_close(plan_of(arena, damp_night).blend.moisture, blend.moisture, 0);
    assert_true(blend.moisture_assumed && blend.parts.items[0].moisture_assumed);
    house->workshop.store.temp_c = 20;
    house->workshop.store.humidity = 0.65;
    /* Simpson's equation at 20 °C, 65 %: 11.996 % (computed value beside the table) */
    assert_close(plan_of(arena, damp_night).blend.moisture, 0.11996, 1e-5);
    house->workshop.store.humidity = 0.5;
    assert_close(plan_of(arena, damp_night).blend.moisture, 0.09271, 1e-5);
    house->carrier.moisture = 0.08;
    assert_false(plan_of(arena, damp_night).blend.moisture_assumed);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dry_mass_of_a_maze_by_hand),
        cmocka_unit_test(wanted_burn_time_is_met_to_the_second),
        cmocka_unit_test(the_smoke_time_decides_how_far_to_fill),
        cmocka_unit_test(fills_burn_one_after_another),
        cmocka_unit_test(a_second_tray_in_an_open_store_takes_up_water_while_it_waits),
        cmocka_unit_test(both_ends_burn_twice_the_fuel_in_half_the_time),
        cmocka_unit_test(hour_marks_stand_on_the_full_hours),
        cmocka_unit_test(long_burns_are_marked_more_thinly),
        cmocka_unit_test(a_dying_burn_says_where_and_when),
        cmocka_unit_test(a_night_ends_with_the_first_fill_that_dies),
        cmocka_unit_test(both_ends_give_twice_the_carbon_monoxide),
        cmocka_unit_test(a_weak_stretch_has_two_ends),
        cmocka_unit_test(samples_keep_their_raster),
        cmocka_unit_test(room_and_cabinet_follow_the_burn),
        cmocka_unit_test(the_room_airs_while_nothing_burns),
        cmocka_unit_test(the_band_is_that_of_the_fast_and_the_slow_run),
        cmocka_unit_test(the_band_is_never_out_of_order),
        cmocka_unit_test(dust_without_moisture_is_as_damp_as_its_store),
    };
    const char *against = "session: nights by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
