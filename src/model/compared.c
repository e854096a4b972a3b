#include "model/compared.h"

#include "model/look_ins.h"
#include "model/past_night.h"
#include "model/record_speed.h"
#include "model/timeline.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static Quantity instant(Instant at) {
    return quantity(QUANTITY_INSTANT, at ? (double)at : NOT_STATED);
}

static Quantity none_of(QuantityKind kind) {
    return quantity(kind, NOT_STATED);
}

/* ---- Differences ----------------------------------------------------------------------------- */

/* The least step in which a kind is shown. */
static double step_of(const Plan *plan, QuantityKind kind) {
    const double scale_kg = plan->workshop->scale.resolution_kg;
    switch (kind) {
    case QUANTITY_INSTANT:
    case QUANTITY_DURATION: return SECONDS_PER_MINUTE;
    case QUANTITY_MASS: return scale_kg > 0 ? scale_kg : 0.001;
    case QUANTITY_LENGTH: return 0.001;
    case QUANTITY_RATIO: return 0.01;
    default: return 1;
    }
}

/* What a difference of two such is. */
static QuantityKind kind_of_difference(QuantityKind kind) {
    return kind == QUANTITY_INSTANT       ? QUANTITY_DURATION
           : kind == QUANTITY_TEMPERATURE ? QUANTITY_KELVIN
           : kind == QUANTITY_RATIO       ? QUANTITY_SHARE
                                          : kind;
}

/* As the two figures are shown, so that the third goes with them. */
static double difference(const Plan *plan, const PlanCompared *row) {
    double step = step_of(plan, row->planned.kind);
    double planned = floor(row->planned.value / step + 0.5) * step;
    double happened = floor(row->happened.value / step + 0.5) * step;
    return row->planned.kind == QUANTITY_RATIO ? happened / planned - 1 : happened - planned;
}

static bool outside(const PlanCompared *row) {
    return row->happened.value < row->low.value || row->happened.value > row->high.value;
}

static void add(Arena *arena, Plan *plan, PlanCompared row) {
    QuantityKind kind = kind_of_difference(row.planned.kind);
    double apart = difference(plan, &row);
    double least = 1e-9;
    row.alike = fabs(apart) < least;
    row.more = quantity(kind, apart >= least ? apart : NOT_STATED);
    row.less = quantity(kind, apart <= -least ? -apart : NOT_STATED);
    row.outside = outside(&row);
    LIST_ADD(arena, &plan->compared, row);
}

static PlanCompared bare(const char *key, Quantity planned, double happened) {
    return (PlanCompared){.key = key,
                          .planned = planned,
                          .low = none_of(planned.kind),
                          .high = none_of(planned.kind),
                          .happened = quantity(planned.kind, happened)};
}

/* ---- The night's figures --------------------------------------------------------------------- */

/* When somebody first wrote that it glowed; NAN: nobody did. A later look is no later glow, so it
 * is held against nothing. */
static double glow_seen_at(const Record *record) {
    for (size_t i = 0; i < record->readings.count; i++) {
        if (record->readings.items[i].front_m > 0) {
            return (double)record->readings.items[i].at;
        }
    }
    return NOT_STATED;
}

static void add_times(Arena *arena, const Record *record, Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    bool ended = record->out > record->lit;
    add(arena, plan, bare("lit", instant(burn->light_at), (double)record->lit));
    PlanCompared glow = bare("glow", instant(burn->first_look_in_at), glow_seen_at(record));
    glow.more = glow.less = none_of(QUANTITY_DURATION);
    LIST_ADD(arena, &plan->compared, glow);
    PlanCompared out =
        bare("out", instant(burn->out_about), ended ? (double)record->out : NOT_STATED);
    out.low = instant(burn->out_early);
    out.high = instant(burn->out_late);
    add(arena, plan, out);
    double planned_s = (double)(burn->out_about - burn->light_at); /* as both are printed */
    add(arena, plan,
        bare("burn", quantity(QUANTITY_DURATION, planned_s),
             ended ? (double)(record->out - record->lit) : NOT_STATED));
}

