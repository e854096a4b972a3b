/* Season: figures of small made-up seasons against sums done by hand, and what is learnt from the
 * nights of samples/season against the truth they were burnt at. */
#include "model/season.h"

#include "model/learning.h"
#include "model/past_night.h"
#include "model/quadrature.h"
#include "model/session.h"
#include "input/reader.h"
#include "support/arena_case.h"
#include "support/close.h"
#include "support/season_maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

/* Noon UTC of 1 December 2026. */
#define NOW ((Instant)1796126400)
#define HOUR ((Instant)SECONDS_PER_HOUR)
#define DAY ((Instant)SECONDS_PER_DAY)

static const Dust beech = {.id = "beech", .name = "Beech", .lot = "B-1", .stock_kg = 0.100};
static const Dust cherry = {.id = "cherry", .name = "Cherry", .stock_kg = NOT_STATED};
static const Dust mix = {.id = "mix", .name = "Mix", .lot = "MIX-1", .stock_kg = 0.030};
static const Tray fold = {.id = "fold", .name = "Fold"};
static const Tray coil = {.id = "coil", .name = "Coil"};
static const Cabinet larch = {.id = "larch", .name = "Larch"};
static const Cabinet stone = {.id = "stone", .name = "Stone"};

/* A night as a test wants it; zeros: the usual. */
typedef struct Made {
    const char *name;
    Instant light_at;
    const Tray *tray;
    const Cabinet *cabinet;
    const Dust *dust;
    double dust_kg;
    double planned_h, early_h, late_h; /* 8, 7, 10 */
    double chance;                     /* 0.9 */
    int said_in, said_of;              /* 9, 10 */
    Cause cause;
    ProductKind kind;
    double product_kg;
    double took_h; /* 0: no record */
    bool died, relit;
    double burnt_m, filled_m;
} Made;

static double or_usual(double value, double usual) {
    return value > 0 ? value : usual;
}

static Workshop *house(Arena *arena) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    workshop->file = "workshop.xml";
    workshop->zone = zone_load(arena, "UTC");
    return workshop;
}

static Batch *batch_of(Arena *arena, const Workshop *workshop, const Made *made) {
    Batch *batch = ARENA_NEW(arena, Batch);
    *batch = (Batch){.file = arena_format(arena, "%s.xml", made->name),
                     .name = made->name,
                     .workshop = workshop,
                     .cabinet = made->cabinet ? made->cabinet : &larch};
    batch->product = (Product){.kind = made->kind, .name = "Product", .pieces = 2};
    batch->product.mass_kg = or_usual(made->product_kg, NOT_STATED);
    LIST_ADD(arena, &batch->fills, ((Fill){.tray = made->tray ? made->tray : &fold}));
    if (made->took_h > 0) {
        batch->record = (Record){.stated = true,
                                 .lit = made->light_at,
                                 .out = made->light_at + (Instant)(made->took_h * 3600),
                                 .went_out_early = made->died,
                                 .burnt_m = or_usual(made->burnt_m, NOT_STATED),
                                 .filled_m = or_usual(made->filled_m, NOT_STATED),
                                 .used_kg = NOT_STATED,
                                 .ash_kg = NOT_STATED};
        if (made->relit) {
            LIST_ADD(arena, &batch->record.relit, made->light_at + HOUR);
        }
    }
    return batch;
}

