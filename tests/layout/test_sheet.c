/* The session sheet: one page always or an error that says why, nothing outside the margins, no
 * text on another, nothing lost. */
#include "layout/sheet.h"

#include "input/xml.h"
#include "support/language.h"
#include "support/marks.h"
#include "support/plan_maker.h"
#include "support/shipped.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

/* For sums of doubles. */
#define SLACK_MM 0.02
/* mark_box gives a line half its width at its ends too, and a text its deepest descender, which is
 * a hair below its line. */
#define LINE_SLACK_MM 0.55
#define TEXT_SLACK_MM 0.1

enum { RANDOM_PLANS = 500 };

typedef struct Fixture {
    Arena *arena; /* of the group */
    const FaceSet *faces;
    const Pattern *full;
    const Pattern *desk;
    const Words *words;
} Fixture;

/* What came of laying out one plan. */
typedef struct Outcome {
    bool good;
    const Page *page;
    size_t pages;
    const char *said;
} Outcome;

static int set_up(void **state) {
    Arena *arena = arena_new();
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    fixture->arena = arena;
    fixture->faces = shipped_faces(arena);
    fixture->full = shipped_pattern(arena, fixture->faces, "sheet");
    fixture->desk = shipped_pattern(arena, fixture->faces, "desk");
    fixture->words = language_words(arena, "en");
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

static Outcome lay_out_in(Fixture *fixture, Arena *arena, const Pattern *pattern,
                          const Words *words, const PlanRecipe *recipe) {
    const Plan *plan = plan_from_recipe(arena, recipe);
    Locale locale = locale_on_night(locale_of(plan->workshop, words), plan->burn.light_at);
    Document *document = document_new(arena, "Session sheet", words->language);
    document->creator = "burnsheet";
    Diagnostics diagnostics = diagnostics_new(arena);
    Outcome outcome = {0};
    outcome.good = sheet_lay_out(pattern, plan, plan_fields(arena, plan), &locale, fixture->faces,
                                 document, &diagnostics);
    Text said = text_new(arena);
    diagnostics_add_to(&diagnostics, &said);
    outcome.said = said.bytes;
    outcome.pages = document->pages.count;
    outcome.page = outcome.pages ? document->pages.items[0] : NULL;
    assert_true(outcome.good == (diagnostics.list.count == 0));
    return outcome;
}

static Outcome lay_out(Fixture *fixture, const PlanRecipe *recipe) {
    return lay_out_in(fixture, fixture->arena, fixture->full, fixture->words, recipe);
}

/* ---- What every page has to keep ---- */

static void assert_inside(const Fixture *fixture, const Page *page, double margin_mm) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        Box box = mark_box(mark, fixture->faces);
        double slack_mm = mark->kind == MARK_TEXT ? TEXT_SLACK_MM : LINE_SLACK_MM;
        if (box.x_mm < margin_mm - slack_mm || box.y_mm < margin_mm - slack_mm ||
            box.x_mm + box.width_mm > page->width_mm - margin_mm + slack_mm ||
            box.y_mm + box.height_mm > page->height_mm - margin_mm + slack_mm)
            fail_msg("panel '%s': a mark at %.1f,%.1f of %.1f by %.1f mm leaves the margins: '%s'",
                     mark->owner, box.x_mm, box.y_mm, box.width_mm, box.height_mm,
                     mark->kind == MARK_TEXT ? mark->as.text.string : "(path)");
    }
}

static bool overlap(Box a, Box b) {
    return a.x_mm + SLACK_MM < b.x_mm + b.width_mm && b.x_mm + SLACK_MM < a.x_mm + a.width_mm &&
           a.y_mm + SLACK_MM < b.y_mm + b.height_mm && b.y_mm + SLACK_MM < a.y_mm + a.height_mm;
}

static void assert_apart(const Fixture *fixture, const Page *page) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *one = &page->marks.items[i];
        if (one->kind != MARK_TEXT)
            continue;
        Box box = mark_box(one, fixture->faces);
        for (size_t j = 0; j < i; j++) {
            const Mark *other = &page->marks.items[j];
            if (other->kind == MARK_TEXT && overlap(box, mark_box(other, fixture->faces)))
                fail_msg("'%s' (%s) lies on '%s' (%s) at %.1f,%.1f", one->as.text.string,
                         one->owner, other->as.text.string, other->owner, box.x_mm, box.y_mm);
        }
    }
}

