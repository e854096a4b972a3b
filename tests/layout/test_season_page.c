/* The pages of a season: every night's mark stands where its figures say, in the calendar and in
 * the plot; no word stands on another or on a point, whatever the nights; one page that does not
 * fit says so. Seasons out of a seed, three languages, both papers. */
#include "layout/sheet.h"

#include "model/season.h"
#include "support/close.h"
#include "support/language.h"
#include "support/marks.h"
#include "support/shipped.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

#define PLACE_MM 0.02 /* for sums of doubles */

enum { SEASONS = 60, DAYS_A_STEP = 3 };

static const char *const languages[] = {"en", "de", "pl"};

typedef struct Fixture {
    Arena *arena;
    const FaceSet *faces;
    const Pattern *template;
    const Words *words[3];
} Fixture;

static int set_up(void **state) {
    Arena *arena = arena_new();
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    fixture->arena = arena;
    fixture->faces = shipped_faces(arena);
    fixture->template = shipped_pattern(arena, fixture->faces, "season");
    for (size_t i = 0; i < 3; i++)
        fixture->words[i] = language_words(arena, languages[i]);
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    arena_free(((Fixture *)*state)->arena);
    return 0;
}

/* ---- Seasons --------------------------------------------------------------------------------- */

static int whole(uint64_t *seed, int most) {
    return (int)close_random(seed, 0, most + 0.999);
}

static SeasonEntry entry_of(uint64_t *seed, int day) {
    static const char *const names[] = {"Salt", "Farmhouse cheddar of the lower dairy, quarters",
                                        "Loin"};
    double planned_s = close_random(seed, 2, 14) * 3600;
    SeasonEntry entry = {.kind = whole(seed, 9) ? SEASON_NIGHT : SEASON_BAGGING,
                         .state = (SeasonState)whole(seed, SEASON_NO_END),
                         .date = date_from_days(day),
                         .at = (Instant)day * SECONDS_PER_DAY,
                         .name = names[whole(seed, 2)],
                         .file = "night.xml",
                         .product = names[whole(seed, 2)],
                         .tray = "Folded-channel tray",
                         .product_kind = (ProductKind)whole(seed, PRODUCT_OTHER),
                         .product_kg = close_random(seed, 1, 9),
                         .dust_kg = close_random(seed, 0.02, 0.09),
                         .verdict = (Verdict)whole(seed, VERDICT_STAY),
                         .chance = 0.9,
                         .chance_said_in = 5 + whole(seed, 4),
                         .chance_said_of = 10,
                         .planned_s = planned_s,
                         .early_s = planned_s * 0.8,
                         .late_s = planned_s * close_random(seed, 1.2, 1.6),
                         .cause = (Cause)whole(seed, CAUSE_METAL),
                         .took_s = NOT_STATED,
                         .ash_kg = NOT_STATED};
    bool night = entry.kind == SEASON_NIGHT;
    entry.tray = night ? entry.tray : NULL;
    entry.chance_said_of = night ? entry.chance_said_of : 0;
    entry.planned_s = night ? entry.planned_s : NOT_STATED;
    entry.state = night || entry.state == SEASON_PLANNED ? entry.state : SEASON_BAGGED;
    entry.clash_with = whole(seed, 12) ? NULL : "Salt";
    if (night && entry.state > SEASON_UNWRITTEN && entry.state != SEASON_NO_END)
        entry.took_s = planned_s * close_random(seed, 0.5, 1.9);
    entry.compared = entry.state == SEASON_LASTED;
    return entry;
}

static Season *season_of_seed(Arena *arena, uint64_t *seed, int nights) {
    Season *season = ARENA_NEW(arena, Season);
    season->name = "Dry Ditch Smokehouse";
    season->folder = "samples/season";
    int day = 20600 + whole(seed, 60);
    for (int i = 0; i < nights; i++) {
        LIST_ADD(arena, &season->entries, entry_of(seed, day));
        day += whole(seed, DAYS_A_STEP);
    }
    season_sum_up(arena, season);
    SeasonNeed need = {.name = "Beech, middle sieving",
                       .lot = "B-2611",
                       .stock_kg = 1,
                       .needed_kg = 1.2,
                       .missing_kg = 0.2,
                       .short_on = {2026, 12, 4},
                       .short_for = "Salt"};
    LIST_ADD(arena, &season->needs, need);
    return season;
}

static SeasonPage overview_of(const Season *season) {
    return (SeasonPage){.overview = true,
                        .first = true,
                        .months = {0, season->months.count},
                        .needs = {0, season->needs.count},
                        .page = 1,
                        .pages = 2};
}

/* ---- Laying out ------------------------------------------------------------------------------ */

