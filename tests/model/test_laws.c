/* Laws: what must hold of any night whatever, over a thousand random ones with a fixed seed. */
#include "model/fire_constants.h"
#include "model/session.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { NIGHTS = 1000, FEWER_NIGHTS = 300 };
static const uint64_t SEED = 0x5eed0fbee7;

static Plan plan_of(Arena *arena, const Batch *batch, SessionDetail detail) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, detail, &plan);
    return plan;
}

#define assert_sound(value) sound((value), 0, #value, __LINE__)
#define assert_over(value, low) sound((value), (low), #value, __LINE__)

static void sound(double value, double low, const char *what, int line) {
    if (!isfinite(value) || value < low) {
        fail_msg("line %d: %s is %g", line, what, value);
    }
}

static void fills_are_sound(const Plan *plan) {
    for (size_t i = 0; i < plan->fills.count; i++) {
        const PlanFill *fill = &plan->fills.items[i];
        double figures[] = {fill->channel_m,
                            fill->filled_m,
                            fill->end_in_lane,
                            fill->depth_m,
                            fill->volume_m3,
                            fill->dry_kg,
                            fill->wet_kg,
                            fill->bulk_density_kg_m3,
                            fill->margin_at_start,
                            fill->margin_least,
                            fill->margin_least_along_m,
                            fill->map_width_m,
                            fill->map_height_m};
        for (size_t j = 0; j < sizeof figures / sizeof *figures; j++) {
            assert_sound(figures[j]);
        }
        assert_true(fill->filled_m <= fill->channel_m * (1 + 1e-12));
        assert_true(fill->light_at <= fill->out_at);
        assert_true(fill->out_early <= fill->out_at && fill->out_at <= fill->out_late);
        assert_true(fill->end_lane >= 1);
        if (fill->dies) {
            assert_sound(fill->dies_along_m);
            assert_true(fill->dies_at >= fill->light_at);
        } else {
            assert_true(fill->dies_at == 0 && isnan(fill->dies_along_m));
        }
        for (size_t j = 0; j < fill->line.count; j++) {
            assert_over(fill->line.items[j].x_m, -1e-12);
            assert_over(fill->line.items[j].y_m, -1e-12);
            assert_true(fill->line.items[j].x_m <= fill->map_width_m + 1e-12);
            assert_true(fill->line.items[j].y_m <= fill->map_height_m + 1e-12);
        }
        for (size_t j = 0; j < fill->hours.count; j++) {
            assert_true(fill->hours.items[j].at > fill->light_at);
            assert_true(fill->hours.items[j].at < fill->out_at);
            assert_sound(fill->hours.items[j].place.along_m);
            assert_true(isfinite(fill->hours.items[j].heading_rad));
        }
        for (size_t j = 0; j < fill->weak.count; j++) {
            assert_true(fill->weak.items[j].least_margin < FIRE_MARGIN_GOOD);
            assert_over(fill->weak.items[j].to_m, fill->weak.items[j].from_m);
        }
    }
}

static void blend_is_sound(const Plan *plan) {
    const PlanBlend *blend = &plan->blend;
    double dry = 0, wet = 0, volume = 0, running = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const PlanPart *part = &blend->parts.items[i];
        assert_sound(part->wet_kg);
        assert_sound(part->dry_kg);
        assert_sound(part->moisture);
        dry += part->dry_share;
        wet += part->wet_share;
        volume += part->volume_share;
        running += part->wet_kg;
        assert_close(part->running_kg, running, 1e-9);
    }
    assert_close(dry, 1, 1e-12);
    assert_close(wet, 1, 1e-12);
    assert_close(volume, 1, 1e-12);
    assert_close(running, blend->wet_kg, 1e-9);
    double figures[] = {blend->dry_kg,
                        blend->moisture,
                        blend->bulk_density_kg_m3,
                        blend->grain.d10_m,
                        blend->grain.d50_m,
                        blend->grain.d90_m,
                        blend->grain.fines_volume_share,
                        blend->grain.coarse_share};
    for (size_t j = 0; j < sizeof figures / sizeof *figures; j++) {
        assert_sound(figures[j]);
    }
}

