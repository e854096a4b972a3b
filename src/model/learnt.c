#include "model/learnt.h"

#include "model/as_planned.h"
#include "model/fire_constants.h"
#include "model/learning.h"
#include "model/past_night.h"
#include "model/plan.h"
#include "model/quadrature.h"
#include "model/speed_constants.h"
#include "model/survival.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What is easily timed on a kitchen table (judgement). */
static const double STRETCH_M = 0.1;
/* So many measurements are named: more would not be read. */
enum { STEPS_MOST = 3 };

/* A kind of burn that was seen. */
typedef struct Seen {
    BurnKind kind;
    const Batch *latest; /* NULL: a dust alone */
    int nights, lasted;
} Seen;

typedef LIST_OF(Seen) SeenList;

typedef struct Work {
    Arena *arena;
    const Workshop *workshop;
    const Learning *before, *now;
    SeenList dusts, blends;
} Work;

/* ---- What was seen --------------------------------------------------------------------------- */

static Seen *seen_of(Arena *arena, SeenList *list, const BurnKind *kind) {
    for (size_t i = 0; i < list->count; i++)
        if (kind_same(&list->items[i].kind, kind))
            return &list->items[i];
    LIST_ADD(arena, list, (Seen){.kind = *kind});
    return &list->items[list->count - 1];
}

static bool lasted(const Record *record) {
    return !record->went_out_early && record->relit.count == 0;
}

static void count_night(Seen *seen, const Batch *batch) {
    seen->nights++;
    seen->lasted += lasted(&batch->record);
}

static void see_night(Work *work, const LearningNight *night) {
    Seen *blend = seen_of(work->arena, &work->blends, &night->kind);
    count_night(blend, night->batch);
    if (!blend->latest || night->batch->record.lit > blend->latest->record.lit)
        blend->latest = night->batch;
    for (int i = 0; i < night->kind.count; i++) {
        BurnKind alone = past_night_kind_of_dust(night->kind.dusts[i], night->kind.tray);
        count_night(seen_of(work->arena, &work->dusts, &alone), night->batch);
    }
}

static const Tray *tray_of_trial(const Workshop *workshop, const Trial *trial) {
    for (size_t i = 0; trial->tray_id && i < workshop->trays.count; i++)
        if (!strcmp(workshop->trays.items[i].id, trial->tray_id))
            return &workshop->trays.items[i];
    return NULL;
}

static void see_trials(Work *work) {
    for (size_t i = 0; i < work->workshop->dusts.count; i++) {
        const Dust *dust = &work->workshop->dusts.items[i];
        for (size_t j = 0; j < dust->trials.count; j++) {
            const Tray *tray = tray_of_trial(work->workshop, &dust->trials.items[j]);
            BurnKind alone = past_night_kind_of_dust(dust, tray);
            if (tray)
                seen_of(work->arena, &work->dusts, &alone);
        }
    }
}

/* ---- Before and now -------------------------------------------------------------------------- */

/* `model_mps`: the model's speed, which the speed factor is held against. */
static LearntState state_of(const SpeedFactor *speed, double model_mps) {
    LearntState state = {.speed_factor = speed->middle,
                         .slow = speed_factor_at(speed, SPEED_EARLY_CHANCE),
                         .fast = speed_factor_at(speed, SPEED_LATE_CHANCE)};
    state.took_s = STRETCH_M / (model_mps * state.speed_factor);
    state.took_long_s = STRETCH_M / (model_mps * state.slow);
    state.took_short_s = STRETCH_M / (model_mps * state.fast);
    return state;
}

static void say_chance(LearntState *state, double chance, int nights) {
    ChanceSaid said = survival_said(chance, nights);
    state->chance = chance;
    state->chance_said_in = said.in;
    state->chance_said_of = said.of;
}

/* The model's speed of a dust alone in a tray, as of a trial that was just like it. */
static double dust_speed_mps(const Workshop *workshop, const BurnKind *kind) {
    Trial trial = {.length_m = STRETCH_M,
                   .took_s = 1,
                   .tray_id = kind->tray->id,
                   .moisture = NOT_STATED,
                   .temp_c = NOT_STATED};
    SpeedObservation observation;
    learning_of_trial(workshop, kind->dusts[0], &trial, &observation);
    return STRETCH_M / exp(observation.log_factor);
}

static LearntState dust_state(Work *work, const Learning *learning, const BurnKind *kind) {
    Belief belief = learning_of_kind(work->arena, learning, kind, NULL);
    const Holding *holding = &belief.holding;
    LearntState state = state_of(&belief.speed, dust_speed_mps(work->workshop, kind));
    double spread = hypot(holding->common_spread, holding->burn_spread);
    double chance = quadrature_normal((log(FIRE_MARGIN_GOOD) + holding->log_mean) / spread);
    say_chance(&state, chance, holding->nights);
    return state;
}

static LearntState blend_state(Work *work, const Learning *learning, const Seen *seen) {
    const Batch *batch = as_planned_batch(work->arena, seen->latest);
    const Plan *plan = plan_make_with_learning(work->arena, batch, learning);
    SpeedFactor speed = learning_of_kind(work->arena, learning, &seen->kind, NULL).speed;
    LearntState state = state_of(&speed, plan->burn.speed_mps / plan->burn.speed_factor);
    say_chance(&state, plan->burn.chance, plan->burn.nights);
    return state;
}