/* NULL: it does not fit, which was then said. */
static const Page *lay_out(Fixture *fixture, Arena *arena, const Season *season,
                           const SeasonPage *page, size_t language, Paper paper) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    workshop->name = season->name;
    workshop->paper = paper;
    workshop->zone = zone_load(arena, "UTC");
    Batch *batch = ARENA_NEW(arena, Batch);
    *batch = (Batch){.name = season->name, .workshop = workshop};
    Plan *plan = ARENA_NEW(arena, Plan);
    *plan = (Plan){.batch = batch, .workshop = workshop};
    Locale locale = locale_of(workshop, fixture->words[language]);
    Document *document = document_new(arena, "Season", languages[language]);
    document->creator = "burnsheet";
    Diagnostics diagnostics = diagnostics_new(arena);
    const FieldGroup *fields = season_page_fields(arena, season, page);
    bool fits = sheet_fits(arena, fixture->template, plan, fields, &locale, fixture->faces);
    bool good = sheet_lay_out(fixture->template, plan, fields, &locale, fixture->faces, document,
                              &diagnostics);
    assert_int_equal(fits, good); /* asking first answers what happens then */
    assert_int_equal(good, diagnostics_errors(&diagnostics, NULL) == 0);
    return good ? document->pages.items[0] : NULL;
}

static bool owned(const Mark *mark, const char *owner) {
    return mark->owner && strcmp(mark->owner, owner) == 0;
}

/* Of a text from its capitals to half its descenders, which may reach into the next line's room. */
static Box ink(const Fixture *fixture, const Mark *mark) {
    Box box = mark_box(mark, fixture->faces);
    if (mark->kind != MARK_TEXT)
        return box;
    const Face *face = fixture->faces->faces[mark->as.text.face];
    double capitals_mm = face_cap_height_mm(face, mark->as.text.size_pt);
    return (Box){box.x_mm, mark->as.text.baseline.y_mm - capitals_mm, box.width_mm,
                 capitals_mm * 1.1};
}

static bool apart(Box one, Box other) {
    return one.x_mm + one.width_mm <= other.x_mm + 0.001 ||
           other.x_mm + other.width_mm <= one.x_mm + 0.001 ||
           one.y_mm + one.height_mm <= other.y_mm + 0.001 ||
           other.y_mm + other.height_mm <= one.y_mm + 0.001;
}

/* ---- Properties ------------------------------------------------------------------------------ */

static void no_text_on_another(const Fixture *fixture, const Page *page) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *one = &page->marks.items[i];
        if (one->kind != MARK_TEXT)
            continue;
        Box box = ink(fixture, one);
        assert_true(box.x_mm > 9 && box.x_mm + box.width_mm < page->width_mm - 9);
        assert_true(box.y_mm > 9 && box.y_mm + box.height_mm < page->height_mm - 9);
        for (size_t k = i + 1; k < page->marks.count; k++)
            if (page->marks.items[k].kind == MARK_TEXT &&
                !apart(box, ink(fixture, &page->marks.items[k])))
                fail_msg("'%s' stands on '%s'", page->marks.items[k].as.text.string,
                         one->as.text.string);
    }
}

/* The frame of the plot: the only square that is drawn and not filled. */
static Box plot_of(const Page *page) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_PATH || !owned(mark, "times") || mark->as.path.style.filled)
            continue;
        Box box = path_box(&mark->as.path.steps);
        if (box.width_mm > 10 && fabs(box.width_mm - box.height_mm) < PLACE_MM &&
            mark->as.path.steps.count > 3)
            return box;
    }
    return (Box){0};
}

/* Whether something is drawn whose middle is that place. */
static bool marked_at(const Page *page, const char *owner, double x_mm, double y_mm) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_PATH || !owned(mark, owner))
            continue;
        Box box = path_box(&mark->as.path.steps);
        if (box.width_mm < 4 && fabs(box.x_mm + box.width_mm / 2 - x_mm) < PLACE_MM &&
            fabs(box.y_mm + box.height_mm / 2 - y_mm) < PLACE_MM)
            return true;
    }
    return false;
}

/* A scale from none to somewhat over the longest, the same both ways. */
static void points_stand_where_they_should(const Season *season, const Page *page) {
    Box plot = plot_of(page);
    double longest_s = 0;
    int points = 0;
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        if (season_in_plot(entry))
            longest_s = fmax(longest_s, fmax(entry->planned_s, entry->took_s));
    }
    for (size_t i = 0; i < season->entries.count; i++) {
        const SeasonEntry *entry = &season->entries.items[i];
        if (!season_in_plot(entry))
            continue;
        double per_s = plot.width_mm / (longest_s * 1.06);
        assert_true(plot.width_mm > 20);
        assert_true(marked_at(page, "times", plot.x_mm + entry->planned_s * per_s,
                              plot.y_mm + plot.height_mm - entry->took_s * per_s));
        points++;
    }
    if (!points)
        assert_close(plot.width_mm, 0, 0);
}

