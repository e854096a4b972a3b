#include "model/finish.h"

#include "model/printed_times.h"
#include "model/session.h"
#include "model/timeline.h"

#include <stdbool.h>
#include <string.h>

enum {
    STEP_S = 5 * SECONDS_PER_MINUTE,
    FIRST_SPAN_S = 4 * 60 * SECONDS_PER_MINUTE,
    DOUBLINGS_MOST = 9, /* of the first span: three months */
    ISLAND_STEP_S = 15 * SECONDS_PER_MINUTE,
    ISLAND_STEPS_MOST = 48,
    CARRIER_TURNS = 4
};

typedef struct Search {
    Arena *arena;
    const Batch *batch;
    const Belief *belief;
    Instant finish;
} Search;

/* Seconds between the printed end, as late as it may well be, and the hour asked for; below 0: too
 * late. */
static Instant spare_s(const Search *search, Instant light_at) {
    ArenaMark before = arena_mark(search->arena);
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(search->arena, search->batch, search->belief, light_at, SESSION_TIMES, &plan);
    Instant spare = search->finish - printed_late(plan.burn.out_late, plan.burn.records);
    arena_back_to(search->arena, before);
    return spare;
}

static bool in_time(const Search *search, Instant light_at) {
    return spare_s(search, light_at) >= 0;
}

static Instant whole_step(Instant at) {
    Instant over = at % STEP_S;
    return at - (over < 0 ? over + STEP_S : over);
}

/* The last step in time, where `low` is one with so much to spare and `high` is none. A burn lit
 * later ends later, but for what a change of weather may do, and mostly by as much: so what is to
 * spare tells where to look, and every third turn the middle does. */
static Instant last_between(const Search *search, Instant low, Instant spare, Instant high) {
    for (int turn = 1; high - low > STEP_S; turn++) {
        Instant there = whole_step(low + (turn % 3 ? spare : (high - low) / 2));
        there = there <= low ? low + STEP_S : there >= high ? high - STEP_S : there;
        Instant left = spare_s(search, there);
        if (left >= 0) {
            low = there;
            spare = left;
        } else {
            high = there;
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
        Instant spare = spare_s(search, at);
        if (spare >= 0) {
            low = at = last_between(search, at, spare, at + step);
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
    Instant spare = spare_s(search, low);
    for (int turn = 0; turn < DOUBLINGS_MOST && spare < 0; turn++) {
        high = low;
        span *= 2;
        low = whole_step(end - span);
        spare = spare_s(search, low);
    }
    low = last_between(search, low, spare, high);
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
