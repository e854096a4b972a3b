#include "model/learning.h"

#include "base/file_path.h"
#include "base/text.h"
#include "model/blend.h"
#include "model/front.h"
#include "model/speed_constants.h"
#include "model/quadrature.h"
#include "model/record_holding.h"
#include "model/record_speed.h"
#include "model/session.h"
#include "model/wood.h"

#include <math.h>
#include <stdlib.h>
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

bool learning_of_trial(const Workshop *workshop, const Dust *dust, const Trial *trial,
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

/* ---- What is believed ------------------------------------------------------------------------ */

/* A trial or a past night on its way. */
typedef struct Evidence {
    const Dust *dust; /* of a trial; NULL: a night */
    const Trial *trial;
    const Batch *past; /* NULL: a trial */
    PastNight night;
    RecordSpeed speed;
    SpeedObservation observation; /* where it told a speed */
    bool told_holding;
    HoldingObservation holding; /* where it told both */
    bool outlier;
    SpeedDeviance deviance; /* of one set aside */
    int others;
} Evidence;

typedef LIST_OF(Evidence) EvidenceList;

struct Learning {
    EvidenceList all;
};

static void gather_trials(Arena *arena, const Workshop *workshop, EvidenceList *all) {
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        for (size_t j = 0; j < dust->trials.count; j++) {
            Evidence evidence = {.dust = dust, .trial = &dust->trials.items[j]};
            evidence.speed.took_s = evidence.trial->took_s;
            if (learning_of_trial(workshop, dust, evidence.trial, &evidence.observation)) {
                LIST_ADD(arena, all, evidence);
            }
        }
    }
}

/* What a night at that speed factor says of how it held. */
static bool told_holding(Arena *arena, const PastNight *night, double speed_factor,
                         HoldingObservation *holding) {
    return record_holding(night, past_night_run(arena, night, speed_factor), holding);
}

static Evidence evidence_of(Arena *arena, const Batch *past) {
    Evidence evidence = {.past = past, .night = past_night_of(arena, past)};
    ArenaMark mark = arena_mark(arena); /* of the runs nothing is kept but figures */
    evidence.speed = record_speed(arena, &evidence.night);
    evidence.observation = (SpeedObservation){.kind = evidence.night.kind,
                                              .log_factor = evidence.speed.log_factor,
                                              .error = evidence.speed.error};
    if (evidence.speed.told == RECORD_TOLD_SPEED) {
        evidence.told_holding =
            told_holding(arena, &evidence.night, exp(evidence.speed.log_factor), &evidence.holding);
    }
    arena_back_to(arena, mark);
    return evidence;
}

static void gather_nights(Arena *arena, const Workshop *workshop, const Batch *const *past,
                          size_t count, EvidenceList *all) {
    for (size_t i = 0; i < count; i++) {
        const Record *record = &past[i]->record;
        if (workshop_same(past[i]->workshop, workshop) && record->stated && record->lit != 0) {
            LIST_ADD(arena, all, evidence_of(arena, past[i]));
        }
    }
}

/* By date, since of many only the latest count; those lit at once by the names of their files. */
static int by_date(const void *a, const void *b) {
    const Batch *first = *(const Batch *const *)a, *second = *(const Batch *const *)b;
    if (first->record.lit != second->record.lit) {
        return first->record.lit < second->record.lit ? -1 : 1;
    }
    return first->file && second->file ? strcmp(first->file, second->file) : 0;
}

static const Batch **in_order(Arena *arena, const Batch *const *past, size_t count) {
    const Batch **ordered = ARENA_ARRAY(arena, count, const Batch *);
    for (size_t i = 0; i < count; i++) {
        ordered[i] = past[i];
    }
    qsort(ordered, count, sizeof *ordered, by_date);
    return ordered;
}

const Learning *learning_of(Arena *arena, const Workshop *workshop, const Batch *const *past,
                            size_t count) {
    Learning *learning = ARENA_NEW(arena, Learning);
    gather_trials(arena, workshop, &learning->all);
    gather_nights(arena, workshop, in_order(arena, past, count), count, &learning->all);
    return learning;
}

static bool same_batch(const Batch *a, const Batch *b) {
    return a == b || (a && b && text_same(a->file, b->file));
}

/* The trials, and of the nights all but one that were lit before a time and out by another. */
static const Learning *kept(Arena *arena, const Learning *learning, Instant lit_before,
                            Instant out_by, const Batch *but) {
    Learning *left = ARENA_NEW(arena, Learning);
    for (size_t i = 0; i < learning->all.count; i++) {
        const Evidence *evidence = &learning->all.items[i];
        const Batch *past = evidence->past;
        if (!past || (!same_batch(past, but) && past->record.lit < lit_before &&
                      past->record.out <= out_by)) {
            LIST_ADD(arena, &left->all, *evidence);
        }
    }
    return left;
}