static void assert_readable(const Page *page) {
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && mark->as.text.size_pt < LEAST_TYPE_PT - 1e-9)
            fail_msg("'%s' is set in %.2f pt", mark->as.text.string, mark->as.text.size_pt);
    }
}

/* Adds what is no blank, neither one that breaks nor one that holds. */
static void add_letters(Text *text, const char *string) {
    for (; *string; string++) {
        if (strncmp(string, "\u00a0", 2) == 0)
            string++;
        else if (*string != ' ')
            text_add_bytes(text, string, 1);
    }
}

/* All texts of one part of the page, or of all, in their order, without blanks. */
static const char *texts_of(Arena *arena, const Page *page, const char *owner) {
    Text text = text_new(arena);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && (!owner || strcmp(mark->owner, owner) == 0))
            add_letters(&text, mark->as.text.string);
    }
    return text.bytes;
}

static const char *without_blanks(Arena *arena, const char *string) {
    Text text = text_new(arena);
    add_letters(&text, string);
    return text.bytes;
}

static void assert_shows(Arena *arena, const Page *page, const char *owner, const char *wanted) {
    if (!strstr(texts_of(arena, page, owner), without_blanks(arena, wanted)))
        fail_msg("'%s' is not on the page (%s)", wanted, owner ? owner : "anywhere");
}

static void assert_page(const Fixture *fixture, Arena *arena, const Pattern *pattern,
                        const PlanRecipe *recipe, const Outcome *outcome) {
    assert_int_equal(outcome->pages, 1);
    assert_true(outcome->page->width_mm == (recipe->paper == PAPER_LETTER ? 215.9 : 210.0));
    assert_inside(fixture, outcome->page, pattern->margin_mm);
    assert_apart(fixture, outcome->page);
    assert_readable(outcome->page);
    assert_shows(arena, outcome->page, "footer", "All figures are estimates");
    bool lit = recipe->verdict != VERDICT_DO_NOT_LIGHT;
    static const char *const owners[] = {"headline", "weigh-out", "steps", "no-glow", "alarm"};
    for (size_t i = 0; i < sizeof owners / sizeof *owners; i++)
        if (lit && pattern == fixture->full && *texts_of(arena, outcome->page, owners[i]) == '\0')
            fail_msg("'%s' is not on the page", owners[i]);
    static const char *const signals[] = {"WARNING", "CAUTION", "NOTICE", "Carbon monoxide"};
    for (size_t i = 0; pattern == fixture->full && i < sizeof signals / sizeof *signals; i++)
        assert_shows(arena, outcome->page, NULL, signals[i]);
}

/* ---- Tests ---- */

static void random_plans(Fixture *fixture, const Pattern *pattern, unsigned from, int count,
                         int *good) {
    for (int i = 0; i < count; i++) {
        Arena *arena = arena_new();
        PlanRecipe recipe = recipe_random(arena, from + (unsigned)i);
        Outcome outcome = lay_out_in(fixture, arena, pattern, fixture->words, &recipe);
        if (outcome.good) {
            assert_page(fixture, arena, pattern, &recipe, &outcome);
            ++*good;
        } else {
            assert_int_equal(outcome.pages, 0);
            if (!strstr(outcome.said, "mm too long for its page"))
                fail_msg("%s", outcome.said);
            assert_non_null(strstr(outcome.said, "the longest text is '"));
        }
        arena_free(arena);
    }
}

static void any_plan_is_one_page_or_says_why_not(void **state) {
    int good = 0;
    random_plans(*state, ((Fixture *)*state)->full, 1, RANDOM_PLANS, &good);
    print_message("          %d of %d random plans fit the full sheet\n", good, RANDOM_PLANS);
    assert_true(good > RANDOM_PLANS * 3 / 4); /* the others have names of hundreds of letters */
}

static void any_plan_is_one_desk_page_or_says_why_not(void **state) {
    int good = 0;
    random_plans(*state, ((Fixture *)*state)->desk, 9001, RANDOM_PLANS / 5, &good);
    print_message("          %d of %d random plans fit the desk page\n", good, RANDOM_PLANS / 5);
    assert_true(good > RANDOM_PLANS / 5 / 2);
}

