#include "model/finish.h"

#include "model/printed_times.h"
#include "model/session.h"
#include "model/timeline.h"

#include <stdbool.h>
#include <string.h>

enum {
    MINUTE_S = 60,
    STEP_S = 5 * MINUTE_S,
    FIRST_SPAN_S = 4 * 60 * MINUTE_S,
    DOUBLINGS_MOST = 9, /* of the first span: three months */
    ISLAND_STEP_S = 15 * MINUTE_S,
    ISLAND_STEPS_MOST = 48,
    CARRIER_TURNS = 4
};

typedef struct Search {
    Arena *arena;
    const Batch *batch;
    const Belief *belief;
    Instant finish;
} Search;

static bool in_time(const Search *search, Instant light_at) {
    ArenaMark before = arena_mark(search->arena);
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(search->arena, search->batch, search->belief, light_at, SESSION_TIMES, &plan);
    bool ends = printed_late(plan.burn.out_late, plan.burn.records) <= search->finish;
    arena_back_to(search->arena, before);
    return ends;
}

static Instant whole_step(Instant at) {
    Instant over = at % STEP_S;
    return at - (over < 0 ? over + STEP_S : over);
}

/* The last step in time, where `low` is one and `high` is none. A burn lit later ends later, but
 * for what a change of weather may do. */
static Instant last_between(const Search *search, Instant low, Instant high) {
    while (high - low > STEP_S) {
        Instant middle = whole_step(low + (high - low) / 2);
        if (in_time(search, middle)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

/* Drier weather to come may bring a later hour in time again: looked for in steps over the rest of
 * the way, which a long burn makes longer. */
static Instant beyond(const Search *search, Instant low, Instant end) {
    Instant step = ISLAND_STEP_S;
    while ((end - low) / step > ISLAND_STEPS_MOST) {
        step += ISLAND_STEP_S;
    }
    for (Instant at = low + step; at < end; at += step) {
        if (in_time(search, at)) {
            low = at = last_between(search, at, at + step);
        }
    }
    return low;
}

/* The latest hour in time, whoever is there. */
static Instant latest(const Search *search) {
    Instant end = whole_step(search->finish);
    Instant span = FIRST_SPAN_S;
    Instant high = end;
    Instant low = whole_step(end - span);
    for (int turn = 0; turn < DOUBLINGS_MOST && !in_time(search, low); turn++) {
        high = low;
        span *= 2;
        low = whole_step(end - span);
    }
    low = last_between(search, low, high);
    return search->batch->weather.readings.count > 1 ? beyond(search, low, end) : low;
}

/* The last step at which somebody is there to light, up to that one. */
static Instant attended(const Batch *batch, Instant light_at) {
    const Away *away = timeline_away_at(batch, light_at);
    while (away) {
        light_at = whole_step(away->from);
        away = timeline_away_at(batch, light_at);
    }
    return light_at;
}

static bool has_carrier(const Blend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        if (blend->parts.items[i].kind == SHARE_LEAST) {
            return true;
        }
    }
    return false;
}

/* The shares are found for an hour, and the hour for the shares, until both hold; then the hour
 * gives way until they do. */
static Instant with_carrier(const Search *search) {
    Search fixed = *search;
    Instant light_at = whole_step(search->finish - 2 * (Instant)FIRST_SPAN_S);
    for (int turn = 0; turn < CARRIER_TURNS; turn++) {
        Plan *plan = ARENA_NEW(search->arena, Plan);
        session_work_out(search->arena, search->batch, search->belief, light_at, SESSION_TIMES,
                         plan);
        fixed.batch = session_with_blend_fixed(search->arena, search->batch, plan);
        Instant next = attended(search->batch, latest(&fixed));
        if (next == light_at) {
            break;
        }
        light_at = next;
    }
    for (int turn = 0; turn < 2 * CARRIER_TURNS && !in_time(search, light_at); turn++) {
        light_at = attended(search->batch, light_at - STEP_S);
    }
    return light_at;
}

Instant finish_light_at(Arena *arena, const Batch *batch, const Belief *belief, Instant finish) {
    Search search = {arena, batch, belief, finish};
    if (has_carrier(&batch->blend)) {
        return with_carrier(&search);
    }
    return attended(batch, latest(&search));
}
