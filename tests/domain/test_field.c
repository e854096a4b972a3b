/* Fields: every figure is reached by its path, no name stands twice, rows and parents are looked
 * up as domain/field.h says. */
#include "domain/field.h"
#include "domain/word.h"
#include "support/every_word.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static const Dust beech = {.id = "beech", .name = "Beech"};
static const Dust cherry = {.id = "cherry", .name = "Cherry"};
static const Tray fold = {.id = "fold", .name = "Fold", .lanes = 5};
static const Fill fill = {.tray = &fold, .level = 1, .repeat = 1};
static const BagOrder order = {.net_kg = 0.25, .count = 6, .stock = "a4-8", .first = 1};

static void add_rows(Arena *arena, Plan *plan) {
    PlanPart parts[] = {{.dust = &beech, .wet_kg = 0.5},
                        {.dust = &cherry, .wet_kg = 0.25, .stock_left_kg = NOT_STATED}};
    for (size_t i = 0; i < 2; i++) {
        LIST_ADD(arena, &plan->blend.parts, parts[i]);
        PlanFill row = {.fill = &fill, .tray = &fold, .number = (int)i + 1};
        LIST_ADD(arena, &row.hours, (HourMark){.at = 3600, .lane = (int)i + 3});
        LIST_ADD(arena, &row.weak, (WeakStretch){.cause = CAUSE_FINES});
        LIST_ADD(arena, &plan->fills, row);
        LIST_ADD(arena, &plan->samples, (PlanSample){.at = 60 * ((Instant)i + 1)});
        LIST_ADD(arena, &plan->remedies, (Remedy){.kind = REMEDY_HEAP});
        LIST_ADD(arena, &plan->care, (Care){.key = "rest"});
        LIST_ADD(arena, &plan->steps, (PlanStep){.key = "weigh", .at = 900 + (Instant)i});
        LIST_ADD(arena, &plan->look_ins, (PlanLookIn){.lane = 2});
        LIST_ADD(arena, &plan->decisions, (Decision){.key = "stopped"});
        LIST_ADD(arena, &plan->cautions, (Caution){.key = "carbon_monoxide", .signal = "warning"});
        LIST_ADD(arena, &plan->reasons, (Reason){CAUSE_FINES, VERDICT_TEND});
        LIST_ADD(arena, &plan->nights, (Away){.from = 5, .to = 6});
        PlanBag bag = {.order = &order, .net_kg = 0.25};
        LIST_ADD(arena, &bag.parts, ((BagPart){.name = "beech", .share = 0.7}));
        LIST_ADD(arena, &plan->bags, bag);
    }
}

/* A plan with two of everything that repeats. */
static Plan *full_plan(Arena *arena) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    workshop->zone = zone_load(arena, "UTC");
    LIST_ADD(arena, &workshop->maker.address, "2 Toad Ditch");
    LIST_ADD(arena, &workshop->maker.address, "Kilbrannock");
    Batch *batch = ARENA_NEW(arena, Batch);
    batch->workshop = workshop;
    LIST_ADD(arena, &batch->timing.away, (Away){.from = 1, .to = 2});
    Plan *plan = ARENA_NEW(arena, Plan);
    plan->batch = batch;
    plan->workshop = workshop;
    plan->burn.light_at = civil_to_utc((CivilTime){{2026, 12, 4}, 21, 30, 0});
    plan->burn.margin_least = 1.28;
    add_rows(arena, plan);
    return plan;
}

static void visit(Arena *arena, const FieldGroup *root, const FieldGroup *group, const char *prefix,
                  size_t *seen) {
    for (size_t i = 0; i < group->fields.count; i++) {
        const char *path = arena_format(arena, "%s%s", prefix, group->fields.items[i].name);
        if (field_find(root, path) != &group->fields.items[i]) {
            fail_msg("'%s' does not lead to its field: a name stands twice", path);
        }
        (*seen)++;
    }
    for (size_t i = 0; i < group->groups.count; i++) {
        const FieldGroup *below = group->groups.items[i];
        const char *path = below->number
                               ? arena_format(arena, "%s%s.%d.", prefix, below->name, below->number)
                               : arena_format(arena, "%s%s.", prefix, below->name);
        visit(arena, root, below, path, seen);
    }
}

static void every_field_is_reached_by_its_path(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const FieldGroup *root = plan_fields(arena, full_plan(arena));
    size_t seen = 0;
    visit(arena, root, root, "", &seen);
    assert_true(seen > 300);
    arena_free(arena);
}

static void groups_and_their_rows_do_not_mix(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const FieldGroup *root = plan_fields(arena, full_plan(arena));
    for (size_t i = 0; i < root->groups.count; i++) {
        for (size_t k = 0; k < i; k++) {
            const FieldGroup *one = root->groups.items[i];
            const FieldGroup *other = root->groups.items[k];
            assert_false(strcmp(one->name, other->name) == 0 && one->number == other->number);
        }
    }
    arena_free(arena);
}

