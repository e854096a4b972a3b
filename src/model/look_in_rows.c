/* Looks, decisions and dark hours of the timeline. Times: common practice, no source. */
#include "model/absence.h"
#include "model/dark.h"
#include "model/look_ins.h"
#include "model/timeline.h"

#include "model/tray.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

enum {
    HALF_HOUR_S = 30 * SECONDS_PER_MINUTE,
    TIMES_MOST = 96, /* so many times are weighed against each other */
    LOOK_AGAIN_S = 10 * SECONDS_PER_MINUTE,
    APART_S = 15 * SECONDS_PER_MINUTE,    /* nearer looks are one */
    END_APART_S = 5 * SECONDS_PER_MINUTE, /* the burn's end has a look of its own */
};

/* The sample nearest to the instant; NULL: there are none. */
static const PlanSample *sample_near(const Plan *plan, Instant at) {
    const PlanSample *nearest = NULL;
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        if (!nearest || llabs(sample->at - at) < llabs(nearest->at - at)) {
            nearest = sample;
        }
    }
    return nearest;
}

/* The two samples of one fill around the instant, and how far between them; false: none. */
static bool samples_around(const Plan *plan, Instant at, size_t *before, double *part) {
    for (size_t i = 1; i < plan->samples.count; i++) {
        const PlanSample *from = &plan->samples.items[i - 1];
        const PlanSample *to = &plan->samples.items[i];
        if (from->at <= at && at <= to->at && from->at < to->at && from->fill == to->fill) {
            *before = i - 1;
            *part = (double)(at - from->at) / (double)(to->at - from->at);
            return true;
        }
    }
    return false;
}

/* Where the front of a fill is when so much of its burn is over as of another burn of it, that ends
 * at `out_at`, at the time `at`: a faster or slower front takes the same way. */
static double along_at_factor(const Plan *plan, const PlanFill *fill, Instant at, Instant out_at) {
    double length_s = (double)(fill->out_at - fill->light_at);
    double other_s = (double)(out_at - fill->light_at);
    if (other_s <= 0 || at >= out_at) {
        return fill->both_ends ? NOT_STATED : fill->filled_m;
    }
    size_t before = 0;
    double part = 0;
    Instant then = fill->light_at + (Instant)((double)(at - fill->light_at) * length_s / other_s);
    if (!samples_around(plan, then, &before, &part)) {
        return NOT_STATED;
    }
    const PlanSample *from = &plan->samples.items[before];
    return from->along_m + part * (from[1].along_m - from->along_m);
}

PlanLookIn timeline_look_at(const Plan *plan, Instant at) {
    PlanLookIn look_in = {.at = at,
                          .second_m = NOT_STATED,
                          .early_m = NOT_STATED,
                          .late_m = NOT_STATED,
                          .cabinet_temp_c = NOT_STATED};
    const PlanSample *near = sample_near(plan, at);
    if (!near) {
        return look_in;
    }
    size_t before = 0;
    double part = 0;
    look_in.fill = near->fill;
    look_in.along_m = near->along_m;
    look_in.second_m = near->second_m;
    look_in.cabinet_temp_c = near->cabinet_temp_c;
    if (samples_around(plan, at, &before, &part)) {
        const PlanSample *from = &plan->samples.items[before];
        look_in.fill = from->fill;
        look_in.along_m = from->along_m + part * (from[1].along_m - from->along_m);
        look_in.second_m = from->second_m + part * (from[1].second_m - from->second_m);
        look_in.cabinet_temp_c = from->cabinet_temp_c +
                                 part * (from[1].cabinet_temp_c - from->cabinet_temp_c);
    }
    if (look_in.fill > 0 && (size_t)look_in.fill <= plan->fills.count) {
        const PlanFill *fill = &plan->fills.items[look_in.fill - 1];
        look_in.lane = tray_lane_at(fill->tray, look_in.along_m, &look_in.in_lane);
        look_in.early_m = along_at_factor(plan, fill, at, fill->out_early);
        look_in.late_m = along_at_factor(plan, fill, at, fill->out_late);
    }
    return look_in;
}

/* The nearer end of the hours when nobody is there, if the instant lies in them; their later end
 * if they begin about when the tray is lit. */
static Instant when_somebody_is_there(const Batch *batch, const PlanBurn *burn, Instant at) {
    Away span;
    if (!absence_at(batch, at, &span)) {
        return at;
    }
    bool left_at_once = span.from < burn->light_at + APART_S;
    return !left_at_once && at - span.from <= span.to - at ? span.from : span.to;
}

