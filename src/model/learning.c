#include "model/learning.h"

#include "model/blend.h"
#include "model/front.h"
#include "model/speed_constants.h"
#include "model/quadrature.h"
#include "model/record_holding.h"
#include "model/record_speed.h"
#include "model/session.h"
#include "model/wood.h"

#include <math.h>
#include <string.h>

/* Moisture assumed of trial dust that states none: in balance with a dry room (judgement). */
static const double TRIAL_ROOM_C = 15;

static const Tray *tray_named(const Workshop *workshop, const char *id) {
    for (size_t i = 0; id && i < workshop->trays.count; i++) {
        if (strcmp(workshop->trays.items[i].id, id) == 0) {
            return &workshop->trays.items[i];
        }
    }
    return NULL;
}

/* The bed of a trial: the dust alone, level in its tray or in the reference channel. */
static Bed trial_bed(const DustFigures *dust, const Tray *tray) {
    double whole = 1;
    Fuel fuel = blend_fuel(dust, &whole, 1);
    Bed bed = bed_reference();
    if (tray) {
        Fill fill = {.tray = tray, .level = 1, .packing = PACKING_LEVELLED, .repeat = 1};
        return bed_of(&fuel, tray, &fill);
    }
    bed.fuel = fuel;
    bed.dry_kg_m3 = fuel.bulk_dry_kg_m3;
    bed.dry_kg_per_m = bed.dry_kg_m3 * bed.section.area_m2;
    return bed;
}

static bool trial_observation(const Workshop *workshop, const Dust *dust, const Trial *trial,
                              SpeedObservation *observation) {
    if (!(trial->length_m > 0) || !(trial->took_s > 0)) {
        return false;
    }
    const Tray *tray = tray_named(workshop, trial->tray_id);
    StoreMoisture kept = store_moisture(&workshop->store);
    DustFigures figures = blend_dust(dust, &kept);
    double moisture = isnan(trial->moisture) ? figures.moisture : trial->moisture;
    double temp_c = isnan(trial->temp_c) ? TRIAL_ROOM_C : trial->temp_c;
    Bed bed = trial_bed(&figures, tray);
    double expected_mps = front_speed_mps(&bed, 1, moisture, temp_c);
    *observation =
        (SpeedObservation){.kind = past_night_kind_of_dust(dust, tray),
                           .log_factor = log(trial->length_m / trial->took_s / expected_mps),
                           .trial = true};
    return true;
}

void learning_add_trials(Arena *arena, const Workshop *workshop, SpeedObservations *observations) {
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        for (size_t j = 0; j < dust->trials.count; j++) {
            SpeedObservation observation;
            if (trial_observation(workshop, dust, &dust->trials.items[j], &observation)) {
                LIST_ADD(arena, observations, observation);
            }
        }
    }
}

/* ---- Recorded nights ------------------------------------------------------------------------- */

RecordTold learning_add_record(Arena *arena, const Batch *past, SpeedObservations *observations) {
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

/* ---- What is believed ------------------------------------------------------------------------ */

/* A trial or a past night on its way. */
typedef struct Lesson {
    const Dust *dust; /* of a trial; NULL: a night */
    const Trial *trial;
    const Batch *past; /* NULL: a trial */
    PastNight night;
    RecordSpeed speed;
    SpeedObservation observation; /* where it told a speed */
    bool aside;
    SpeedDeviance deviance; /* of one set aside */
    int others;
} Lesson;

typedef LIST_OF(Lesson) Lessons;

static void gather_trials(Arena *arena, const Workshop *workshop, Lessons *lessons) {
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        for (size_t j = 0; j < dust->trials.count; j++) {
            Lesson lesson = {.dust = dust, .trial = &dust->trials.items[j]};
            lesson.speed.took_s = lesson.trial->took_s;
            if (trial_observation(workshop, dust, lesson.trial, &lesson.observation)) {
                LIST_ADD(arena, lessons, lesson);
            }
        }
    }
}

static Lesson lesson_of(Arena *arena, const Batch *past) {
    Lesson lesson = {.past = past, .night = past_night_of(arena, past)};
    lesson.speed = record_speed(arena, &lesson.night);
    lesson.observation = (SpeedObservation){.kind = lesson.night.kind,
                                            .log_factor = lesson.speed.log_factor,
                                            .error = lesson.speed.error};
    return lesson;
}

static void gather_nights(Arena *arena, const Batch *batch, const Batch *const *past, size_t count,
                          Lessons *lessons) {
    for (size_t i = 0; i < count; i++) {
        if (past[i] != batch && past[i]->record.stated && past[i]->record.lit != 0) {
            LIST_ADD(arena, lessons, lesson_of(arena, past[i]));
        }
    }
}

static bool tells_speed(const Lesson *lesson) {
    return lesson->speed.told == RECORD_TOLD_SPEED && !lesson->aside;
}

/* The observations of all lessons that still count; which[i] is the lesson of the i-th. */
static SpeedObservations observed(Arena *arena, const Lessons *lessons, Lesson **which) {
    SpeedObservations observations = {0};
    for (size_t i = 0; i < lessons->count; i++) {
        if (tells_speed(&lessons->items[i])) {
            which[observations.count] = &lessons->items[i];
            LIST_ADD(arena, &observations, lessons->items[i].observation);
        }
    }
    return observations;
}

