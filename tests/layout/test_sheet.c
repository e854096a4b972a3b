/* The session sheet: one page always or an error that says why, nothing outside the margins, no
 * text on another, nothing lost. */
#include "layout/sheet.h"

#include "input/xml.h"
#include "support/language.h"
#include "support/plan_maker.h"

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
    const Template *full;
    const Template *large;
    const Words *words;
} Fixture;

/* What came of laying out one plan. */
typedef struct Outcome {
    bool good;
    const Page *page;
    size_t pages;
    const char *said;
} Outcome;

static const Template *read_template(Fixture *fixture, const char *path) {
    Diagnostics diagnostics = diagnostics_new(fixture->arena);
    const Element *root = xml_read(&diagnostics, path, NULL);
    return root ? template_read(fixture->arena, root, fixture->faces, &diagnostics) : NULL;
}

static int set_up(void **state) {
    Arena *arena = arena_new();
    const char *error = NULL;
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    fixture->arena = arena;
    fixture->faces = faces_load(arena, "fonts", &error);
    if (!fixture->faces)
        return -1;
    fixture->full = read_template(fixture, "templates/sheet.xml");
    fixture->large = read_template(fixture, "templates/sheet-large.xml");
    fixture->words = language_words(arena, "en");
    *state = fixture;
    return fixture->full && fixture->large ? 0 : -1;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

static Outcome lay_out_in(Fixture *fixture, Arena *arena, const Template *template,
                          const Words *words, const PlanRecipe *recipe) {
    const Plan *plan = plan_from_recipe(arena, recipe);
    Locale locale = locale_on_night(locale_of(plan->workshop, words), plan->burn.light_at);
    Document *document = document_new(arena, "Session sheet", words->language);
    document->creator = "burnsheet";
    Diagnostics diagnostics = diagnostics_new(arena);
    Outcome outcome = {0};
    outcome.good = sheet_lay_out(template, plan, plan_fields(arena, plan), &locale, fixture->faces,
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

/* All texts of one panel, or of the page, in their order, without blanks. */
static const char *texts_of(Arena *arena, const Page *page, const char *owner) {
    Text text = text_new(arena);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT || (owner && strcmp(mark->owner, owner) != 0))
            continue;
        for (const char *at = mark->as.text.string; *at; at++)
            if (*at != ' ')
                text_add_bytes(&text, at, 1);
    }
    return text.bytes;
}

static const char *without_blanks(Arena *arena, const char *string) {
    Text text = text_new(arena);
    for (; *string; string++)
        if (*string != ' ')
            text_add_bytes(&text, string, 1);
    return text.bytes;
}

static void assert_shows(Arena *arena, const Page *page, const char *owner, const char *wanted) {
    if (!strstr(texts_of(arena, page, owner), without_blanks(arena, wanted)))
        fail_msg("'%s' is not on the page (%s)", wanted, owner ? owner : "anywhere");
}

static void assert_page(const Fixture *fixture, Arena *arena, const Template *template,
                        const PlanRecipe *recipe, const Outcome *outcome) {
    assert_int_equal(outcome->pages, 1);
    assert_true(outcome->page->width_mm == (recipe->paper == PAPER_LETTER ? 215.9 : 210.0));
    assert_inside(fixture, outcome->page, template->margin_mm);
    assert_apart(fixture, outcome->page);
    assert_readable(outcome->page);
    assert_shows(arena, outcome->page, "headline",
                 recipe->name ? recipe->name : "Cheese overnight");
    assert_shows(arena, outcome->page, "footer", "All figures are estimates");
    static const char *const lit[] = {"weigh-out", "tray-map", "steps", "rules"};
    for (size_t i = 0; i < sizeof lit / sizeof *lit; i++)
        if (recipe->verdict != VERDICT_DO_NOT_LIGHT && template == fixture->full &&
            *texts_of(arena, outcome->page, lit[i]) == '\0')
            fail_msg("panel '%s' is not on the page", lit[i]);
    if (recipe->verdict != VERDICT_DO_NOT_LIGHT && template == fixture->full && recipe->looks)
        assert_true(*texts_of(arena, outcome->page, "log") != '\0');
    static const char *const signals[] = {"WARNING", "CAUTION", "NOTICE", "Carbon monoxide"};
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++)
        assert_shows(arena, outcome->page, NULL, signals[i]);
}

/* ---- Tests ---- */