static void night_is_sound(const Plan *plan) {
    double figures[] = {
        plan->burn.duration_s,    plan->burn.smoking_s,       plan->burn.speed_mps,
        plan->burn.fuel_kg_per_h, plan->burn.margin_at_start, plan->burn.margin_least,
        plan->burn.dry_burnt_kg,  plan->cabinet.peak_power_w, plan->room.peak_mg_m3,
        plan->room.peak_ppm,      plan->drying.time_s,        plan->drying.from_moisture,
        plan->drying.to_moisture, plan->drying.start_kg,      plan->drying.end_kg,
        plan->drying.water_kg,    plan->drying.lit_moisture};
    for (size_t j = 0; j < sizeof figures / sizeof *figures; j++) {
        assert_sound(figures[j]);
    }
    const PlanCabinet *cabinet = &plan->cabinet;
    assert_true(cabinet->oxygen_least > 0 && cabinet->oxygen_least <= 0.2095 + 1e-12);
    assert_true(cabinet->oxygen_hot <= cabinet->oxygen_least + 1e-9);
    assert_over(cabinet->peak_hot_c, cabinet->peak_fast_c - 1e-9);
    assert_over(cabinet->vent_mps, 0);
    assert_true(cabinet->condensing_s >= 0 &&
                cabinet->condensing_s <= plan->burn.smoking_s * (1 + 1e-9));
    assert_true((cabinet->condensing_s > 0) <= (cabinet->condensing_from != 0));
    assert_true(isfinite(plan->cabinet.peak_temp_c));
    assert_true(plan->burn.margin_least <= plan->burn.margin_at_start + 1e-12);
    assert_true(plan->burn.dies == (plan->burn.margin_least < FIRE_MARGIN_HOLD));
    assert_true(plan->burn.dies == (plan->burn.dies_at != 0));
    assert_true(plan->cabinet.peak_fast_c >= plan->cabinet.peak_temp_c - 1e-9);
    for (size_t i = 0; i < plan->room.windows.count; i++) {
        assert_sound(plan->room.windows.items[i].mean_mg_m3);
        assert_true(plan->room.windows.items[i].rich_mg_m3 >=
                    plan->room.windows.items[i].mean_mg_m3);
    }
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        double state[] = {sample->along_m,          sample->speed_mps,        sample->moisture,
                          sample->margin,           sample->margin_low,       sample->power_w,
                          sample->outside_humidity, sample->cabinet_humidity, sample->co_mg_m3};
        for (size_t j = 0; j < sizeof state / sizeof *state; j++) {
            assert_sound(state[j]);
        }
        assert_true(isfinite(sample->cabinet_temp_c) && isfinite(sample->outside_temp_c));
        assert_true(i == 0 || sample->at >= sample[-1].at);
    }
}

static void no_night_gives_nonsense(void **state) {
    (void)state;
    uint64_t seed = SEED;
    for (int night = 0; night < NIGHTS; night++) {
        Arena *arena = arena_new();
        Plan plan = plan_of(arena, smokehouse_random(arena, &seed), SESSION_WHOLE);
        fills_are_sound(&plan);
        blend_is_sound(&plan);
        night_is_sound(&plan);
        arena_free(arena);
    }
}

/* All dust goes up, and the heat is that of all dust. */
static void mass_and_heat_are_kept(void **state) {
    (void)state;
    uint64_t seed = SEED + 1;
    for (int night = 0; night < FEWER_NIGHTS; night++) {
        Arena *arena = arena_new();
        const Batch *batch = smokehouse_random(arena, &seed);
        Plan plan = plan_of(arena, batch, SESSION_FIGURES);
        double dry_kg = 0;
        for (size_t i = 0; i < plan.fills.count; i++) {
            const PlanFill *fill = &plan.fills.items[i];
            assert_close_share(fill->volume_m3 * fill->bulk_density_kg_m3, fill->dry_kg, 1e-12);
            dry_kg += fill->dry_kg;
        }
        assert_close_share(plan.burn.dry_burnt_kg, dry_kg, 1e-12);
        double step_kg = batch->workshop->scale.resolution_kg;
        assert_true(plan.blend.wet_kg - dry_kg * (1 + plan.blend.moisture) < step_kg);
        assert_true(plan.blend.wet_kg - dry_kg * (1 + plan.blend.moisture) > -1e-6 * step_kg);
        arena_free(arena);
    }
}

