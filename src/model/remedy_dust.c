/* Trials that change the dust: drier, sieved, with more of a reliable one. */
#include "model/fire_constants.h"
#include "model/grain.h"
#include "model/remedy_trial.h"

#include <math.h>
#include <string.h>

enum { CARRIERS_TRIED = 4 };

static const double oven_usual_c = 100;         /* common practice, no source */
static const double drier_least = 0.005;        /* moisture: less is not worth the oven */
static const double fines_worth_sieving = 0.02; /* share by mass */
static const double carrier_least_more = 0.01;  /* share by mass: less is not worth a new blend */

void remedy_try_drying(const RemedyAsk *ask) {
    const double target = FIRE_REFERENCE_MOISTURE;
    if (ask->plan->drying.lit_moisture < target + drier_least) {
        return;
    }
    Batch *changed = remedy_copy(ask);
    Predry *predry = &changed->predry;
    if (!predry->stated) {
        predry->oven_temp_c = oven_usual_c;
        predry->wait_s = NOT_STATED;
        predry->stated = true;
    }
    predry->time_s = NOT_STATED;
    predry->target = target;
    const Plan *after = remedy_work_out(ask, changed, ask->plan->burn.light_at);
    Remedy remedy = {
        .kind = REMEDY_DRY,
        .amount = quantity(QUANTITY_MOISTURE, target),
        .second = quantity(QUANTITY_DURATION, after->drying.time_s),
    };
    remedy_keep(ask, after, remedy);
}

/* Takes the fines out of a sieve analysis; returns the share of the dust that goes. */
static double sieve_classes(Arena *arena, SieveAnalysis *sieve, double aperture_m) {
    SieveClass *classes = ARENA_ARRAY(arena, sieve->classes.count, SieveClass);
    double all = 0;
    double out = 0;
    for (size_t i = 0; i < sieve->classes.count; i++) {
        classes[i] = sieve->classes.items[i];
        all += classes[i].retained;
        if (classes[i].aperture_m < aperture_m) {
            out += GRAIN_SIEVE_EFFICIENCY * classes[i].retained;
            classes[i].retained *= 1 - GRAIN_SIEVE_EFFICIENCY;
        }
    }
    sieve->classes.items = classes;
    sieve->classes.capacity = sieve->classes.count;
    sieve->by_percent = false; /* what is left no longer makes a hundred */
    sieve->sample_kg = NOT_STATED;
    return all > 0 ? out / all : 0;
}

static double sieve_range(Dust *dust, double aperture_m) {
    if (!(dust->grain_from_m < aperture_m && aperture_m < dust->grain_to_m)) {
        return 0;
    }
    double out = log(aperture_m / dust->grain_from_m) / log(dust->grain_to_m / dust->grain_from_m);
    dust->grain_from_m = aperture_m;
    return out;
}

/* A sieved copy of the dust; adds what goes to *out_share. */
static const Dust *sieved(Arena *arena, const Dust *dust, double aperture_m, double *out_share) {
    Dust *copy = ARENA_NEW(arena, Dust);
    *copy = *dust;
    *out_share = copy->sieve.classes.count > 0 ? sieve_classes(arena, &copy->sieve, aperture_m)
                                               : sieve_range(copy, aperture_m);
    return copy;
}

/* Whether there is so much of a dust that, sieved, it gives what the blend needs: on the shelf if
 * that was stated; else twice what is weighed out is the most that can be counted on, so that never
 * more goes than stays. */
static bool enough_to_sieve(const PlanPart *part, double share) {
    double before_kg = part->wet_kg / (1 - fmin(share, 0.95));
    double at_hand_kg = is_stated(part->dust->stock_kg) ? part->dust->stock_kg : 2 * part->wet_kg;
    return !(share > 0) || before_kg <= at_hand_kg;
}