/* Sets the most deviant aside, again and again, until all that are left go together. */
static SpeedObservations set_aside(Arena *arena, Lessons *lessons) {
    Lesson **which = ARENA_ARRAY(arena, lessons->count, Lesson *);
    SpeedDeviance *deviances = ARENA_ARRAY(arena, lessons->count, SpeedDeviance);
    for (;;) {
        SpeedObservations observations = observed(arena, lessons, which);
        size_t worst = 0;
        size_t first = observations.count > SPEED_OBSERVATIONS_MAX
                           ? observations.count - SPEED_OBSERVATIONS_MAX
                           : 0;
        speed_deviances(&observations, deviances);
        for (size_t i = worst = first; i < observations.count; i++) {
            worst = deviances[i].tail < deviances[worst].tail ? i : worst;
        }
        double least = quadrature_normal(-SPEED_ASIDE_SPREADS);
        if (observations.count == 0 || deviances[worst].tail >= least) {
            return observations;
        }
        which[worst]->aside = true;
        which[worst]->deviance = deviances[worst];
        which[worst]->others = (int)(observations.count - first) - 1;
    }
}

/* What it would have taken at a speed factor that the others make one expect, in whole quarters of
 * an hour or, of a short trial, minutes. */
static Quantity expected(Arena *arena, const Lesson *lesson, double log_factor) {
    double took_s =
        lesson->trial ? lesson->speed.took_s * exp(lesson->observation.log_factor - log_factor)
                      : record_speed_took_s(arena, &lesson->night, &lesson->speed, exp(log_factor));
    double step_s = took_s < 2 * 3600 ? 60 : 15 * 60;
    return quantity(QUANTITY_DURATION, floor(took_s / step_s + 0.5) * step_s);
}

/* What the nights that count say of how burns hold, each at the speed it had or, where it told
 * none, at what is expected of its kind. */
static HoldingObservations held(Arena *arena, const Lessons *lessons,
                                const SpeedObservations *observations) {
    HoldingObservations nights = {0};
    for (size_t i = 0; i < lessons->count; i++) {
        const Lesson *lesson = &lessons->items[i];
        if (lesson->trial || lesson->aside || lesson->speed.told == RECORD_TOLD_AT_ODDS) {
            continue;
        }
        double speed_factor = lesson->speed.told == RECORD_TOLD_SPEED
                                  ? exp(lesson->speed.log_factor)
                                  : speed_factor_learnt(observations, &lesson->night.kind).middle;
        const Night *night = past_night_run(arena, &lesson->night, speed_factor);
        HoldingObservation observation;
        if (record_holding(&lesson->night, night, &observation)) {
            LIST_ADD(arena, &nights, observation);
        }
    }
    return nights;
}

static const char *without_folder(const char *file) {
    const char *slash = file ? strrchr(file, '/') : NULL;
    return slash ? slash + 1 : file;
}

static void add_note(Arena *arena, const Lesson *lesson, const char *key, LearningNotes *notes) {
    LearningNote note = {
        .key = key,
        .place = lesson->trial ? lesson->trial->place : lesson->past->record.place,
        .file = without_folder(lesson->trial ? lesson->trial->place.file : lesson->past->file),
        .dust = lesson->dust ? lesson->dust->id : NULL,
        .said = no_quantity(),
        .from = no_quantity(),
        .to = no_quantity()};
    if (lesson->aside) {
        note.said = quantity(QUANTITY_DURATION, lesson->speed.took_s);
        note.from = expected(arena, lesson, lesson->deviance.expected_high);
        note.to = expected(arena, lesson, lesson->deviance.expected_low);
        note.others = lesson->others;
    }
    LIST_ADD(arena, notes, note);
}

/* Without others it is held against what is believed before anything was measured. */
static const char *aside_key(const Lesson *lesson) {
    if (lesson->others > 0) {
        return lesson->trial ? "trial_aside" : "night_aside";
    }
    return lesson->trial ? "trial_implausible" : "night_implausible";
}

static void add_notes(Arena *arena, const Lessons *lessons, LearningNotes *notes) {
    for (size_t i = 0; i < lessons->count; i++) {
        const Lesson *lesson = &lessons->items[i];
        if (lesson->aside) {
            add_note(arena, lesson, aside_key(lesson), notes);
        } else if (lesson->speed.told == RECORD_TOLD_LENGTH_UNKNOWN) {
            add_note(arena, lesson, "length_unknown", notes);
        } else if (lesson->speed.told == RECORD_TOLD_AT_ODDS) {
            add_note(arena, lesson, "at_odds", notes);
        }
    }
}

Belief learning_belief(Arena *arena, const Batch *batch, const Batch *const *past, size_t count,
                       LearningNotes *notes) {
    Lessons lessons = {0};
    gather_trials(arena, batch->workshop, &lessons);
    gather_nights(arena, batch, past, count, &lessons);
    if (lessons.count == 0) {
        return belief_unmeasured();
    }
    SpeedObservations observations = set_aside(arena, &lessons);
    if (notes) {
        add_notes(arena, &lessons, notes);
    }
    /* The blend, found with speed factor 1, hardly depends on the speed factor: it serves to tell
     * what is alike. */
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, batch->timing.at, SESSION_TIMES, &plan);
    BurnKind kind = past_night_kind(&plan);
    HoldingObservations nights = held(arena, &lessons, &observations);
    return (Belief){speed_factor_learnt(&observations, &kind), holding_learnt(&nights, &kind)};
}

SpeedFactor learning_dust_factor(const SpeedObservations *observations, const Dust *dust) {
    BurnKind kind = past_night_kind_of_dust(dust, NULL);
    return speed_factor_learnt(observations, &kind);
}
