/* Learning: what a record tells, against burns made by the model at a known speed factor. */
#include "model/learning.h"
#include "model/doubt.h"
#include "model/speed_constants.h"
#include "model/past_night.h"
#include "model/record_holding.h"
#include "model/record_speed.h"
#include "model/speed_factor.h"
#include "model/session.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

/* What is believed of tonight's burn from its workshop's trials and past nights. */
static Belief believed(Arena *arena, const Batch *tonight, const Batch *const *past, size_t count,
                       LearningNotes *notes) {
    const Learning *all = learning_of(arena, tonight->workshop, past, count);
    return learning_of_burn(arena, learning_before(arena, all, INT64_MAX, tonight), tonight, notes);
}

static Plan plan_at(Arena *arena, const Batch *batch, const Belief *belief) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, belief, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    return plan;
}

/* Adds what the one trial of the first dust tells. */
static void add_trial(Arena *arena, const Workshop *workshop, SpeedObservations *observations) {
    const Dust *dust = &workshop->dusts.items[0];
    SpeedObservation observation;
    if (learning_of_trial(workshop, dust, &dust->trials.items[0], &observation)) {
        LIST_ADD(arena, observations, observation);
    }
}

/* Adds what a night's record tells of speed. */
static RecordTold add_record(Arena *arena, const Batch *past, SpeedObservations *observations) {
    if (!past->record.stated || past->record.lit == 0) {
        return RECORD_TOLD_NOTHING;
    }
    PastNight night = past_night_of(arena, past);
    RecordSpeed speed = record_speed(arena, &night);
    if (speed.told == RECORD_TOLD_SPEED) {
        SpeedObservation observation = {
            .kind = night.kind, .log_factor = speed.log_factor, .error = speed.error};
        LIST_ADD(arena, observations, observation);
    }
    return speed.told;
}

/* A trial made exactly as the model expects at twice its speed, in a channel and without one. */
static void trials_are_put_on_the_reference(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Dust dust = house->carrier;
    dust.bulk_density_kg_m3 = 208; /* 200 dry at 4 % */
    Trial trial = {.length_m = 0.1, .took_s = 0.1 / (0.200 / 3600), .moisture = 0.04, .temp_c = 10};
    LIST_ADD(arena, &dust.trials, trial);
    LIST_ADD(arena, &house->workshop.dusts, dust);
    LIST_ADD(arena, &house->workshop.trays, house->fold);
    SpeedObservations observations = {0};
    add_trial(arena, &house->workshop, &observations);
    assert_int_equal(observations.count, 1);
    assert_close(observations.items[0].log_factor, log(2), 1e-9);
    assert_true(observations.items[0].trial);
    house->workshop.dusts.items[0].trials.items[0].tray_id = "fold";
    add_trial(arena, &house->workshop, &observations);
    assert_close(observations.items[1].log_factor, log(2), 1e-9); /* the same section */
    assert_ptr_equal(observations.items[1].kind.tray, &house->workshop.trays.items[0]);
    house->workshop.dusts.items[0].trials.items[0].took_s = 0;
    add_trial(arena, &house->workshop, &observations);
    assert_int_equal(observations.count, 2);
    BurnKind kind = past_night_kind_of_dust(&house->carrier, NULL);
    SpeedFactor learnt = speed_factor_learnt(&observations, &kind);
    assert_true(learnt.middle > 1.2 && learnt.log_spread < SPEED_LOG_SPREAD && learnt.trials == 2);
    arena_free(arena);
}

/* The speed factor that a burn was made with is found again from its record, whole or cut short. */
static void records_give_their_speed_factor_back(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    static const double factors[] = {0.6, 0.9, 1.0, 1.4};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        for (double share = 0.5; share < 1.1; share += 0.5) {
            SpeedObservations observations = {0};
            const Batch *batch = smokehouse_recorded(house, factors[i], share);
            assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
            assert_close(observations.items[0].log_factor, log(factors[i]), 2e-3);
            assert_false(observations.items[0].trial);
        }
    }
    arena_free(arena);
}

