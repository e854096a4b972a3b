#include "model/preparation.h"

#include "base/zone.h"
#include "model/absence.h"
#include "model/brine.h"
#include "model/salting.h"
#include "model/timeline.h"

#include <math.h>
#include <string.h>

enum {
    STEP_S = 15 * SECONDS_PER_MINUTE, /* steps fall on whole quarters of an hour */
    SEARCH_S = 60 * SECONDS_PER_DAY,  /* so far back an hour with somebody there is looked for */
    DRY_ON_S = 12 * SECONDS_PER_HOUR  /* drying may begin so much earlier than it has to */
};

/* From salt to hanging. */
typedef struct Salted {
    Instant from, out, rinsed, dry_from;
} Salted;

static Instant quarter_down(Instant at) {
    return at - ((at % STEP_S) + STEP_S) % STEP_S;
}

static bool attended(const Batch *batch, Instant at) {
    const Zone *zone = batch->workshop->zone;
    CivilTime clock = zone ? zone_civil(zone, at) : civil_from_utc(at);
    bool up = clock.hour >= PREPARATION_UP &&
              (clock.hour < PREPARATION_DOWN ||
               (clock.hour == PREPARATION_DOWN && clock.minute == 0 && clock.second == 0));
    return up && absence_back(batch, at) == at;
}

/* The latest quarter of an hour up to `until` at which somebody is there, and again `apart` later;
 * the last one at all when there is none. */
static Instant latest(const Batch *batch, Instant until, Instant apart) {
    Instant last = quarter_down(until);
    for (Instant at = last; at > until - SEARCH_S; at -= STEP_S) {
        if (attended(batch, at) && attended(batch, at + apart)) {
            return at;
        }
    }
    return last;
}

/* What is even gets no saltier: it may wait until somebody is there. */
static Instant out_of_salt(const Batch *batch, Instant from, Instant last) {
    const Salting *salting = &batch->product.salting;
    Instant out = from + (Instant)salting->time_s;
    if (salting->method != SALTING_EQUILIBRIUM) {
        return out;
    }
    for (Instant at = out; at <= last; at += STEP_S) {
        if (attended(batch, at)) {
            return at;
        }
    }
    return out;
}

static Salted salted_from(const Batch *batch, Instant from, Instant end) {
    const Salting *salting = &batch->product.salting;
    Instant dry_last = end - (Instant)salting->dry_s;
    Salted salted = {.from = from};
    salted.out = out_of_salt(batch, from, dry_last - (Instant)salting->rinse_s);
    salted.rinsed = salted.out + (Instant)salting->rinse_s;
    salted.dry_from = salted.rinsed;
    if (dry_last - salted.rinsed > DRY_ON_S) {
        Instant dry_at = latest(batch, dry_last, 0);
        salted.dry_from = dry_at > salted.rinsed ? dry_at : salted.rinsed;
    }
    return salted;
}

static Salted salted_before(const Batch *batch, Instant end) {
    const Salting *salting = &batch->product.salting;
    Instant after_s = (Instant)(salting->rinse_s + salting->dry_s);
    Instant time_s = (Instant)salting->time_s;
    return salted_from(batch, latest(batch, end - after_s - time_s, time_s), end);
}

static void add(Arena *arena, PlanPreparation *preparation, const char *key, Instant at,
                Instant until, double time_s, double temp_c) {
    PlanTask task = {.key = key, .at = at, .until = until, .time_s = time_s, .temp_c = temp_c};
    LIST_ADD(arena, &preparation->tasks, task);
}

static const char *salt_key(const Salting *salting) {
    if (is_stated(salting->water_kg)) {
        return salting->in_degrees ? "brine_degrees" : "brine_percent";
    }
    return salting->method == SALTING_DRY ? "salt_dry" : "salt_even";
}

static void add_salting(Arena *arena, const Product *product, const Salted *salted, Instant end,
                        PlanPreparation *preparation) {
    const Salting *salting = &product->salting;
    if (product->cure.stated) {
        add(arena, preparation, "cure", salted->from, salted->from, 0, NOT_STATED);
    }
    add(arena, preparation, salt_key(salting), salted->from, salted->out, salting->time_s,
        salting->temp_c);
    add(arena, preparation, salting->rinse_s > 0 ? "rinse" : "wipe", salted->out, salted->rinsed,
        salting->rinse_s, NOT_STATED);
    add(arena, preparation, "dry", salted->dry_from, end, salting->dry_s, salting->temp_c);
    preparation->kept_s = (double)(salted->dry_from - salted->rinsed);
}

static void add_freezing(Arena *arena, const Product *product, Instant from, Instant thaw_at,
                         Instant until, PlanPreparation *preparation) {
    const Freezing *freezing = &product->freezing;
    double cold_c = product->salting.stated ? product->salting.temp_c : NOT_STATED;
    add(arena, preparation, "freeze", from, thaw_at, freezing->time_s, freezing->temp_c);
    add(arena, preparation, "thaw", thaw_at, until, freezing->thaw_s, cold_c);
}