static Plan *plan_of(Arena *arena, const Batch *batch, const Made *made) {
    Plan *plan = ARENA_NEW(arena, Plan);
    plan->batch = batch;
    plan->workshop = batch->workshop;
    plan->lot = "LOT";
    PlanFill fill = {.tray = batch->fills.items[0].tray, .channel_m = 1, .filled_m = 0.8};
    LIST_ADD(arena, &plan->fills, fill);
    PlanPart part = {.dust = made->dust ? made->dust : &beech};
    part.wet_kg = or_usual(made->dust_kg, 0.020);
    LIST_ADD(arena, &plan->blend.parts, part);
    plan->blend.wet_kg = part.wet_kg;
    double planned_s = or_usual(made->planned_h, 8) * 3600;
    plan->burn.light_at = made->light_at;
    plan->burn.out_early = made->light_at + (Instant)(or_usual(made->early_h, 7) * 3600);
    plan->burn.out_at = made->light_at + (Instant)planned_s;
    plan->burn.out_late = made->light_at + (Instant)(or_usual(made->late_h, 10) * 3600);
    plan->burn.duration_s = planned_s;
    plan->burn.chance = or_usual(made->chance, 0.9);
    plan->burn.chance_said_in = made->said_of ? made->said_in : 9;
    plan->burn.chance_said_of = made->said_of ? made->said_of : 10;
    plan->burn.cause = made->cause;
    return plan;
}

static void add(Arena *arena, SeasonGathering *gathering, const Workshop *workshop,
                const Made *made) {
    const Batch *batch = batch_of(arena, workshop, made);
    season_add_night(arena, gathering, plan_of(arena, batch, made), batch);
}

static const Season *season_of_nights(Arena *arena, const Made *made, size_t count) {
    SeasonGathering *gathering = ARENA_NEW(arena, SeasonGathering);
    gathering->season.now = NOW;
    const Workshop *workshop = house(arena);
    for (size_t i = 0; i < count; i++) {
        add(arena, gathering, workshop, &made[i]);
    }
    season_finish(arena, gathering);
    return &gathering->season;
}

#define SEASON(arena, made) season_of_nights((arena), (made), sizeof(made) / sizeof *(made))

/* ---- Sums ------------------------------------------------------------------------------------ */

/* Handed in out of order, over two months. */
static void nights_are_summed_by_month_and_state(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "later", .light_at = NOW + 9 * DAY},
        {.name = "c", .light_at = NOW - 3 * DAY, .took_h = 6, .died = true, .product_kg = 4},
        {.name = "a", .light_at = NOW - 9 * DAY, .took_h = 8, .product_kg = 2},
        {.name = "unwritten", .light_at = NOW - 1 * DAY - HOUR * 13},
        {.name = "b", .light_at = NOW - 6 * DAY, .took_h = 9, .relit = true, .product_kg = 3},
        {.name = "stopped", .light_at = NOW - 4 * DAY, .took_h = 2, .burnt_m = 0.2},
    };
    const Season *season = SEASON(arena, made);
    assert_int_equal(season->months.count, 2);
    const SeasonMonth *november = &season->months.items[0], *december = november + 1;
    assert_int_equal(november->first.month, 11);
    assert_int_equal(november->days, 30);
    assert_int_equal(november->count, 5);
    assert_string_equal(season->entries.items[0].name, "a");
    assert_string_equal(season->entries.items[1].name, "b");
    assert_string_equal(season->entries.items[5].name, "later");
    const SeasonSums *sums = &november->sums;
    assert_int_equal(sums->nights, 5);
    assert_int_equal(sums->over, 4);
    assert_int_equal(sums->lasted, 1);
    assert_int_equal(sums->relit, 1);
    assert_int_equal(sums->died, 1);
    assert_int_equal(sums->went_out, 2);
    assert_int_equal(sums->stopped, 1);
    assert_int_equal(sums->unwritten, 1);
    assert_int_equal(sums->planned, 0);
    assert_int_equal(december->sums.planned, 1);
    assert_int_equal(season->sums.nights, 6);
    assert_close(sums->product_kg, 9, 1e-12);
    assert_close(sums->lasted_kg, 5, 1e-12); /* not what lay in the night that died */
    assert_close(sums->burnt_kg, 4 * 0.020, 1e-12);
    assert_close(sums->smoked_s, (8 + 9 + 2 + 6) * 3600, 1e-6);
    assert_close(sums->expected, 3 * 0.9, 1e-12); /* a stopped night tells nothing */
}

/* A clock that is not known makes nothing past. */
static void without_a_clock_all_is_to_come(void **state) {
    Arena *arena = *state;
    SeasonGathering gathering = {0};
    static const Made made = {.name = "old", .light_at = NOW - 400 * DAY};
    add(arena, &gathering, house(arena), &made);
    season_finish(arena, &gathering);
    assert_int_equal(gathering.season.sums.planned, 1);
}