static void records_that_tell_no_speed_are_passed_over(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    SpeedObservations observations = {0};
    Batch *batch = smokehouse_recorded(house, 1, 1);
    batch->record.out = 0;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_NOTHING);
    batch = smokehouse_recorded(house, 1, 0.5);
    batch->record.burnt_m = NAN;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_NOTHING);
    batch = smokehouse_recorded(house, 1, 1);
    LIST_ADD(arena, &batch->record.relit, SMOKEHOUSE_EVENING + 3600);
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_NOTHING);
    batch->record.stated = false;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_NOTHING);
    assert_int_equal(observations.count, 0);
    arena_free(arena);
}

static void a_batch_learns_from_others_and_not_from_itself(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *tonight = smokehouse_batch(house, &house->fold, 6, 0.8);
    smokehouse_part(house, tonight, &house->carrier, 1);
    assert_close(believed(arena, tonight, NULL, 0, NULL).speed.middle, 1, 0);
    Batch *slow = smokehouse_recorded(house, 0.7, 1);
    const Batch *past[] = {slow, tonight, slow};
    Belief belief = believed(arena, tonight, past, 3, NULL);
    SpeedFactor speed_factor = belief.speed;
    assert_int_equal(speed_factor.records, 2);
    assert_true(speed_factor.middle < 0.8 && speed_factor.middle > 0.69);
    assert_true(speed_factor.log_spread < 0.25);
    Plan before = plan_at(arena, tonight, NULL);
    Plan after = plan_at(arena, tonight, &belief);
    assert_true(after.burn.duration_s > 1.2 * before.burn.duration_s);
    assert_int_equal(after.burn.records, 2);
    assert_close(after.burn.speed_factor, speed_factor.middle, 0);
    arena_free(arena);
}

/* ---- A tray that was not filled to its end ------------------------------------------------- */

/* A night for which the plan chose the length by a wanted burn time, at speed factor 1, and which
 * then burnt at `middle`; the record as the sheet's blanks would have it. *filled_m: what was
 * filled. */
static Batch *part_filled(Smokehouse *house, double hours, double speed_factor, double *filled_m) {
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, batch, &house->carrier, 1);
    batch->fills.items[0].burn_time_s = hours * 3600;
    Plan plan = plan_at(house->arena, batch, NULL);
    *filled_m = plan.fills.items[0].filled_m;
    assert_true(*filled_m < plan.fills.items[0].channel_m);
    Batch *burnt = ARENA_NEW(house->arena, Batch);
    *burnt = *smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, burnt, &house->carrier, 1);
    burnt->fills.items[0].filled_m = *filled_m;
    Belief drawn = belief_unmeasured();
    drawn.speed.middle = speed_factor;
    batch->record = (Record){.stated = true,
                             .lit = SMOKEHOUSE_EVENING,
                             .out = plan_at(house->arena, burnt, &drawn).burn.out_at,
                             .burnt_m = NAN};
    return batch;
}

/* Expected 1.19; what was learnt with the length worked out anew was 1.99, and 2.31 after four such
 * nights; with a wanted time of 5 h, 0.26. */
static void a_filled_length_is_a_fact(void **state) {
    (void)state;
    static const double hours[] = {5, 6, 7.5};
    static const double factors[] = {0.8, 1.0, 1.19, 1.6};
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    for (size_t i = 0; i < 3; i++) {
        for (size_t j = 0; j < 4; j++) {
            double filled_m;
            SpeedObservations observations = {0};
            Batch *batch = part_filled(house, hours[i], factors[j], &filled_m);
            batch->record.filled_m = filled_m;
            assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
            assert_close(observations.items[0].log_factor, log(factors[j]), 1e-3);
        }
    }
    arena_free(arena);
}

/* 0.34 l of channel over its whole length, by the plan's own mass for each metre. */
static void the_dust_used_tells_the_length(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    double filled_m;
    SpeedObservations observations = {0};
    Batch *batch = part_filled(house, 6, 1.19, &filled_m);
    batch->record.used_kg = plan_at(arena, batch, NULL).fills.items[0].wet_kg;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    assert_close(observations.items[0].log_factor, log(1.19), 0.02); /* whole grams */
    arena_free(arena);
}

