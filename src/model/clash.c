#include "model/clash.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

/* How long a thing is not free before and after what it is there for. Judgement: a tray is weighed
 * out and filled within the hour; when the glow is out it takes two to be stone cold, emptied and
 * brushed; a cabinet has the product taken out, is aired and wiped in half an hour; an oven takes a
 * quarter to be hot. */
static const double HANG_S = 15 * SECONDS_PER_MINUTE;
static const double FILLING_S = 45 * SECONDS_PER_MINUTE;
static const double TRAY_COLD_S = 2 * SECONDS_PER_HOUR;
static const double CABINET_CLEAN_S = 30 * SECONDS_PER_MINUTE;
static const double OVEN_HOT_S = 15 * SECONDS_PER_MINUTE;

/* The late end of the 80 % band of a normal distribution, in spreads. */
static const double LATE_SPREADS = 1.2815515655446004;

static double late_end(const Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    double late = (double)burn->light_at + burn->duration_s * exp(LATE_SPREADS * burn->log_spread);
    return fmax(late, (double)burn->out_late);
}

/* Outwards to whole quarters: nobody hands a tray over by the minute. */
static ClashSpan span(double from, double to) {
    const double quarter = 15 * SECONDS_PER_MINUTE;
    return to > from ? (ClashSpan){(Instant)(floor(from / quarter) * quarter),
                                   (Instant)(ceil(to / quarter) * quarter)}
                     : (ClashSpan){0, 0};
}

ClashUse clash_use(const Plan *plan) {
    const PlanDrying *drying = &plan->drying;
    const PlanHappened *happened = &plan->happened;
    double lit = happened->over ? (double)happened->lit_at : (double)plan->burn.light_at;
    double shifted = lit - (double)plan->burn.light_at;
    double out = happened->over && happened->out_at ? (double)happened->out_at
                                                    : late_end(plan) + shifted;
    bool dries = drying->asked && drying->needed && drying->time_s > 0;
    double dry_out = lit - (dries ? drying->wait_s : HANG_S);
    double dry_in = dry_out - (dries ? drying->time_s : 0);
    ClashUse use = {.batch = plan->batch, .trays = span(dry_in - FILLING_S, out + TRAY_COLD_S)};
    if (plan->batch->cabinet) {
        use.cabinet = span(lit - HANG_S, out + CABINET_CLEAN_S);
    }
    if (dries) {
        use.oven = span(dry_in - OVEN_HOT_S, dry_out);
    }
    return use;
}

static const Tray *shared_tray(const Batch *a, const Batch *b) {
    for (size_t i = 0; i < a->fills.count; i++) {
        for (size_t j = 0; j < b->fills.count; j++) {
            const Tray *tray = a->fills.items[i].tray;
            if (text_same(tray->id, b->fills.items[j].tray->id)) {
                return tray;
            }
        }
    }
    return NULL;
}

/* The things both may take, as bits by ClashThing. */
static unsigned shared_things(const Batch *a, const Batch *b) {
    if (!workshop_same(a->workshop, b->workshop)) {
        return 0;
    }
    bool cabinet = a->cabinet && b->cabinet && text_same(a->cabinet->id, b->cabinet->id);
    return (shared_tray(a, b) ? 1U << CLASH_TRAY : 0) | (cabinet ? 1U << CLASH_CABINET : 0) |
           (a->predry.stated && b->predry.stated ? 1U << CLASH_OVEN : 0);
}

static const char *name_of(ClashThing thing, const Batch *a, const Batch *b) {
    if (thing == CLASH_TRAY) {
        const Tray *tray = shared_tray(a, b);
        return tray->name ? tray->name : tray->id;
    }
    if (thing == CLASH_CABINET) {
        return a->cabinet->name ? a->cabinet->name : a->cabinet->id;
    }
    return NULL;
}

ClashThing clash_shared(const Batch *a, const Batch *b, const char **name) {
    unsigned things = shared_things(a, b);
    for (ClashThing thing = CLASH_TRAY; thing <= CLASH_OVEN; thing++) {
        if (things & 1U << thing) {
            if (name) {
                *name = name_of(thing, a, b);
            }
            return thing;
        }
    }
    return CLASH_NONE;
}

static const ClashSpan *span_of(const ClashUse *use, ClashThing thing) {
    return thing == CLASH_TRAY ? &use->trays : thing == CLASH_CABINET ? &use->cabinet : &use->oven;
}

Clash clash_between(const ClashUse *a, const ClashUse *b) {
    unsigned things = shared_things(a->batch, b->batch);
    for (ClashThing thing = CLASH_TRAY; thing <= CLASH_OVEN; thing++) {
        const ClashSpan *one = span_of(a, thing);
        const ClashSpan *other = span_of(b, thing);
        Instant from = one->from > other->from ? one->from : other->from;
        Instant to = one->to < other->to ? one->to : other->to;
        if (things & 1U << thing && from < to) {
            return (Clash){thing, name_of(thing, a->batch, b->batch), from, to};
        }
    }
    return (Clash){.thing = CLASH_NONE};
}
