#include "model/verdict.h"

#include "model/bag.h"
#include "model/care.h"
#include "model/plausible.h"

/* A burn counts as long enough when it falls short by less than the minute that is printed. */
static const double short_by_s = 60;

static void add(Arena *arena, Plan *plan, Cause cause, Verdict verdict) {
    LIST_ADD(arena, &plan->reasons, (Reason){cause, verdict});
    if (verdict > plan->verdict) {
        plan->verdict = verdict;
    }
}

/* A condition that nobody stated may be a broken one: it is no confident page. */
static void judge_food(Arena *arena, Plan *plan) {
    bool broken = false;
    bool weak = false;
    bool unknown = false;
    for (size_t i = 0; i < plan->care.count; i++) {
        broken = broken || plan->care.items[i].level == CARE_FORBIDS;
        weak = weak || care_weak(&plan->care.items[i]);
        unknown = unknown || care_unstated(&plan->care.items[i]);
    }
    if (broken) {
        add(arena, plan, CAUSE_FOOD, VERDICT_DO_NOT_LIGHT);
        return;
    }
    if (weak) {
        add(arena, plan, CAUSE_FOOD, VERDICT_TEND);
    }
    if (unknown) {
        add(arena, plan, CAUSE_FOOD_UNKNOWN, VERDICT_TEND);
    }
}

/* Resin, poison, paint and glue reach the food; what is in no table may hold them. */
static void judge_wood(Arena *arena, Plan *plan) {
    const PlanBlend *blend = &plan->blend;
    if (blend->unfit_woods) {
        add(arena, plan, CAUSE_WOOD_UNFIT, VERDICT_DO_NOT_LIGHT);
    }
    if (blend->treated_dusts) {
        add(arena, plan, CAUSE_WOOD_TREATED, VERDICT_DO_NOT_LIGHT);
    }
    if (blend->unknown_woods) {
        add(arena, plan, CAUSE_WOOD_UNKNOWN, VERDICT_TEND);
    }
    if (blend->strong_spices) {
        add(arena, plan, CAUSE_SPICE_STRONG, VERDICT_TEND);
    }
}

/* A room of which nothing is known may be a closed one: nobody should light without tending, and
 * nobody at all while those who are there sleep. */
static void judge_room(Arena *arena, Plan *plan) {
    if (!plan->room.stated) {
        bool alone = plan->burn.alone_from != 0;
        add(arena, plan, CAUSE_ROOM_UNKNOWN, alone ? VERDICT_DO_NOT_LIGHT : VERDICT_TEND);
    } else if (plan->room.over_limit) {
        add(arena, plan, CAUSE_ROOM_CO, VERDICT_DO_NOT_LIGHT);
    } else if (plan->room.near_asleep) {
        add(arena, plan, CAUSE_ROOM_CO_ASLEEP, VERDICT_DO_NOT_LIGHT);
    } else if (plan->room.near_limit) {
        add(arena, plan, CAUSE_ROOM_CO_NEAR, VERDICT_TEND);
    }
}

/* A cause once given as gravely is not given again. */
static void add_once(Arena *arena, Plan *plan, Cause cause, Verdict verdict) {
    for (size_t i = 0; i < plan->reasons.count; i++) {
        Reason *given = &plan->reasons.items[i];
        if (given->cause == cause) {
            given->verdict = given->verdict > verdict ? given->verdict : verdict;
            plan->verdict = plan->verdict > verdict ? plan->verdict : verdict;
            return;
        }
    }
    add(arena, plan, cause, verdict);
}

/* A reason that wants somebody there in hours when nobody is: to tend it is no instruction then,
 * and the verdict says from when to when somebody has to stay. */
static void add_stay(Arena *arena, Plan *plan, Cause cause, Instant from, Instant to) {
    add_once(arena, plan, cause, VERDICT_STAY);
    plan->stay_from = plan->stay_from && plan->stay_from < from ? plan->stay_from : from;
    plan->stay_to = plan->stay_to > to ? plan->stay_to : to;
}