static void nothing_at_all_is_a_season_too(void **state) {
    Arena *arena = *state;
    SeasonGathering gathering = {0};
    season_finish(arena, &gathering);
    assert_int_equal(gathering.season.months.count, 0);
    assert_non_null(season_fields(arena, &gathering.season));
}

/* ---- Planned and happened -------------------------------------------------------------------- */

/* Bands 7 to 10 hours about 8: 6.5 is sooner, 11 later; one was filled otherwise, one died. */
static void burn_times_are_held_against_their_bands(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "a", .light_at = NOW - 20 * DAY, .took_h = 7},
        {.name = "b", .light_at = NOW - 19 * DAY, .took_h = 10, .filled_m = 0.81},
        {.name = "c", .light_at = NOW - 18 * DAY, .took_h = 6.5},
        {.name = "d", .light_at = NOW - 17 * DAY, .took_h = 11},
        {.name = "e", .light_at = NOW - 16 * DAY, .took_h = 8},
        {.name = "f", .light_at = NOW - 15 * DAY, .took_h = 4, .filled_m = 0.4},
        {.name = "g", .light_at = NOW - 14 * DAY, .took_h = 8, .died = true},
    };
    const Season *season = SEASON(arena, made);
    const SeasonCompared *compared = &season->compared;
    assert_int_equal(compared->nights, 5);
    assert_int_equal(compared->within, 3);
    assert_int_equal(compared->sooner, 1);
    assert_int_equal(compared->later, 1);
    assert_int_equal(compared->left_out, 1);
    assert_close(compared->low_ratio, 7.0 / 8, 1e-9);
    assert_close(compared->high_ratio, 10.0 / 8, 1e-9);
    assert_close(compared->took_ratio, 1, 1e-9);
    int points = 0;
    for (size_t i = 0; i < season->entries.count; i++) {
        points += season_in_plot(&season->entries.items[i]);
    }
    assert_int_equal(points, 6);
}

static void chances_are_held_against_nights_that_lasted(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "a", .light_at = NOW - 20 * DAY, .took_h = 8},
        {.name = "b", .light_at = NOW - 19 * DAY, .took_h = 8, .relit = true},
        {.name = "c",
         .light_at = NOW - 18 * DAY,
         .took_h = 8,
         .chance = 0.96,
         .said_in = 19,
         .said_of = 20},
        {.name = "d",
         .light_at = NOW - 17 * DAY,
         .took_h = 3,
         .died = true,
         .chance = 0.05,
         .said_in = 0,
         .said_of = 10},
        {.name = "e", .light_at = NOW - 16 * DAY, .took_h = 3, .burnt_m = 0.3},
        {.name = "f", .light_at = NOW + 3 * DAY},
    };
    const Season *season = SEASON(arena, made);
    assert_int_equal(season->chances.count, 3);
    const SeasonChance *best = season->chances.items;
    assert_int_equal(best[0].chance_said_of, 20);
    assert_int_equal(best[0].lasted, 1);
    assert_int_equal(best[1].chance_said_in, 9);
    assert_int_equal(best[1].nights, 2);
    assert_int_equal(best[1].lasted, 1); /* what was relit had gone out */
    assert_close(best[1].expected, 1.8, 1e-12);
    assert_int_equal(best[2].lasted, 0);
}

static void deaths_are_counted_by_cause(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "a", .light_at = NOW - 20 * DAY, .took_h = 3, .died = true, .cause = CAUSE_FINES},
        {.name = "b",
         .light_at = NOW - 19 * DAY,
         .took_h = 8,
         .relit = true,
         .cause = CAUSE_DAMP_AIR},
        {.name = "c",
         .light_at = NOW - 18 * DAY,
         .took_h = 3,
         .died = true,
         .cause = CAUSE_DAMP_AIR},
        {.name = "d", .light_at = NOW - 17 * DAY, .took_h = 8, .cause = CAUSE_METAL},
    };
    const Season *season = SEASON(arena, made);
    assert_int_equal(season->deaths.count, 2);
    assert_int_equal(season->deaths.items[0].cause, CAUSE_DAMP_AIR);
    assert_int_equal(season->deaths.items[0].nights, 2);
    assert_int_equal(season->deaths.items[1].cause, CAUSE_FINES);
}