static void random_plans(Fixture *fixture, const Template *template, unsigned from, int count,
                         int *good) {
    for (int i = 0; i < count; i++) {
        Arena *arena = arena_new();
        PlanRecipe recipe = recipe_random(arena, from + (unsigned)i);
        Outcome outcome = lay_out_in(fixture, arena, template, fixture->words, &recipe);
        if (outcome.good) {
            assert_page(fixture, arena, template, &recipe, &outcome);
            ++*good;
        } else {
            assert_int_equal(outcome.pages, 0);
            assert_non_null(strstr(outcome.said, "mm too long for its page"));
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

static void any_plan_is_one_large_page_or_says_why_not(void **state) {
    int good = 0;
    random_plans(*state, ((Fixture *)*state)->large, 9001, RANDOM_PLANS / 5, &good);
    print_message("          %d of %d random plans fit the large sheet\n", good, RANDOM_PLANS / 5);
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
            const Template *template = kind / 12 ? fixture->large : fixture->full;
            Outcome outcome = lay_out_in(fixture, fixture->arena, template, words, &recipe);
            if (!outcome.good)
                fail_msg("%s %d: %s", languages[i], kind, outcome.said);
            assert_inside(fixture, outcome.page, template->margin_mm);
            assert_apart(fixture, outcome.page);
        }
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

/* 9 mm: 20 to 22 minutes of arc at 1.5 m (NUREG-0700 1.3.1-4; ISO 9241-3). */
static void the_headline_is_read_across_the_shed(void **state) {
    PlanRecipe recipe = recipe_usual();
    Outcome outcome = lay_out(*state, &recipe);
    assert_true(outcome.good);
    static const char *const wanted[] = {"LIGHT AT 21:30", "Out about 06:13", "04:43–08:13",
                                         "GOOD TO LIGHT"};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        assert_true(capitals_mm(*state, outcome.page, wanted[i]) >= 9 - 1e-9);
    assert_true(capitals_mm(*state, outcome.page, "into one bowl") >= 2.8 - 1e-9);
}

/* 2.8 mm: 16 minutes of arc at 0.6 m, the least of NUREG-0700 1.3.1-4. */
static void steps_and_weights_are_read_at_arms_length(void **state) {
    Fixture *fixture = *state;
    static const char *const panels[] = {"steps", "weigh-out"};
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
            bool figure = strstr(mark->as.text.string, "\xc2\xa0g") != NULL ||
                          strchr(mark->as.text.string, ':') != NULL;
            for (size_t p = 0; p < sizeof panels / sizeof *panels; p++)
                if (figure && strcmp(mark->owner, panels[p]) == 0 &&
                    face_cap_height_mm(face, mark->as.text.size_pt) < 2.8 - 1e-9)
                    fail_msg("'%s' is too small", mark->as.text.string);
        }
    }
}

static const Panel *panel_of(const Page *page, const Template *template, PanelKind kind) {
    for (size_t i = 0; i < template->panels.count; i++)
        for (size_t m = 0; m < page->marks.count; m++)
            if (template->panels.items[i]->kind == kind &&
                strcmp(page->marks.items[m].owner, template->panels.items[i]->name) == 0)
                return template->panels.items[i];
    return NULL;
}

/* The record stands below the log while the curve takes the room above, else in its stead. */
static void the_record_goes_where_there_is_room(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    Outcome roomy = lay_out(fixture, &recipe);
    assert_string_equal(panel_of(roomy.page, fixture->full, PANEL_RECORD)->name, "record-below");
    recipe.parts = 9;
    Outcome tight = lay_out(fixture, &recipe);
    assert_null(panel_of(tight.page, fixture->full, PANEL_CURVE));
    assert_string_equal(panel_of(tight.page, fixture->full, PANEL_RECORD)->name, "record");
}

/* Eight fills of one tray, twelve dusts: one drawing, and a line for each of the others. */
static void fills_that_look_alike_are_drawn_once_when_it_is_tight(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    recipe.parts = 12;
    recipe.fills = 8;
    Outcome outcome = lay_out(fixture, &recipe);
    if (!outcome.good)
        fail_msg("%s", outcome.said);
    assert_apart(fixture, outcome.page);
    assert_shows(fixture->arena, outcome.page, "tray-map", "1. Mesh maze");
    assert_shows(fixture->arena, outcome.page, "tray-map", "8. Mesh maze");
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
    assert_true(capitals_mm(fixture, outcome.page, "06:13") < 3.6);
    assert_shows(fixture->arena, outcome.page, "headline", "If it were lit");
    assert_shows(fixture->arena, outcome.page, "remedies-refused", "Dry to");
    const char *all = texts_of(fixture->arena, outcome.page, NULL);
    assert_null(strstr(all, "LIGHTAT"));
    assert_string_equal(texts_of(fixture->arena, outcome.page, "steps"), "");
    const Mark *bar = &outcome.page->marks.items[0];
    assert_int_equal(bar->kind, MARK_PATH);
    assert_true(bar->as.path.style.filled && bar->as.path.style.fill.red < 0.01);
    assert_true(mark_box(bar, fixture->faces).width_mm > 190);
    assert_true(outcome.page->marks.items[1].as.text.ink.red > 0.99); /* white on it */
}

static void panels_give_way_in_the_stated_order(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    Outcome roomy = lay_out(fixture, &recipe);
    assert_true(*texts_of(fixture->arena, roomy.page, "curve") != '\0');
    recipe.parts = 9; /* seven rows more */
    Outcome tight = lay_out(fixture, &recipe);
    assert_true(tight.good);
    assert_string_equal(texts_of(fixture->arena, tight.page, "curve"), "");
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
    assert_non_null(strstr(outcome.said, "…' in panel '"));
}

static void a_letter_without_a_glyph_is_named(void **state) {
    PlanRecipe recipe = recipe_usual();
    recipe.name = "Cheese 奶酪";
    Outcome outcome = lay_out(*state, &recipe);
    assert_false(outcome.good);
    assert_int_equal(outcome.pages, 0);
    assert_non_null(strstr(outcome.said, "the typeface has no '奶' (U+5976)"));
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

static void cautions_that_no_panel_names_stand_in_the_open_one(void **state) {
    Fixture *fixture = *state;
    Diagnostics diagnostics = diagnostics_new(fixture->arena);
    static const char text[] =
        "<sheet><page/><text name='headline' size='9 mm' face='condensed-bold'/>"
        "<text name='lead' size='10 pt'/><text name='title' size='9 pt'/>"
        "<text name='step' size='9 pt'/><text name='figure' size='9 pt'/>"
        "<text name='body' size='9 pt'/><text name='note' size='7 pt'/><arrange>"
        "<panel kind='headline'/><panel kind='cautions' name='hot' only='hot' when='lit'/>"
        "<panel kind='cautions'/><panel kind='care'/><panel kind='footer'/></arrange></sheet>";
    const Element *root = xml_parse(&diagnostics, "own.xml", text, strlen(text));
    const Template *template = template_read(fixture->arena, root, fixture->faces, &diagnostics);
    assert_non_null(template);
    PlanRecipe recipe = recipe_usual();
    Outcome lit = lay_out_in(fixture, fixture->arena, template, fixture->words, &recipe);
    assert_shows(fixture->arena, lit.page, "hot", "CAUTION Tray and ash");
    assert_null(strstr(texts_of(fixture->arena, lit.page, "cautions"), "Trayandash"));
    recipe.verdict = VERDICT_DO_NOT_LIGHT; /* the named panel is gone, its caution is not */
    Outcome refused = lay_out_in(fixture, fixture->arena, template, fixture->words, &recipe);
    assert_shows(fixture->arena, refused.page, "cautions", "CAUTION Tray and ash");
}

static void texts_come_in_reading_order(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    Outcome outcome = lay_out(fixture, &recipe);
    const char *all = texts_of(fixture->arena, outcome.page, NULL);
    static const char *const order[] = {"Cheeseovernight", "LIGHTAT", "GOODTOLIGHT", "Weighinto",
                                        "Thenight",        "WARNING", "Look-inlog",  "Allfigures"};
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
        cmocka_unit_test(any_plan_is_one_large_page_or_says_why_not),
        cmocka_unit_test(usual_nights_fit_in_every_language_paper_and_unit),
        cmocka_unit_test(the_headline_is_read_across_the_shed),
        cmocka_unit_test(steps_and_weights_are_read_at_arms_length),
        cmocka_unit_test(the_record_goes_where_there_is_room),
        cmocka_unit_test(fills_that_look_alike_are_drawn_once_when_it_is_tight),
        cmocka_unit_test(a_refused_plan_never_looks_confident),
        cmocka_unit_test(panels_give_way_in_the_stated_order),
        cmocka_unit_test(an_overflow_names_millimetres_and_text),
        cmocka_unit_test(a_letter_without_a_glyph_is_named),
        cmocka_unit_test(a_missing_word_is_an_error),
        cmocka_unit_test(cautions_that_no_panel_names_stand_in_the_open_one),
        cmocka_unit_test(texts_come_in_reading_order),
        cmocka_unit_test(the_same_plan_gives_the_same_marks),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