static LearntRow row_of(const Seen *seen, const char *fuel) {
    return (LearntRow){.tray = seen->kind.tray->name,
                       .fuel = fuel,
                       .nights = seen->nights,
                       .lasted = seen->lasted};
}

static void add_dusts(Work *work, Learnt *learnt) {
    for (size_t i = 0; i < work->dusts.count; i++) {
        const Seen *seen = &work->dusts.items[i];
        LearntRow row = row_of(seen, seen->kind.dusts[0]->name);
        row.before = dust_state(work, work->before, &seen->kind);
        row.now = dust_state(work, work->now, &seen->kind);
        LIST_ADD(work->arena, &learnt->dusts, row);
    }
}

static void add_blends(Work *work, Learnt *learnt) {
    for (size_t i = 0; i < work->blends.count; i++) {
        const Seen *seen = &work->blends.items[i];
        LearntRow row = row_of(seen, seen->latest->blend.name);
        row.example = seen->latest->file;
        row.before = blend_state(work, work->before, seen);
        row.now = blend_state(work, work->now, seen);
        LIST_ADD(work->arena, &learnt->blends, row);
    }
}

/* ---- What to measure next -------------------------------------------------------------------- */

/* To what share the end of a burn is known, 80 %: half of its band, on the logarithm. */
static double off_of(const SpeedFactor *speed) {
    return exp(log(speed_factor_at(speed, SPEED_LATE_CHANCE) /
                   speed_factor_at(speed, SPEED_EARLY_CHANCE)) /
               2) -
           1;
}

/* The mean over the nights that were burnt. */
static double mean_off(Work *work, const Learning *learning) {
    double sum = 0;
    int nights = 0;
    for (size_t i = 0; i < work->blends.count; i++) {
        const Seen *seen = &work->blends.items[i];
        SpeedFactor speed = learning_of_kind(work->arena, learning, &seen->kind, NULL).speed;
        sum += seen->nights * off_of(&speed);
        nights += seen->nights;
    }
    return sum / nights;
}

/* Of equal ones a trial comes first, which takes an hour and not a night. */
static int by_off(const void *a, const void *b) {
    const LearntStep *first = a, *second = b;
    if (first->off_then != second->off_then)
        return first->off_then < second->off_then ? -1 : 1;
    if (first->trial != second->trial)
        return first->trial ? -1 : 1;
    int fuels = strcmp(first->fuel, second->fuel);
    return fuels ? fuels : strcmp(first->tray, second->tray);
}

static void add_step(Work *work, Learnt *learnt, const Seen *seen, bool trial, double off_now) {
    const Learning *with = learning_with(work->arena, work->now, &seen->kind, trial);
    LearntStep step = {.trial = trial,
                       .tray = seen->kind.tray->name,
                       .fuel = trial ? seen->kind.dusts[0]->name : seen->latest->blend.name,
                       .off_now = off_now,
                       .off_then = mean_off(work, with)};
    LIST_ADD(work->arena, &learnt->steps, step);
}

static void add_steps(Work *work, Learnt *learnt) {
    if (work->blends.count == 0)
        return;
    double off_now = mean_off(work, work->now);
    for (size_t i = 0; i < work->dusts.count; i++)
        add_step(work, learnt, &work->dusts.items[i], true, off_now);
    for (size_t i = 0; i < work->blends.count; i++)
        add_step(work, learnt, &work->blends.items[i], false, off_now);
    qsort(learnt->steps.items, learnt->steps.count, sizeof *learnt->steps.items, by_off);
    if (learnt->steps.count > STEPS_MOST)
        learnt->steps.count = STEPS_MOST;
}

static bool named(const Learnt *learnt, const char *name) {
    for (size_t i = 0; i < learnt->assumed.count; i++)
        if (!strcmp(learnt->assumed.items[i], name))
            return true;
    return false;
}

static void add_assumed(Work *work, Learnt *learnt) {
    for (size_t i = 0; i < work->dusts.count; i++) {
        const Dust *dust = work->dusts.items[i].kind.dusts[0];
        if (!is_stated(dust->moisture) && !named(learnt, dust->name))
            LIST_ADD(work->arena, &learnt->assumed, dust->name);
    }
}

Learnt learnt_from(Arena *arena, const Workshop *workshop, const Batch *const *past, size_t count) {
    Work work = {.arena = arena, .workshop = workshop};
    work.now = learning_of(arena, workshop, past, count);
    work.before = learning_before(arena, work.now, INT64_MIN, NULL);
    Learnt learnt = {.workshop = workshop->name,
                     .stretch_m = STRETCH_M,
                     .margin = FIRE_MARGIN_GOOD,
                     .nights = (int)learning_nights(work.now),
                     .trials = (int)learning_trials(work.now)};
    for (size_t i = 0; i < learning_nights(work.now); i++) {
        LearningNight night = learning_night(work.now, i);
        see_night(&work, &night);
    }
    see_trials(&work);
    add_dusts(&work, &learnt);
    add_blends(&work, &learnt);
    add_steps(&work, &learnt);
    add_assumed(&work, &learnt);
    if (work.blends.count > 0)
        learning_of_kind(arena, work.now, &work.blends.items[0].kind, &learnt.aside);
    return learnt;
}