/* 20 g each: of the nights with a mass 40 g for 5 kg, 0.8 %. */
static void yields_are_by_product(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "a",
         .light_at = NOW - 20 * DAY,
         .took_h = 8,
         .kind = PRODUCT_FISH,
         .product_kg = 3},
        {.name = "b",
         .light_at = NOW - 19 * DAY,
         .took_h = 3,
         .died = true,
         .kind = PRODUCT_FISH,
         .product_kg = 2},
        {.name = "c", .light_at = NOW - 18 * DAY, .took_h = 8, .kind = PRODUCT_FISH},
        {.name = "relit",
         .light_at = NOW - 16 * DAY,
         .took_h = 8,
         .relit = true,
         .kind = PRODUCT_BUTTER,
         .product_kg = 1},
        {.name = "d", .light_at = NOW - 17 * DAY, .took_h = 8, .kind = PRODUCT_SALT},
        {.name = "e", .light_at = NOW + 7 * DAY, .kind = PRODUCT_MEAT},
    };
    const Season *season = SEASON(arena, made);
    assert_int_equal(season->yields.count, 3);
    const SeasonYield *butter = &season->yields.items[0], *fish = butter + 1;
    assert_int_equal(butter->nights, 1);
    assert_int_equal(butter->lasted, 0);
    assert_int_equal(butter->lasted + fish->lasted + season->yields.items[2].lasted,
                     season->sums.lasted);
    assert_int_equal(fish->kind, PRODUCT_FISH);
    assert_int_equal(fish->nights, 3);
    assert_int_equal(fish->lasted, 2);
    assert_int_equal(fish->pieces, 6);
    assert_close(fish->product_kg, 5, 1e-12);
    assert_close(fish->burnt_kg, 0.060, 1e-12);
    assert_close(fish->burnt_share, 0.008, 1e-12);
    assert_true(isnan(season->yields.items[2].burnt_share));
}

/* ---- What is to come ------------------------------------------------------------------------- */

/* 100 g of beech: 40 + 40 fit, the third of 40 g is 20 g short, the fourth makes it 60. The nights
 * that are over took theirs from the shelf before it was counted. */
static void dust_is_taken_in_order_of_time(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "fourth", .light_at = NOW + 12 * DAY, .dust_kg = 0.040},
        {.name = "first", .light_at = NOW + 1 * DAY, .dust_kg = 0.040},
        {.name = "third", .light_at = NOW + 9 * DAY, .dust_kg = 0.040},
        {.name = "second", .light_at = NOW + 4 * DAY, .dust_kg = 0.040},
        {.name = "cherry", .light_at = NOW + 2 * DAY, .dust = &cherry, .dust_kg = 0.030},
        {.name = "over", .light_at = NOW - 9 * DAY, .took_h = 8, .dust_kg = 0.090},
        {.name = "unwritten", .light_at = NOW - 2 * DAY, .dust_kg = 0.090},
    };
    const Season *season = SEASON(arena, made);
    assert_int_equal(season->needs.count, 2);
    const SeasonNeed *need = &season->needs.items[0];
    assert_string_equal(need->name, "Beech");
    assert_int_equal(need->times, 4);
    assert_close(need->needed_kg, 0.160, 1e-12);
    assert_close(need->missing_kg, 0.060, 1e-12);
    assert_close(need->left_kg, 0, 1e-12);
    assert_string_equal(need->short_for, "third");
    assert_int_equal(need->short_on.day, 10);
    assert_false(need->blended);
    assert_true(isnan(season->needs.items[1].left_kg));
    assert_int_equal(season->needs.items[1].short_on.year, 0);
}

