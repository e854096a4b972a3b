#include "model/look_ins.h"

#include <math.h>

/* Share of nights that go out at any time alike. Judgement. */
static const double UNFORESEEN = 0.02;

/* Chance out by the time, without the unforeseen. */
static double foreseen_out(const Plan *plan, Instant at) {
    const PlanLasting *rows = plan->survival.items;
    size_t count = plan->survival.count;
    size_t next = 0;
    while (next < count && rows[next].at <= at) {
        next++;
    }
    if (next == 0) {
        return 0;
    }
    double out = 1 - rows[next - 1].lasting;
    if (next < count) {
        double share = (double)(at - rows[next - 1].at) /
                       (double)(rows[next].at - rows[next - 1].at);
        out += share * (rows[next - 1].lasting - rows[next].lasting);
    }
    return out;
}

/* How much of the night is over, 0 to 1. */
static double night_over(const Plan *plan, Instant at) {
    const PlanBurn *burn = &plan->burn;
    Instant end = burn->out_late > burn->out_at ? burn->out_late : burn->out_at;
    if (at <= burn->light_at || end <= burn->light_at) {
        return 0;
    }
    return fmin((double)(at - burn->light_at) / (double)(end - burn->light_at), 1);
}

double look_ins_out_by(const Plan *plan, Instant at) {
    double over = at < plan->burn.light_at ? 0 : night_over(plan, at);
    double out = at < plan->burn.light_at ? 0 : foreseen_out(plan, at);
    return out + UNFORESEEN * (1 - out) * over;
}

/* A time with what the costs are made of: the chance out by then, and its integral so far. */
typedef struct Reached {
    double at_s; /* since lighting */
    double out;
    double out_s;
} Reached;

/* The integral, by five minutes, or a thousandth of a night of days. */
static Reached *reached_of(Arena *arena, const Plan *plan, const LookInTimes *times) {
    Instant whole = times->count > 0 ? times->items[times->count - 1].at - plan->burn.light_at : 0;
    Instant step = whole > 300 * 1000 ? whole / 1000 : 300;
    Reached *reached = ARENA_ARRAY(arena, times->count + 1, Reached);
    Instant now = plan->burn.light_at;
    double out = look_ins_out_by(plan, now), out_s = 0;
    /* at the lighting itself nothing has gone out yet: what does not catch is seen later */
    reached[0] = (Reached){0, 0, 0};
    for (size_t i = 0; i < times->count; i++) {
        while (now < times->items[i].at) {
            Instant left = times->items[i].at - now;
            Instant next = now + (left < step ? left : step);
            double then = look_ins_out_by(plan, next);
            out_s += (out + then) / 2 * (double)(next - now);
            now = next;
            out = then;
        }
        reached[i + 1] = (Reached){(double)(now - plan->burn.light_at), out, out_s};
    }
    return reached;
}

/* What goes out after one look and is seen at the other: s of smoke lost, over all nights. */
static double unseen_between_s(const Reached *from, const Reached *to) {
    return to->out_s - from->out_s - from->out * (to->at_s - from->at_s);
}

double look_ins_unseen_s(Arena *arena, const Plan *plan, const LookInTimes *times,
                         const bool *chosen) {
    Reached *reached = reached_of(arena, plan, times);
    double sum = 0;
    size_t before = 0;
    for (size_t i = 0; i < times->count; i++) {
        if (times->items[i].sure || chosen[i]) {
            sum += unseen_between_s(&reached[before], &reached[i + 1]);
            before = i + 1;
        }
    }
    return sum;
}

/* The best way to a time that is looked at, with so many look-ins used. */
typedef struct Way {
    double unseen_s;
    size_t before; /* place of the look before it; 0: the lighting */
} Way;

static bool apart(const LookInTimes *times, size_t one, size_t other) {
    const LookInTime *a = &times->items[one - 1], *b = &times->items[other - 1];
    return a->sure || b->sure || b->at - a->at >= LOOK_INS_APART_S;
}

/* Best way to place `to` (from 1) with `used` look-ins up to and with it. */
static Way best_way(const LookInTimes *times, const Reached *reached, const Way *ways, size_t to,
                    int used, int most) {
    bool sure = times->items[to - 1].sure;
    Way best = {INFINITY, 0};
    int spent = sure ? used : used - 1;
    for (size_t from = to; spent >= 0 && from-- > 0;) {
        double so_far_s = from         ? ways[from * (size_t)(most + 1) + (size_t)spent].unseen_s
                          : spent == 0 ? 0
                                       : INFINITY;
        bool may = from == 0 || apart(times, from, to);
        double unseen_s = so_far_s + unseen_between_s(&reached[from], &reached[to]);
        if (may && unseen_s < best.unseen_s) {
            best = (Way){unseen_s, from};
        }
        if (from > 0 && times->items[from - 1].sure) {
            break; /* a sure look is not passed over */
        }
    }
    return best;
}

bool *look_ins_choose(Arena *arena, const Plan *plan, const LookInTimes *times, int most) {
    size_t count = times->count, row = (size_t)most + 1;
    bool *chosen = ARENA_ARRAY(arena, count + 1, bool);
    Way *ways = ARENA_ARRAY(arena, (count + 1) * row, Way);
    Reached *reached = reached_of(arena, plan, times);
    for (size_t i = 0; i < count; i++) {
        chosen[i] = false;
    }
    for (size_t to = 1; to <= count; to++) {
        for (int used = 0; used <= most; used++) {
            ways[to * row + (size_t)used] = best_way(times, reached, ways, to, used, most);
        }
    }
    int used = 0;
    for (int i = 1; i <= most && count > 0; i++) {
        bool better = ways[count * row + (size_t)i].unseen_s <
                      ways[count * row + (size_t)used].unseen_s;
        used = better ? i : used;
    }
    for (size_t at = count; at > 0;) {
        const Way *way = &ways[at * row + (size_t)used];
        if (!times->items[at - 1].sure) {
            chosen[at - 1] = true;
            used--;
        }
        at = way->before;
    }
    return chosen;
}