static void values_arrive_under_their_names(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const FieldGroup *root = plan_fields(arena, full_plan(arena));
    assert_true(field_find(root, "blend.part.2.wet_mass")->quantity.value == 0.25);
    assert_int_equal(field_find(root, "blend.part.2.wet_mass")->quantity.kind, QUANTITY_MASS);
    assert_string_equal(field_find(root, "blend.part.1.name")->text, "Beech");
    assert_false(is_stated(field_find(root, "blend.part.2.stock_left")->quantity.value));
    assert_true(field_find(root, "burn.margin_least")->quantity.value == 1.28);
    assert_false(is_stated(field_find(root, "burn.dies_at")->quantity.value));
    assert_int_equal(field_find(root, "batch.date")->date.day, 4);
    assert_string_equal(field_find(root, "maker.address")->text, "2 Toad Ditch, Kilbrannock");
    assert_string_equal(field_find(root, "caution.1.signal")->text, "signal.warning");
    assert_string_equal(field_find(root, "reason.1.text")->text, "reason.fines");
    assert_string_equal(field_find(root, "reason.1.cause")->text, "cause.fines");
    assert_string_equal(field_find(root, "decision.1.then")->text, "decision.stopped.then");
    assert_string_equal(field_find(root, "step.2.text")->text, "step.weigh");
    assert_true(field_find(root, "fill.2.hour.1.lane")->quantity.value == 4);
    assert_null(field_find(root, "blend.part.3.wet_mass"));
    assert_null(field_find(root, "blend.part.wet_mass"));
    assert_null(field_find(root, "burn"));
    assert_null(field_find(root, "burn.nothing"));
    assert_null(field_find(root, ""));
    arena_free(arena);
}

static void a_row_is_asked_first_then_what_holds_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const FieldGroup *root = plan_fields(arena, full_plan(arena));
    const FieldGroup *step = field_row(root, "step", 1);
    assert_int_equal(step->number, 2);
    assert_true(field_find(step, "at")->quantity.value == 901);
    assert_string_equal(field_find(step, "blend.part.1.name")->text, "Beech");
    const FieldGroup *part = field_row(root, "bag.1.part", 0);
    assert_true(field_find(part, "share")->quantity.value == 0.7);
    assert_true(field_find(part, "net_mass")->quantity.value == 0.25);
    assert_null(field_row(root, "step", 2));
    assert_null(field_row(root, "burn", 0));
    assert_null(field_row(part, "part", 1));
    assert_non_null(field_row(part, "blend.part", 1));
    arena_free(arena);
}

/* That none is missing is the compiler's to say; two values could still share one. */
static void each_value_has_one_word_of_its_own(void **state) {
    (void)state;
    Arena *arena = arena_new();
    size_t count;
    const char *const *words = every_word(arena, &count);
    assert_true(count > 60);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < i; k++) {
            assert_string_not_equal(words[i], words[k]);
        }
    }
    assert_string_equal(word_of_verdict(VERDICT_DO_NOT_LIGHT), "verdict.do_not_light");
    assert_string_equal(word_of_cause(CAUSE_LIT_ALONE), "cause.lit_alone");
    assert_string_equal(word_of_basis(BASIS_WET), "basis.wet");
    assert_null(word_of_basis((MoistureBasis)(BASIS_WET + 1)));
    arena_free(arena);
}

/* A look at the time of taking out is no row of its own: the end keeps its letter. */
static void the_look_at_the_end_is_one_row_with_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Plan *plan = full_plan(arena);
    plan->look_ins.items[0].at = plan->burn.light_at + 1200;
    plan->look_ins.items[1].at = plan->burn.light_at + 36000;
    plan->burn.out_at = plan->burn.light_at + 36071; /* taken out at a round time */
    PlanStep out = {.key = "take_out", .at = plan->burn.light_at + 36000};
    LIST_ADD(arena, &plan->steps, out);
    const FieldGroup *root = plan_fields(arena, plan);
    const FieldGroup *last = NULL;
    size_t look_ins = 0, count = 0;
    for (; field_row(root, "event", count); count++) {
        last = field_row(root, "event", count);
        look_ins += strcmp(field_find(last, "what")->text, "look") == 0;
    }
    assert_int_equal(look_ins, 1);
    assert_int_equal(count, plan->fills.count + 2);
    assert_string_equal(field_find(last, "what")->text, "end");
    assert_string_equal(field_find(last, "letter")->text, "B");
    assert_true((Instant)field_find(last, "event_at")->quantity.value == out.at);
    arena_free(arena);
}

/* Outside: Directive (EU) 2018/1972, article 109 (112); the numbers of the United Kingdom, North
 * America and Australia, from memory. */
static void the_emergency_number_is_the_markets(void **state) {
    (void)state;
    static const struct {
        Market market;
        const char *number;
    } known[] = {{MARKET_EU, "112"}, {MARKET_UK, "999"}, {MARKET_US, "911"}, {MARKET_AU, "000"}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        Arena *arena = arena_new();
        Plan *plan = full_plan(arena);
        Workshop workshop = *plan->workshop;
        workshop.market = known[i].market;
        plan->workshop = &workshop;
        const FieldGroup *root = plan_fields(arena, plan);
        assert_string_equal(field_find(root, "workshop.emergency_number")->text, known[i].number);
        arena_free(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_field_is_reached_by_its_path),
        cmocka_unit_test(groups_and_their_rows_do_not_mix),
        cmocka_unit_test(values_arrive_under_their_names),
        cmocka_unit_test(a_row_is_asked_first_then_what_holds_it),
        cmocka_unit_test(each_value_has_one_word_of_its_own),
        cmocka_unit_test(the_look_at_the_end_is_one_row_with_it),
        cmocka_unit_test(the_emergency_number_is_the_markets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