/* The band is as wide as the medians say: where it leaves the frame at the top and at the right. */
static void band_is_as_wide_as_it_is_said(const Season *season, const Page *page) {
    const SeasonCompared *compared = &season->compared;
    Box plot = plot_of(page);
    if (!compared->nights || plot.width_mm < 10)
        return;
    bool found = false;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_PATH || !owned(mark, "times") || mark->as.path.steps.count < 5 ||
            !mark->as.path.style.filled || path_box(&mark->as.path.steps).width_mm < 10)
            continue;
        const Step *steps = mark->as.path.steps.items;
        assert_close(steps[1].to.x_mm, plot.x_mm + plot.width_mm / compared->high_ratio, PLACE_MM);
        assert_close(steps[3].to.y_mm, plot.y_mm + plot.height_mm * (1 - compared->low_ratio),
                     PLACE_MM);
        found = true;
    }
    assert_true(found);
}

static void words_keep_off_the_points(const Fixture *fixture, const Page *page) {
    Box plot = plot_of(page);
    for (size_t i = 0; plot.width_mm > 0 && i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && owned(mark, "times"))
            assert_true(apart(plot, ink(fixture, mark)));
    }
}

static void every_overview_is_drawn_as_it_is(void **state) {
    Fixture *fixture = *state;
    uint64_t seed = 20261204;
    int laid_out = 0;
    for (int i = 0; i < SEASONS; i++) {
        Arena *arena = arena_new();
        static const int sizes[] = {1, 2, 30, 60, 150};
        Season *season = season_of_seed(arena, &seed, sizes[i % 5]);
        SeasonPage overview = overview_of(season);
        const Page *page = lay_out(fixture, arena, season, &overview, (size_t)i % 3,
                                   i % 2 ? PAPER_A4 : PAPER_LETTER);
        if (page) {
            no_text_on_another(fixture, page);
            points_stand_where_they_should(season, page);
            band_is_as_wide_as_it_is_said(season, page);
            words_keep_off_the_points(fixture, page);
            laid_out++;
        }
        arena_free(arena);
    }
    assert_true(laid_out > SEASONS * 9 / 10);
}

/* How many texts begin where that one does, itself among them. */
static size_t in_column_of(const Page *page, const char *head) {
    double x_mm = NAN;
    size_t count = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT)
            continue;
        if (strcmp(mark->as.text.string, head) == 0)
            x_mm = mark->as.text.baseline.x_mm;
        count += fabs(mark->as.text.baseline.x_mm - x_mm) < PLACE_MM;
    }
    return count;
}

/* A month with a night a day fits; its days stand once each, in the language's words. */
static void every_month_fits_and_holds_its_nights(void **state) {
    Fixture *fixture = *state;
    uint64_t seed = 7;
    for (size_t language = 0; language < 3; language++) {
        Arena *arena = arena_new();
        Season *season = season_of_seed(arena, &seed, 60);
        for (size_t i = 0; i < season->months.count; i++) {
            SeasonPage page = {.months = {i, 1}, .page = 2, .pages = 4};
            page.entries.count = season->months.items[i].count < 20 ? season->months.items[i].count
                                                                    : 20;
            const Page *drawn = lay_out(fixture, arena, season, &page, language, PAPER_A4);
            assert_non_null(drawn);
            no_text_on_another(fixture, drawn);
            /* a row of which nothing is known but its kind has its last cell where the others do */
            const Word *head = words_find(fixture->words[language], "season.state_head");
            assert_true(in_column_of(drawn, head->text) > page.entries.count);
        }
        arena_free(arena);
    }
}

/* Of each kind one on a known day: in the middle of its cell, the marks told apart by shape. */
static void the_calendar_marks_the_day(void **state) {
    Fixture *fixture = *state;
    Arena *arena = arena_new();
    Season *season = ARENA_NEW(arena, Season);
    season->name = "Dry Ditch";
    static const SeasonState states[] = {SEASON_LASTED, SEASON_DIED, SEASON_RELIT, SEASON_PLANNED};
    for (int i = 0; i < 4; i++) {
        SeasonEntry entry = {.state = states[i], .date = {2026, 12, 4 + 5 * i}, .name = "Night"};
        LIST_ADD(arena, &season->entries, entry);
    }
    season_sum_up(arena, season);
    SeasonPage overview = overview_of(season);
    const Page *page = lay_out(fixture, arena, season, &overview, 0, PAPER_A4);
    assert_non_null(page);
    Box strip = {0};
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_PATH || !owned(mark, "calendar") || mark->as.path.style.filled)
            continue;
        Box box = path_box(&mark->as.path.steps);
        strip = box.width_mm > strip.width_mm && box.height_mm > 2 ? box : strip;
    }
    assert_true(strip.width_mm > 60);
    for (int i = 0; i < 4; i++) {
        double x_mm = strip.x_mm + (4 + 5 * i - 0.5) * strip.width_mm / 31;
        assert_true(marked_at(page, "calendar", x_mm, strip.y_mm + strip.height_mm / 2));
    }
    assert_false(marked_at(page, "calendar", strip.x_mm + 6.5 * strip.width_mm / 31,
                           strip.y_mm + strip.height_mm / 2));
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_overview_is_drawn_as_it_is),
        cmocka_unit_test(every_month_fits_and_holds_its_nights),
        cmocka_unit_test(the_calendar_marks_the_day),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
