#include "model/window.h"

#include "model/absence.h"
#include "model/finish.h"
#include "model/judge.h"

#include <string.h>

enum {
    FIRST_STEP_S = 15 * SECONDS_PER_MINUTE,
    LAST_STEP_S = 2 * SECONDS_PER_HOUR,
    HOURS_MOST = 200
};

/* Lighting where nothing is said of sleep: from nine in the morning, for what comes before may take
 * three hours, to eleven in the evening. */
static const int WAKING_FROM_H = 9;
static const int WAKING_TO_H = 23;

/* The next best hour is another day's, and so far off at least. Judgement. */
static const Instant NEXT_APART_S = 6 * SECONDS_PER_HOUR;

/* Steps that divide the hour, or are whole ones, so that no odd times come of it. */
static Instant step_of(const Timing *timing) {
    Instant step = FIRST_STEP_S;
    while ((timing->to - timing->at) / step > HOURS_MOST && step < LAST_STEP_S) {
        step *= 2;
    }
    return step;
}

/* What comes before lighting wants somebody there as well; a fish is dried for three hours. */
static const Instant BEFORE_S = 3 * SECONDS_PER_HOUR;

static bool several_days(const Timing *timing) {
    return timing->to - timing->at > SECONDS_PER_DAY;
}

static bool asleep_at(const Batch *batch, Instant at) {
    if (batch->workshop->sleep.stated || !several_days(&batch->timing)) {
        return false;
    }
    CivilTime clock = zone_civil(batch->workshop->zone, at);
    int minutes = clock.hour * 60 + clock.minute;
    return minutes < WAKING_FROM_H * 60 || minutes > WAKING_TO_H * 60;
}

/* The next hour of the window from `at` on at which somebody is there and awake to light, and was
 * so long `before`; 0: none. */
static Instant next_hour(const Batch *batch, Instant at, Instant step, Instant before) {
    for (; at <= batch->timing.to; at += step) {
        if (absence_back(batch, at) == at && absence_back(batch, at - before) == at - before &&
            !asleep_at(batch, at)) {
            return at;
        }
    }
    return 0;
}

/* Works out an hour and adds it; its memory is given back. Whether the forecast reaches it. */
static bool add_hour(Arena *arena, const Belief *belief, const Batch *batch, Instant at,
                     Window *window) {
    ArenaMark mark = arena_mark(arena);
    Plan *plan = ARENA_NEW(arena, Plan);
    judge_night(arena, batch, belief, at, SESSION_FIGURES, plan);
    plan->batch = window->batch;
    size_t number = window->hours.hours.count++;
    const PlanBurn *burn = &plan->burn;
    window->hours.hours.items[number] = (WeekHour){
        .light_at = at, .verdict = plan->verdict, .chance = burn->chance, .use = clash_use(plan)};
    window->notes[number] =
        (WindowNote){burn->chance_said_in, burn->chance_said_of,
                     plan->reasons.count > 0 ? plan->reasons.items[0].cause : burn->cause};
    bool known = !plan->weather.beyond_forecast;
    arena_back_to(arena, mark);
    return known;
}

/* The shares are found once, at the first hour: what is compared is the hours. */
static const Batch *with_shares_of(Arena *arena, const Batch *batch, const Belief *belief,
                                   Instant at) {
    Plan *plan = ARENA_NEW(arena, Plan);
    session_work_out(arena, batch, belief, at, SESSION_FIGURES, plan);
    return session_with_blend_fixed(arena, batch, plan);
}

static Window empty_window(Arena *arena, const Batch *batch, size_t hours) {
    Window window = {.batch = batch, .hours = {.file = batch->file ? batch->file : ""}};
    window.hours.hours.items = ARENA_ARRAY(arena, hours, WeekHour);
    window.hours.hours.capacity = hours;
    window.notes = ARENA_ARRAY(arena, hours, WindowNote);
    return window;
}

/* Keeps the hours that the forecast reaches, if there are any. */
static void keep_known(Window *window, const bool *known) {
    size_t kept = 0;
    for (size_t i = 0; i < window->hours.hours.count; i++) {
        if (known[i]) {
            window->hours.hours.items[kept] = window->hours.hours.items[i];
            window->notes[kept++] = window->notes[i];
        }
    }
    if (kept > 0 && kept < window->hours.hours.count) {
        const Weather *weather = &window->batch->weather;
        window->known_to = weather->readings.items[weather->readings.count - 1].at;
        window->hours.hours.count = kept;
    }
}