const Learning *learning_before(Arena *arena, const Learning *learning, Instant lit_before,
                                const Batch *but) {
    return kept(arena, learning, lit_before, INT64_MAX, but);
}

const Learning *learning_over_by(Arena *arena, const Learning *learning, Instant then,
                                 const Batch *but) {
    return kept(arena, learning, then, then, but);
}

static bool tells_speed(const Evidence *evidence) {
    return evidence->speed.told == RECORD_TOLD_SPEED && !evidence->outlier;
}

/* The observations of all that still count; which[i] is the evidence of the i-th. */
static SpeedObservations observed(Arena *arena, const EvidenceList *all, Evidence **which) {
    SpeedObservations observations = {0};
    for (size_t i = 0; i < all->count; i++) {
        if (tells_speed(&all->items[i])) {
            which[observations.count] = &all->items[i];
            LIST_ADD(arena, &observations, all->items[i].observation);
        }
    }
    return observations;
}

/* Sets the most deviant aside, again and again, until all that are left go together. */
static SpeedObservations set_outliers_aside(Arena *arena, EvidenceList *all) {
    Evidence **which = ARENA_ARRAY(arena, all->count, Evidence *);
    SpeedDeviance *deviances = ARENA_ARRAY(arena, all->count, SpeedDeviance);
    for (;;) {
        SpeedObservations observations = observed(arena, all, which);
        size_t worst = 0;
        size_t first = observations.count > SPEED_OBSERVATIONS_MAX
                           ? observations.count - SPEED_OBSERVATIONS_MAX
                           : 0;
        speed_deviances(&observations, deviances);
        for (size_t i = worst = first; i < observations.count; i++) {
            worst = deviances[i].tail < deviances[worst].tail ? i : worst;
        }
        double least = quadrature_normal(-SPEED_OUTLIER_SPREADS);
        if (observations.count == 0 || deviances[worst].tail >= least) {
            return observations;
        }
        which[worst]->outlier = true;
        which[worst]->deviance = deviances[worst];
        which[worst]->others = (int)(observations.count - first) - 1;
    }
}

/* What it would have taken at a speed factor that the others make one expect, in whole quarters of
 * an hour or, of a short trial, minutes. */
static Quantity expected(Arena *arena, const Evidence *evidence, double log_factor) {
    double took_s =
        evidence->trial
            ? evidence->speed.took_s * exp(evidence->observation.log_factor - log_factor)
            : record_speed_took_s(arena, &evidence->night, &evidence->speed, exp(log_factor));
    double step_s = took_s < 2 * SECONDS_PER_HOUR ? SECONDS_PER_MINUTE : 15 * SECONDS_PER_MINUTE;
    return quantity(QUANTITY_DURATION, floor(took_s / step_s + 0.5) * step_s);
}

/* What the nights that count say of how burns hold, each at the speed it had or, where it told
 * none, at what is expected of its kind. */
static bool held_one(Arena *arena, const Evidence *evidence, const SpeedObservations *observations,
                     HoldingObservation *holding) {
    if (evidence->trial || evidence->outlier || evidence->speed.told == RECORD_TOLD_AT_ODDS) {
        return false;
    }
    *holding = evidence->holding;
    if (evidence->speed.told == RECORD_TOLD_SPEED) {
        return evidence->told_holding;
    }
    double middle = speed_factor_learnt(observations, &evidence->night.kind).middle;
    return told_holding(arena, &evidence->night, middle, holding);
}

/* From the last back, as many as count: those before need not be worked out. */
static HoldingObservations held(Arena *arena, const EvidenceList *all,
                                const SpeedObservations *observations) {
    HoldingObservation last[HOLDING_OBSERVATIONS_MAX];
    size_t from = HOLDING_OBSERVATIONS_MAX;
    for (size_t i = all->count; i > 0 && from > 0; i--) {
        from -= held_one(arena, &all->items[i - 1], observations, &last[from - 1]);
    }
    HoldingObservations nights = {0};
    for (size_t i = from; i < HOLDING_OBSERVATIONS_MAX; i++) {
        LIST_ADD(arena, &nights, last[i]);
    }
    return nights;
}

static const char *name_of(const char *file) {
    return file ? file_path_last(file) : NULL;
}