/* The mass of a metre is the same all along: a third of the dust lies on a third of the length,
 * each of two fills has half of what was used, and no channel holds more than itself. */
static void the_dust_used_is_shared_by_the_fills(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    for (int fills = 1; fills <= 2; fills++) {
        Batch *batch = smokehouse_recorded(house, 1, 1);
        batch->fills.items[0].repeat = fills;
        Plan plan = plan_at(arena, batch, NULL);
        assert_int_equal(plan.fills.count, fills);
        const PlanFill *fill = &plan.fills.items[0];
        double wet_kg = fill->dry_kg * (1 + plan.blend.moisture);
        batch->record.used_kg = fills * wet_kg / 3;
        PastNight third = past_night_of(arena, batch);
        assert_close_share(third.batch->fills.items[0].filled_m, fill->filled_m / 3, 1e-9);
        assert_true(third.length_known);
        batch->record.used_kg = fills * wet_kg * 3;
        assert_close(past_night_of(arena, batch).batch->fills.items[0].filled_m, fill->channel_m,
                     1e-12);
        batch->record.filled_m = fill->channel_m / 4; /* what was measured counts more */
        assert_close(past_night_of(arena, batch).batch->fills.items[0].filled_m,
                     fill->channel_m / 4, 1e-12);
    }
    arena_free(arena);
}

static void a_length_nobody_wrote_down_teaches_no_speed(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    double filled_m;
    SpeedObservations observations = {0};
    Batch *batch = part_filled(house, 6, 1.19, &filled_m);
    batch->file = "monday.xml";
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_LENGTH_UNKNOWN);
    assert_int_equal(observations.count, 0);
    Batch *tonight = smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, tonight, &house->carrier, 1);
    const Batch *past[] = {batch, batch, batch, batch};
    LearningNotes notes = {0};
    Belief belief = believed(arena, tonight, past, 4, &notes);
    assert_close(belief.speed.middle, 1, 1e-12);
    assert_int_equal(belief.speed.records, 0);
    assert_int_equal(notes.count, 4);
    assert_string_equal(notes.items[0].key, "length_unknown");
    assert_string_equal(notes.items[0].file, "monday.xml");
    /* where the front was on the way is told all the same */
    Reading reading = {.at = batch->record.lit + 3 * 3600, .front_m = 0.300, .cabinet_temp_c = NAN};
    LIST_ADD(arena, &batch->record.readings, reading);
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    arena_free(arena);
}

/* ---- Readings ------------------------------------------------------------------------------ */

static void add_reading(Arena *arena, Batch *batch, const Plan *burnt, size_t sample,
                        double off_m) {
    const PlanSample *at = &burnt->samples.items[sample];
    Reading reading = {.at = at->at, .front_m = at->along_m + off_m, .cabinet_temp_c = NAN};
    LIST_ADD(arena, &batch->record.readings, reading);
}

/* Readings of a burn at speed factor 0.9, with and without its end: the speed factor comes back,
 * and is known better the more was read. */
static void readings_teach(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Belief drawn = belief_unmeasured();
    drawn.speed.middle = 0.9;
    Batch *batch = smokehouse_recorded(house, 0.9, 1);
    Plan burnt = plan_at(arena, batch, &drawn);
    SpeedObservations observations = {0};
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    add_reading(arena, batch, &burnt, 12, 0.002);
    add_reading(arena, batch, &burnt, 40, -0.004);
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    batch->record.out = 0;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    for (size_t i = 0; i < observations.count; i++) {
        assert_close(observations.items[i].log_factor, log(0.9), 0.01);
        assert_true(observations.items[i].error > 0 && observations.items[i].error < 0.08);
    }
    assert_true(observations.items[1].error < observations.items[0].error);
    assert_true(observations.items[1].error < observations.items[2].error);
    /* before it was relit, a reading still counts; after, the dead time is in it */
    LIST_ADD(arena, &batch->record.relit, burnt.samples.items[20].at);
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    assert_close(observations.items[3].log_factor, log(0.9), 0.02);
    batch->record.relit.items[0] = batch->record.readings.items[0].at;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_NOTHING);
    batch->record.readings.count = 0;
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_NOTHING);
    arena_free(arena);
}

