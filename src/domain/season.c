#include "domain/season.h"

#include "domain/field_member.h"
#include "domain/word.h"

#include <string.h>

static const Member entry_members[] = {
    MEMBER(SeasonEntry, date),
    MEMBER(SeasonEntry, lit_at),
    MEMBER(SeasonEntry, end_at),
    MEMBER(SeasonEntry, name),
    MEMBER(SeasonEntry, file),
    MEMBER(SeasonEntry, lot),
    MEMBER(SeasonEntry, product),
    MEASURED("product_mass", MASS, SeasonEntry, product_kg),
    MEMBER(SeasonEntry, pieces),
    MEMBER(SeasonEntry, bags),
    MEASURED("dust_mass", MASS, SeasonEntry, dust_kg),
    MEMBER(SeasonEntry, tray),
    MEMBER(SeasonEntry, cabinet),
    MEASURED("chance", SHARE, SeasonEntry, chance),
    MEMBER(SeasonEntry, chance_said_in),
    MEMBER(SeasonEntry, chance_said_of),
    MEASURED("planned", DURATION, SeasonEntry, planned_s),
    MEASURED("early", DURATION, SeasonEntry, early_s),
    MEASURED("late", DURATION, SeasonEntry, late_s),
    MEASURED("took", DURATION, SeasonEntry, took_s),
    MEMBER(SeasonEntry, compared),
    MEMBER(SeasonEntry, within),
    MEMBER(SeasonEntry, other_length),
    MEASURED("ash_mass", MASS, SeasonEntry, ash_kg),
    MEMBER(SeasonEntry, remark),
    MEMBER(SeasonEntry, clash_with),
};

static const Member sums_members[] = {
    MEMBER(SeasonSums, nights),
    MEMBER(SeasonSums, planned),
    MEMBER(SeasonSums, unwritten),
    MEMBER(SeasonSums, over),
    MEMBER(SeasonSums, lasted),
    MEMBER(SeasonSums, died),
    MEMBER(SeasonSums, relit),
    MEMBER(SeasonSums, went_out),
    MEMBER(SeasonSums, stopped),
    MEMBER(SeasonSums, no_end),
    MEMBER(SeasonSums, baggings),
    MEMBER(SeasonSums, steps),
    MEMBER(SeasonSums, bags),
    MEMBER(SeasonSums, clashes),
    MEASURED("expected", RATIO, SeasonSums, expected),
    MEASURED("product_mass", MASS, SeasonSums, product_kg),
    MEASURED("lasted_mass", MASS, SeasonSums, lasted_kg),
    MEMBER(SeasonSums, pieces),
    MEASURED("burnt_mass", MASS, SeasonSums, burnt_kg),
    MEASURED("smoked", DURATION, SeasonSums, smoked_s),
};

static const Member month_members[] = {
    MEMBER(SeasonMonth, first),
    MEMBER(SeasonMonth, days),
};

static const Member clash_members[] = {
    MEMBER(SeasonClash, thing), MEMBER(SeasonClash, date), MEMBER(SeasonClash, name),
    MEMBER(SeasonClash, other), MEMBER(SeasonClash, from), MEMBER(SeasonClash, to),
    MEMBER(SeasonClash, past),
};

static const Member need_members[] = {
    MEMBER(SeasonNeed, name),
    MEMBER(SeasonNeed, lot),
    MEASURED("stock_mass", MASS, SeasonNeed, stock_kg),
    MEASURED("needed_mass", MASS, SeasonNeed, needed_kg),
    MEMBER(SeasonNeed, times),
    MEASURED("left_mass", MASS, SeasonNeed, left_kg),
    MEASURED("missing_mass", MASS, SeasonNeed, missing_kg),
    MEMBER(SeasonNeed, short_on),
    MEMBER(SeasonNeed, short_for),
    MEMBER(SeasonNeed, blended),
};