static void add_look_in(Arena *arena, Plan *plan, Instant at, bool moved) {
    PlanLookIn look_in = timeline_look_at(plan, at);
    look_in.away = moved;
    look_in.after_end = at > plan->burn.out_about;
    LIST_ADD(arena, &plan->look_ins, look_in);
}

/* Adds a time in its order; one that is near enough already stands for both. */
static void add_time(Arena *arena, LookInTimes *times, LookInTime time, Instant apart) {
    for (size_t i = 0; i < times->count; i++) {
        if (llabs(times->items[i].at - time.at) < apart) {
            return;
        }
    }
    LIST_ADD(arena, times, time);
    LookInTime *items = times->items;
    for (size_t i = times->count - 1; i > 0 && items[i].at < items[i - 1].at; i--) {
        LookInTime later = items[i - 1];
        items[i - 1] = items[i];
        items[i] = later;
    }
}

/* Twenty minutes after each lighting, and when it should be out; moved where nobody is there. */
static LookInTimes sure_times(Arena *arena, const Batch *batch, const Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    LookInTimes times = {0};
    for (size_t i = 0; i < plan->fills.count || i == 0; i++) {
        Instant lit = i < plan->fills.count ? plan->fills.items[i].light_at : burn->light_at;
        Instant at = when_somebody_is_there(batch, burn, lit + LOOK_INS_FIRST_S);
        if (lit + LOOK_INS_FIRST_S < burn->out_at) {
            add_time(arena, &times, (LookInTime){at, true}, APART_S);
        }
    }
    Instant out = absence_back(batch, burn->out_about);
    add_time(arena, &times, (LookInTime){out, true}, END_APART_S);
    return times;
}

/* The first multiple of so many seconds on the wall clock after an instant. */
static Instant next_on_clock(const Zone *zone, Instant after, Instant apart) {
    Instant local = after + (zone ? zone_offset(zone, after) : 0);
    return after + apart - ((local % apart) + apart) % apart;
}

/* Whole and half hours; of a burn of days whole multiples, so that a plan stays quick. */
static Instant raster_s(Instant length_s) {
    return HALF_HOUR_S * (1 + length_s / (TIMES_MOST * (Instant)HALF_HOUR_S));
}

/* The sure times with all whole and half hours between, when somebody is there, and at the end the
 * time when the slowest front is seen. */
static LookInTimes all_times(Arena *arena, const Batch *batch, const Plan *plan,
                             const LookInTimes *sure) {
    const PlanBurn *burn = &plan->burn;
    LookInTimes times = {0};
    for (size_t i = 0; i < sure->count; i++) {
        LIST_ADD(arena, &times, sure->items[i]);
    }
    Instant end =
        absence_back(batch, burn->out_late > burn->out_at ? burn->out_late : burn->out_at);
    Instant last = sure->items[sure->count - 1].at;
    end = end > last ? end : last;
    const Zone *zone = plan->workshop->zone;
    Instant step = raster_s(end - burn->light_at);
    for (Instant at = next_on_clock(zone, burn->light_at, step); at < end;
         at = next_on_clock(zone, at, step)) {
        if (!timeline_away_at(batch, at)) {
            add_time(arena, &times, (LookInTime){at, false}, LOOK_INS_APART_S);
        }
    }
    if (end > last) {
        LIST_ADD(arena, &times, ((LookInTime){end, true}));
    }
    return times;
}

/* Whether a tray was lit from then on and before the other: whoever did it has seen the smoker. */
static bool lit_between(const Plan *plan, Instant from, Instant before) {
    for (size_t i = 0; i < plan->fills.count; i++) {
        if (plan->fills.items[i].light_at >= from && plan->fills.items[i].light_at < before) {
            return true;
        }
    }
    return false;
}

/* Marks the last look before, and the first after, each span in which nobody is there. */
static void mark_absences(const Batch *batch, Plan *plan) {
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        Away span = absence_whole(batch, batch->timing.away.items[i]);
        PlanLookIn *before = NULL;
        PlanLookIn *after = NULL;
        for (size_t k = 0; k < plan->look_ins.count; k++) {
            PlanLookIn *look_in = &plan->look_ins.items[k];
            before = look_in->at <= span.from ? look_in : before;
            after = look_in->at >= span.to && !after ? look_in : after;
        }
        bool within_burn = span.from < plan->burn.out_at && span.to > plan->burn.light_at;
        if (within_burn && before) {
            before->alone_from = span.from;
            before->alone_until = span.to;
        }
        if (within_burn && after && !lit_between(plan, span.to, after->at)) {
            after->alone_since = span.from;
        }
    }
}