/* A burn that was stopped, not dead, tells its speed by what had burnt. */
static void a_stopped_burn_teaches(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_recorded(house, 1.3, 0.5);
    batch->record.went_out_early = false;
    SpeedObservations observations = {0};
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_SPEED);
    assert_close(observations.items[0].log_factor, log(1.3), 2e-3);
    arena_free(arena);
}

/* The glow cannot have been at half the channel in an eighth of the night. */
static void a_record_at_odds_with_itself_teaches_nothing(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_recorded(house, 1, 1);
    Reading reading = {.at = batch->record.lit + 3600, .front_m = 0.4, .cabinet_temp_c = NAN};
    LIST_ADD(arena, &batch->record.readings, reading);
    SpeedObservations observations = {0};
    assert_int_equal(add_record(arena, batch, &observations), RECORD_TOLD_AT_ODDS);
    Batch *tonight = smokehouse_batch(house, &house->fold, 6, 0.8);
    smokehouse_part(house, tonight, &house->carrier, 1);
    LearningNotes notes = {0};
    const Batch *past[] = {batch};
    assert_close(believed(arena, tonight, past, 1, &notes).speed.middle, 1, 1e-12);
    assert_string_equal(notes.items[0].key, "at_odds");
    arena_free(arena);
}

/* ---- One wrong record ---------------------------------------------------------------------- */

/* Ten nights of which one is written down as 27 hours: left out and named, with what the others
 * make one expect of it; what is believed is what the nine say. */
static void one_wrong_record_is_set_aside_and_named(void **state) {
    (void)state;
    static const double factors[] = {1.05, 0.97, 1.0, 0.93, 1.08, 1.02, 0.99, 0.95, 1.04, 1.0};
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    const Batch *past[10];
    for (int i = 0; i < 10; i++) {
        Batch *batch = smokehouse_recorded(house, factors[i], 1);
        batch->file = arena_format(arena, "cheese-%02d.xml", i);
        batch->record.out = i == 3 ? batch->record.lit + 27 * 3600 : batch->record.out;
        past[i] = batch;
    }
    Batch *tonight = smokehouse_batch(house, &house->fold, 6, 0.8);
    smokehouse_part(house, tonight, &house->carrier, 1);
    LearningNotes notes = {0};
    Belief belief = believed(arena, tonight, past, 10, &notes);
    assert_close(belief.speed.middle, 1, 0.02);
    assert_int_equal(belief.speed.records, 9);
    assert_true(belief.speed.log_spread < 0.1);
    assert_int_equal(notes.count, 1);
    const LearningNote *note = &notes.items[0];
    assert_string_equal(note->key, "night_aside");
    assert_string_equal(note->file, "cheese-03.xml");
    assert_int_equal(note->others, 9);
    assert_close(note->said.value, 27 * 3600, 0);
    double usual_s = (double)(past[2]->record.out - past[2]->record.lit);
    assert_true(note->from.value > 0.8 * usual_s && note->from.value < usual_s);
    assert_true(note->to.value < 1.25 * usual_s && note->to.value > usual_s);
    arena_free(arena);
}

/* ---- How burns hold ------------------------------------------------------------------------ */

static HoldingObservation held_by(Arena *arena, const Batch *batch) {
    HoldingObservation observation;
    PastNight past = past_night_of(arena, batch);
    assert_true(record_holding(&past, past_night_run(arena, &past, 1), &observation));
    return observation;
}

/* A night in damp air, so that the margin falls all the way: what each ending says of the offset is
 * read off the same night's plan. */
