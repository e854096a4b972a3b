#include "model/season.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- Nights ---------------------------------------------------------------------------------- */

static SeasonState state_of(const Record *record, Instant light_at, Instant now) {
    if (!record->stated || !record->lit) {
        return now && light_at < now ? SEASON_UNWRITTEN : SEASON_PLANNED;
    }
    if (record->went_out_early) {
        return SEASON_DIED;
    }
    if (record->relit.count > 0) {
        return SEASON_RELIT;
    }
    if (record->out <= record->lit) {
        return SEASON_NO_END;
    }
    return record->burnt_m > 0 ? SEASON_STOPPED : SEASON_LASTED;
}

/* All trays of the night, each once, with ", " between. */
static const char *trays_of(Arena *arena, const Plan *planned) {
    const char *names = NULL;
    for (size_t i = 0; i < planned->fills.count; i++) {
        const Tray *tray = planned->fills.items[i].tray;
        bool named = false;
        for (size_t k = 0; k < i; k++) {
            named = named || planned->fills.items[k].tray == tray;
        }
        if (!named) {
            names = names ? arena_format(arena, "%s, %s", names, tray->name) : tray->name;
        }
    }
    return names;
}

/* A dust may be in the blend twice. */
static void add_take(Arena *arena, SeasonEntry *entry, const Dust *dust, double mass_kg) {
    for (size_t i = 0; i < entry->takes.count; i++) {
        if (entry->takes.items[i].dust == dust) {
            entry->takes.items[i].mass_kg += mass_kg;
            return;
        }
    }
    LIST_ADD(arena, &entry->takes, ((SeasonTake){dust, mass_kg}));
}

/* What the night takes from the shelf. */
static void add_takes(Arena *arena, SeasonEntry *entry, const Plan *planned) {
    for (size_t i = 0; i < planned->blend.parts.count; i++) {
        const PlanPart *part = &planned->blend.parts.items[i];
        add_take(arena, entry, part->dust, part->wet_kg + part->packed_kg);
    }
    for (size_t i = 0; i < planned->bags.count; i++) {
        entry->bags += planned->bags.items[i].count;
    }
}

static void set_planned(const Plan *planned, SeasonEntry *entry) {
    const PlanBurn *burn = &planned->burn;
    entry->verdict = planned->verdict;
    entry->chance = burn->chance;
    entry->chance_said_in = burn->chance_said_in;
    entry->chance_said_of = burn->chance_said_of;
    entry->cause = burn->cause;
    entry->planned_s = burn->duration_s;
    entry->early_s = (double)(burn->out_early - burn->light_at);
    entry->late_s = (double)(burn->out_late - burn->light_at);
}

/* Whether the tray was filled otherwise than planned. */
static bool filled_otherwise(const Plan *planned, const Record *record) {
    if (planned->fills.count != 1 || !(record->filled_m > 0)) {
        return false;
    }
    double filled_m = fmin(record->filled_m, planned->fills.items[0].channel_m);
    return fabs(filled_m / planned->fills.items[0].filled_m - 1) > SEASON_SAME_LENGTH;
}

static void set_happened(const Plan *planned, const Record *record, SeasonEntry *entry) {
    entry->lit_at = record->lit;
    entry->end_at = record->lit + (Instant)entry->late_s;
    entry->other_length = filled_otherwise(planned, record);
    entry->ash_kg = record->ash_kg;
    entry->remark = record->remark;
    entry->dust_kg = record->used_kg > 0 ? record->used_kg : planned->blend.wet_kg;
    if (record->out <= record->lit) {
        return;
    }
    entry->end_at = record->out;
    entry->took_s = (double)(record->out - record->lit);
    entry->compared = entry->state == SEASON_LASTED && !entry->other_length;
    entry->within = entry->compared && entry->took_s >= entry->early_s &&
                    entry->took_s <= entry->late_s;
}

/* What the night takes of the workshop: by its record where there is one. */
static ClashUse use_of(const Plan *planned, const Batch *batch, const SeasonEntry *entry) {
    Plan plan = *planned;
    plan.batch = batch;
    if (entry->state > SEASON_UNWRITTEN) {
        plan.happened =
            (PlanHappened){.over = true, .lit_at = batch->record.lit, .out_at = batch->record.out};
    }
    return clash_use(&plan);
}

static void add_entry(Arena *arena, SeasonGathering *gathering, SeasonEntry entry, ClashUse use) {
    entry.number = gathering->uses.count;
    LIST_ADD(arena, &gathering->season.entries, entry);
    LIST_ADD(arena, &gathering->uses, use);
}

/* An entry of which nothing is known that is measured. */
static SeasonEntry bare_entry(SeasonKind kind, SeasonState state) {
    return (SeasonEntry){.kind = kind,
                         .state = state,
                         .product_kg = NOT_STATED,
                         .chance = NOT_STATED,
                         .planned_s = NOT_STATED,
                         .early_s = NOT_STATED,
                         .late_s = NOT_STATED,
                         .took_s = NOT_STATED,
                         .ash_kg = NOT_STATED};
}

