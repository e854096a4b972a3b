#include "model/remedy.h"

#include "model/remedy_trial.h"
#include "model/survival.h"

#include <math.h>
#include <stdbool.h>

const double remedy_least_chance_gain = 0.02;
const double remedy_least_cooling_k = 1.0;

/* So many of the best are tried by twos, and so many pairs are offered. */
enum { PAIRED = 4, PAIRS_OFFERED = 2 };

/* How many reasons forbid the night. Where several do, no single change lifts the verdict, and
 * taking one away is a help all the same. */
static size_t forbidding(const Plan *plan) {
    size_t count = 0;
    for (size_t i = 0; i < plan->reasons.count; i++) {
        count += plan->reasons.items[i].verdict == VERDICT_DO_NOT_LIGHT;
    }
    return count;
}

static bool is_warm(const Plan *plan) {
    return plan->cabinet.over_caution || plan->cabinet.over_limit;
}

bool remedy_helps(const Plan *before, const Plan *after) {
    if (after->verdict != before->verdict) {
        return after->verdict < before->verdict;
    }
    if (forbidding(after) != forbidding(before)) {
        return forbidding(after) < forbidding(before);
    }
    bool weak = before->burn.chance < before->burn.chance_good;
    bool lasts = after->burn.chance >= before->burn.chance + remedy_least_chance_gain;
    bool cooler = after->cabinet.peak_temp_c <=
                  before->cabinet.peak_temp_c - remedy_least_cooling_k;
    return (weak && lasts) || (is_warm(before) && cooler);
}

static int hundredths(double chance) {
    return (int)floor(chance * 100 + 0.5);
}

bool remedy_better(const Plan *one, const Plan *other) {
    if (one->verdict != other->verdict) {
        return one->verdict < other->verdict;
    }
    return hundredths(one->burn.chance) > hundredths(other->burn.chance);
}

void remedy_keep(const RemedyAsk *ask, const Plan *after, Remedy remedy) {
    if (!after || !remedy_helps(ask->plan, after)) {
        return;
    }
    bool cools = is_warm(ask->plan) || remedy.kind == REMEDY_WIDER_VENT;
    remedy.temp_after_c = cools ? after->cabinet.peak_temp_c : NOT_STATED;
    RemedyTried tried = {remedy, after};
    LIST_ADD(ask->arena, ask->tries, tried);
}

/* Best first; what is equally good keeps its order. */
static void best_first(RemedyTries *tries) {
    RemedyTried *items = tries->items;
    for (size_t i = 1; i < tries->count; i++) {
        RemedyTried moved = items[i];
        size_t at = i;
        for (; at > 0 && remedy_better(moved.after, items[at - 1].after); at--) {
            items[at] = items[at - 1];
        }
        items[at] = moved;
    }
}

static void try_kind(const RemedyAsk *ask, RemedyKind kind) {
    switch (kind) {
    case REMEDY_DRY: remedy_try_drying(ask); break;
    case REMEDY_SIEVE: remedy_try_sieving(ask); break;
    case REMEDY_CARRIER: remedy_try_carrier(ask); break;
    case REMEDY_HEAP: remedy_try_heap(ask); break;
    case REMEDY_LIGHTER_FILL: remedy_try_lighter_fill(ask); break;
    case REMEDY_WIDER_VENT: remedy_try_vent(ask); break;
    case REMEDY_SHORTER_BURN: remedy_try_shorter_burn(ask); break;
    case REMEDY_OTHER_HOUR: remedy_try_hour(ask); break;
    case REMEDY_OUTDOORS:
    case REMEDY_AIR_ROOM: remedy_try_room(ask); break;
    case REMEDY_OTHER_TRAY: remedy_try_tray(ask); break;
    }
}