static void endings_bound_the_offset(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_recorded(house, 1, 1);
    Plan plan = plan_at(arena, batch, NULL);
    double end = -log(plan.burn.margin_least), lit = -log(plan.burn.margin_at_start);
    assert_true(end > lit + 0.05);
    HoldingObservation lasted = held_by(arena, batch);
    assert_close(lasted.low, end, 2e-3);
    assert_true(lasted.lasted && isinf(lasted.high));
    const PlanSample *middle = &plan.samples.items[plan.samples.count / 2];
    double half = -log(middle->margin);
    batch->record.burnt_m = middle->along_m; /* stopped */
    HoldingObservation stopped = held_by(arena, batch);
    assert_close(stopped.low, half, 3e-3);
    assert_true(isinf(stopped.high) && !stopped.lasted);
    batch->record.went_out_early = true;
    HoldingObservation died = held_by(arena, batch);
    assert_true(died.low < half && died.high > half && died.high - died.low < 0.12);
    assert_true(died.low >= lit - 1e-9 && died.high <= end + 1e-9);
    batch->record.burnt_m = NAN; /* nobody knows where */
    HoldingObservation somewhere = held_by(arena, batch);
    assert_true(isinf(somewhere.low));
    assert_close(somewhere.high, end, 2e-3);
    batch->record.went_out_early = false;
    LIST_ADD(arena, &batch->record.relit, middle->at);
    assert_close(held_by(arena, batch).high, half, 3e-3);
    arena_free(arena);
}

/* Neither when it was out nor how far it came: it may have lasted or not. */
static void an_end_nobody_wrote_down_bounds_nothing(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_recorded(house, 1, 1);
    PastNight past = past_night_of(arena, batch);
    const Night *night = past_night_run(arena, &past, 1);
    HoldingObservation observation;
    static const Instant no_ends[] = {0, SMOKEHOUSE_EVENING - 3600, SMOKEHOUSE_EVENING};
    for (size_t i = 0; i < sizeof no_ends / sizeof *no_ends; i++) {
        batch->record.out = no_ends[i];
        assert_false(record_holding(&past, night, &observation));
    }
    batch->record.out = SMOKEHOUSE_EVENING + 9 * 3600;
    assert_true(record_holding(&past, night, &observation));
    arena_free(arena);
}

/* Five nights that died in the middle lower what is believed of tonight, five that lasted raise it,
 * and a dust that was never burnt has no nights of its own. */
static void deaths_teach(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *tonight = smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, tonight, &house->carrier, 1);
    const Batch *past[5];
    for (int i = 0; i < 5; i++) {
        past[i] = smokehouse_recorded(house, 1, 0.5);
    }
    Holding after = believed(arena, tonight, past, 5, NULL).holding;
    assert_true(after.log_mean < -0.2 && after.common_spread < 0.1);
    assert_int_equal(after.nights, 5);
    assert_int_equal(after.lasted, 0);
    for (int i = 0; i < 5; i++) {
        past[i] = smokehouse_recorded(house, 1, 1);
    }
    after = believed(arena, tonight, past, 5, NULL).holding;
    assert_true(after.log_mean > 0);
    assert_int_equal(after.lasted, 5);
    Batch *other = smokehouse_batch(house, &house->trough, 6, 0.85);
    smokehouse_part(house, other, &house->cherry, 1);
    assert_int_equal(believed(arena, other, past, 5, NULL).holding.nights, 0);
    arena_free(arena);
}

/* Nights of which only the usual weather was written teach the same way, less, and are named. */
static void usual_weather_teaches_less(void **state) {
    (void)state;
    for (int dies = 0; dies < 2; dies++) {
        Arena *arena = arena_new();
        Smokehouse *house = smokehouse_new(arena);
        Batch *tonight = smokehouse_batch(house, &house->fold, 6, 0.85);
        smokehouse_part(house, tonight, &house->carrier, 1);
        Batch *night = smokehouse_recorded(house, 1.5, dies ? 0.5 : 1);
        const Batch *past[] = {night};
        LearningNotes notes = {0};
        Belief known = believed(arena, tonight, past, 1, &notes);
        assert_int_equal(notes.count, 0);
        night->weather.usual = true;
        Belief usual = believed(arena, tonight, past, 1, &notes);
        assert_int_equal(notes.count, 1);
        assert_string_equal(notes.items[0].key, "weather_usual");
        double shift = usual.holding.log_mean / known.holding.log_mean;
        assert_true(shift > 0 && shift < 0.95);
        assert_true(usual.holding.common_spread > known.holding.common_spread);
        assert_true(usual.speed.middle > 1 && usual.speed.middle < known.speed.middle);
        assert_true(usual.speed.log_spread > known.speed.log_spread);
        assert_int_equal(usual.holding.nights, 1);
        arena_free(arena);
    }
}