/* The window's start where there is no hour at which somebody is there. */
Window window_of(Arena *arena, const Batch *batch, const Belief *belief) {
    const Timing *timing = &batch->timing;
    if (timing->kind != TIMING_BEST) {
        Window window = empty_window(arena, batch, 1);
        Instant at = timing->kind == TIMING_FINISH_BY
                         ? finish_light_at(arena, batch, belief, timing->at)
                         : timing->at;
        add_hour(arena, belief, batch, at, &window);
        window.hours.hours.items[0].fixed = true;
        return window;
    }
    Instant step = step_of(timing);
    Instant before = several_days(timing) ? BEFORE_S : 0;
    Instant first = next_hour(batch, timing->at, step, before);
    before = first ? before : 0;
    first = first ? first : next_hour(batch, timing->at, step, 0);
    first = first ? first : timing->at;
    size_t most = (size_t)((timing->to - timing->at) / step) + 1;
    Window window = empty_window(arena, batch, most);
    bool *known = ARENA_ARRAY(arena, most, bool);
    known[0] = add_hour(arena, belief, batch, first, &window);
    const Batch *fixed = with_shares_of(arena, batch, belief, first);
    for (Instant at = first; (at = next_hour(batch, at + step, step, before)) != 0;) {
        size_t number = window.hours.hours.count;
        known[number] = add_hour(arena, belief, fixed, at, &window);
    }
    keep_known(&window, known);
    return window;
}

/* ---- What is told of it -------------------------------------------------------------------- */

typedef struct Chosen {
    const Window *windows;
    size_t count;
    const size_t *hours;
} Chosen;

static const WeekHour *chosen_hour(const Chosen *chosen, size_t batch) {
    size_t hour = chosen->hours[batch];
    return hour == WEEK_NO_HOUR ? NULL : &chosen->windows[batch].hours.hours.items[hour];
}

/* Who else is in the way of an hour of batch `mine`; NULL: nobody. */
static const Batch *in_the_way(const Chosen *chosen, size_t mine, const WeekHour *hour) {
    for (size_t i = 0; i < chosen->count; i++) {
        const WeekHour *other = chosen_hour(chosen, i);
        if (i != mine && other && week_apart(hour, other)) {
            return chosen->windows[i].batch;
        }
    }
    return NULL;
}

static PlanDay day_of(const Chosen *chosen, size_t mine, size_t hour) {
    const Window *window = &chosen->windows[mine];
    const WeekHour *at = &window->hours.hours.items[hour];
    const Batch *other = in_the_way(chosen, mine, at);
    return (PlanDay){.light_at = at->light_at,
                     .verdict = at->verdict,
                     .chance = at->chance,
                     .chance_said_in = window->notes[hour].said_in,
                     .chance_said_of = window->notes[hour].said_of,
                     .cause = window->notes[hour].cause,
                     .chosen = hour == chosen->hours[mine],
                     .taken_by = other ? other->name : NULL};
}

/* Whether an hour says more of its day than another: the chosen one, else one that is free, else
 * the better one. */
static bool tells_more(const Chosen *chosen, size_t mine, size_t hour, size_t than) {
    const WeekHour *hours = chosen->windows[mine].hours.hours.items;
    if (hour == chosen->hours[mine] || than == chosen->hours[mine]) {
        return hour == chosen->hours[mine];
    }
    bool free = !in_the_way(chosen, mine, &hours[hour]);
    bool other = !in_the_way(chosen, mine, &hours[than]);
    return free != other ? free : week_compare(&hours[hour], &hours[than]) < 0;
}

static bool one_day(const Batch *batch, Instant a, Instant b) {
    const Zone *zone = batch->workshop->zone;
    return date_compare(zone_civil(zone, a).date, zone_civil(zone, b).date) == 0;
}

static void add_days(Arena *arena, const Chosen *chosen, size_t mine, PlanChoice *choice) {
    const Window *window = &chosen->windows[mine];
    const WeekHour *hours = window->hours.hours.items;
    size_t best = 0;
    if (!hours) {
        return; /* no hour at all */
    }
    for (size_t i = 1; i < window->hours.hours.count; i++) {
        if (!one_day(window->batch, hours[best].light_at, hours[i].light_at)) {
            LIST_ADD(arena, &choice->days, day_of(chosen, mine, best));
            best = i;
        } else if (tells_more(chosen, mine, i, best)) {
            best = i;
        }
    }
    LIST_ADD(arena, &choice->days, day_of(chosen, mine, best));
}

