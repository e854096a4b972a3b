/* Wrapping: lines no wider than asked, nothing lost, breaks only where they may be. */
#include "layout/wrap.h"

#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

typedef struct Fixture {
    Arena *arena;
    const Face *plain, *strong;
} Fixture;

enum { SIZE_PT = 10 };

typedef struct WrappedLine {
    const char *string; /* with the switches it needs */
    double width_mm;
} WrappedLine;

typedef LIST_OF(WrappedLine) WrappedLines;

static int set_up(void **state) {
    Arena *arena = arena_new();
    const char *error = NULL;
    const FaceSet *faces = faces_load(arena, "fonts", &error);
    if (!faces)
        return -1;
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    *fixture = (Fixture){arena, faces->faces[FACE_CONDENSED], faces->faces[FACE_CONDENSED_BOLD]};
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

static WrapText measure(Fixture *fixture, const char *text) {
    return wrap_measure(fixture->arena, fixture->plain, fixture->strong, text);
}

static double width_of(Fixture *fixture, const char *text) {
    return wrap_mm(measure(fixture, text).width, SIZE_PT);
}

/* A line as it stands alone: without zero-width spaces, with its switches closed. */
static const char *copied(Arena *arena, const WrapLine *line) {
    Text text = text_new(arena);
    bool strong = line->strong;
    text_add(&text, strong ? "\x01" : "");
    for (const char *at = line->from; at < line->end; at++) {
        strong = *at == WRAP_STRONG || (strong && *at != WRAP_PLAIN);
        if (line->end - at >= 3 && !strncmp(at, "\u200B", 3))
            at += 2;
        else
            text_add_bytes(&text, at, 1);
    }
    text_add(&text, strong ? "\x02" : "");
    return text.bytes;
}

static WrappedLines wrap(Fixture *fixture, const char *string, double width_mm) {
    WrapText text = measure(fixture, string);
    int room = wrap_room(width_mm, SIZE_PT);
    WrapLines lines = wrap_lines(fixture->arena, &text, room);
    assert_int_equal(wrap_count(&text, room), lines.count);
    WrappedLines wrapped = {0};
    for (size_t i = 0; i < lines.count; i++)
        LIST_ADD(fixture->arena, &wrapped,
                 ((WrappedLine){copied(fixture->arena, &lines.items[i]),
                                wrap_mm(lines.items[i].width, SIZE_PT)}));
    return wrapped;
}

static void a_text_that_fits_stays_whole(void **state) {
    WrappedLines lines = wrap(*state, "cold and apart", 100);
    assert_int_equal(lines.count, 1);
    assert_string_equal(lines.items[0].string, "cold and apart");
}

static void an_empty_text_is_one_empty_line(void **state) {
    WrappedLines lines = wrap(*state, "", 10);
    assert_int_equal(lines.count, 1);
    assert_string_equal(lines.items[0].string, "");
}

static void lines_break_at_blanks_which_go(void **state) {
    Fixture *fixture = *state;
    double width_mm = width_of(fixture, "cold and") + 0.1;
    WrappedLines lines = wrap(fixture, "cold and apart", width_mm);
    assert_int_equal(lines.count, 2);
    assert_string_equal(lines.items[0].string, "cold and");
    assert_string_equal(lines.items[1].string, "apart");
}

static void a_measured_width_holds_its_own_text(void **state) {
    Fixture *fixture = *state;
    const char *text = "Weigh 420 g into one bowl";
    assert_int_equal(wrap(fixture, text, width_of(fixture, text)).count, 1);
}

static void no_break_spaces_hold(void **state) {
    Fixture *fixture = *state;
    double width_mm = width_of(fixture, "15\u00A0min") + 0.1;
    WrappedLines lines = wrap(fixture, "420\u202Fg 15\u00A0min", width_mm);
    assert_int_equal(lines.count, 2);
    assert_string_equal(lines.items[0].string, "420\u202Fg");
}

static void words_break_behind_hyphens_but_not_before_figures(void **state) {
    Fixture *fixture = *state;
    WrappedLines lines = wrap(fixture, "Toad-Ditch", width_of(fixture, "Toad-Di"));
    assert_string_equal(lines.items[0].string, "Toad-");
    lines = wrap(fixture, "at 05:10–08:40", width_of(fixture, "05:10–08"));
    assert_string_equal(lines.items[0].string, "at");
    assert_string_equal(lines.items[1].string, "05:10–08"); /* too long: by characters */
}

static void a_newline_always_breaks(void **state) {
    WrappedLines lines = wrap(*state, "a\n\nb", 100);
    assert_int_equal(lines.count, 3);
    assert_string_equal(lines.items[1].string, "");
}

static void strong_stretches_go_on_in_the_next_line(void **state) {
    Fixture *fixture = *state;
    double width_mm = width_of(fixture, "\x01"
                                        "word\x02") +
                      0.1;
    WrappedLines lines = wrap(fixture,
                              "a \x01"
                              "bold word\x02 z",
                              width_mm);
    assert_string_equal(lines.items[1].string, "\x01"
                                               "bold\x02");
    assert_string_equal(lines.items[2].string, "\x01"
                                               "word\x02");
}

static void strong_letters_are_measured_in_their_own_face(void **state) {
    Fixture *fixture = *state;
    double strong_mm = face_width_mm(fixture->strong, "nil", 10);
    double plain_mm = face_width_mm(fixture->plain, "nil", 10);
    assert_true(fabs(strong_mm - plain_mm) > 0.01);
    assert_true(fabs(width_of(fixture, "\x01nil\x02nil") - strong_mm - plain_mm) < 1e-9);
}

/* Takes blanks, zero-width spaces and switches out: what has to come back from any wrapping. */
static const char *letters(Arena *arena, const char *text) {
    Text kept = text_new(arena);
    for (; *text; text++)
        if (*text != ' ' && *text != '\n' && *text != WRAP_STRONG && *text != WRAP_PLAIN)
            text_add_bytes(&kept, text, 1);
    return kept.bytes;
}

/* A dot between two things stands on a line between them, and never at the end of one. */
static void a_dot_goes_where_its_line_ends(void **state) {
    static const char text[] = "Cheese\u00A0· Cheddar";
    Fixture *fixture = *state;
    WrappedLines one = wrap(fixture, text, 200);
    assert_int_equal(one.count, 1);
    assert_string_equal(one.items[0].string, text);
    WrappedLines two = wrap(fixture, text, width_of(fixture, "Cheese\u00A0· Ch"));
    assert_int_equal(two.count, 2);
    assert_string_equal(two.items[0].string, "Cheese");
    assert_true(fabs(two.items[0].width_mm - width_of(fixture, "Cheese")) < 1e-9);
    assert_string_equal(two.items[1].string, "Cheddar");
}

static void nothing_is_lost_at_any_width(void **state) {
    static const char text[] = "Räucherspäne aus Łódź-Śródmieście, "
                               "\x01"
                               "420\u202Fg\x02 of дуб/δρυς, "
                               "Donaudampfschifffahrtsgesellschaftskapitän 12–14 and a\u00A0b";
    Fixture *fixture = *state;
    const char *whole = letters(fixture->arena, text);
    for (double width_mm = 0.5; width_mm < 120; width_mm += 0.7) {
        WrappedLines lines = wrap(fixture, text, width_mm);
        Text joined = text_new(fixture->arena);
        for (size_t i = 0; i < lines.count; i++) {
            WrappedLine line = lines.items[i];
            text_add(&joined, line.string);
            bool one = strlen(letters(fixture->arena, line.string)) <= 4;
            assert_true(line.width_mm <= width_mm + 1e-5 || one);
            assert_true(line.width_mm - width_of(fixture, line.string) < 1e-9);
        }
        assert_string_equal(letters(fixture->arena, joined.bytes), whole);
    }
}

static void bytes_that_are_no_text_do_not_hang(void **state) {
    WrappedLines lines = wrap(*state, "ab\xFF\xC3 cd", 3);
    assert_true(lines.count >= 2);
}

static void the_widest_word_is_found(void **state) {
    Fixture *fixture = *state;
    assert_int_equal(measure(fixture, "a thermometer is").widest,
                     measure(fixture, "thermometer").width);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_text_that_fits_stays_whole),
        cmocka_unit_test(an_empty_text_is_one_empty_line),
        cmocka_unit_test(lines_break_at_blanks_which_go),
        cmocka_unit_test(a_measured_width_holds_its_own_text),
        cmocka_unit_test(no_break_spaces_hold),
        cmocka_unit_test(words_break_behind_hyphens_but_not_before_figures),
        cmocka_unit_test(a_newline_always_breaks),
        cmocka_unit_test(strong_stretches_go_on_in_the_next_line),
        cmocka_unit_test(strong_letters_are_measured_in_their_own_face),
        cmocka_unit_test(a_dot_goes_where_its_line_ends),
        cmocka_unit_test(nothing_is_lost_at_any_width),
        cmocka_unit_test(bytes_that_are_no_text_do_not_hang),
        cmocka_unit_test(the_widest_word_is_found),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