/* The power of the samples, added up, is the heat of the fuel: trapezium rule, so within a share
 * that the raster of 10 minutes leaves. */
static void power_adds_up_to_the_heat(void **state) {
    (void)state;
    uint64_t seed = SEED + 2;
    int checked = 0;
    for (int night = 0; night < 100; night++) {
        Arena *arena = arena_new();
        Plan plan = plan_of(arena, smokehouse_random(arena, &seed), SESSION_WHOLE);
        double heat_j = 0;
        for (size_t i = 1; i < plan.samples.count; i++) {
            const PlanSample *a = &plan.samples.items[i - 1], *b = a + 1;
            heat_j += (a->power_w + b->power_w) / 2 * (double)(b->at - a->at);
        }
        if (plan.burn.duration_s > 4 * 3600) {
            assert_close_share(heat_j, plan.burn.dry_burnt_kg * 9e6, 0.005);
            checked++;
        }
        arena_free(arena);
    }
    assert_true(checked > 50);
}

typedef void (*Change)(Arena *arena, Batch *batch);

static void all_dusts(Arena *arena, Batch *batch, void (*change)(Dust *dust)) {
    for (size_t i = 0; i < batch->blend.parts.count; i++) {
        Dust *dust = ARENA_NEW(arena, Dust);
        *dust = *batch->blend.parts.items[i].dust;
        change(dust);
        batch->blend.parts.items[i].dust = dust;
    }
}

static void wet_dust(Dust *dust) {
    dust->bulk_density_kg_m3 *=
        isnan(dust->moisture) ? 1 : (1.03 + dust->moisture) / (1 + dust->moisture);
    dust->moisture += 0.03;
}

static void wetter(Arena *arena, Batch *batch) {
    all_dusts(arena, batch, wet_dust);
}

static void heavier(Arena *arena, Batch *batch) {
    for (size_t i = 0; i < batch->fills.count; i++) {
        Tray *tray = ARENA_NEW(arena, Tray);
        *tray = *batch->fills.items[i].tray;
        tray->metal_kg_m2 *= 1.5;
        batch->fills.items[i].tray = tray;
    }
}

static void damper(Arena *arena, Batch *batch) {
    (void)arena;
    for (size_t i = 0; i < batch->weather.readings.count; i++) {
        WeatherReading *reading = &batch->weather.readings.items[i];
        reading->humidity += (1 - reading->humidity) / 3;
    }
}

static void longer(Arena *arena, Batch *batch) {
    for (size_t i = 0; i < batch->fills.count; i++) {
        Tray *tray = ARENA_NEW(arena, Tray);
        *tray = *batch->fills.items[i].tray;
        tray->lane_length_m *= 1.2;
        tray->turns *= tray->path == PATH_SPIRAL ? 1.05 : 1;
        tray->outer_m *= 1.1;
        batch->fills.items[i].tray = tray;
        batch->fills.items[i].burn_time_s = NAN;
    }
}

/* A night before and after a change. Nothing is dried, and dust that states no moisture gets one,
 * so that the change is the only one; the band is that of one speed factor. */
static void compare(int number, Change change, void (*check)(const Plan *, const Plan *)) {
    uint64_t seed = SEED + (uint64_t)number;
    for (int night = 0; night < NIGHTS; night++) {
        Arena *arena = arena_new();
        Batch *batch = smokehouse_random(arena, &seed);
        batch->predry.stated = false;
        for (size_t i = 0; i < batch->blend.parts.count; i++) {
            Dust *dust = ARENA_NEW(arena, Dust);
            *dust = *batch->blend.parts.items[i].dust;
            dust->moisture = isnan(dust->moisture) ? 0.1 : dust->moisture;
            batch->blend.parts.items[i].dust = dust;
        }
        /* by volume, and with one lighting, so that later nights start at the same hour */
        batch->blend.by_volume = true;
        batch->fills.count = 1;
        batch->fills.items[0].repeat = 1;
        batch->fills.items[0].burn_time_s = NAN;
        Plan before = plan_of(arena, batch, SESSION_FIGURES);
        change(arena, batch);
        Plan after = plan_of(arena, batch, SESSION_FIGURES);
        check(&before, &after);
        arena_free(arena);
    }
}