/* All of it used to the gram is no shortage. */
static void a_shelf_that_is_just_enough_is_enough(void **state) {
    Arena *arena = *state;
    static const Made made[] = {{.name = "a", .light_at = NOW + 1 * DAY, .dust_kg = 0.030},
                                {.name = "b", .light_at = NOW + 2 * DAY, .dust_kg = 0.030},
                                {.name = "c", .light_at = NOW + 3 * DAY, .dust_kg = 0.040}};
    const Season *season = SEASON(arena, made);
    assert_close(season->needs.items[0].missing_kg, 0, 0);
    assert_close(season->needs.items[0].left_kg, 0, 1e-12);
}

/* A day of bagging takes its dust, and what it makes is to be blended, not bought. */
static void bagging_takes_and_makes_dust(void **state) {
    Arena *arena = *state;
    const Workshop *workshop = house(arena);
    SeasonGathering gathering = {.season.now = NOW};
    Bagging bagging = {
        .file = "day.xml", .name = "Day", .workshop = workshop, .packed = {2026, 12, 3}};
    PackingPlan packing = {.bagging = &bagging};
    PackingStock stock = {.dust = &beech, .name = "Beech", .taken_kg = 0.070};
    LIST_ADD(arena, &packing.stocks, stock);
    PackingBlend blend = {.lot = "MIX-1"};
    LIST_ADD(arena, &blend.bags, ((PackingBag){.bag = {.count = 5}}));
    LIST_ADD(arena, &packing.blends, blend);
    season_add_bagging(arena, &gathering, &packing);
    static const Made before = {.name = "before", .light_at = NOW + 1 * DAY, .dust_kg = 0.040};
    static const Made after = {
        .name = "after", .light_at = NOW + 3 * DAY, .dust = &mix, .dust_kg = 0.050};
    add(arena, &gathering, workshop, &after);
    add(arena, &gathering, workshop, &before);
    season_finish(arena, &gathering);
    const Season *season = &gathering.season;
    assert_string_equal(season->entries.items[1].name, "Day");
    assert_int_equal(season->sums.baggings, 1);
    assert_int_equal(season->sums.bags, 5);
    assert_int_equal(season->sums.nights, 2);
    assert_string_equal(season->needs.items[0].name, "Beech");
    assert_string_equal(season->needs.items[0].short_for, "Day");
    assert_close(season->needs.items[0].missing_kg, 0.010, 1e-12);
    assert_true(season->needs.items[1].blended);
    assert_close(season->needs.items[1].missing_kg, 0.020, 1e-12);
    gathering = (SeasonGathering){.season.now = NOW + 30 * DAY};
    season_add_bagging(arena, &gathering, &packing);
    season_finish(arena, &gathering);
    assert_int_equal(gathering.season.entries.items[0].state, SEASON_BAGGED);
    assert_int_equal(gathering.season.needs.count, 0);
}

/* The days before of a night to come stand in the calendar, each on its day, and are no nights;
 * what is past, or belongs to a night that is over or was begun too late, does not. */
static void steps_of_the_days_before_are_dated(void **state) {
    Arena *arena = *state;
    const Workshop *workshop = house(arena);
    SeasonGathering gathering = {.season.now = NOW};
    static const Made to_come = {.name = "trout", .light_at = NOW + 3 * DAY, .dust_kg = 0.040};
    static const Made too_late = {.name = "late", .light_at = NOW + 9 * DAY, .tray = &coil};
    static const Made over = {.name = "over", .light_at = NOW - 3 * DAY, .took_h = 8};
    static const Made *const made[] = {&to_come, &too_late, &over};
    for (size_t i = 0; i < sizeof made / sizeof *made; i++) {
        const Batch *batch = batch_of(arena, workshop, made[i]);
        Plan *plan = plan_of(arena, batch, made[i]);
        static const PlanTask tasks[] = {
            {.key = "freeze"}, {.key = "brine_percent"}, {.key = "rinse"}};
        for (size_t k = 0; k < 3; k++) {
            PlanTask task = tasks[k];
            task.at = made[i]->light_at - (4 - 2 * (Instant)k) * DAY;
            LIST_ADD(arena, &plan->preparation.tasks, task);
        }
        plan->preparation.late = made[i] == &too_late;
        season_add_night(arena, &gathering, plan, batch);
    }
    season_finish(arena, &gathering);
    const Season *season = &gathering.season;
    assert_int_equal(season->entries.count, 5);
    const SeasonEntry *step = &season->entries.items[1];
    assert_int_equal(step->kind, SEASON_PREPARATION);
    assert_string_equal(step->step, "brine_percent");
    assert_string_equal(step->name, "trout");
    assert_int_equal(step->date.day, 2); /* of December: NOW is the first */
    assert_int_equal(season->sums.steps, 2);
    assert_int_equal(season->sums.nights, 3);
    assert_int_equal(season->sums.planned, 2);
    assert_int_equal(season->clashes.count, 0);
    assert_close(season->needs.items[0].needed_kg, 0.060, 1e-12);
}