/* A reason to tend that begins at an instant, and is one to stay where nobody is there after it. */
static void add_tended(Arena *arena, Plan *plan, Cause cause, Instant from) {
    const PlanBurn *burn = &plan->burn;
    if (burn->alone_to > from) {
        Instant since = burn->alone_from > from ? burn->alone_from : from;
        add_stay(arena, plan, cause, since, burn->alone_to);
    } else {
        add_once(arena, plan, cause, VERDICT_TEND);
    }
}

/* Too little fresh air, too much of it, and what its water does: somebody has to set the vents. */
static void judge_air(Arena *arena, Plan *plan) {
    const PlanCabinet *cabinet = &plan->cabinet;
    if (cabinet->no_oxygen) {
        add_once(arena, plan, CAUSE_OXYGEN, VERDICT_DO_NOT_LIGHT);
    } else if (cabinet->low_oxygen) {
        add_tended(arena, plan, CAUSE_OXYGEN, plan->burn.light_at);
    }
    if (cabinet->condenses) {
        add_tended(arena, plan, CAUSE_CONDENSATION, cabinet->condensing_from);
    }
    if (cabinet->too_windy) {
        add_tended(arena, plan, CAUSE_WIND, plan->burn.light_at);
    }
}

static void judge_cabinet(Arena *arena, Plan *plan) {
    if (plan->cabinet.over_wall) {
        add(arena, plan, CAUSE_WALL_HOT, VERDICT_DO_NOT_LIGHT);
    }
    if (plan->cabinet.over_limit) {
        add(arena, plan, CAUSE_CABINET_WARM, VERDICT_DO_NOT_LIGHT);
    } else if (plan->cabinet.over_caution) {
        add(arena, plan, CAUSE_CABINET_WARM, VERDICT_TEND);
    }
}

/* Written so that a chance that is no number never passes. */
static void judge_burn(Arena *arena, Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    if (!(burn->chance >= burn->chance_tend)) {
        add(arena, plan, burn->cause, VERDICT_DO_NOT_LIGHT);
    } else if (!(burn->chance >= burn->chance_good)) {
        add(arena, plan, burn->cause, VERDICT_TEND);
    }
}

/* Nobody opens a vent, or lights a glow anew, in their sleep; and a glow that is left before it has
 * been seen to catch is left to chance, and to fire. */
static void judge_absence(Arena *arena, Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    if (burn->alone_from && burn->alone_from < burn->first_look_in_at) {
        add_stay(arena, plan, CAUSE_LIT_ALONE, burn->light_at, burn->first_look_in_at);
    }
    if (plan->cabinet.over_away) {
        add_stay(arena, plan, CAUSE_WARM_UNTENDED, burn->alone_from, burn->alone_to);
    }
    if (burn->untended_from) {
        add_stay(arena, plan, CAUSE_UNTENDED, burn->untended_from, burn->untended_to);
    }
}

/* Too little for tonight stops the weighing-out; too little for the bags only spoils them. */
static void judge_stock(Arena *arena, Plan *plan) {
    const double hair_kg = 1e-9;
    Verdict worst = VERDICT_GOOD;
    for (size_t i = 0; i < plan->blend.parts.count; i++) {
        const PlanPart *part = &plan->blend.parts.items[i];
        if (bag_tonight_kg(&plan->blend, part->dust) > part->dust->stock_kg + hair_kg) {
            worst = VERDICT_DO_NOT_LIGHT;
        } else if (part->short_of_stock && worst == VERDICT_GOOD) {
            worst = VERDICT_TEND;
        }
    }
    if (worst != VERDICT_GOOD) {
        add(arena, plan, CAUSE_SHORT_OF_DUST, worst);
    }
}

/* A little short of what was asked is said; far short or far over, somebody has to see to it. */
static void judge_time(Arena *arena, Plan *plan) {
    double wanted_s = plan->burn.wanted_s;
    double smoking_s = plan->burn.smoking_s;
    if (smoking_s < wanted_s * (1 - PLAUSIBLE_TIME_OFF)) {
        add(arena, plan, CAUSE_TOO_SHORT, VERDICT_TEND);
    } else if (smoking_s < wanted_s - short_by_s) {
        add(arena, plan, CAUSE_TOO_SHORT, VERDICT_GOOD);
    } else if (wanted_s > 0 && smoking_s > wanted_s * (1 + PLAUSIBLE_TIME_OFF)) {
        add(arena, plan, CAUSE_TOO_LONG, VERDICT_TEND);
    }
}