static const Member compared_members[] = {
    MEMBER(SeasonCompared, nights),
    MEMBER(SeasonCompared, within),
    MEMBER(SeasonCompared, sooner),
    MEMBER(SeasonCompared, later),
    MEMBER(SeasonCompared, left_out),
    MEASURED("low_ratio", RATIO, SeasonCompared, low_ratio),
    MEASURED("high_ratio", RATIO, SeasonCompared, high_ratio),
    MEASURED("took_ratio", SHARE, SeasonCompared, took_ratio),
};

static const Member chance_members[] = {
    MEMBER(SeasonChance, chance_said_in),
    MEMBER(SeasonChance, chance_said_of),
    MEMBER(SeasonChance, nights),
    MEMBER(SeasonChance, lasted),
    MEASURED("expected", RATIO, SeasonChance, expected),
};

static const Member death_members[] = {MEMBER(SeasonDeath, nights)};

static const Member yield_members[] = {
    MEMBER(SeasonYield, nights),
    MEMBER(SeasonYield, lasted),
    MEASURED("product_mass", MASS, SeasonYield, product_kg),
    MEMBER(SeasonYield, pieces),
    MEASURED("burnt_mass", MASS, SeasonYield, burnt_kg),
    MEASURED("burnt_share", SHARE, SeasonYield, burnt_share),
};

bool season_in_plot(const SeasonEntry *entry) {
    bool ended = entry->state == SEASON_LASTED || entry->state == SEASON_DIED ||
                 entry->state == SEASON_RELIT;
    return ended && !entry->other_length && entry->planned_s > 0 && entry->took_s > 0;
}

/* Fewer than one in ten is said in other words. */
static void add_said(Arena *arena, FieldGroup *row, int in, int of) {
    field_add_word(arena, row, "lasts", !of ? NULL : in ? "chance.after" : "chance.after_few");
}

/* Whether the product says what the night is called: "Hard cheese, quarters" on the night "Hard
 * cheese". */
static bool name_is_said(const SeasonEntry *entry) {
    size_t length = entry->product && entry->name ? strlen(entry->name) : 0;
    if (!length || strncmp(entry->product, entry->name, length) != 0) {
        return false;
    }
    return !entry->product[length] || strchr(" ,", entry->product[length]) != NULL;
}

static void add_entry(Arena *arena, FieldGroup *month, const SeasonEntry *entry, int number) {
    FieldGroup *row = field_group_new(arena, month, "entry", number);
    bool night = entry->kind == SEASON_NIGHT;
    field_add_yes(arena, row, "night", night);
    field_add_yes(arena, row, "bagging", entry->kind == SEASON_BAGGING);
    field_add_yes(arena, row, "preparation", entry->kind == SEASON_PREPARATION);
    field_add_word(arena, row, "state", word_of_season_state(entry->state));
    FIELD_ADD(arena, row, entry_members, entry);
    field_add_yes(arena, row, "name_said", name_is_said(entry));
    field_add_instant(arena, row, "step_at", entry->step ? entry->at : 0);
    field_add_word(arena, row, "step",
                   entry->step ? arena_format(arena, "season_step.%s", entry->step) : NULL);
    field_add_word(arena, row, "product_kind", night ? word_of_product(entry->product_kind) : NULL);
    field_add_word(arena, row, "verdict", night ? word_of_verdict(entry->verdict) : NULL);
    field_add_word(arena, row, "verdict_short",
                   night ? arena_format(arena, "season_%s", word_of_verdict(entry->verdict))
                         : NULL);
    field_add_word(arena, row, "cause", night ? word_of_cause(entry->cause) : NULL);
    add_said(arena, row, entry->chance_said_in, entry->chance_said_of);
    bool dead = entry->state == SEASON_DIED || entry->state == SEASON_RELIT;
    field_add_yes(arena, row, "died", dead);
    field_add_yes(arena, row, "clash", entry->clash_with != NULL);
}

