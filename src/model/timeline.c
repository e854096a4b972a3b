/* Steps of the night. Times for handling: common practice, no source. */
#include "model/timeline.h"

#include "model/absence.h"

#include <math.h>
#include <stdbool.h>

enum {
    STEP_S = 5 * SECONDS_PER_MINUTE, /* steps before lighting fall on whole five minutes */
    HANG_BEFORE_S = 15 * SECONDS_PER_MINUTE,
    FILL_S = 15 * SECONDS_PER_MINUTE,
    MIX_S = 5 * SECONDS_PER_MINUTE,
    WEIGH_S = 15 * SECONDS_PER_MINUTE,
    AGAIN_S = 15 * SECONDS_PER_MINUTE,    /* weighing and drying again until two weighings agree */
    ASH_S = 12 * 60 * SECONDS_PER_MINUTE, /* glow may sleep in ash for hours; see caution.hot */
    FURTHER_FILLS_MAX = 3                 /* more than these become one step */
};

/* How long before lighting a product is taken in hand. */
static const int prepare_s[] = {
    [PRODUCT_CHEESE] = 60 * SECONDS_PER_MINUTE, [PRODUCT_BUTTER] = 30 * SECONDS_PER_MINUTE,
    [PRODUCT_FISH] = 180 * SECONDS_PER_MINUTE,  [PRODUCT_SALT] = 30 * SECONDS_PER_MINUTE,
    [PRODUCT_MEAT] = 180 * SECONDS_PER_MINUTE,  [PRODUCT_OTHER] = 60 * SECONDS_PER_MINUTE,
};

static const char *const prepare_keys[] = {
    [PRODUCT_CHEESE] = "prepare_cheese", [PRODUCT_BUTTER] = "prepare_butter",
    [PRODUCT_FISH] = "prepare_fish",     [PRODUCT_SALT] = "prepare_salt",
    [PRODUCT_MEAT] = "prepare_meat",     [PRODUCT_OTHER] = "prepare_other",
};

const Away *timeline_away_at(const Batch *batch, Instant at) {
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        const Away *away = &batch->timing.away.items[i];
        if (at > away->from && at < away->to) {
            return away;
        }
    }
    return NULL;
}

static PlanStep *add(Arena *arena, Plan *plan, const char *key, Instant at) {
    PlanStep step = {
        .key = key,
        .at = at,
        .amount = no_quantity(),
        .second = no_quantity(),
    };
    LIST_ADD(arena, &plan->steps, step);
    return &plan->steps.items[plan->steps.count - 1];
}

static Instant five_minutes_down(double at) {
    return (Instant)floor(at / STEP_S) * STEP_S;
}

static const PlanFill *first_fill(const Plan *plan) {
    return plan->fills.count > 0 ? &plan->fills.items[0] : NULL;
}

/* Whether no fill before this one takes the same tray: then it is filled with the others. */
static bool takes_tray_first(const Plan *plan, size_t index) {
    for (size_t i = 0; i < index; i++) {
        if (plan->fills.items[i].tray == plan->fills.items[index].tray) {
            return false;
        }
    }
    return true;
}

static Instant trays_to_fill(const Plan *plan) {
    Instant count = 0;
    for (size_t i = 0; i < plan->fills.count; i++) {
        count += takes_tray_first(plan, i);
    }
    return count;
}

static void add_fill(Arena *arena, Plan *plan, size_t index, Instant at) {
    const PlanFill *fill = &plan->fills.items[index];
    const char *to_mark = fill->tray->path == PATH_LANES ? "fill_to_lane" : "fill_to_mark";
    PlanStep *step = add(arena, plan, fill->whole ? "fill" : to_mark, at);
    step->name = fill->tray->name;
    step->amount = quantity(QUANTITY_MASS, fill->wet_kg);
    step->second = quantity(QUANTITY_LENGTH, fill->filled_m);
    step->fill = fill->number;
}

/* Weigh, mix, fill every tray of the night: done by the instant `ready`. */
static Instant add_filling(Arena *arena, const Batch *batch, Plan *plan, Instant ready) {
    Instant trays = trays_to_fill(plan);
    Instant takes_s = WEIGH_S + MIX_S + FILL_S * (trays > 0 ? trays : 1);
    ready = absence_done_by(batch, five_minutes_down((double)ready), takes_s, STEP_S);
    Instant fill_at = ready - takes_s + WEIGH_S + MIX_S;
    Instant mix_at = fill_at - MIX_S;
    const PlanDrying *drying = &plan->drying;
    bool weighed_dry = drying->needed && drying->scale_can_tell;
    PlanStep *step = add(arena, plan, weighed_dry ? "weigh_tray" : "weigh", mix_at - WEIGH_S);
    step->amount = quantity(QUANTITY_MASS, plan->blend.wet_kg);
    add(arena, plan, plan->blend.parts.count > 1 ? "mix" : "loosen", mix_at);
    for (size_t i = 0; i < plan->fills.count; i++) {
        if (takes_tray_first(plan, i)) {
            add_fill(arena, plan, i, fill_at);
            fill_at += FILL_S;
        }
    }
    return mix_at - WEIGH_S;
}