/* One evening: two in one tray, a third in another tray of the same cabinet, a fourth apart; the
 * next evening nobody is in the way. */
static void two_that_want_the_same_are_told(void **state) {
    Arena *arena = *state;
    static const Made made[] = {
        {.name = "a", .light_at = NOW + 8 * HOUR},
        {.name = "b", .light_at = NOW + 14 * HOUR, .cabinet = &stone},
        {.name = "c", .light_at = NOW + 15 * HOUR, .tray = &coil},
        {.name = "next", .light_at = NOW + 40 * HOUR},
        {.name = "over", .light_at = NOW - 2 * DAY, .took_h = 30, .tray = &coil},
        {.name = "slip", .light_at = NOW - 1 * DAY, .took_h = 3, .tray = &coil},
    };
    const Season *season = SEASON(arena, made);
    assert_int_equal(season->clashes.count, 3);
    const SeasonClash *slip = season->clashes.items, *tray = slip + 1, *cabinet = slip + 2;
    assert_true(slip->past);
    assert_string_equal(tray->what, "season_shared.tray");
    assert_string_equal(tray->thing, "Fold");
    assert_string_equal(tray->name, "a");
    assert_string_equal(tray->other, "b");
    assert_false(tray->past);
    assert_string_equal(cabinet->what, "season_shared.cabinet");
    assert_string_equal(cabinet->thing, "Larch");
    assert_string_equal(cabinet->other, "c");
    assert_int_equal(season->sums.clashes, 5);
    assert_null(season->entries.items[season->entries.count - 1].clash_with);
}

/* ---- The sample, and its truth --------------------------------------------------------------- */

enum { SAMPLE_NIGHTS = 30 };

typedef struct SampleSeason {
    Arena *arena;
    Reader reader;
    const Batch *nights[SAMPLE_NIGHTS];
    const Learning *learning;
} SampleSeason;

static SampleSeason sample_season(Arena *arena) {
    SampleSeason sample = {.arena = arena, .reader = reader_new(arena)};
    for (int i = 0; i < SAMPLE_NIGHTS; i++) {
        const char *path = arena_format(arena, "samples/season/night-%03d.xml", i + 1);
        sample.nights[i] = read_batch(&sample.reader, path);
        assert_non_null(sample.nights[i]);
        assert_true(sample.nights[i]->record.stated);
    }
    sample.learning = learning_of(arena, sample.nights[0]->workshop, sample.nights, SAMPLE_NIGHTS);
    return sample;
}

/* Each of the six kinds of burn that the season has, from its last five or six nights. */
static void learning_finds_the_true_speeds(void **state) {
    SampleSeason sample = sample_season(*state);
    for (int i = SAMPLE_NIGHTS - 6; i < SAMPLE_NIGHTS; i++) {
        BurnKind kind = past_night_of(sample.arena, sample.nights[i]).kind;
        SpeedFactor found = learning_of_kind(sample.arena, sample.learning, &kind, NULL).speed;
        double truth = exp(season_true_speed(&kind));
        assert_true(found.records >= 20);
        /* a burn, with the spread of burns, lies in its stated band eight times in ten: its middle
         * all the more */
        assert_true(truth > speed_factor_at(&found, 0.1) && truth < speed_factor_at(&found, 0.9));
        /* five nights of 0.07 each make 0.03; twice that, as for nineteen kinds of twenty */
        assert_close(log(found.middle), log(truth), 0.065);
        assert_true(found.log_spread < 0.2);
    }
}

