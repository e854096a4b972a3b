/* What is to come of a season: what it needs of each dust, and who wants the same at the same
 * time. */
#include "model/season.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- Clashes --------------------------------------------------------------------------------- */

static const char *key_of(ClashThing thing) {
    switch (thing) {
    case CLASH_TRAY: return "season_shared.tray";
    case CLASH_CABINET: return "season_shared.cabinet";
    case CLASH_OVEN: return "season_shared.oven";
    case CLASH_NONE: break;
    }
    return NULL;
}

static bool written(const SeasonEntry *entry) {
    return entry->state > SEASON_UNWRITTEN;
}

static void add_clash(Arena *arena, Season *season, SeasonEntry *one, SeasonEntry *other,
                      const Clash *clash) {
    one->clash_with = one->clash_with ? one->clash_with : other->name;
    other->clash_with = other->clash_with ? other->clash_with : one->name;
    SeasonClash row = {.what = key_of(clash->thing),
                       .thing = clash->name,
                       .date = other->date,
                       .name = one->name,
                       .other = other->name,
                       .from = clash->from,
                       .to = clash->to,
                       .past = written(one) && written(other)};
    LIST_ADD(arena, &season->clashes, row);
}

static int by_start(const void *one, const void *other) {
    const SeasonClash *a = one, *b = other;
    if (a->from != b->from) {
        return a->from < b->from ? -1 : 1;
    }
    int order = strcmp(a->name, b->name);
    return order ? order : strcmp(a->other, b->other);
}

void season_find_clashes(Arena *arena, SeasonGathering *gathering) {
    Season *season = &gathering->season;
    SeasonEntry *entries = season->entries.items;
    for (size_t i = 0; i < season->entries.count; i++) {
        const ClashUse *use = &gathering->uses.items[entries[i].number];
        for (size_t k = i + 1; use->batch && k < season->entries.count; k++) {
            const ClashUse *other = &gathering->uses.items[entries[k].number];
            Clash clash = {0};
            if (other->batch) {
                clash = clash_between(use, other);
            }
            if (clash.thing != CLASH_NONE) {
                add_clash(arena, season, &entries[i], &entries[k], &clash);
            }
        }
    }
    if (season->clashes.count) {
        qsort(season->clashes.items, season->clashes.count, sizeof *season->clashes.items,
              by_start);
    }
}

/* ---- Dust ------------------------------------------------------------------------------------ */

/* Whether a lot is made by a day of bagging of this folder. */
static bool made_here(const Season *season, const char *lot) {
    for (size_t i = 0; lot && i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        for (size_t k = 0; k < entry->lots.count; k++) {
            if (strcmp(entry->lots.items[k], lot) == 0) {
                return true;
            }
        }
    }
    return false;
}

static SeasonNeed *need_of(Arena *arena, Season *season, const Dust *dust) {
    for (size_t i = 0; i < season->needs.count; i++) {
        if (season->needs.items[i].dust == dust) {
            return &season->needs.items[i];
        }
    }
    SeasonNeed need = {.dust = dust,
                       .name = dust->name,
                       .lot = dust->lot,
                       .stock_kg = dust->stock_kg,
                       .left_kg = dust->stock_kg,
                       .blended = made_here(season, dust->lot)};
    LIST_ADD(arena, &season->needs, need);
    return &season->needs.items[season->needs.count - 1];
}

static void take(SeasonNeed *need, const SeasonEntry *entry, double mass_kg) {
    const double hair_kg = 1e-9;
    need->needed_kg += mass_kg;
    need->times++;
    if (!is_stated(need->stock_kg)) {
        return;
    }
    double short_kg = need->needed_kg - need->stock_kg;
    need->left_kg = fmax(-short_kg, 0);
    need->missing_kg = short_kg > hair_kg ? short_kg : 0;
    if (need->missing_kg > 0 && !need->short_on.year) {
        need->short_on = entry->date;
        need->short_for = entry->name;
    }
}

/* What runs out first, then what lasts, by name. */
static int by_urgency(const void *one, const void *other) {
    const SeasonNeed *a = one, *b = other;
    bool a_short = a->short_on.year != 0, b_short = b->short_on.year != 0;
    if (a_short != b_short) {
        return a_short ? -1 : 1;
    }
    int order = date_compare(a->short_on, b->short_on);
    return order ? order : strcmp(a->name, b->name);
}

void season_find_needs(Arena *arena, Season *season) {
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        for (size_t k = 0; entry->state == SEASON_PLANNED && k < entry->takes.count; k++) {
            const SeasonTake *taken = &entry->takes.items[k];
            take(need_of(arena, season, taken->dust), entry, taken->mass_kg);
        }
    }
    if (season->needs.count) {
        qsort(season->needs.items, season->needs.count, sizeof *season->needs.items, by_urgency);
    }
}
