/* What a season adds up to: by month, and what its nights say of the plans. */
#include "model/season.h"

#include <math.h>
#include <stdlib.h>

/* Of fewer nights no middle is told: judgement. */
enum { MIDDLE_LEAST = 5 };

static double stated(double value) {
    return is_stated(value) ? value : 0;
}

/* Whether the night tells if it lasts: one that was stopped, or has no end, does not. */
static bool tells(const SeasonEntry *entry) {
    return entry->state == SEASON_LASTED || entry->state == SEASON_DIED ||
           entry->state == SEASON_RELIT;
}

/* ---- Sums ------------------------------------------------------------------------------------ */

static void count_state(const SeasonEntry *entry, SeasonSums *sums) {
    switch (entry->state) {
    case SEASON_PLANNED: sums->planned++; return;
    case SEASON_UNWRITTEN: sums->unwritten++; return;
    case SEASON_LASTED: sums->lasted++; break;
    case SEASON_RELIT: sums->relit++; break;
    case SEASON_DIED: sums->died++; break;
    case SEASON_STOPPED: sums->stopped++; break;
    case SEASON_NO_END: sums->no_end++; break;
    case SEASON_BAGGED: return;
    }
    sums->went_out += entry->state == SEASON_RELIT || entry->state == SEASON_DIED;
    sums->over++;
    sums->product_kg += stated(entry->product_kg);
    sums->pieces += entry->pieces;
    sums->burnt_kg += entry->dust_kg;
    sums->smoked_s += stated(entry->took_s);
    sums->expected += tells(entry) ? stated(entry->chance) : 0;
    bool smoked = entry->state == SEASON_LASTED || entry->state == SEASON_RELIT;
    sums->lasted_kg += smoked ? stated(entry->product_kg) : 0;
}

static void add_to(const SeasonEntry *entry, SeasonSums *sums) {
    sums->bags += entry->bags;
    sums->clashes += entry->clash_with != NULL;
    sums->baggings += entry->kind == SEASON_BAGGING;
    sums->steps += entry->kind == SEASON_PREPARATION;
    if (entry->kind != SEASON_NIGHT) {
        return;
    }
    sums->nights++;
    count_state(entry, sums);
}

static void add_months(Arena *arena, Season *season) {
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        size_t count = season->months.count;
        const SeasonMonth *last = count ? &season->months.items[count - 1] : NULL;
        if (!last || last->first.year != entry->date.year ||
            last->first.month != entry->date.month) {
            SeasonMonth month = {.first = {entry->date.year, entry->date.month, 1},
                                 .days = date_days_in_month(entry->date.year, entry->date.month),
                                 .from = i};
            LIST_ADD(arena, &season->months, month);
        }
        SeasonMonth *month = &season->months.items[season->months.count - 1];
        month->count++;
        add_to(entry, &month->sums);
        add_to(entry, &season->sums);
    }
}

/* ---- Burn times ------------------------------------------------------------------------------ */

