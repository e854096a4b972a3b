#include "model/remedy.h"

#include "model/remedy_trial.h"

#include <math.h>
#include <stdbool.h>

const double remedy_least_margin_gain = 0.05;
const double remedy_least_cooling_k = 1.0;

/* How many reasons forbid the night. Where several do, no single change lifts the verdict, and
 * taking one away is a help all the same. */
static size_t forbidding(const Plan *plan) {
    size_t count = 0;
    for (size_t i = 0; i < plan->reasons.count; i++) {
        count += plan->reasons.items[i].verdict == VERDICT_DO_NOT_LIGHT;
    }
    return count;
}

bool remedy_helps(const Plan *before, const Plan *after) {
    if (after->verdict != before->verdict) {
        return after->verdict < before->verdict;
    }
    if (forbidding(after) != forbidding(before)) {
        return forbidding(after) < forbidding(before);
    }
    bool weak = before->burn.margin_least < before->burn.margin_good;
    bool holds_better = after->burn.margin_least >=
                        before->burn.margin_least + remedy_least_margin_gain;
    bool warm = before->cabinet.over_caution || before->cabinet.over_limit;
    bool cooler = after->cabinet.peak_temp_c <=
                  before->cabinet.peak_temp_c - remedy_least_cooling_k;
    return (weak && holds_better) || (warm && cooler);
}

bool remedy_better(const Plan *one, const Plan *other) {
    if (one->verdict != other->verdict) {
        return one->verdict < other->verdict;
    }
    return one->burn.margin_least > other->burn.margin_least;
}

static bool ranks_before(const Remedy *one, const Remedy *other) {
    if (one->verdict_after != other->verdict_after) {
        return one->verdict_after < other->verdict_after;
    }
    return one->margin_after > other->margin_after;
}

void remedy_keep(const RemedyAsk *ask, const Plan *after, Remedy remedy) {
    const Plan *before = ask->plan;
    if (!after || !remedy_helps(before, after)) {
        return;
    }
    bool warm = before->cabinet.over_caution || before->cabinet.over_limit;
    remedy.margin_before = before->burn.margin_least;
    remedy.margin_after = after->burn.margin_least;
    bool cools = warm || remedy.kind == REMEDY_WIDER_VENT;
    remedy.temp_after_c = cools ? after->cabinet.peak_temp_c : NOT_STATED;
    remedy.verdict_after = after->verdict;
    LIST_ADD(ask->arena, &ask->plan->remedies, remedy);
    Remedy *remedies = ask->plan->remedies.items;
    for (size_t i = ask->plan->remedies.count - 1;
         i > 0 && ranks_before(&remedies[i], &remedies[i - 1]); i--) {
        Remedy worse = remedies[i - 1];
        remedies[i - 1] = remedies[i];
        remedies[i] = worse;
    }
}

void remedy_add(Arena *arena, const Batch *batch, const Belief *belief, Plan *plan) {
    if (plan->verdict == VERDICT_GOOD) {
        return;
    }
    RemedyAsk ask = {arena, session_with_blend_fixed(arena, batch, plan), belief, plan};
    if (!(plan->burn.margin_least >= plan->burn.margin_good)) {
        remedy_try_drying(&ask);
        remedy_try_sieving(&ask);
        remedy_try_carrier(&ask);
        remedy_try_heap(&ask);
        remedy_try_lighter_fill(&ask);
        remedy_try_tray(&ask);
        remedy_try_shorter_burn(&ask);
    }
    remedy_try_vent(&ask);
    remedy_try_hour(&ask, batch->timing.kind);
    remedy_try_room(&ask);
}