/* Outside of what was ever seen to burn the model knows nothing. */
static void judge_plausible(Arena *arena, const Batch *batch, Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    if (burn->thinnest_m < burn->least_layer_m) {
        add(arena, plan, CAUSE_LAYER_THIN, VERDICT_DO_NOT_LIGHT);
    }
    if (burn->slowest_mps < burn->front_from_mps) {
        add(arena, plan, CAUSE_FRONT_SLOW, VERDICT_TEND);
    }
    if (burn->fastest_mps > burn->front_to_mps) {
        add(arena, plan, CAUSE_FRONT_FAST, VERDICT_TEND);
    }
    if (plan->cabinet.tray_too_big) {
        add(arena, plan, CAUSE_TRAY_BIG, VERDICT_DO_NOT_LIGHT);
    } else if (plan->cabinet.tray_near_wall) {
        add_tended(arena, plan, CAUSE_TRAY_NEAR_WALL, burn->light_at);
    }
    if (plausible_hour_past(batch, burn->light_at)) {
        add(arena, plan, CAUSE_HOUR_PAST, VERDICT_DO_NOT_LIGHT);
    }
}

/* Food that nobody can have ready. */
static void judge_preparation(Arena *arena, Plan *plan) {
    if (plan->preparation.late) {
        add(arena, plan, CAUSE_BEGIN_LATE, VERDICT_DO_NOT_LIGHT);
    }
    if (plan->preparation.not_ready) {
        add(arena, plan, CAUSE_NOT_READY, VERDICT_DO_NOT_LIGHT);
    }
}

/* Weather of no night may be far from tonight's. What was judged made the chance less already, and
 * is only said. */
static void judge_unmeasured(Arena *arena, const Batch *batch, Plan *plan) {
    bool judged = false;
    for (size_t i = 0; i < batch->blend.parts.count; i++) {
        judged = judged || batch->blend.parts.items[i].dust->grain_judged;
    }
    for (size_t i = 0; i < batch->fills.count; i++) {
        judged = judged || batch->fills.items[i].tray->metal_judged;
    }
    if (batch->weather.usual) {
        add_tended(arena, plan, CAUSE_WEATHER_USUAL, plan->burn.light_at);
    }
    if (judged) {
        add(arena, plan, CAUSE_JUDGED, VERDICT_GOOD);
    }
}

/* Insertion keeps the order of what is equally grave. */
static void gravest_first(Plan *plan) {
    Reason *reasons = plan->reasons.items;
    for (size_t i = 1; i < plan->reasons.count; i++) {
        Reason moved = reasons[i];
        size_t at = i;
        for (; at > 0 && reasons[at - 1].verdict < moved.verdict; at--) {
            reasons[at] = reasons[at - 1];
        }
        reasons[at] = moved;
    }
}

void verdict_reach(Arena *arena, const Batch *batch, Plan *plan) {
    plan->verdict = VERDICT_GOOD;
    plan->reasons.count = 0;
    plan->stay_from = plan->stay_to = 0;
    judge_room(arena, plan);
    judge_food(arena, plan);
    judge_preparation(arena, plan);
    judge_wood(arena, plan);
    if (plan->blend.solver == SOLVER_INFEASIBLE) {
        add(arena, plan, CAUSE_NO_BLEND, VERDICT_DO_NOT_LIGHT);
    }
    judge_burn(arena, plan);
    judge_cabinet(arena, plan);
    judge_air(arena, plan);
    judge_absence(arena, plan);
    judge_stock(arena, plan);
    judge_time(arena, plan);
    judge_plausible(arena, batch, plan);
    judge_unmeasured(arena, batch, plan);
    gravest_first(plan);
}
