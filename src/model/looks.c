/* Looks, decisions and dark hours of the timeline. Times: common practice, no source. */
#include "model/dark.h"
#include "model/timeline.h"

#include "model/tray.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

enum {
    MINUTE_S = 60,
    FIRST_LOOK_S = 20 * MINUTE_S,
    BEFORE_WORST_S = 30 * MINUTE_S,
    BEFORE_NEXT_S = 15 * MINUTE_S,
    LOOK_AGAIN_S = 10 * MINUTE_S,
    APART_S = 15 * MINUTE_S,    /* nearer looks are one */
    END_APART_S = 5 * MINUTE_S, /* the burn's end has a look of its own */
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

static PlanLook look_at(const Plan *plan, Instant at) {
    PlanLook look = {.at = at, .cabinet_temp_c = NOT_STATED};
    const PlanSample *near = sample_near(plan, at);
    if (!near) {
        return look;
    }
    size_t before = 0;
    double part = 0;
    look.fill = near->fill;
    look.along_m = near->along_m;
    look.cabinet_temp_c = near->cabinet_temp_c;
    if (samples_around(plan, at, &before, &part)) {
        const PlanSample *from = &plan->samples.items[before];
        look.fill = from->fill;
        look.along_m = from->along_m + part * (from[1].along_m - from->along_m);
        look.cabinet_temp_c = from->cabinet_temp_c +
                              part * (from[1].cabinet_temp_c - from->cabinet_temp_c);
    }
    if (look.fill > 0 && (size_t)look.fill <= plan->fills.count) {
        const PlanFill *fill = &plan->fills.items[look.fill - 1];
        look.lane = tray_lane_at(fill->tray, look.along_m, &look.in_lane);
    }
    return look;
}

/* The span of absence around the instant, with all that overlap it. */
static Away whole_absence(const Batch *batch, Away span) {
    size_t count = batch->timing.away.count;
    for (size_t turn = 0; turn < count; turn++) {
        for (size_t i = 0; i < count; i++) {
            const Away *other = &batch->timing.away.items[i];
            if (other->from <= span.to && span.from <= other->to) {
                span.from = other->from < span.from ? other->from : span.from;
                span.to = other->to > span.to ? other->to : span.to;
            }
        }
    }
    return span;
}

/* The nearer end of the hours when nobody is there, if the instant lies in them; their later end
 * if they begin about when the tray is lit. */
static Instant when_somebody_is_there(const Batch *batch, const PlanBurn *burn, Instant at) {
    const Away *away = timeline_away_at(batch, at);
    if (!away) {
        return at;
    }
    Away span = whole_absence(batch, *away);
    bool left_at_once = span.from < burn->light_at + APART_S;
    return !left_at_once && at - span.from <= span.to - at ? span.from : span.to;
}

/* Adds a look in the order of time; one that is near enough already stands for both. A look that
 * had to move may fall behind the burn's end: then it tells whether all is out. */
static void add_look(Arena *arena, const Batch *batch, Plan *plan, Instant wanted, bool worst) {
    Instant apart = wanted == plan->burn.out_at ? END_APART_S : APART_S;
    if (wanted <= plan->burn.light_at || wanted > plan->burn.out_at) {
        return;
    }
    Instant at = when_somebody_is_there(batch, &plan->burn, wanted);
    for (size_t i = 0; i < plan->looks.count; i++) {
        PlanLook *look = &plan->looks.items[i];
        if (llabs(look->at - at) < apart) {
            look->worst = look->worst || worst;
            look->away = look->away || at != wanted;
            return;
        }
    }
    PlanLook look = look_at(plan, at);
    look.worst = worst;
    look.away = at != wanted;
    LIST_ADD(arena, &plan->looks, look);
    PlanLook *looks = plan->looks.items;
    for (size_t i = plan->looks.count - 1; i > 0 && looks[i].at < looks[i - 1].at; i--) {
        PlanLook later = looks[i - 1];
        looks[i - 1] = looks[i];
        looks[i] = later;
    }
}

/* Marks the last look before, and the first after, each span in which nobody is there. */
static void mark_absences(const Batch *batch, Plan *plan) {
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        Away span = whole_absence(batch, batch->timing.away.items[i]);
        PlanLook *before = NULL;
        PlanLook *after = NULL;
        for (size_t k = 0; k < plan->looks.count; k++) {
            PlanLook *look = &plan->looks.items[k];
            before = look->at <= span.from ? look : before;
            after = look->at >= span.to && !after ? look : after;
        }
        bool within_burn = span.from < plan->burn.out_at && span.to > plan->burn.light_at;
        if (within_burn && before) {
            before->alone_from = span.from;
            before->alone_until = span.to;
        }
        if (within_burn && after) {
            after->alone_since = span.from;
        }
    }
}

static Instant whole_minutes(double at) {
    return (Instant)floor(at / MINUTE_S + 0.5) * MINUTE_S;
}

/* Half an hour before the margin is least, or at the first look if it is least at once. */
static Instant worst_look(const PlanBurn *burn) {
    Instant at = burn->margin_least_at - BEFORE_WORST_S;
    Instant first = burn->light_at + FIRST_LOOK_S;
    return at < first ? first : whole_minutes((double)at);
}

void timeline_add_looks(Arena *arena, const Batch *batch, Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    double length_s = (double)(burn->out_at - burn->light_at);
    add_look(arena, batch, plan, burn->light_at + FIRST_LOOK_S, false);
    if (burn->margin_least_at) {
        add_look(arena, batch, plan, worst_look(burn), true);
    }
    for (size_t i = 1; i < plan->fills.count; i++) {
        Instant lit = plan->fills.items[i].light_at;
        add_look(arena, batch, plan, whole_minutes((double)(lit - BEFORE_NEXT_S)), false);
        add_look(arena, batch, plan, whole_minutes((double)(lit + FIRST_LOOK_S)), false);
    }
    for (int quarter = 1; quarter <= 3; quarter++) {
        double at = (double)burn->light_at + length_s * quarter / 4;
        add_look(arena, batch, plan, whole_minutes(at), false);
    }
    add_look(arena, batch, plan, burn->out_at, false);
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