static void usual_nights_fit_in_every_language_paper_and_unit(void **state) {
    static const char *const languages[] = {"en", "de", "pl"};
    Fixture *fixture = *state;
    for (size_t i = 0; i < sizeof languages / sizeof *languages; i++) {
        const Words *words = language_words(fixture->arena, languages[i]);
        for (int kind = 0; kind < 24; kind++) {
            PlanRecipe recipe = recipe_usual();
            recipe.paper = kind % 2 ? PAPER_LETTER : PAPER_A4;
            recipe.units = kind / 2 % 2 ? UNITS_US : UNITS_METRIC;
            recipe.verdict = (Verdict)(kind / 4 % 3);
            recipe.reasons = recipe.verdict == VERDICT_GOOD ? 0 : 1;
            recipe.remedies = recipe.verdict == VERDICT_GOOD ? 0 : 2;
            recipe.dies = recipe.verdict == VERDICT_DO_NOT_LIGHT;
            const Pattern *pattern = kind / 12 ? fixture->desk : fixture->full;
            Outcome outcome = lay_out_in(fixture, fixture->arena, pattern, words, &recipe);
            if (!outcome.good)
                fail_msg("%s %d: %s", languages[i], kind, outcome.said);
            assert_inside(fixture, outcome.page, pattern->margin_mm);
            assert_apart(fixture, outcome.page);
        }
    }
}

/* Whoever relights is told to write the time under a word: that word has its blank on the page, in
 * every language and on either paper, with the others that the next nights learn from. */
static void what_is_written_down_has_its_blank(void **state) {
    static const char *const languages[] = {"en", "de", "pl"};
    static const char *const blanks[] = {
        "record.lit",    "record.out",  "record.died", "record.burnt", "record.relit",
        "record.filled", "record.used", "record.ash",  "record.after", "record.by"};
    Fixture *fixture = *state;
    for (size_t kind = 0; kind < 12; kind++) {
        const Words *words = language_words(fixture->arena, languages[kind % 3]);
        PlanRecipe recipe = recipe_usual();
        recipe.paper = kind / 3 % 2 ? PAPER_LETTER : PAPER_A4;
        recipe.look_ins = kind / 6 ? 9 : recipe.look_ins;
        Outcome outcome = lay_out_in(fixture, fixture->arena, fixture->full, words, &recipe);
        assert_true(outcome.good);
        for (size_t i = 0; i < sizeof blanks / sizeof *blanks; i++)
            assert_shows(fixture->arena, outcome.page, "record", words_fixed(words, blanks[i]));
        const char *relit = words_fixed(words, "record.relit");
        assert_non_null(strstr(words_fixed(words, "decision.out.then"), relit));
        assert_null(strstr(words_fixed(words, "decision.out.brief"), relit));
    }
}

/* Height of the capitals of the largest text that holds the string. */
static double capitals_mm(const Fixture *fixture, const Page *page, const char *string) {
    double largest_mm = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT && strstr(mark->as.text.string, string))
            largest_mm =
                fmax(largest_mm, face_cap_height_mm(fixture->faces->faces[mark->as.text.face],
                                                    mark->as.text.size_pt));
    }
    return largest_mm;
}

/* 14 mm where there is room, and never under 9: 20 to 22 minutes of arc at 1.5 m are 9 mm
 * (NUREG-0700 1.3.1-4; ISO 9241-3). */
static void the_headline_is_read_across_the_shed(void **state) {
    PlanRecipe recipe = recipe_usual();
    Outcome outcome = lay_out(*state, &recipe);
    assert_true(outcome.good);
    assert_true(capitals_mm(*state, outcome.page, "LIGHT 21:30") >= 11 - 1e-9);
    assert_true(capitals_mm(*state, outcome.page, "Out about 06:13") >= 3.5 - 1e-9);
    assert_true(capitals_mm(*state, outcome.page, "into one bowl") >= 2.8 - 1e-9);
}