void remedy_try_sieving(const RemedyAsk *ask) {
    const PlanBlend *blend = &ask->plan->blend;
    if (blend->grain.fines_mass_share < fines_worth_sieving) {
        return;
    }
    Batch *changed = remedy_copy(ask);
    double removed_kg = 0;
    for (size_t i = 0; i < changed->blend.parts.count && i < blend->parts.count; i++) {
        BlendPart *part = &changed->blend.parts.items[i];
        double share = 0;
        part->dust = sieved(ask->arena, part->dust, GRAIN_FINES_APERTURE_M, &share);
        if (!enough_to_sieve(&blend->parts.items[i], share)) {
            return;
        }
        /* So much more has to be weighed before sieving, for the wanted mass after it. */
        removed_kg += blend->parts.items[i].wet_kg * share / (1 - fmin(share, 0.95));
    }
    Remedy remedy = {
        .kind = REMEDY_SIEVE,
        .amount = quantity(QUANTITY_GRAIN, GRAIN_FINES_APERTURE_M),
        .second = quantity(QUANTITY_MASS, removed_kg),
    };
    remedy_keep(ask, remedy_work_out(ask, changed, ask->plan->burn.light_at), remedy);
}

static size_t part_of_dust(const Blend *blend, const Dust *dust) {
    size_t i = 0;
    while (i < blend->parts.count && strcmp(blend->parts.items[i].dust->id, dust->id) != 0) {
        i++;
    }
    return i;
}

/* The batch with that dust as its only carrier, the rest in its present proportions; NULL if
 * nothing else is in it. */
static const Batch *carried_by(const RemedyAsk *ask, const Dust *dust) {
    Batch *changed = remedy_copy(ask);
    Blend *blend = &changed->blend;
    size_t carrier = part_of_dust(blend, dust);
    if (carrier == blend->parts.count) {
        BlendPart part = {.dust = dust, .kind = SHARE_FIXED, .share = 0};
        LIST_ADD(ask->arena, &blend->parts, part);
    }
    double rest = 1 - blend->parts.items[carrier].share;
    if (!(rest > 1e-6)) {
        return NULL;
    }
    for (size_t i = 0; i < blend->parts.count; i++) {
        blend->parts.items[i].share /= rest;
    }
    blend->parts.items[carrier].kind = SHARE_LEAST;
    blend->parts.items[carrier].share = 1;
    return changed;
}

/* A dust that others could lean on: clean, not charred, not a herb or chip. */
static bool may_carry(const Dust *dust) {
    return dust->form == FORM_DUST && !dust->charred && !(dust->stock_kg <= 0);
}

/* Whether a carrier was found of which there is clearly more than now. */
static bool carries_more(const RemedyAsk *ask, const Plan *after, const Dust *dust) {
    double now = 0;
    for (size_t i = 0; i < ask->plan->blend.parts.count; i++) {
        const PlanPart *part = &ask->plan->blend.parts.items[i];
        now += strcmp(part->dust->id, dust->id) == 0 ? part->dry_share : 0;
    }
    return after->blend.solver == SOLVER_FOUND &&
           after->blend.carrier_share >= now + carrier_least_more;
}

void remedy_try_carrier(const RemedyAsk *ask) {
    const Workshop *workshop = ask->batch->workshop;
    const Plan *best = NULL;
    const Dust *carrier = NULL;
    int tried = 0;
    for (size_t i = 0; i < workshop->dusts.count && tried < CARRIERS_TRIED; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        const Batch *changed = may_carry(dust) ? carried_by(ask, dust) : NULL;
        if (!changed) {
            continue;
        }
        tried++;
        const Plan *after = remedy_work_out(ask, changed, ask->plan->burn.light_at);
        bool more = carries_more(ask, after, dust);
        if (more && (!best || after->verdict < best->verdict ||
                     (after->verdict == best->verdict &&
                      after->blend.carrier_share < best->blend.carrier_share))) {
            best = after;
            carrier = dust;
        }
    }
    if (best) {
        Remedy remedy = {
            .kind = REMEDY_CARRIER,
            .name = carrier->name,
            .amount = quantity(QUANTITY_SHARE, best->blend.carrier_share),
            .second = no_quantity(),
        };
        remedy_keep(ask, best, remedy);
    }
}