static void try_singles(const RemedyAsk *ask) {
    static const RemedyKind for_the_burn[] = {
        REMEDY_DRY,          REMEDY_SIEVE,      REMEDY_CARRIER,     REMEDY_HEAP,
        REMEDY_LIGHTER_FILL, REMEDY_OTHER_TRAY, REMEDY_SHORTER_BURN};
    static const RemedyKind for_all[] = {REMEDY_WIDER_VENT, REMEDY_OTHER_HOUR, REMEDY_OUTDOORS};
    bool weak = !(ask->plan->burn.chance >= ask->plan->burn.chance_good);
    for (size_t i = 0; weak && i < sizeof for_the_burn / sizeof *for_the_burn; i++) {
        try_kind(ask, for_the_burn[i]);
    }
    for (size_t i = 0; i < sizeof for_all / sizeof *for_all; i++) {
        try_kind(ask, for_all[i]);
    }
}

/* What changes the mass on the trays comes first of two, so that the other's grams and minutes are
 * those of the changed fill. */
static bool changes_mass(RemedyKind kind) {
    return kind == REMEDY_HEAP || kind == REMEDY_LIGHTER_FILL || kind == REMEDY_OTHER_TRAY ||
           kind == REMEDY_SHORTER_BURN;
}

/* The second change on top of the first, if it does better than each of the two alone. */
static void try_pair(const RemedyAsk *ask, const RemedyTried *one, const RemedyTried *other,
                     RemedyTries *pairs) {
    bool turn = !changes_mass(one->remedy.kind) && changes_mass(other->remedy.kind);
    const RemedyTried *first = turn ? other : one, *second = turn ? one : other;
    RemedyTries tries = {0};
    RemedyAsk then = {ask->arena,
                      session_with_blend_fixed(ask->arena, first->after->batch, first->after),
                      ask->belief, first->after, &tries};
    try_kind(&then, second->remedy.kind);
    for (size_t i = 0; i < tries.count; i++) {
        RemedyTried *both = &tries.items[i];
        if (both->remedy.kind != second->remedy.kind ||
            !remedy_better(both->after, second->after) ||
            !remedy_better(both->after, first->after)) {
            continue;
        }
        Remedy *with = ARENA_NEW(ask->arena, Remedy);
        *with = both->remedy;
        RemedyTried pair = {first->remedy, both->after};
        pair.remedy.with = with;
        LIST_ADD(ask->arena, pairs, pair);
    }
}

static RemedyTries try_pairs(const RemedyAsk *ask) {
    RemedyTries pairs = {0};
    const RemedyTries *singles = ask->tries;
    for (size_t i = 0; i < singles->count && i < PAIRED; i++) {
        for (size_t k = i + 1; k < singles->count && k < PAIRED; k++) {
            try_pair(ask, &singles->items[i], &singles->items[k], &pairs);
        }
    }
    best_first(&pairs);
    pairs.count = pairs.count < PAIRS_OFFERED ? pairs.count : PAIRS_OFFERED;
    return pairs;
}

static void offer(Arena *arena, const RemedyTried *tried, Plan *plan) {
    Remedy remedy = tried->remedy;
    const PlanBurn *after = &tried->after->burn;
    remedy.chance_before = plan->burn.chance;
    remedy.chance_after = after->chance;
    ChanceSaid said = survival_said(after->chance, after->nights);
    remedy.chance_said_in = said.in;
    remedy.chance_said_of = said.of;
    remedy.verdict_after = tried->after->verdict;
    LIST_ADD(arena, &plan->remedies, remedy);
}

void remedy_add(Arena *arena, const Batch *batch, const Belief *belief, Plan *plan) {
    if (plan->verdict == VERDICT_GOOD) {
        return;
    }
    RemedyTries tries = {0};
    RemedyAsk ask = {arena, session_with_blend_fixed(arena, batch, plan), belief, plan, &tries};
    try_singles(&ask);
    best_first(&tries);
    if (tries.count > 0 && tries.items[0].after->verdict != VERDICT_GOOD) {
        RemedyTries pairs = try_pairs(&ask);
        for (size_t i = 0; i < pairs.count; i++) {
            LIST_ADD(arena, &tries, pairs.items[i]);
        }
        best_first(&tries);
    }
    for (size_t i = 0; i < tries.count; i++) {
        if (tries.items[i].after->verdict != VERDICT_DO_NOT_LIGHT) {
            offer(arena, &tries.items[i], plan);
        }
    }
}