/* The margin truly is less than the model's, and less in the coil. What is believed of it moved
 * that way from nothing, over all kinds; its 80 % band holds the truth of four kinds in six at
 * least, and twice its spread that of all. */
static void learning_finds_the_true_margins(void **state) {
    SampleSeason sample = sample_season(*state);
    int inside = 0;
    double moved = 0;
    for (int i = SAMPLE_NIGHTS - 6; i < SAMPLE_NIGHTS; i++) {
        BurnKind kind = past_night_of(sample.arena, sample.nights[i]).kind;
        Holding found = learning_of_kind(sample.arena, sample.learning, &kind, NULL).holding;
        double off = fabs(found.log_mean - season_true_margin(&kind));
        inside += off < 1.2816 * found.common_spread;
        assert_true(off < 2 * found.common_spread);
        moved += found.log_mean / 6;
        assert_true(found.common_spread < holding_unmeasured().common_spread / 1.5);
    }
    assert_true(inside >= 4);
    assert_true(moved < -0.03);
}

/* How many nights like this one truly last, over burns of every speed: at each, the normal
 * distribution of what is each burn's own. */
static double true_chance(Arena *arena, const PastNight *past) {
    double sum = 0;
    enum { SPEEDS = 9 };
    for (int i = 0; i < SPEEDS; i++) {
        double normal = speed_normal_quantile((i + 0.5) / SPEEDS);
        double factor = exp(season_true_speed(&past->kind) + season_truth.burn_speed * normal);
        const Night *night = past_night_run(arena, past, factor);
        double least = log(night_least_margin(night).margin);
        double offset = season_true_margin(&past->kind);
        sum += quadrature_normal((least + offset) / season_truth.burn_margin) / SPEEDS;
    }
    return sum;
}

static double believed_chance(Arena *arena, const Batch *batch, const Belief *belief) {
    Plan *plan = ARENA_NEW(arena, Plan);
    session_work_out(arena, batch, belief, batch->record.lit, SESSION_FIGURES, plan);
    return plan->burn.chance;
}

/* Over all nights the mean of the chance that is believed by the end. Of thirty nights that truly
 * last nine times in ten, the share that does is off by 0.055 (binomial); half more. */
static void learning_finds_the_true_chance(void **state) {
    SampleSeason sample = sample_season(*state);
    double truth = 0, learnt = 0;
    for (int i = 0; i < SAMPLE_NIGHTS; i++) {
        PastNight past = past_night_of(sample.arena, sample.nights[i]);
        Belief belief = learning_of_kind(sample.arena, sample.learning, &past.kind, NULL);
        truth += true_chance(sample.arena, &past) / SAMPLE_NIGHTS;
        learnt += believed_chance(sample.arena, past.batch, &belief) / SAMPLE_NIGHTS;
    }
    assert_close(learnt, truth, 0.08);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(nights_are_summed_by_month_and_state),
        CASE(without_a_clock_all_is_to_come),
        CASE(nothing_at_all_is_a_season_too),
        CASE(burn_times_are_held_against_their_bands),
        CASE(chances_are_held_against_nights_that_lasted),
        CASE(deaths_are_counted_by_cause),
        CASE(yields_are_by_product),
        CASE(dust_is_taken_in_order_of_time),
        CASE(a_shelf_that_is_just_enough_is_enough),
        CASE(bagging_takes_and_makes_dust),
        CASE(steps_of_the_days_before_are_dated),
        CASE(two_that_want_the_same_are_told),
        CASE(learning_finds_the_true_speeds),
        CASE(learning_finds_the_true_margins),
        CASE(learning_finds_the_true_chance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