/* Dust for a tray that burns more than once can not lie in the tray while it is dried. */
static bool has_refills(const Plan *plan) {
    for (size_t i = 0; i < plan->fills.count; i++) {
        if (!takes_tray_first(plan, i)) {
            return true;
        }
    }
    return false;
}

/* Dust of which nobody measured how damp it is has no one mass to reach. */
static void add_check(Arena *arena, Plan *plan, Instant out) {
    const PlanDrying *drying = &plan->drying;
    const char *key = !drying->scale_can_tell ? "check_by_time"
                      : drying->assumed       ? "check_again"
                                              : "check";
    bool again = drying->scale_can_tell && drying->assumed;
    PlanStep *step = add(arena, plan, key, out - (again ? AGAIN_S : 0));
    step->amount = quantity(QUANTITY_MASS, again ? drying->end_low_kg : drying->end_kg);
    step->second = quantity(QUANTITY_MASS, again ? drying->end_high_kg : drying->water_kg);
}

static double drying_s(const PlanDrying *drying) {
    return drying->time_s + (drying->assumed && drying->scale_can_tell ? AGAIN_S : 0);
}

static void add_drying(Arena *arena, Plan *plan, Instant in, Instant out) {
    const PlanDrying *drying = &plan->drying;
    PlanStep *step = add(arena, plan, has_refills(plan) ? "dry_refills" : "dry", in);
    step->amount = quantity(QUANTITY_TEMPERATURE, drying->oven_temp_c);
    step->second = quantity(QUANTITY_DURATION, drying->time_s);
    add_check(arena, plan, out);
    step = add(arena, plan, drying->wait_sealed ? "cool_sealed" : "cool_open", out);
    step->amount = quantity(QUANTITY_DURATION, drying->wait_s);
}

/* When somebody is there: then, or else when they are back before lighting, or before they go. */
static Instant before_lighting(const Batch *batch, Instant light_at, Instant at) {
    Instant back = absence_back(batch, at);
    return back <= light_at ? back : absence_done_by(batch, at, 0, STEP_S);
}

Instant timeline_prepare_at(const Batch *batch, Instant light_at) {
    Instant at = five_minutes_down((double)(light_at - prepare_s[batch->product.kind]));
    return before_lighting(batch, light_at, at);
}

Instant timeline_hang_at(const Batch *batch, Instant light_at) {
    return before_lighting(batch, light_at, light_at - HANG_BEFORE_S);
}

/* Everything up to the lit match; the preparing of the product takes its place by the clock. */
static void add_before(Arena *arena, const Batch *batch, Plan *plan) {
    const PlanDrying *drying = &plan->drying;
    bool dries = drying->asked && drying->needed && drying->time_s > 0;
    double light_at = (double)plan->burn.light_at;
    Instant oven_s = dries ? (Instant)ceil(drying_s(drying) / STEP_S) * STEP_S : 0;
    Instant oven_out = absence_done_by(
        batch, five_minutes_down(light_at - (dries ? drying->wait_s : 0)), oven_s, STEP_S);
    Instant oven_in = oven_out - oven_s;
    Instant hang_at = timeline_hang_at(batch, plan->burn.light_at);
    add_filling(arena, batch, plan, dries ? oven_in : hang_at);
    if (dries) {
        add_drying(arena, plan, oven_in, oven_out);
    }
    Instant prepare_at = timeline_prepare_at(batch, plan->burn.light_at);
    const Product *product = &batch->product;
    const char *prepare = product->salting.stated ? "prepare_dried" : prepare_keys[product->kind];
    add(arena, plan, prepare, prepare_at)->name = product->name;
    bool salt = batch->product.kind == PRODUCT_SALT;
    PlanStep *step = add(arena, plan, salt ? "hang_salt" : "hang", hang_at);
    step->name = batch->product.name;
}