static void add_entries(Arena *arena, FieldGroup *month, const Season *season,
                        const SeasonMonth *of, SeasonRange range) {
    for (size_t i = range.from; i < range.from + range.count; i++) {
        add_entry(arena, month, &season->entries.items[of->from + i], (int)i + 1);
    }
}

static FieldGroup *add_month(Arena *arena, FieldGroup *root, const Season *season, size_t number,
                             SeasonRange range) {
    const SeasonMonth *month = &season->months.items[number];
    FieldGroup *row = field_group_new(arena, root, "month", (int)number + 1);
    FIELD_ADD(arena, row, month_members, month);
    FIELD_ADD(arena, row, sums_members, &month->sums);
    add_entries(arena, row, season, month, range);
    return row;
}

static void add_needs(Arena *arena, FieldGroup *root, const Season *season, SeasonRange range) {
    for (size_t i = range.from; i < range.from + range.count; i++) {
        const SeasonNeed *need = &season->needs.items[i];
        FieldGroup *row = field_group_new(arena, root, "need", (int)i + 1);
        FIELD_ADD(arena, row, need_members, need);
        field_add_yes(arena, row, "short", need->missing_kg > 0);
        field_add_yes(arena, row, "buy", need->missing_kg > 0 && !need->blended);
        field_add_yes(arena, row, "blend", need->missing_kg > 0 && need->blended);
        field_add_yes(arena, row, "stock_known", is_stated(need->stock_kg));
    }
}

static void add_clashes(Arena *arena, FieldGroup *root, const Season *season, SeasonRange range) {
    for (size_t i = range.from; i < range.from + range.count; i++) {
        const SeasonClash *clash = &season->clashes.items[i];
        FieldGroup *row = field_group_new(arena, root, "clash", (int)i + 1);
        field_add_word(arena, row, "what", clash->what);
        FIELD_ADD(arena, row, clash_members, clash);
    }
}

static void add_faulty(Arena *arena, FieldGroup *root, const Season *season, SeasonRange range) {
    for (size_t i = range.from; i < range.from + range.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "faulty", (int)i + 1);
        field_add_text(arena, row, "file", season->faulty.items[i]);
    }
}

/* What is learnt of all nights together. */
static void add_findings(Arena *arena, FieldGroup *root, const Season *season) {
    for (size_t i = 0; i < season->chances.count; i++) {
        const SeasonChance *chance = &season->chances.items[i];
        FieldGroup *row = field_group_new(arena, root, "chance", (int)i + 1);
        FIELD_ADD(arena, row, chance_members, chance);
        add_said(arena, row, chance->chance_said_in, chance->chance_said_of);
    }
    for (size_t i = 0; i < season->deaths.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "death", (int)i + 1);
        field_add_word(arena, row, "cause", word_of_cause(season->deaths.items[i].cause));
        FIELD_ADD(arena, row, death_members, &season->deaths.items[i]);
    }
    for (size_t i = 0; i < season->yields.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "yield", (int)i + 1);
        field_add_word(arena, row, "kind", word_of_product(season->yields.items[i].kind));
        FIELD_ADD(arena, row, yield_members, &season->yields.items[i]);
    }
}

/* Whether there is anything to say of burn times. */
static bool times_known(const Season *season) {
    bool known = season->compared.nights > 0 || season->compared.left_out > 0;
    for (size_t i = 0; i < season->entries.count; i++) {
        known = known || season_in_plot(&season->entries.items[i]);
    }
    return known;
}

/* A night in the plot of burn times. */
static void add_points(Arena *arena, FieldGroup *root, const Season *season) {
    int number = 0;
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        if (!season_in_plot(entry)) {
            continue;
        }
        FieldGroup *row = field_group_new(arena, root, "point", ++number);
        field_add_number(arena, row, "planned", QUANTITY_DURATION, entry->planned_s);
        field_add_number(arena, row, "took", QUANTITY_DURATION, entry->took_s);
        field_add_word(arena, row, "state", word_of_season_state(entry->state));
    }
}

static SeasonRange whole(size_t count) {
    return (SeasonRange){0, count};
}