/* The last look before it most likely goes out, or the first. */
static void mark_worst(Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    if (!burn->likely_out_at || plan->look_ins.count == 0) {
        return;
    }
    PlanLookIn *worst = &plan->look_ins.items[0];
    for (size_t i = 1; i < plan->look_ins.count; i++) {
        PlanLookIn *look_in = &plan->look_ins.items[i];
        worst = look_in->at <= burn->likely_out_at ? look_in : worst;
    }
    worst->worst = true;
}

/* A look that had to move says so: it stands at an end of hours when nobody is there. */
static bool moved(const Plan *plan, Instant at) {
    if (at == plan->burn.out_about) {
        return false;
    }
    for (size_t i = 0; i < plan->fills.count; i++) {
        if (at == plan->fills.items[i].light_at + LOOK_INS_FIRST_S) {
            return false;
        }
    }
    return true;
}

void timeline_add_look_ins(Arena *arena, const Batch *batch, Plan *plan) {
    LookInTimes sure = sure_times(arena, batch, plan);
    LookInTimes times = all_times(arena, batch, plan, &sure);
    const bool *chosen = look_ins_choose(arena, plan, &times, batch->timing.look_ins);
    Instant last = sure.items[sure.count - 1].at;
    for (size_t i = 0; i < times.count; i++) {
        const LookInTime *time = &times.items[i];
        if (chosen[i] || (time->sure && time->at <= last)) {
            add_look_in(arena, plan, time->at, time->sure && moved(plan, time->at));
        }
    }
    mark_worst(plan);
    mark_absences(batch, plan);
}

static void add_decision(Arena *arena, Plan *plan, const char *key, Quantity limit,
                         Quantity second) {
    Decision decision = {key, limit, second};
    LIST_ADD(arena, &plan->decisions, decision);
}

void timeline_add_decisions(Arena *arena, Plan *plan) {
    Quantity none = no_quantity();
    add_decision(arena, plan, "alarm", none, none);
    add_decision(arena, plan, "flames", none, none);
    add_decision(arena, plan, "cold", quantity(QUANTITY_DURATION, LOOK_AGAIN_S), none);
    add_decision(arena, plan, "out", none, none);
    add_decision(arena, plan, "again", none, none);
    if (plan->cabinet.stated && is_stated(plan->cabinet.limit_temp_c)) {
        add_decision(arena, plan, "warm",
                     quantity(QUANTITY_TEMPERATURE, plan->cabinet.caution_temp_c),
                     quantity(QUANTITY_TEMPERATURE, plan->cabinet.limit_temp_c));
    }
    add_decision(arena, plan, "late", none,
                 quantity(QUANTITY_INSTANT, (double)plan->burn.out_late));
    add_decision(arena, plan, "acrid", none, none);
}

const char *const *timeline_decision_keys(size_t *count) {
    static const char *const keys[] = {
        "alarm", "flames", "cold", "out", "again", "warm", "late", "acrid",
    };
    *count = sizeof keys / sizeof *keys;
    return keys;
}

static Instant at_hour(const Zone *zone, int64_t day, int hour) {
    CivilTime civil = {date_from_days(day), hour, 0, 0};
    return zone_instant(zone, civil, ZONE_EARLIER);
}

void timeline_add_nights(Arena *arena, Plan *plan) {
    const Zone *zone = plan->workshop->zone;
    const PlanBurn *burn = &plan->burn;
    Instant end = burn->out_late > burn->out_at ? burn->out_late : burn->out_at;
    int64_t first = date_to_days(zone_civil(zone, burn->light_at).date) - 1;
    int64_t last = date_to_days(zone_civil(zone, end).date);
    for (int64_t day = first; day <= last; day++) {
        Instant from = at_hour(zone, day, DARK_FROM_HOUR);
        Instant to = at_hour(zone, day + 1, DARK_TO_HOUR);
        from = from > burn->light_at ? from : burn->light_at;
        to = to < end ? to : end;
        if (from < to) {
            LIST_ADD(arena, &plan->nights, (Away){.from = from, .to = to});
        }
    }
}