static void add_lighting(Arena *arena, const Batch *batch, Plan *plan) {
    const PlanFill *fill = first_fill(plan);
    bool both = fill && fill->both_ends;
    PlanStep *step = add(arena, plan, both ? "light_both" : "light", plan->burn.light_at);
    step->fill = fill ? fill->number : 0;
    step->name = fill ? fill->tray->name : NULL;
    bool leave = timeline_away_at(batch, plan->burn.light_at + STEP_S) != NULL;
    add(arena, plan, "close", plan->burn.light_at + (leave ? 0 : STEP_S));
    if (plan->look_ins.count > 0) {
        add(arena, plan, "first_look_in", plan->look_ins.items[0].at);
    }
}

/* A look that had to wait until the burn is over watches nothing any more. */
static void add_worst(Arena *arena, Plan *plan) {
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        const PlanLookIn *look_in = &plan->look_ins.items[i];
        bool weak = plan->burn.chance < plan->burn.chance_good;
        if (look_in->worst && weak && look_in->at < plan->burn.out_at - STEP_S) {
            PlanStep *step = add(arena, plan, "worst_look_in", look_in->at);
            step->second = quantity(QUANTITY_LENGTH, look_in->along_m);
            step->fill = look_in->fill;
            return;
        }
    }
}

static void add_further_fills(Arena *arena, Plan *plan) {
    if (plan->fills.count > 1 + FURTHER_FILLS_MAX) {
        PlanStep *step = add(arena, plan, "next_fills", plan->fills.items[1].light_at);
        step->amount = quantity(QUANTITY_COUNT, (double)plan->fills.count - 1);
        return;
    }
    for (size_t i = 1; i < plan->fills.count; i++) {
        const PlanFill *fill = &plan->fills.items[i];
        bool same_tray = fill->tray == plan->fills.items[i - 1].tray;
        PlanStep *step = add(arena, plan, same_tray ? "refill" : "next_tray", fill->light_at);
        step->name = fill->tray->name;
        step->amount = quantity(QUANTITY_MASS, same_tray ? fill->ready_kg : fill->wet_kg);
        step->fill = fill->number;
    }
}

static const char *take_out_key(ProductKind kind) {
    return kind == PRODUCT_SALT ? "take_out_salt" : "take_out";
}

static void add_after(Arena *arena, const Batch *batch, Plan *plan) {
    const char *key = take_out_key(batch->product.kind);
    Instant end = absence_back(batch, plan->burn.out_about);
    PlanStep *step = add(arena, plan, key, end);
    step->name = batch->product.name;
    step->amount = quantity(QUANTITY_INSTANT, (double)plan->burn.out_early);
    step->second = quantity(QUANTITY_INSTANT, (double)plan->burn.out_late);
    add(arena, plan, "ash", end)->amount = quantity(QUANTITY_DURATION, ASH_S);
    add(arena, plan, "record", 0);
}

/* By the clock; what has none stays last. Insertion keeps the order of equal times. */
static void by_the_clock(Plan *plan) {
    PlanStep *steps = plan->steps.items;
    for (size_t i = 1; i < plan->steps.count; i++) {
        PlanStep moved = steps[i];
        size_t at = i;
        for (; at > 0 && moved.at && steps[at - 1].at > moved.at; at--) {
            steps[at] = steps[at - 1];
        }
        steps[at] = moved;
    }
}

void timeline_add_steps(Arena *arena, const Batch *batch, Plan *plan) {
    add_before(arena, batch, plan);
    add_lighting(arena, batch, plan);
    add_worst(arena, plan);
    add_further_fills(arena, plan);
    add_after(arena, batch, plan);
    by_the_clock(plan);
}

void timeline_add(Arena *arena, const Batch *batch, Plan *plan) {
    timeline_add_look_ins(arena, batch, plan);
    timeline_add_steps(arena, batch, plan);
    timeline_add_decisions(arena, plan);
    timeline_add_nights(arena, plan);
}

const char *const *timeline_step_keys(size_t *count) {
    static const char *const keys[] = {
        "prepare_cheese", "prepare_butter", "prepare_fish",  "prepare_salt", "prepare_meat",
        "prepare_other",  "prepare_dried",  "weigh",         "weigh_tray",   "mix",
        "loosen",         "fill",           "fill_to_mark",  "fill_to_lane", "dry",
        "check",          "check_by_time",  "check_again",   "cool_sealed",  "cool_open",
        "dry_refills",    "hang_salt",      "hang",          "light",        "light_both",
        "close",          "first_look_in",  "worst_look_in", "refill",       "next_tray",
        "next_fills",     "take_out",       "take_out_salt", "ash",          "record"};
    *count = sizeof keys / sizeof *keys;
    return keys;
}
