/* What a label tells of using the dust: how long a tray burns is what the plan of such a night
 * says, never more, and nothing of a blend that goes out there. */
#include "model/bag_use.h"
#include "model/plan.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>

static Bagging bagging_of(Smokehouse *house) {
    LIST_ADD(house->arena, &house->workshop.cabinets, house->cabinet);
    return (Bagging){
        .file = "day.xml", .name = "A day", .workshop = &house->workshop, .packed = {2026, 12, 4}};
}

static PlanBag used(Smokehouse *house, const Tray *tray, const Dust *dust) {
    Bagging bagging = bagging_of(house);
    Blend blend = {.name = "a blend", .target_margin = NOT_STATED};
    LIST_ADD(house->arena, &blend.parts, ((BlendPart){.dust = dust, .share = 1}));
    BagOrder *order = ARENA_NEW(house->arena, BagOrder);
    *order = (BagOrder){.net_kg = 0.25, .count = 1, .tray = tray};
    PlanBag bag = {.order = order, .burns_from_s = 1, .burns_to_s = 1};
    bag_use(house->arena, &bagging, &blend, &bag);
    return bag;
}

static void no_tray_no_time(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PlanBag bag = used(house, NULL, &house->carrier);
    assert_true(isnan(bag.burns_from_s) && isnan(bag.burns_to_s) && isnan(bag.tray_channel_m));
    assert_close(bag.dry_to, 0.04, 1e-12);
    arena_free(arena);
}

/* Against the same night planned by hand. */
static void it_burns_as_long_as_the_plan_says(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PlanBag bag = used(house, &house->fold, &house->carrier);
    Batch *batch = smokehouse_batch(house, &house->fold, 10, 0.75);
    batch->product.kind = PRODUCT_OTHER;
    batch->product.not_raw = true;
    batch->weather.readings.items[0].wind_mps = NOT_STATED;
    smokehouse_part(house, batch, &house->carrier, 1);
    smokehouse_dry_to(batch, 0.04);
    const PlanBurn burn = plan_make(arena, batch)->burn;
    double early_s = (double)(burn.out_early - burn.light_at);
    double late_s = (double)(burn.out_late - burn.light_at);
    assert_true(fabs(bag.burns_from_s - early_s) <= 900 && fabs(bag.burns_to_s - late_s) <= 900);
    /* of 0.93 m nobody timed anything: 8 of 10 between 60 and 167 % of the middle */
    assert_true(bag.burns_to_s > 2.5 * bag.burns_from_s);
    assert_close(bag.tray_channel_m, tray_channel_m(&house->fold), 1e-12);
    arena_free(arena);
}

static void of_a_blend_that_goes_out_there_nothing_is_told(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PlanBag bag = used(house, &house->trough, &house->residue);
    assert_true(isnan(bag.burns_from_s) && isnan(bag.burns_to_s));
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_tray_no_time),
        cmocka_unit_test(it_burns_as_long_as_the_plan_says),
        cmocka_unit_test(of_a_blend_that_goes_out_there_nothing_is_told),
    };
    return cmocka_run_group_tests_name("use of a bag: against the plan of such a night", tests,
                                       NULL, NULL);
}