/* What is granted for weather that nobody knew: air damper or drier by 15 in a hundred (that far
 * the hours of a month lie about the usual, from memory) changes margin and speed by no more than
 * the ends of its 80 % band. */
static void usual_weather_is_granted_what_air_can_change(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    double margin[2], took_s[2];
    for (int i = 0; i < 2; i++) {
        Batch *batch = smokehouse_batch(house, &house->fold, 6, i ? 0.90 : 0.60);
        smokehouse_part(house, batch, &house->carrier, 1);
        batch->weather.usual = true;
        assert_close(doubt_weather_spread(batch, SMOKEHOUSE_EVENING), 0.12, 1e-12);
        Belief belief = belief_unmeasured();
        Plan plan = plan_at(arena, batch, &belief);
        margin[i] = plan.burn.margin_least;
        took_s[i] = plan.burn.duration_s;
    }
    double end = 1.2816 * 0.12;
    assert_true(log(margin[0] / margin[1]) > 0.02 && log(margin[0] / margin[1]) < 2 * end);
    assert_true(log(took_s[1] / took_s[0]) > 0.01 && log(took_s[1] / took_s[0]) < 2 * end);
    arena_free(arena);
}

/* Of many nights the latest count, whatever their files are called and in whatever order they
 * were read. */
static void the_latest_nights_count(void **state) {
    (void)state;
    enum { NIGHTS = SPEED_OBSERVATIONS_MAX + 20 };
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    const Batch *past[NIGHTS];
    for (int i = 0; i < NIGHTS; i++) {
        bool old = i < 20;
        Batch *night = smokehouse_recorded(house, old ? 0.8 : 1, 1);
        night->file = arena_format(arena, "%s%02d.xml", old ? "z" : "a", i);
        night->record.lit += 86400 * i;
        night->record.out += 86400 * i;
        past[(i + SPEED_OBSERVATIONS_MAX) % NIGHTS] = night;
    }
    const Batch *tonight = smokehouse_recorded(house, 1, 1);
    assert_close(believed(arena, tonight, past, NIGHTS, NULL).speed.middle, 1, 0.01);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(usual_weather_teaches_less),
        cmocka_unit_test(usual_weather_is_granted_what_air_can_change),
        cmocka_unit_test(the_latest_nights_count),
        cmocka_unit_test(trials_are_put_on_the_reference),
        cmocka_unit_test(records_give_their_speed_factor_back),
        cmocka_unit_test(records_that_tell_no_speed_are_passed_over),
        cmocka_unit_test(a_batch_learns_from_others_and_not_from_itself),
        cmocka_unit_test(a_filled_length_is_a_fact),
        cmocka_unit_test(the_dust_used_tells_the_length),
        cmocka_unit_test(the_dust_used_is_shared_by_the_fills),
        cmocka_unit_test(a_length_nobody_wrote_down_teaches_no_speed),
        cmocka_unit_test(readings_teach),
        cmocka_unit_test(a_stopped_burn_teaches),
        cmocka_unit_test(a_record_at_odds_with_itself_teaches_nothing),
        cmocka_unit_test(one_wrong_record_is_set_aside_and_named),
        cmocka_unit_test(endings_bound_the_offset),
        cmocka_unit_test(an_end_nobody_wrote_down_bounds_nothing),
        cmocka_unit_test(deaths_teach),
    };
    const char *against = "learning: burns of known speed_factor";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