/* What had burnt: as written, or all that was filled when it burnt to its end. */
static double burnt_m(const Record *record) {
    bool whole = record->out > record->lit && !record->went_out_early && record->filled_m > 0;
    return is_stated(record->burnt_m) ? record->burnt_m : whole ? record->filled_m : NOT_STATED;
}

static double written(double value) {
    return value > 0 ? value : NOT_STATED;
}

static void add_amounts(Arena *arena, const Batch *batch, Plan *plan) {
    const Record *record = &batch->record;
    if (plan->fills.count == 1) {
        Quantity filled = quantity(QUANTITY_LENGTH, plan->fills.items[0].filled_m);
        add(arena, plan, bare("filled", filled, written(record->filled_m)));
        add(arena, plan, bare("burnt", filled, burnt_m(record)));
    }
    double used_kg = 0;
    for (size_t i = 0; i < plan->fills.count; i++) {
        used_kg += plan->fills.items[i].wet_kg;
    }
    add(arena, plan, bare("used", quantity(QUANTITY_MASS, used_kg), written(record->used_kg)));
    PlanCompared ash = bare("ash", none_of(QUANTITY_MASS), record->ash_kg);
    add(arena, plan, ash);
}

static void add_speed(Arena *arena, const Batch *batch, Plan *plan) {
    PastNight night = past_night_of(arena, batch);
    RecordSpeed speed = record_speed(arena, &night);
    double told = speed.told == RECORD_TOLD_SPEED ? exp(speed.log_factor) : NOT_STATED;
    add(arena, plan, bare("speed_factor", quantity(QUANTITY_RATIO, plan->burn.speed_factor), told));
}

static void add_warmest(Arena *arena, Plan *plan) {
    const PlanCabinet *cabinet = &plan->cabinet;
    double planned = cabinet->stated ? cabinet->peak_temp_c : NOT_STATED;
    PlanCompared row =
        bare("warmest", quantity(QUANTITY_TEMPERATURE, planned), plan->warmth.most_c);
    add(arena, plan, row);
}

/* ---- Readings of the cabinet against the ceiling --------------------------------------------- */

static bool is_over(const Plan *plan, double temp_c) {
    return temp_c > plan->cabinet.limit_temp_c;
}

/* The spans over the ceiling, each at its shortest and at its longest. */
typedef struct Spans {
    bool over;       /* at the last reading */
    Instant last_at; /* of it; before the first when it was lit */
    double least_s, most_s;
} Spans;

static void pass_reading(Spans *spans, Instant at, bool over) {
    double since_s = (double)(at - spans->last_at);
    spans->least_s += spans->over && over ? since_s : 0;
    spans->most_s += spans->over || over ? since_s : 0;
    spans->over = over;
    spans->last_at = at;
}

static void judge_warmth(const Batch *batch, Plan *plan) {
    const Record *record = &batch->record;
    PlanWarmth warmth = {.most_c = NOT_STATED};
    Spans spans = {.last_at = record->lit};
    for (size_t i = 0; i < record->readings.count; i++) {
        const Reading *reading = &record->readings.items[i];
        if (!is_stated(reading->cabinet_temp_c)) {
            continue;
        }
        bool over = is_over(plan, reading->cabinet_temp_c);
        warmth.read++;
        warmth.over += over;
        if (!(reading->cabinet_temp_c <= warmth.most_c)) {
            warmth.most_c = reading->cabinet_temp_c;
            warmth.most_at = reading->at;
        }
        pass_reading(&spans, reading->at, over);
    }
    warmth.over_least_s = spans.least_s;
    warmth.over_most_s = spans.over ? NOT_STATED : spans.most_s;
    double before_kg = batch->product.mass_kg;
    warmth.yield = record->product_kg > 0 && before_kg > 0 ? record->product_kg / before_kg
                                                           : NOT_STATED;
    plan->warmth = warmth;
}

/* ---- Looks ----------------------------------------------------------------------------------- */