/* Reading a margin at the steps of a path; and damp air is a little lighter than dry, so that less
 * of it flows through the cabinet, which is then a few thousandths of a kelvin warmer. */
static const double WHISKER = 3e-4;

static void not_faster_nor_better(const Plan *before, const Plan *after) {
    assert_true(after->burn.duration_s >= before->burn.duration_s * (1 - 1e-9));
    assert_true(after->burn.margin_at_start <= before->burn.margin_at_start);
    assert_true(after->burn.margin_least <= before->burn.margin_least * (1 + WHISKER));
}

static void not_better(const Plan *before, const Plan *after) {
    assert_true(after->burn.margin_at_start <= before->burn.margin_at_start * (1 + WHISKER));
    assert_true(after->burn.margin_least <= before->burn.margin_least * (1 + WHISKER));
}

static void not_shorter(const Plan *before, const Plan *after) {
    assert_true(after->burn.duration_s >= before->burn.duration_s);
}

static void wetter_is_never_faster_nor_better(void **state) {
    (void)state;
    compare(3, wetter, not_faster_nor_better);
}

static void more_metal_is_never_better(void **state) {
    (void)state;
    compare(4, heavier, not_better);
}

static void damper_air_is_never_better(void **state) {
    (void)state;
    compare(5, damper, not_better);
}

static void a_longer_channel_never_burns_shorter(void **state) {
    (void)state;
    compare(6, longer, not_shorter);
}

/* Fines of the first dust's own kind, added to a night without coarse grain. */
static void more_fines_are_never_better(void **state) {
    (void)state;
    uint64_t seed = SEED + 7;
    for (int night = 0; night < NIGHTS; night++) {
        Arena *arena = arena_new();
        Smokehouse *house = smokehouse_new(arena);
        Batch *batch = smokehouse_batch(house, &house->fold, close_random(&seed, -10, 25),
                                        close_random(&seed, 0.3, 1));
        double moisture = close_random(&seed, 0.02, 0.2);
        double from_m = close_random(&seed, 200e-6, 600e-6);
        Dust dust = smokehouse_dust("beech", moisture, from_m, 1.5 * from_m);
        Dust fines = smokehouse_dust("beech", moisture, 40e-6, 200e-6);
        double share = close_random(&seed, 0, 0.6);
        smokehouse_part(house, batch, &dust, 1 - share);
        smokehouse_part(house, batch, &fines, share);
        Plan before = plan_of(arena, batch, SESSION_FIGURES);
        batch->blend.parts.items[1].share += 0.1;
        batch->blend.parts.items[0].share -= 0.1;
        Plan after = plan_of(arena, batch, SESSION_FIGURES);
        not_better(&before, &after);
        arena_free(arena);
    }
}

static void figures_do_not_depend_on_detail(void **state) {
    (void)state;
    uint64_t seed = SEED + 8;
    for (int night = 0; night < 50; night++) {
        Arena *arena = arena_new();
        const Batch *batch = smokehouse_random(arena, &seed);
        Plan few = plan_of(arena, batch, SESSION_FIGURES);
        Plan all = plan_of(arena, batch, SESSION_WHOLE);
        assert_true(few.burn.out_early == few.burn.out_at);
        assert_true(few.burn.out_at == all.burn.out_at);
        assert_true(few.burn.margin_least == all.burn.margin_least);
        assert_true(few.burn.duration_s == all.burn.duration_s);
        assert_true(few.burn.dies_at == all.burn.dies_at);
        assert_true(few.room.peak_mg_m3 == all.room.peak_mg_m3);
        assert_true(few.cabinet.peak_temp_c == all.cabinet.peak_temp_c);
        assert_int_equal(few.samples.count, 0);
        arena_free(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_night_gives_nonsense),
        cmocka_unit_test(mass_and_heat_are_kept),
        cmocka_unit_test(power_adds_up_to_the_heat),
        cmocka_unit_test(wetter_is_never_faster_nor_better),
        cmocka_unit_test(more_metal_is_never_better),
        cmocka_unit_test(damper_air_is_never_better),
        cmocka_unit_test(a_longer_channel_never_burns_shorter),
        cmocka_unit_test(more_fines_are_never_better),
        cmocka_unit_test(figures_do_not_depend_on_detail),
    };
    const char *against = "laws: a thousand random nights";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