/* 2.8 mm: 16 minutes of arc at 0.6 m, the least of NUREG-0700 1.3.1-4. */
static void steps_and_weights_are_read_at_arms_length(void **state) {
    Fixture *fixture = *state;
    static const char *const owners[] = {"steps", "weigh-out"};
    static const char *const languages[] = {"en", "de", "pl"};
    for (size_t l = 0; l < sizeof languages / sizeof *languages; l++) {
        PlanRecipe recipe = recipe_usual();
        recipe.paper = PAPER_LETTER; /* the shorter one */
        Outcome outcome = lay_out_in(fixture, fixture->arena, fixture->full,
                                     language_words(fixture->arena, languages[l]), &recipe);
        assert_true(outcome.good);
        for (size_t i = 0; i < outcome.page->marks.count; i++) {
            const Mark *mark = &outcome.page->marks.items[i];
            if (mark->kind != MARK_TEXT)
                continue;
            const Face *face = fixture->faces->faces[mark->as.text.face];
            bool figure = strstr(mark->as.text.string, "\xe2\x80\xaf"
                                                       "g") != NULL &&
                          mark->as.text.face == FACE_CONDENSED_BOLD;
            for (size_t p = 0; p < sizeof owners / sizeof *owners; p++)
                if (figure && strcmp(mark->owner, owners[p]) == 0 &&
                    face_cap_height_mm(face, mark->as.text.size_pt) < 2.8 - 1e-9)
                    fail_msg("'%s' is too small", mark->as.text.string);
        }
    }
}

static void a_refused_plan_never_looks_confident(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    recipe.verdict = VERDICT_DO_NOT_LIGHT;
    recipe.reasons = 2;
    recipe.remedies = 3;
    Outcome outcome = lay_out(fixture, &recipe);
    assert_true(outcome.good);
    assert_true(capitals_mm(fixture, outcome.page, "DO NOT LIGHT") >= 9);
    assert_shows(fixture->arena, outcome.page, "refusal", "Product into the refrigerator");
    assert_shows(fixture->arena, outcome.page, "remedies", "Dry to");
    const char *all = texts_of(fixture->arena, outcome.page, NULL);
    assert_null(strstr(all, "LIGHT21"));
    assert_null(strstr(all, "06:13"));
    static const char *const gone[] = {"steps", "weigh-out", "night", "night-list", "no-glow"};
    for (size_t i = 0; i < sizeof gone / sizeof *gone; i++)
        assert_string_equal(texts_of(fixture->arena, outcome.page, gone[i]), "");
    for (size_t i = 0; i < outcome.page->marks.count; i++) /* nothing that must not happen */
        assert_string_not_equal(outcome.page->marks.items[i].owner, "glow");
    const Mark *bar = &outcome.page->marks.items[0];
    assert_int_equal(bar->kind, MARK_PATH);
    assert_true(bar->as.path.style.filled && bar->as.path.style.fill.grey < 0.01);
    assert_true(mark_box(bar, fixture->faces).width_mm > 190);
    assert_true(outcome.page->marks.items[1].as.text.ink.grey > 0.99); /* white on it */
}

static void things_give_way_in_the_stated_order(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    Outcome roomy = lay_out(fixture, &recipe);
    assert_true(*texts_of(fixture->arena, roomy.page, "night") != '\0');
    recipe.parts = 12; /* ten rows more */
    recipe.look_ins = 9;
    Outcome tight = lay_out(fixture, &recipe);
    assert_true(tight.good);
    assert_string_equal(texts_of(fixture->arena, tight.page, "night"), "");
    assert_true(*texts_of(fixture->arena, tight.page, "night-list") != '\0');
    assert_true(*texts_of(fixture->arena, tight.page, "steps") != '\0');
}

static void an_overflow_names_millimetres_and_text(void **state) {
    Fixture *fixture = *state;
    Text name = text_new(fixture->arena);
    for (int i = 0; i < 300; i++)
        text_add(&name, "Räucherspäne ");
    PlanRecipe recipe = recipe_usual();
    recipe.name = name.bytes;
    Outcome outcome = lay_out(fixture, &recipe);
    assert_false(outcome.good);
    assert_int_equal(outcome.pages, 0);
    assert_non_null(strstr(outcome.said, "samples/cheese-overnight.xml:2:1: error: the sheet of"));
    assert_non_null(strstr(outcome.said, "mm too long for its page"));
    assert_non_null(strstr(outcome.said, "Räucherspäne R"));
    assert_non_null(strstr(outcome.said, "…' in '"));
}