/* What is still to be done. */
static void add_steps(Arena *arena, SeasonGathering *gathering, const Plan *planned,
                      const SeasonEntry *night) {
    const Zone *zone = planned->workshop->zone;
    for (size_t i = 0; i < planned->preparation.tasks.count; i++) {
        const PlanTask *task = &planned->preparation.tasks.items[i];
        if (task->at < gathering->season.now) {
            continue;
        }
        SeasonEntry entry = bare_entry(SEASON_PREPARATION, SEASON_PLANNED);
        entry.date = zone ? zone_civil(zone, task->at).date : (Date){0};
        entry.at = task->at;
        entry.name = night->name;
        entry.file = night->file;
        entry.lot = night->lot;
        entry.step = task->key;
        entry.product = night->product;
        entry.dust_kg = NOT_STATED;
        add_entry(arena, gathering, entry, (ClashUse){0});
    }
}

void season_add_night(Arena *arena, SeasonGathering *gathering, const Plan *planned,
                      const Batch *batch) {
    const Instant now = gathering->season.now;
    SeasonEntry entry =
        bare_entry(SEASON_NIGHT, state_of(&batch->record, planned->burn.light_at, now));
    entry.lit_at = planned->burn.light_at;
    entry.end_at = planned->burn.out_late;
    entry.name = batch->name;
    entry.file = batch->file;
    entry.lot = arena_string(arena, planned->lot);
    entry.tray = trays_of(arena, planned);
    entry.cabinet = batch->cabinet ? batch->cabinet->name : NULL;
    entry.product = batch->product.name;
    entry.product_kind = batch->product.kind;
    entry.product_kg = batch->product.mass_kg;
    entry.pieces = batch->product.pieces;
    entry.dust_kg = planned->blend.wet_kg;
    set_planned(planned, &entry);
    if (entry.state > SEASON_UNWRITTEN) {
        set_happened(planned, &batch->record, &entry);
    }
    add_takes(arena, &entry, planned);
    entry.at = entry.lit_at;
    const Zone *zone = batch->workshop->zone;
    entry.date = zone ? zone_civil(zone, entry.lit_at).date : (Date){0};
    add_entry(arena, gathering, entry, use_of(planned, batch, &entry));
    if (entry.state == SEASON_PLANNED && !planned->preparation.late) {
        add_steps(arena, gathering, planned, &entry);
    }
}

/* ---- Days of bagging ------------------------------------------------------------------------- */

static Instant noon_of(const Workshop *workshop, Date date) {
    CivilTime noon = {date, 12, 0, 0};
    return workshop->zone ? zone_instant(workshop->zone, noon, ZONE_EARLIER) : civil_to_utc(noon);
}

/* Past when the day is over, not the hour. */
static bool day_is_past(const Workshop *workshop, Date date, Instant now) {
    return now && workshop->zone && date_compare(date, zone_civil(workshop->zone, now).date) < 0;
}

void season_add_bagging(Arena *arena, SeasonGathering *gathering, const PackingPlan *packing) {
    const Bagging *bagging = packing->bagging;
    const Workshop *workshop = bagging->workshop;
    Instant at = noon_of(workshop, bagging->packed);
    bool past = day_is_past(workshop, bagging->packed, gathering->season.now);
    SeasonEntry entry = bare_entry(SEASON_BAGGING, past ? SEASON_BAGGED : SEASON_PLANNED);
    entry.date = bagging->packed;
    entry.at = at;
    entry.name = bagging->name;
    entry.file = bagging->file;
    for (size_t i = 0; i < packing->stocks.count; i++) {
        const PackingStock *stock = &packing->stocks.items[i];
        add_take(arena, &entry, stock->dust, stock->taken_kg);
        entry.dust_kg += stock->taken_kg;
    }
    for (size_t i = 0; i < packing->blends.count; i++) {
        const PackingBlend *blend = &packing->blends.items[i];
        LIST_ADD(arena, &entry.lots, arena_string(arena, blend->lot));
        for (size_t k = 0; k < blend->bags.count; k++) {
            entry.bags += blend->bags.items[k].bag.count;
        }
    }
    add_entry(arena, gathering, entry, (ClashUse){0});
}

/* ---- All together ---------------------------------------------------------------------------- */

/* Of the same instant by file, so that the order is the same whatever order they came in. */
static int by_time(const void *one, const void *other) {
    const SeasonEntry *a = one, *b = other;
    if (a->at != b->at) {
        return a->at < b->at ? -1 : 1;
    }
    return strcmp(a->file ? a->file : "", b->file ? b->file : "");
}

void season_finish(Arena *arena, SeasonGathering *gathering) {
    Season *season = &gathering->season;
    if (season->entries.count) {
        qsort(season->entries.items, season->entries.count, sizeof *season->entries.items, by_time);
    }
    season_find_clashes(arena, gathering);
    season_find_needs(arena, season);
    season_sum_up(arena, season);
}