/* What holds on every page. */
static FieldGroup *new_root(Arena *arena, const Season *season) {
    FieldGroup *root = field_group_new(arena, NULL, "season", 0);
    field_add_text(arena, root, "name", season->name);
    field_add_text(arena, root, "folder", season->folder);
    size_t count = season->entries.count;
    const Date none = {0};
    field_add_date(arena, root, "from", count ? season->entries.items[0].date : none);
    field_add_date(arena, root, "to", count ? season->entries.items[count - 1].date : none);
    field_add_instant(arena, root, "now", season->now);
    field_add_number(arena, root, "faults", QUANTITY_COUNT, (double)season->faulty.count);
    FieldGroup *sums = field_group_new(arena, root, "sums", 0);
    FIELD_ADD(arena, sums, sums_members, &season->sums);
    int others = season->sums.stopped + season->sums.no_end + season->sums.unwritten;
    field_add_number(arena, sums, "others", QUANTITY_COUNT, others);
    FIELD_ADD(arena, field_group_new(arena, root, "compared", 0), compared_members,
              &season->compared);
    return root;
}

FieldGroup *season_fields(Arena *arena, const Season *season) {
    FieldGroup *root = new_root(arena, season);
    add_needs(arena, root, season, whole(season->needs.count));
    add_clashes(arena, root, season, whole(season->clashes.count));
    add_findings(arena, root, season);
    add_faulty(arena, root, season, whole(season->faulty.count));
    for (size_t i = 0; i < season->months.count; i++) {
        add_month(arena, root, season, i, whole(season->months.items[i].count));
    }
    return root;
}

static void add_page(Arena *arena, FieldGroup *root, const Season *season, const SeasonPage *page) {
    field_add_yes(arena, root, "overview", page->overview);
    field_add_yes(arena, root, "overview_first", page->overview && page->first);
    field_add_yes(arena, root, "month_page", !page->overview);
    field_add_yes(arena, root, "months_here", page->overview && page->months.count > 0);
    field_add_yes(arena, root, "needs_here", page->overview && page->needs.count > 0);
    field_add_yes(arena, root, "clashes_here", page->overview && page->clashes.count > 0);
    field_add_yes(arena, root, "compared_here", times_known(season));
    field_add_yes(arena, root, "chances_here", season->chances.count > 0);
    field_add_yes(arena, root, "deaths_here", season->deaths.count > 0);
    field_add_yes(arena, root, "faulty_here", page->overview && page->faulty.count > 0);
    field_add_number(arena, root, "page", QUANTITY_COUNT, page->page);
    field_add_number(arena, root, "pages", QUANTITY_COUNT, page->pages);
    field_add_yes(arena, root, "several_pages", page->pages > 1);
}

/* The months of a page that tells their nights. */
static void add_told(Arena *arena, FieldGroup *root, const Season *season, const SeasonPage *page) {
    for (size_t i = 0; i < page->months.count; i++) {
        size_t number = page->months.from + i;
        SeasonRange all = {0, season->months.items[number].count};
        SeasonRange here = i ? all : page->entries;
        FieldGroup *row = add_month(arena, root, season, number, here);
        field_add_yes(arena, row, "begins", here.from == 0);
    }
}

FieldGroup *season_page_fields(Arena *arena, const Season *season, const SeasonPage *page) {
    FieldGroup *root = new_root(arena, season);
    add_page(arena, root, season, page);
    if (!page->overview) {
        add_told(arena, root, season, page);
        return root;
    }
    add_needs(arena, root, season, page->needs);
    add_clashes(arena, root, season, page->clashes);
    add_faulty(arena, root, season, page->faulty);
    if (page->first) {
        add_findings(arena, root, season);
        add_points(arena, root, season);
    }
    for (size_t i = page->months.from; i < page->months.from + page->months.count; i++) {
        add_month(arena, root, season, i, whole(season->months.items[i].count));
    }
    return root;
}