static void a_letter_without_a_glyph_is_named(void **state) {
    PlanRecipe recipe = recipe_usual();
    recipe.name = "Cheese 奶酪";
    Outcome outcome = lay_out(*state, &recipe);
    assert_false(outcome.good);
    assert_int_equal(outcome.pages, 0);
    assert_non_null(strstr(outcome.said, "the typeface has no character U+5976, '奶'"));
}

static void a_missing_word_is_an_error(void **state) {
    Fixture *fixture = *state;
    Words *words = ARENA_NEW(fixture->arena, Words);
    *words = *fixture->words;
    words->words.items = ARENA_ARRAY(fixture->arena, fixture->words->words.count, Word);
    words->words.count = 0;
    for (size_t i = 0; i < fixture->words->words.count; i++)
        if (strcmp(fixture->words->words.items[i].key, "step.mix") != 0)
            words->words.items[words->words.count++] = fixture->words->words.items[i];
    PlanRecipe recipe = recipe_usual();
    Outcome outcome = lay_out_in(fixture, fixture->arena, fixture->full, words, &recipe);
    assert_false(outcome.good);
    assert_non_null(strstr(outcome.said, "no word 'step.mix'"));
}

/* A form of one's own that filters cautions, and so loses some, makes no page. */
static void no_caution_is_lost_in_a_template_of_ones_own(void **state) {
    Fixture *fixture = *state;
    Diagnostics diagnostics = diagnostics_new(fixture->arena);
    static const char text[] =
        "<sheet><style name='a' size='9 pt'/><column><text words='{verdict}' style='a'/>"
        "<text each='caution' if='text=caution.hot' words='{text}' style='a'/>"
        "<text each='care' words='{text}' style='a'/>"
        "<text words='footer.estimates' style='a'/></column></sheet>";
    const Element *root = xml_parse(&diagnostics, "own.xml", text, strlen(text));
    const Pattern *own = pattern_read(fixture->arena, root, NULL, fixture->faces, &diagnostics);
    assert_non_null(own);
    PlanRecipe recipe = recipe_usual();
    Outcome outcome = lay_out_in(fixture, fixture->arena, own, fixture->words, &recipe);
    assert_false(outcome.good);
    assert_int_equal(outcome.pages, 0);
    assert_non_null(strstr(outcome.said, "leaves out what can hurt somebody: caution 'carbon_"));
}

static void texts_come_in_reading_order(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    Outcome outcome = lay_out(fixture, &recipe);
    const char *all = texts_of(fixture->arena, outcome.page, NULL);
    static const char *const order[] = {"LIGHT21:30", "Outabout", "Cheeseovernight",
                                        "Weighinto",  "Thenight", "Noglow",
                                        "COalarm",    "WARNING",  "Allfigures"};
    const char *at = all;
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        const char *found = strstr(at, order[i]);
        if (!found)
            fail_msg("'%s' comes too early, or never", order[i]);
        else
            at = found;
    }
}

static void the_same_plan_gives_the_same_marks(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    Text texts[2] = {text_new(fixture->arena), text_new(fixture->arena)};
    for (int i = 0; i < 2; i++)
        marks_print(&texts[i], lay_out(fixture, &recipe).page);
    assert_string_equal(texts[0].bytes, texts[1].bytes);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_plan_is_one_page_or_says_why_not),
        cmocka_unit_test(any_plan_is_one_desk_page_or_says_why_not),
        cmocka_unit_test(usual_nights_fit_in_every_language_paper_and_unit),
        cmocka_unit_test(what_is_written_down_has_its_blank),
        cmocka_unit_test(the_headline_is_read_across_the_shed),
        cmocka_unit_test(steps_and_weights_are_read_at_arms_length),
        cmocka_unit_test(a_refused_plan_never_looks_confident),
        cmocka_unit_test(things_give_way_in_the_stated_order),
        cmocka_unit_test(an_overflow_names_millimetres_and_text),
        cmocka_unit_test(a_letter_without_a_glyph_is_named),
        cmocka_unit_test(a_missing_word_is_an_error),
        cmocka_unit_test(no_caution_is_lost_in_a_template_of_ones_own),
        cmocka_unit_test(texts_come_in_reading_order),
        cmocka_unit_test(the_same_plan_gives_the_same_marks),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
