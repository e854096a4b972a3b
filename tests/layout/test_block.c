/* Blocks: what the kinds of nodes do with room, checked by sums done here: widths of rows, columns
 * that all rows of a table share, spare height, and the order of giving way. */
#include "layout/block.h"

#include "input/xml.h"
#include "support/language.h"
#include "support/plan_maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

typedef struct Fixture {
    Arena *arena;
    const FaceSet *faces;
    const Plan *plan;
    const FieldGroup *fields;
    Locale locale;
} Fixture;

static int set_up(void **state) {
    Arena *arena = arena_new();
    const char *error = NULL;
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    PlanRecipe recipe = recipe_usual();
    fixture->arena = arena;
    fixture->faces = faces_load(arena, "fonts", &error);
    fixture->plan = plan_from_recipe(arena, &recipe);
    fixture->fields = plan_fields(arena, fixture->plan);
    fixture->locale = locale_of(fixture->plan->workshop, language_words(arena, "en"));
    *state = fixture;
    return fixture->faces ? 0 : -1;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

#define MUST                                                                                       \
    "<column name='must' drop='40'><space height='0 mm'/></column>"                                \
    "<text words='{verdict}' style='must'/><text words='footer.estimates' style='must'/>"

/* A desk page of this column behind what has to be on it, built. */
static Layout *build(Fixture *fixture, const char *styles, const char *column) {
    Diagnostics *diagnostics = ARENA_NEW(fixture->arena, Diagnostics);
    *diagnostics = diagnostics_new(fixture->arena);
    const char *text = arena_format(fixture->arena,
                                    "<desk><style name='must' size='7 pt' leading='1'/>%s<column>"
                                    "%s" MUST "</column></desk>",
                                    styles, column);
    const Element *root = xml_parse(diagnostics, "own.xml", text, strlen(text));
    const Pattern *pattern = pattern_read(fixture->arena, root, NULL, fixture->faces, diagnostics);
    Layout *layout = ARENA_NEW(fixture->arena, Layout);
    if (pattern)
        *layout = layout_new(fixture->arena, pattern, fixture->plan, fixture->fields,
                             &fixture->locale, fixture->faces, diagnostics);
    if (!pattern || !layout_build(layout)) {
        Text said = text_new(fixture->arena);
        diagnostics_add_to(diagnostics, &said);
        fail_msg("%s", said.bytes);
    }
    return layout;
}

static void place(Layout *layout, double width_mm, double height_mm) {
    layout_height_mm(layout, width_mm);
    block_place(layout, layout->root, (Box){0, 0, width_mm, height_mm});
}

static Block *named(Layout *layout, const char *name) {
    Block *block = block_named(layout, layout->root, name);
    if (!block)
        fail_msg("no '%s'", name);
    return block;
}

static bool near(double one, double other) {
    return fabs(one - other) < 1e-6;
}

#define A "<style name='a' size='10 pt' leading='1.2'/>"

/* 100 mm less three gaps of 2: 20 stand written, a tenth of 94 is a part, and of the 64.6 left the
 * shares take one and two thirds. */
static void a_row_shares_out_its_width(void **state) {
    Layout *layout = build(*state, A,
                           "<row apart='2 mm'><column name='p' width='20 mm'><text words='unit.g' "
                           "style='a'/></column><column name='q' width='10 %'><text words='unit.g' "
                           "style='a'/></column><column name='r'><text words='unit.g' style='a'/>"
                           "</column><column name='s' width='2'><text words='unit.g' style='a'/>"
                           "</column></row>");
    place(layout, 100, 100);
    static const double widths_mm[] = {20, 9.4, 64.6 / 3, 64.6 * 2 / 3};
    static const char *const names[] = {"p", "q", "r", "s"};
    double x_mm = 0;
    for (int i = 0; i < 4; i++) {
        const Block *block = named(layout, names[i]);
        assert_true(near(block->box.width_mm, widths_mm[i]));
        assert_true(near(block->box.x_mm, x_mm));
        x_mm += widths_mm[i] + 2;
    }
    assert_true(near(x_mm - 2, 100));
}

/* The widest cell of each column makes it, in whatever row it stands. */
static void all_rows_of_a_table_share_its_columns(void **state) {
    Layout *layout = build(*state, A,
                           "<table name='t'><row apart='3 mm'><text words='unit.g' style='a' "
                           "width='fit'/><text words='footer.estimates' style='a'/></row>"
                           "<row apart='3 mm'><text words='verdict.do_not_light' style='a' "
                           "width='fit'/><text words='unit.g' style='a'/></row></table>");
    place(layout, 120, 100);
    const Block *table = named(layout, "t");
    const Block *first = table->blocks.items[0];
    const Block *second = table->blocks.items[1];
    double widest_mm = face_width_mm(layout->pen.faces->faces[FACE_REGULAR], "DO NOT LIGHT", 10);
    assert_true(fabs(first->blocks.items[0]->box.width_mm - widest_mm) < 0.01);
    for (size_t i = 0; i < 2; i++)
        assert_true(near(first->blocks.items[i]->box.x_mm, second->blocks.items[i]->box.x_mm));
    assert_true(near(first->blocks.items[1]->box.x_mm, widest_mm + 3));
}

/* Each step of a plan has its row, and each row its own words. */
static void a_node_is_repeated_for_every_row(void **state) {
    Fixture *fixture = *state;
    Layout *layout = build(fixture, A,
                           "<column name='c'><text each='step' words='{text}' "
                           "style='a'/></column>");
    place(layout, 180, 250);
    const Block *column = named(layout, "c");
    assert_int_equal(column->blocks.count, fixture->plan->steps.count);
    double pitch_mm = 10 * 1.2 * 25.4 / 72;
    assert_true(column->blocks.items[1]->box.y_mm >= pitch_mm - 1e-6);
    assert_string_not_equal(column->blocks.items[0]->full.paragraphs[0].string,
                            column->blocks.items[1]->full.paragraphs[0].string);
}

/* Two spaces take what is left as 1 to 3. */
static void spare_height_goes_to_what_grows(void **state) {
    Layout *layout =
        build(*state, A,
              "<space name='x' height='1 mm' grow='1'/><text words='unit.g' style='a'/>"
              "<space name='y' height='1 mm' grow='3'/>");
    double least_mm = layout_height_mm(layout, 100);
    place(layout, 100, least_mm + 8);
    assert_true(near(named(layout, "x")->box.height_mm, 1 + 2));
    assert_true(near(named(layout, "y")->box.height_mm, 1 + 6));
}

/* As high as what it draws needs, or as is asked for, whichever is more. */
static void a_drawing_takes_what_it_needs_or_is_given(void **state) {
    Layout *layout = build(*state, A,
                           "<canvas kind='curve' name='plain' style='a'/>"
                           "<canvas kind='curve' name='low' style='a' least='2 mm'/>"
                           "<canvas kind='curve' name='high' style='a' least='90 mm'/>");
    layout_height_mm(layout, 120);
    double plain_mm = named(layout, "plain")->height_mm;
    assert_true(plain_mm > 2 && plain_mm < 90);
    assert_true(near(named(layout, "low")->height_mm, plain_mm));
    assert_true(near(named(layout, "high")->height_mm, 90));
}

static void conditions_leave_nodes_out(void **state) {
    Layout *layout =
        build(*state, A,
              "<column name='in' if='!verdict=verdict.do_not_light *step drying.needed'>"
              "<text words='unit.g' style='a'/></column><column name='out' "
              "if='verdict=verdict.do_not_light'><text words='unit.g' style='a'/>"
              "</column><column name='refused' when='refused'><text words='unit.g' "
              "style='a'/></column>");
    assert_non_null(block_named(layout, layout->root, "in"));
    assert_null(block_named(layout, layout->root, "out"));
    assert_null(block_named(layout, layout->root, "refused"));
}

/* Step 1 closes a space 8 mm, step 2 drops a column of 6 mm, step 3 brings type down from 20 pt:
 * each only as far as it has to, and what a later one made needless is taken back. */
static void it_gives_way_in_order_and_no_further_than_it_has_to(void **state) {
    Layout *layout = build(*state, "<style name='a' size='20 pt' then='3: 10 pt' leading='1'/>",
                           "<space name='x' height='10 mm' least='2 mm' tighten='1'/>"
                           "<column name='d' drop='2'><space height='6 mm'/></column>"
                           "<text words='unit.g' style='a'/>");
    double full_mm = layout_height_mm(layout, 100);
    static const struct {
        double missing_mm, one, two;
    } rows[] = {{0, 0, 0}, {3, 0.375, 0}, {8, 1, 0}, {9, 0.375, 1}, {14, 1, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Box box = {0, 0, 100, full_mm - rows[i].missing_mm + 1e-9};
        assert_true(layout_fit(layout, box, false) <= 0);
        assert_true(near(layout->given[1 * STEP_TENTHS], rows[i].one) &&
                    near(layout->given[2 * STEP_TENTHS], rows[i].two));
        assert_true(layout->given[3 * STEP_TENTHS] == 0);
    }
    Box small = {0, 0, 100, full_mm - 14 - 5 * 25.4 / 72}; /* half of the type's ten points */
    assert_true(layout_fit(layout, small, false) <= 0);
    assert_true(near(layout->given[3 * STEP_TENTHS], 0.5));
    Box none = {0, 0, 100, full_mm - 14 - 10 * 25.4 / 72 - 2};
    assert_true(near(layout_fit(layout, none, false), 2));
}

/* However often it is fitted, nothing is filled or measured again: the strings stay the same. */
static void fitting_never_fills_again(void **state) {
    Fixture *fixture = *state;
    Layout *layout =
        build(fixture, "<style name='a' size='20 pt' then='1: 8 pt'/>",
              "<column name='c'><text each='step' words='{text}' style='a'/></column>");
    const Leaf *before = named(layout, "c")->blocks.items[0]->full.paragraphs;
    const char *string = before->string;
    for (int i = 0; i < 20; i++)
        layout_fit(layout, (Box){0, 0, 80, 100 - i}, false);
    assert_ptr_equal(named(layout, "c")->blocks.items[0]->full.paragraphs, before);
    assert_ptr_equal(before->string, string);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_row_shares_out_its_width),
        cmocka_unit_test(all_rows_of_a_table_share_its_columns),
        cmocka_unit_test(a_node_is_repeated_for_every_row),
        cmocka_unit_test(spare_height_goes_to_what_grows),
        cmocka_unit_test(a_drawing_takes_what_it_needs_or_is_given),
        cmocka_unit_test(conditions_leave_nodes_out),
        cmocka_unit_test(it_gives_way_in_order_and_no_further_than_it_has_to),
        cmocka_unit_test(fitting_never_fills_again),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