static bool far_enough(Instant a, Instant b) {
    return a - b >= NEXT_APART_S || b - a >= NEXT_APART_S;
}

/* The best hour of another day that is free and may be lit. */
static void add_next(const Chosen *chosen, size_t mine, PlanChoice *choice) {
    const Window *window = &chosen->windows[mine];
    const WeekHour *taken = chosen_hour(chosen, mine);
    const WeekHour *best = NULL;
    for (size_t i = 0; taken && i < window->hours.hours.count; i++) {
        const WeekHour *hour = &window->hours.hours.items[i];
        bool will_do = hour->verdict != VERDICT_DO_NOT_LIGHT &&
                       !one_day(window->batch, hour->light_at, taken->light_at) &&
                       far_enough(hour->light_at, taken->light_at) &&
                       !in_the_way(chosen, mine, hour);
        if (will_do && (!best || week_compare(hour, best) < 0)) {
            best = hour;
            choice->next = day_of(chosen, mine, i);
        }
    }
}

static const char *key_of(ClashThing thing) {
    return thing == CLASH_TRAY      ? "with.tray"
           : thing == CLASH_CABINET ? "with.cabinet"
                                    : "with.oven";
}

static ClashSpan span_of(const ClashUse *use, ClashThing thing) {
    return thing == CLASH_TRAY ? use->trays : thing == CLASH_CABINET ? use->cabinet : use->oven;
}

/* Those that share something with it, with when they have it. */
static void add_with(Arena *arena, const Chosen *chosen, size_t mine, PlanChoice *choice) {
    for (size_t i = 0; i < chosen->count; i++) {
        const WeekHour *hour = chosen_hour(chosen, i);
        const Batch *other = chosen->windows[i].batch;
        const char *name = NULL;
        ClashThing thing = clash_shared(chosen->windows[mine].batch, other, &name);
        if (i == mine || thing == CLASH_NONE || !hour) {
            continue;
        }
        bool lit = hour->verdict != VERDICT_DO_NOT_LIGHT;
        ClashSpan span = lit ? span_of(&hour->use, thing) : (ClashSpan){0, 0};
        PlanWith with = {other->name, hour->light_at, key_of(thing), name, span.from, span.to};
        LIST_ADD(arena, &choice->with, with);
    }
}

static void by_time(PlanChoice *choice) {
    PlanWith *with = choice->with.items;
    for (size_t i = 1; i < choice->with.count; i++) {
        PlanWith moved = with[i];
        size_t at = i;
        for (; at > 0 && (with[at - 1].light_at > moved.light_at ||
                          (with[at - 1].light_at == moved.light_at &&
                           strcmp(with[at - 1].name, moved.name) > 0));
             at--) {
            with[at] = with[at - 1];
        }
        with[at] = moved;
    }
}

static PlanChoice told_of(Arena *arena, const Chosen *chosen, size_t mine) {
    const Window *window = &chosen->windows[mine];
    PlanChoice choice = {.next = {.chance = NOT_STATED}};
    if (window->batch->timing.kind != TIMING_BEST) {
        return choice;
    }
    choice.from = window->batch->timing.at;
    choice.to = window->batch->timing.to;
    choice.known_to = window->known_to;
    add_days(arena, chosen, mine, &choice);
    add_next(chosen, mine, &choice);
    add_with(arena, chosen, mine, &choice);
    by_time(&choice);
    choice.told = choice.to - choice.from > SECONDS_PER_DAY || choice.with.count > 0;
    return choice;
}

void windows_choose(Arena *arena, const Window *windows, size_t count, PlanChoice *choices,
                    Instant *light_at) {
    WeekBatch *batches = ARENA_ARRAY(arena, count, WeekBatch);
    size_t *hours = ARENA_ARRAY(arena, count, size_t);
    for (size_t i = 0; i < count; i++) {
        batches[i] = windows[i].hours;
    }
    week_choose(arena, batches, count, hours);
    Chosen chosen = {windows, count, hours};
    for (size_t i = 0; i < count; i++) {
        const WeekHour *hour = chosen_hour(&chosen, i);
        light_at[i] = hour ? hour->light_at : 0;
        choices[i] = told_of(arena, &chosen, i);
    }
}
