/* Whom to call in the night: in the alarm box of the sheet, and on the page of a refused night. */
#include "layout/sheet.h"

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

typedef struct Fixture {
    Arena *arena;
    const FaceSet *faces;
    const Pattern *full;
} Fixture;

static int set_up(void **state) {
    Arena *arena = arena_new();
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    fixture->arena = arena;
    fixture->faces = shipped_faces(arena);
    fixture->full = shipped_pattern(arena, fixture->faces, "sheet");
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

static const Page *sheet_of(Fixture *fixture, const PlanRecipe *recipe, const char *language) {
    Arena *arena = fixture->arena;
    const Plan *plan = plan_from_recipe(arena, recipe);
    const Words *words = language_words(arena, language);
    Locale locale = locale_on_night(locale_of(plan->workshop, words), plan->burn.light_at);
    Document *document = document_new(arena, "Session sheet", language);
    Diagnostics diagnostics = diagnostics_new(arena);
    if (!sheet_lay_out(fixture->full, plan, plan_fields(arena, plan), &locale, fixture->faces,
                       document, &diagnostics)) {
        diagnostics_print(&diagnostics, stderr);
        fail_msg("the sheet does not fit");
    }
    return document->pages.items[0];
}

/* All texts of one part of the page in their order, with plain blanks. */
static const char *texts_of(Arena *arena, const Page *page, const char *owner) {
    Text text = text_new(arena);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT || strcmp(mark->owner, owner) != 0)
            continue;
        for (const char *at = mark->as.text.string; *at; at++) {
            bool holds = strncmp(at, "\u00a0", 2) == 0;
            text_add_bytes(&text, holds ? " " : at, 1);
            at += holds;
        }
        text_add(&text, "\n");
    }
    return text.bytes;
}

static const char *on_one_line(Arena *arena, const char *lines) {
    char *line = arena_string(arena, lines);
    for (char *at = line; *at; at++)
        *at = *at == '\n' ? ' ' : *at;
    return line;
}

/* The person to call stands where the blank was, the number in one piece; odd names fit. */
static void whom_to_call_is_on_the_page(void **state) {
    static const char *const languages[] = {"en", "de", "pl"};
    static const char *const names[] = {
        "Una", "Bolesława <& \"Ł\">",
        "Whoever of the four of us keeps the kiln and the smokehouse this month of the year"};
    Fixture *fixture = *state;
    for (size_t kind = 0; kind < 36; kind++) {
        PlanRecipe recipe = recipe_usual();
        recipe.call = names[kind / 3 % 3];
        recipe.telephone = kind / 9 % 2 ? "+353 91 555 0117" : "+353 (0)91 / 555-0117-55";
        recipe.paper = PAPER_LETTER;
        recipe.verdict = kind / 18 ? VERDICT_DO_NOT_LIGHT : VERDICT_GOOD;
        const Page *page = sheet_of(fixture, &recipe, languages[kind % 3]);
        const char *texts = texts_of(fixture->arena, page, kind / 18 ? "refusal" : "alarm");
        if (!strstr(texts, recipe.telephone)) /* in one line */
            fail_msg("'%s' is not in one piece: %s", recipe.telephone, texts);
        const char *run_on = on_one_line(fixture->arena, texts); /* a name may break at a blank */
        assert_non_null(strstr(run_on, kind / 3 % 3 < 2 ? recipe.call : "Whoever of the four"));
        for (size_t i = 0; i < page->marks.count; i++) {
            Box box = mark_box(&page->marks.items[i], fixture->faces);
            assert_true(box.x_mm + box.width_mm < page->width_mm - 6);
            assert_true(box.y_mm + box.height_mm < page->height_mm - 6);
        }
    }
}

static void nobody_to_call_leaves_a_blank(void **state) {
    Fixture *fixture = *state;
    PlanRecipe recipe = recipe_usual();
    const Page *page = sheet_of(fixture, &recipe, "en");
    const char *texts = texts_of(fixture->arena, page, "alarm");
    assert_non_null(strstr(texts, "If in doubt call"));
    bool blank = false; /* a ruled line behind the words */
    for (size_t i = 1; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i], *before = mark - 1;
        blank |= mark->kind == MARK_PATH && before->kind == MARK_TEXT &&
                 strstr(before->as.text.string, "doubt") &&
                 mark_box(mark, fixture->faces).width_mm > 15;
    }
    assert_true(blank);
    assert_null(strstr(texts, "\u2013")); /* no empty name */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whom_to_call_is_on_the_page),
        cmocka_unit_test(nobody_to_call_leaves_a_blank),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