/* The index of the time nearest to `at`. */
static size_t nearest(const Instant *times, size_t count, Instant at) {
    size_t best = 0;
    for (size_t i = 1; i < count; i++) {
        best = llabs(times[i] - at) < llabs(times[best] - at) ? i : best;
    }
    return best;
}

static double planned_front_m(const Plan *plan, Instant at) {
    const PlanFill *only = &plan->fills.items[0];
    if (plan->fills.count > 1) {
        return NOT_STATED;
    }
    return at >= only->out_at ? only->filled_m : timeline_look_at(plan, at).along_m;
}

static PlanCheck read_check(const Plan *plan, const Reading *reading) {
    Instant at = reading->at;
    PlanCheck check = {
        .at = at,
        .planned_m = planned_front_m(plan, plan->burn.light_at + at - plan->happened.lit_at),
        .front_m = reading->front_m,
        .ahead_m = NOT_STATED,
        .behind_m = NOT_STATED,
        .planned_temp_c = timeline_look_at(plan, at).cabinet_temp_c,
        .cabinet_temp_c = reading->cabinet_temp_c,
        .humidity = reading->humidity,
        .over_limit = is_over(plan, reading->cabinet_temp_c),
        .remark = reading->remark};
    double apart_m = check.front_m - check.planned_m;
    double least_m = step_of(plan, QUANTITY_LENGTH) / 2;
    check.ahead_m = apart_m >= least_m ? apart_m : NOT_STATED;
    check.behind_m = apart_m <= -least_m ? -apart_m : NOT_STATED;
    return check;
}

static PlanCheck missed_check(const Plan *plan, const PlanLookIn *look_in) {
    return (PlanCheck){.planned_at = look_in->at,
                       .planned_m = planned_front_m(plan, look_in->at),
                       .front_m = NOT_STATED,
                       .ahead_m = NOT_STATED,
                       .behind_m = NOT_STATED,
                       .planned_temp_c = look_in->cabinet_temp_c,
                       .cabinet_temp_c = NOT_STATED,
                       .humidity = NOT_STATED};
}

static Instant time_of(const PlanCheck *check) {
    return check->at ? check->at : check->planned_at;
}

/* Adds it by its time. */
static void add_check(Arena *arena, Plan *plan, PlanCheck check) {
    LIST_ADD(arena, &plan->checks, check);
    PlanCheck *checks = plan->checks.items;
    size_t at = plan->checks.count - 1;
    for (; at > 0 && time_of(&checks[at - 1]) > time_of(&check); at--) {
        checks[at] = checks[at - 1];
    }
    checks[at] = check;
}

static void add_checks(Arena *arena, const Record *record, Plan *plan) {
    size_t looks = plan->look_ins.count, reads = record->readings.count;
    Instant *planned = ARENA_ARRAY(arena, looks, Instant);
    Instant *read = ARENA_ARRAY(arena, reads, Instant);
    bool *met = ARENA_ARRAY(arena, looks, bool);
    for (size_t i = 0; i < looks; i++) {
        planned[i] = plan->look_ins.items[i].at;
    }
    for (size_t i = 0; i < reads; i++) {
        read[i] = record->readings.items[i].at;
    }
    for (size_t i = 0; i < reads; i++) {
        PlanCheck check = read_check(plan, &record->readings.items[i]);
        size_t look = looks ? nearest(planned, looks, read[i]) : 0;
        if (looks && nearest(read, reads, planned[look]) == i &&
            llabs(planned[look] - read[i]) <= LOOK_INS_APART_S) {
            check.planned_at = planned[look];
            met[look] = true;
        }
        add_check(arena, plan, check);
    }
    for (size_t i = 0; i < looks; i++) {
        if (!met[i]) {
            add_check(arena, plan, missed_check(plan, &plan->look_ins.items[i]));
        }
    }
}

void compared_add(Arena *arena, const Batch *batch, Plan *plan) {
    judge_warmth(batch, plan);
    add_times(arena, &batch->record, plan);
    add_amounts(arena, batch, plan);
    add_speed(arena, batch, plan);
    add_warmest(arena, plan);
    add_checks(arena, &batch->record, plan);
}