static void set_amounts(const Product *product, bool salts, PlanPreparation *preparation) {
    SaltingAmounts none = {NOT_STATED, NOT_STATED, NOT_STATED, NOT_STATED, NOT_STATED,
                           NOT_STATED, NOT_STATED, NOT_STATED, NOT_STATED};
    SaltingAmounts amounts = salts ? salting_amounts(product) : none;
    preparation->meat_kg = salts ? product->mass_kg : NOT_STATED;
    preparation->salt_kg = amounts.salt_kg;
    preparation->cure_kg = amounts.cure_kg;
    preparation->water_kg = amounts.water_kg;
    preparation->liquid_kg = amounts.liquid_kg;
    preparation->volume_m3 = amounts.brine_volume_m3;
    preparation->strength = amounts.strength;
    preparation->degrees = brine_degrees(amounts.strength);
    preparation->even_share = amounts.even_share;
}

/* The first step of all that nobody can begin at a usual hour; what follows at once upon another,
 * or was begun already, is left out. */
static Instant odd_hour(const Batch *batch, const PlanPreparation *preparation) {
    const Product *product = &batch->product;
    for (size_t i = 0; i < preparation->tasks.count; i++) {
        const PlanTask *task = &preparation->tasks.items[i];
        bool begun = task->at == product->freezing.begun || task->at == product->salting.begun;
        bool at_once = strcmp(task->key, "dry") == 0 && task[-1].until == task->at;
        if (!begun && !at_once && !attended(batch, task->at)) {
            return task->at;
        }
    }
    return 0;
}

/* How long all takes that comes after the freezer or after the salt was begun. */
static double rest_s(const Product *product, bool salts) {
    const Salting *salting = &product->salting;
    return salts ? salting->time_s + salting->rinse_s + salting->dry_s : 0;
}

/* As soon as what was begun can be done; 0: nothing was begun. */
static Instant ready_at(const Product *product, bool freezes, bool salts) {
    const Freezing *freezing = &product->freezing;
    if (salts && product->salting.begun) {
        return product->salting.begun + (Instant)rest_s(product, true);
    }
    if (freezes && freezing->begun) {
        double after_s = freezing->time_s + freezing->thaw_s + rest_s(product, salts);
        return freezing->begun + (Instant)after_s;
    }
    return 0;
}

/* All by the clock, back from `end`. What comes out of the freezer sooner than the salting wants it
 * stays in; what comes out later is salted at once. */
static void schedule(Arena *arena, const Batch *batch, Instant end, bool freezes, bool salts,
                     PlanPreparation *preparation) {
    const Product *product = &batch->product;
    const Freezing *freezing = &product->freezing;
    Instant thaw_s = (Instant)freezing->thaw_s;
    Instant frozen = freezing->begun ? freezing->begun + (Instant)freezing->time_s : 0;
    Salted salted = {.from = end};
    if (salts && product->salting.begun) {
        salted = salted_from(batch, product->salting.begun, end);
    } else if (salts) {
        salted = salted_before(batch, end);
    }
    if (freezes) {
        Instant thaw_at = latest(batch, salted.from - thaw_s, 0);
        if (freezing->begun && thaw_at < frozen) {
            thaw_at = frozen;
            bool move = salts && !product->salting.begun && salted.from < frozen + thaw_s;
            salted = move ? salted_from(batch, frozen + thaw_s, end) : salted;
        }
        Instant from = freezing->begun ? freezing->begun
                                       : latest(batch, thaw_at - (Instant)freezing->time_s, 0);
        add_freezing(arena, product, from, thaw_at, salted.from, preparation);
    }
    if (salts) {
        add_salting(arena, product, &salted, end, preparation);
    }
    Instant first = preparation->tasks.items[0].at;
    bool frozen_first = freezes && !freezing->begun && !product->salting.begun;
    bool salt_next = salts && !product->salting.begun;
    preparation->begin_by = frozen_first ? first : salt_next ? salted.from : 0;
}

void preparation_plan(Arena *arena, const Batch *batch, Instant light_at, Plan *plan) {
    const Product *product = &batch->product;
    PlanPreparation *preparation = &plan->preparation;
    bool salts = product->salting.stated;
    bool freezes = product->freezing.stated && product->freezing.planned;
    memset(preparation, 0, sizeof *preparation);
    preparation->length_s = NOT_STATED;
    if (!salts && !freezes) {
        return;
    }
    Instant end = salts ? timeline_hang_at(batch, light_at) : timeline_prepare_at(batch, light_at);
    set_amounts(product, salts, preparation);
    preparation->begun = product->salting.begun ? product->salting.begun : product->freezing.begun;
    preparation->ready_at = ready_at(product, freezes, salts);
    preparation->not_ready = preparation->ready_at > end;
    if (preparation->not_ready) {
        return;
    }
    schedule(arena, batch, end, freezes, salts, preparation);
    preparation->ready_at = end;
    preparation->length_s = (double)(light_at - preparation->tasks.items[0].at);
    preparation->odd_at = odd_hour(batch, preparation);
    preparation->late = preparation->begin_by && batch->planned_at && !batch->record.stated &&
                        batch->planned_at > preparation->begin_by;
}

const char *const *preparation_task_keys(size_t *count) {
    static const char *const keys[] = {
        "freeze",        "thaw",          "cure",  "salt_dry", "salt_even",
        "brine_percent", "brine_degrees", "rinse", "wipe",     "dry"};
    *count = sizeof keys / sizeof *keys;
    return keys;
}
