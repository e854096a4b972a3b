#include "model/learning.h"

#include "model/blend.h"
#include "model/bounds.h"
#include "model/front.h"
#include "model/pace_constants.h"
#include "model/session.h"
#include "model/wood.h"

#include <math.h>
#include <string.h>

/* Moisture assumed of trial dust that states none: in balance with a dry room (judgement). */
static const double TRIAL_ROOM_C = 15;
static const double TRIAL_ROOM_HUMIDITY = 0.6;

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

static PaceKind kind_of_dust(const Dust *dust, const Tray *tray) {
    return (PaceKind){.tray = tray, .count = 1, .dusts = {dust}, .dry_shares = {1}};
}

static void add_trial(Arena *arena, const Workshop *workshop, const Dust *dust, const Trial *trial,
                      PaceObservations *observations) {
    if (!(trial->length_m > 0) || !(trial->took_s > 0)) {
        return;
    }
    const Tray *tray = tray_named(workshop, trial->tray_id);
    double room = wood_equilibrium_moisture(TRIAL_ROOM_C, TRIAL_ROOM_HUMIDITY);
    DustFigures figures = blend_dust(dust, room);
    double moisture = isnan(trial->moisture) ? figures.moisture : trial->moisture;
    double temp_c = isnan(trial->temp_c) ? TRIAL_ROOM_C : trial->temp_c;
    Bed bed = trial_bed(&figures, tray);
    double expected_mps = front_speed_mps(&bed, 1, moisture, temp_c);
    double log_pace = log(trial->length_m / trial->took_s / expected_mps);
    LIST_ADD(arena, observations, ((PaceObservation){kind_of_dust(dust, tray), log_pace, true}));
}

void learning_add_trials(Arena *arena, const Workshop *workshop, PaceObservations *observations) {
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        for (size_t j = 0; j < dust->trials.count; j++) {
            add_trial(arena, workshop, dust, &dust->trials.items[j], observations);
        }
    }
}

/* What the burn of a plan is made of: its first tray and its blend. */
static PaceKind kind_of_plan(const Plan *plan) {
    PaceKind kind = {.tray = plan->fills.items[0].tray};
    for (size_t i = 0; i < plan->blend.parts.count && i < PACE_DUSTS_MAX; i++) {
        kind.dusts[i] = plan->blend.parts.items[i].dust;
        kind.dry_shares[i] = plan->blend.parts.items[i].dry_share;
        kind.count++;
    }
    return kind;
}

/* The length that the record says was burnt, of the first fill; NAN: everything. */
static double burnt_m(const Record *record) {
    return record->burnt_m > 0 ? record->burnt_m : NOT_STATED;
}

/* Time in a plan at which so much of its only fill has burnt: straight between samples. */
static double time_to_s(const Plan *plan, double burnt_m) {
    const PlanFill *first = &plan->fills.items[0];
    double along_m = burnt_m / (first->both_ends ? 2 : 1);
    const PlanSample *before = &plan->samples.items[0];
    for (size_t i = 1; i < plan->samples.count; i++) {
        const PlanSample *after = &plan->samples.items[i];
        if (after->along_m >= along_m) {
            double share = (along_m - before->along_m) / (after->along_m - before->along_m);
            return (double)(before->at - plan->burn.light_at) +
                   share * (double)(after->at - before->at);
        }
        before = after;
    }
    return plan->burn.smoking_s;
}

/* Burn time by the model at a pace, as far as the record went; *plan is that burn. */
static double time_at_pace_s(Arena *arena, const Batch *past, double pace, Plan *plan) {
    double burnt = burnt_m(&past->record);
    Belief tried = belief_unmeasured();
    tried.speed.pace = pace;
    memset(plan, 0, sizeof *plan);
    session_work_out(arena, past, &tried, past->record.lit,
                     isnan(burnt) ? SESSION_FIGURES : SESSION_WHOLE, plan);
    return isnan(burnt) ? plan->burn.duration_s : time_to_s(plan, burnt);
}

/* The pace at which the model's burn takes as long as the recorded one. A slower front finds damper
 * dust, so that time falls a little faster than the pace rises: a few corrections settle it. */
static double matching_log_pace(Arena *arena, const Batch *past, double took_s) {
    Plan plan;
    double log_pace = 0;
    for (int turn = 0; turn < 12; turn++) {
        double off = log(time_at_pace_s(arena, past, exp(log_pace), &plan) / took_s);
        log_pace = within(log_pace + 0.8 * off, log(PACE_LEAST), log(PACE_MOST));
        if (fabs(off) < 1e-4) {
            break;
        }
    }
    return log_pace;
}

/* A record that tells a speed: lit and out, no dead time between, and where it ended. */
static bool tells_speed(const Record *record, size_t fills) {
    bool ended = !record->went_out_early || (record->burnt_m > 0 && fills == 1);
    bool whole = isnan(record->burnt_m) || (record->burnt_m > 0 && fills == 1);
    return record->stated && record->lit != 0 && record->out > record->lit &&
           record->relit.count == 0 && ended && whole;
}

bool learning_add_record(Arena *arena, const Batch *past, PaceObservations *observations) {
    Plan plan;
    const Record *record = &past->record;
    if (!record->stated || record->lit == 0) {
        return false;
    }
    time_at_pace_s(arena, past, 1, &plan);
    if (!tells_speed(record, plan.fills.count)) {
        return false;
    }
    const Batch *fixed = session_with_blend_fixed(arena, past, &plan);
    double log_pace = matching_log_pace(arena, fixed, (double)(record->out - record->lit));
    LIST_ADD(arena, observations, ((PaceObservation){kind_of_plan(&plan), log_pace, false}));
    return true;
}

static bool any_trial(const Workshop *workshop) {
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        if (workshop->dusts.items[i].trials.count > 0) {
            return true;
        }
    }
    return false;
}

Belief learning_belief(Arena *arena, const Batch *batch, const Batch *const *past, size_t count) {
    if (count == 0 && !any_trial(batch->workshop)) {
        return belief_unmeasured();
    }
    PaceObservations observations = {0};
    learning_add_trials(arena, batch->workshop, &observations);
    for (size_t i = 0; i < count; i++) {
        if (past[i] != batch) {
            learning_add_record(arena, past[i], &observations);
        }
    }
    /* The blend, found with pace 1, hardly depends on the pace: it serves to tell what is alike. */
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, batch->timing.at, SESSION_FIGURES, &plan);
    PaceKind kind = kind_of_plan(&plan);
    return (Belief){pace_learnt(&observations, &kind), holding_unmeasured()};
}

Pace learning_dust_pace(const PaceObservations *observations, const Dust *dust) {
    PaceKind kind = kind_of_dust(dust, NULL);
    return pace_learnt(observations, &kind);
}