static int by_size(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static double median(double *values, size_t count) {
    if (!count) {
        return NOT_STATED;
    }
    qsort(values, count, sizeof *values, by_size);
    return (values[(count - 1) / 2] + values[count / 2]) / 2;
}

static void compare_times(Arena *arena, Season *season) {
    SeasonCompared compared = {0};
    size_t most = season->entries.count, count = 0;
    double *low = ARENA_ARRAY(arena, most, double), *high = ARENA_ARRAY(arena, most, double);
    double *took = ARENA_ARRAY(arena, most, double);
    for (size_t i = 0; i < most; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        compared.left_out += entry->state == SEASON_LASTED && entry->other_length;
        if (!entry->compared) {
            continue;
        }
        compared.nights++;
        compared.within += entry->within;
        compared.sooner += entry->took_s < entry->early_s;
        compared.later += entry->took_s > entry->late_s;
        low[count] = entry->early_s / entry->planned_s;
        high[count] = entry->late_s / entry->planned_s;
        took[count++] = entry->took_s / entry->planned_s;
    }
    compared.low_ratio = median(low, count);
    compared.high_ratio = median(high, count);
    compared.took_ratio = count < MIDDLE_LEAST ? NOT_STATED : median(took, count);
    season->compared = compared;
}

/* ---- Chances, deaths, yields ----------------------------------------------------------------- */

/* The better chance first. */
static int by_chance(const void *one, const void *other) {
    const SeasonChance *a = one, *b = other;
    double left = (double)a->chance_said_in / a->chance_said_of;
    double right = (double)b->chance_said_in / b->chance_said_of;
    return (left < right) - (left > right);
}

static SeasonChance *chance_of(Arena *arena, Season *season, const SeasonEntry *entry) {
    for (size_t i = 0; i < season->chances.count; i++) {
        SeasonChance *chance = &season->chances.items[i];
        if (chance->chance_said_in == entry->chance_said_in &&
            chance->chance_said_of == entry->chance_said_of) {
            return chance;
        }
    }
    SeasonChance chance = {.chance_said_in = entry->chance_said_in,
                           .chance_said_of = entry->chance_said_of};
    LIST_ADD(arena, &season->chances, chance);
    return &season->chances.items[season->chances.count - 1];
}

static void add_chances(Arena *arena, Season *season) {
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        if (!tells(entry) || !entry->chance_said_of) {
            continue;
        }
        SeasonChance *chance = chance_of(arena, season, entry);
        chance->nights++;
        chance->lasted += entry->state == SEASON_LASTED;
        chance->expected += stated(entry->chance);
    }
    if (season->chances.count) {
        qsort(season->chances.items, season->chances.count, sizeof *season->chances.items,
              by_chance);
    }
}

static int by_deaths(const void *one, const void *other) {
    const SeasonDeath *a = one, *b = other;
    return b->nights != a->nights ? b->nights - a->nights : (int)a->cause - (int)b->cause;
}

static SeasonDeath *death_of(Arena *arena, Season *season, Cause cause) {
    for (size_t i = 0; i < season->deaths.count; i++) {
        if (season->deaths.items[i].cause == cause) {
            return &season->deaths.items[i];
        }
    }
    LIST_ADD(arena, &season->deaths, ((SeasonDeath){cause, 0}));
    return &season->deaths.items[season->deaths.count - 1];
}

static void add_deaths(Arena *arena, Season *season) {
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        if (entry->state == SEASON_DIED || entry->state == SEASON_RELIT) {
            death_of(arena, season, entry->cause)->nights++;
        }
    }
    if (season->deaths.count) {
        qsort(season->deaths.items, season->deaths.count, sizeof *season->deaths.items, by_deaths);
    }
}

static bool is_over(const SeasonEntry *entry) {
    return entry->kind == SEASON_NIGHT && entry->state > SEASON_UNWRITTEN;
}

static void add_yield(Arena *arena, Season *season, ProductKind kind) {
    SeasonYield yield = {.kind = kind};
    double burnt_for_kg = 0;
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        if (!is_over(entry) || entry->product_kind != kind) {
            continue;
        }
        yield.nights++;
        yield.lasted += entry->state == SEASON_LASTED;
        yield.product_kg += stated(entry->product_kg);
        yield.pieces += entry->pieces;
        yield.burnt_kg += entry->dust_kg;
        burnt_for_kg += entry->product_kg > 0 ? entry->dust_kg : 0;
    }
    yield.burnt_share = yield.product_kg > 0 ? burnt_for_kg / yield.product_kg : NOT_STATED;
    if (yield.nights) {
        LIST_ADD(arena, &season->yields, yield);
    }
}

void season_sum_up(Arena *arena, Season *season) {
    add_months(arena, season);
    compare_times(arena, season);
    add_chances(arena, season);
    add_deaths(arena, season);
    for (int kind = PRODUCT_CHEESE; kind <= PRODUCT_OTHER; kind++) {
        add_yield(arena, season, (ProductKind)kind);
    }
}