static void add_note(Arena *arena, const Evidence *evidence, const char *key,
                     LearningNotes *notes) {
    LearningNote note = {
        .key = key,
        .place = evidence->trial ? evidence->trial->place : evidence->past->record.place,
        .file = name_of(evidence->trial ? evidence->trial->place.file : evidence->past->file),
        .dust = evidence->dust ? evidence->dust->id : NULL,
        .said = no_quantity(),
        .from = no_quantity(),
        .to = no_quantity()};
    if (evidence->outlier) {
        note.said = quantity(QUANTITY_DURATION, evidence->speed.took_s);
        note.from = expected(arena, evidence, evidence->deviance.expected_high);
        note.to = expected(arena, evidence, evidence->deviance.expected_low);
        note.others = evidence->others;
    }
    LIST_ADD(arena, notes, note);
}

/* Without others it is held against what is believed before anything was measured. */
static const char *outlier_key(const Evidence *evidence) {
    if (evidence->others > 0) {
        return evidence->trial ? "trial_aside" : "night_aside";
    }
    return evidence->trial ? "trial_implausible" : "night_implausible";
}

static void add_notes(Arena *arena, const EvidenceList *all, LearningNotes *notes) {
    for (size_t i = 0; i < all->count; i++) {
        const Evidence *evidence = &all->items[i];
        if (evidence->outlier) {
            add_note(arena, evidence, outlier_key(evidence), notes);
        } else if (evidence->speed.told == RECORD_TOLD_LENGTH_UNKNOWN) {
            add_note(arena, evidence, "length_unknown", notes);
        } else if (evidence->speed.told == RECORD_TOLD_AT_ODDS) {
            add_note(arena, evidence, "at_odds", notes);
        } else if (evidence->past && evidence->past->weather.usual) {
            add_note(arena, evidence, "weather_usual", notes);
        }
    }
}

static Belief believed(Arena *arena, EvidenceList *all, const BurnKind *kind,
                       LearningNotes *notes) {
    SpeedObservations observations = set_outliers_aside(arena, all);
    if (notes) {
        add_notes(arena, all, notes);
    }
    HoldingObservations nights = held(arena, all, &observations);
    return (Belief){speed_factor_learnt(&observations, kind), holding_learnt(&nights, kind)};
}

static void copy_evidence(Arena *arena, const Learning *learning, EvidenceList *copy) {
    for (size_t i = 0; i < learning->all.count; i++) {
        LIST_ADD(arena, copy, learning->all.items[i]);
    }
}

Belief learning_of_kind(Arena *arena, const Learning *learning, const BurnKind *kind,
                        LearningNotes *notes) {
    if (learning->all.count == 0) {
        return belief_unmeasured();
    }
    EvidenceList all = {0}; /* which are set aside is marked in a copy */
    copy_evidence(arena, learning, &all);
    return believed(arena, &all, kind, notes);
}

void learning_notes(Arena *arena, const Learning *learning, LearningNotes *notes) {
    EvidenceList all = {0};
    copy_evidence(arena, learning, &all);
    set_outliers_aside(arena, &all);
    add_notes(arena, &all, notes);
}

/* The blend, found with speed factor 1, hardly depends on the speed factor: it serves to tell what
 * is alike. */
static BurnKind kind_of_batch(Arena *arena, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, batch->timing.at, SESSION_TIMES, &plan);
    return past_night_kind(&plan);
}

Belief learning_of_burn(Arena *arena, const Learning *learning, const Batch *batch,
                        LearningNotes *notes) {
    if (learning->all.count == 0) {
        return belief_unmeasured();
    }
    BurnKind kind = kind_of_batch(arena, batch);
    return learning_of_kind(arena, learning, &kind, notes);
}

/* ---- What was looked at, and what might be --------------------------------------------------- */

static const Evidence *night_at(const Learning *learning, size_t index) {
    for (size_t i = 0; i < learning->all.count; i++) {
        const Evidence *evidence = &learning->all.items[i];
        if (evidence->past && index-- == 0) {
            return evidence;
        }
    }
    return NULL;
}

size_t learning_nights(const Learning *learning) {
    size_t count = 0;
    while (night_at(learning, count)) {
        count++;
    }
    return count;
}

LearningNight learning_night(const Learning *learning, size_t index) {
    const Evidence *evidence = night_at(learning, index);
    return (LearningNight){evidence->past, evidence->night.kind};
}

size_t learning_trials(const Learning *learning) {
    return learning->all.count - learning_nights(learning);
}

const Learning *learning_with(Arena *arena, const Learning *learning, const BurnKind *kind,
                              bool trial) {
    Learning *with = ARENA_NEW(arena, Learning);
    copy_evidence(arena, learning, &with->all);
    double middle = learning_of_kind(arena, learning, kind, NULL).speed.middle;
    Evidence measured = {.speed.told = RECORD_TOLD_SPEED,
                         .observation = {.kind = *kind, .log_factor = log(middle), .trial = trial}};
    LIST_ADD(arena, &with->all, measured);
    return with;
}
