#include "support/plan_maker.h"

#include "base/text.h"
#include "base/zone.h"

#include <math.h>

#define LIT_AT 1796419800 /* 2026-12-04 21:30 in Dublin */

enum { HOUR = 3600, MINUTE = 60, SPIRAL_POINTS = 48, SAMPLE = 600 };

PlanRecipe recipe_usual(void) {
    return (PlanRecipe){.verdict = VERDICT_GOOD,
                        .path = PATH_LANES,
                        .lanes = 5,
                        .filled = 1,
                        .parts = 2,
                        .fills = 1,
                        .look_ins = 6,
                        .care = 2,
                        .cabinet = true,
                        .drying = true};
}

static unsigned next(unsigned *state) {
    *state = *state * 1664525u + 1013904223u; /* Numerical Recipes, section 7.1 */
    return *state >> 8;
}

static int pick(unsigned *state, int least, int most) {
    return least + (int)(next(state) % (unsigned)(most - least + 1));
}

static const char *long_name(Arena *arena, unsigned *state) {
    static const char *const words[] = {"Beech", "of the",       "northern",     "Łódź-Śródmieście",
                                        "kiln",  "Δρυς",         "Räucherspäne", "fine",
                                        "дуб",   "residue/mixed"};
    int kind = pick(state, 0, 5);
    if (kind < 3)
        return NULL;
    Text text = text_new(arena);
    int most = kind == 3 ? 8 : kind == 4 ? 20 : 45;
    for (int i = pick(state, 3, most); i > 0; i--)
        text_addf(&text, kind == 5 && i % 2 ? "%s" : "%s ", words[pick(state, 0, 9)]);
    return text.bytes;
}

PlanRecipe recipe_random(Arena *arena, unsigned seed) {
    unsigned state = seed * 2654435761u + 1;
    PlanRecipe recipe = {.verdict = (Verdict)pick(&state, VERDICT_GOOD, VERDICT_DO_NOT_LIGHT),
                         .paper = (Paper)pick(&state, 0, 1),
                         .units = (UnitSystem)pick(&state, 0, 1),
                         .path = (ChannelPath)pick(&state, 0, 2),
                         .lanes = pick(&state, 1, 40),
                         .filled = pick(&state, 1, 10) / 10.0,
                         .both_ends = pick(&state, 0, 1),
                         .dies = pick(&state, 0, 3) == 0,
                         .parts = pick(&state, 1, 12),
                         .fills = pick(&state, 0, 2) ? 1 : pick(&state, 1, 8),
                         .look_ins = pick(&state, 0, 9),
                         .remedies = pick(&state, 0, 3),
                         .care = pick(&state, 0, 5),
                         .cabinet = pick(&state, 0, 4) > 0,
                         .drying = pick(&state, 0, 2) > 0};
    recipe.reasons = recipe.verdict == VERDICT_GOOD ? 0 : pick(&state, 1, 3);
    recipe.name = long_name(arena, &state);
    return recipe;
}

/* ---- Workshop and batch ---- */

static const char *named(const PlanRecipe *recipe, const char *usual) {
    return recipe->name ? recipe->name : usual;
}

static Workshop *make_workshop(Arena *arena, const PlanRecipe *recipe) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    workshop->name = "Toad Ditch Smokehouse";
    workshop->file = "workshop.xml";
    workshop->timezone = "Europe/Dublin";
    workshop->zone = zone_load(arena, workshop->timezone);
    workshop->language = "en";
    workshop->paper = recipe->paper;
    workshop->units = recipe->units;
    workshop->maker.name = "Toad Ditch Smokehouse";
    workshop->scale.resolution_kg = 0.001;
    workshop->call = (Call){.name = recipe->call, .telephone = recipe->telephone};
    return workshop;
}

static Tray *make_tray(Arena *arena, const PlanRecipe *recipe) {
    Tray *tray = ARENA_NEW(arena, Tray);
    tray->id = "tray";
    tray->name = named(recipe, "Mesh fold");
    tray->path = recipe->path;
    tray->lanes = recipe->path == PATH_LANES ? recipe->lanes : 1;
    tray->lane_length_m = recipe->path == PATH_STRAIGHT ? 0.6 : 0.18;
    tray->pitch_m = 0.024;
    tray->turns = recipe->lanes < 2 ? 1 : recipe->lanes > 9 ? 9 : recipe->lanes;
    tray->outer_m = 2 * tray->pitch_m * (tray->turns + 1);
    tray->channel_width_m = 0.02;
    tray->channel_depth_m = 0.02;
    return tray;
}

static Batch *make_batch(Arena *arena, const PlanRecipe *recipe, const Workshop *workshop) {
    Batch *batch = ARENA_NEW(arena, Batch);
    batch->file = "samples/cheese-overnight.xml";
    batch->place = (Place){.file = batch->file, .line = 2, .column = 1};
    batch->name = named(recipe, "Cheese overnight");
    batch->workshop = workshop;
    batch->product.kind = PRODUCT_CHEESE;
    batch->product.name = named(recipe, "Farmhouse cheddar, quarters");
    batch->blend.name = named(recipe, "Beech and cherry");
    batch->blend.target_margin = NOT_STATED;
    return batch;
}

/* ---- Channel ---- */

static void add_point(Arena *arena, MapPoints *line, double x_m, double y_m) {
    double along_m = 0;
    if (line->count) {
        MapPoint last = line->items[line->count - 1];
        along_m = last.along_m + hypot(x_m - last.x_m, y_m - last.y_m);
    }
    LIST_ADD(arena, line, (MapPoint){x_m, y_m, along_m});
}

static void lay_lanes(Arena *arena, const Tray *tray, PlanFill *fill) {
    double edge_m = tray->pitch_m / 2;
    for (int lane = 0; lane < tray->lanes; lane++) {
        double y_m = edge_m + tray->pitch_m * lane;
        bool back = lane % 2 == 1;
        add_point(arena, &fill->line, back ? edge_m + tray->lane_length_m : edge_m, y_m);
        add_point(arena, &fill->line, back ? edge_m : edge_m + tray->lane_length_m, y_m);
    }
    fill->map_width_m = tray->lane_length_m + tray->pitch_m;
    fill->map_height_m = tray->pitch_m * tray->lanes;
}

static void lay_spiral(Arena *arena, const Tray *tray, PlanFill *fill) {
    double whole_rad = tray->turns * 2 * acos(-1.0);
    int points = (int)(tray->turns * SPIRAL_POINTS);
    double middle_m = tray->outer_m / 2 + tray->pitch_m / 2;
    for (int i = 0; i <= points; i++) {
        double turn_rad = whole_rad * i / points;
        double radius_m = tray->outer_m / 2 - tray->pitch_m * turn_rad / (2 * acos(-1.0));
        add_point(arena, &fill->line, middle_m + radius_m * cos(turn_rad),
                  middle_m + radius_m * sin(turn_rad));
    }
    fill->map_width_m = fill->map_height_m = 2 * middle_m;
}

static MapPoint point_at(const MapPoints *line, double along_m, double *heading_rad) {
    size_t i = 0;
    while (i + 2 < line->count && line->items[i + 1].along_m < along_m)
        i++;
    MapPoint a = line->items[i];
    MapPoint b = line->items[i + 1];
    double part = (along_m - a.along_m) / (b.along_m - a.along_m);
    *heading_rad = atan2(b.y_m - a.y_m, b.x_m - a.x_m);
    return (MapPoint){a.x_m + (b.x_m - a.x_m) * part, a.y_m + (b.y_m - a.y_m) * part, along_m};
}

/* ---- Fills ---- */

static void add_hours(Arena *arena, PlanFill *fill) {
    double speed_mps = fill->filled_m / (double)(fill->out_at - fill->light_at);
    speed_mps *= fill->both_ends ? 0.5 : 1;
    Instant first = (fill->light_at / HOUR + 1) * HOUR;
    for (Instant at = first; at < fill->out_at; at += HOUR) {
        double burnt_m = (double)(at - fill->light_at) * speed_mps;
        for (int end = 0; end <= (fill->both_ends ? 1 : 0); end++) {
            HourMark mark = {.at = at, .lane = 1};
            double along_m = end ? fill->filled_m - burnt_m : burnt_m;
            mark.place = point_at(&fill->line, along_m, &mark.heading_rad);
            LIST_ADD(arena, &fill->hours, mark);
        }
    }
}

static void add_weak(Arena *arena, PlanFill *fill, const PlanRecipe *recipe) {
    WeakStretch weak = {.from_m = fill->filled_m * 0.62,
                        .to_m = fill->filled_m * 0.8,
                        .least_margin = recipe->dies ? 0.96 : 1.18,
                        .cause = CAUSE_DAMP_AIR};
    double span_s = (double)(fill->out_at - fill->light_at);
    weak.from_at = fill->light_at + (Instant)(span_s * 0.62);
    weak.to_at = fill->light_at + (Instant)(span_s * 0.8);
    LIST_ADD(arena, &fill->weak, weak);
}

static PlanFill make_fill(Arena *arena, const PlanRecipe *recipe, const Tray *tray, int number) {
    PlanFill fill = {.tray = tray,
                     .number = number,
                     .both_ends = recipe->both_ends,
                     .dies = recipe->dies,
                     .depth_m = 0.02,
                     .dry_kg = 0.081,
                     .wet_kg = 0.0884,
                     .end_lane = 1,
                     .end_in_lane = 0.6,
                     .margin_least = 1.42,
                     .cause = CAUSE_DAMP_AIR};
    Fill *asked = ARENA_NEW(arena, Fill);
    asked->tray = tray;
    fill.fill = asked;
    if (tray->path == PATH_SPIRAL)
        lay_spiral(arena, tray, &fill);
    else
        lay_lanes(arena, tray, &fill);
    double heading_rad = 0;
    fill.channel_m = fill.line.items[fill.line.count - 1].along_m;
    fill.filled_m = fill.channel_m * recipe->filled;
    fill.whole = recipe->filled >= 1;
    fill.light_at = LIT_AT + (Instant)(number - 1) * 9 * HOUR;
    fill.out_at = fill.light_at + (Instant)(fill.filled_m / 0.11 * HOUR * 0.96) + MINUTE;
    fill.out_about = fill.out_at;
    fill.out_early = fill.out_at - 90 * MINUTE;
    fill.out_late = fill.out_at + 120 * MINUTE;
    fill.dies_at = fill.light_at + (fill.out_at - fill.light_at) / 10 * 7;
    fill.dies_along_m = fill.filled_m * 0.7;
    fill.lit_end = fill.line.items[0];
    fill.fill_mark = point_at(&fill.line, fill.filled_m, &heading_rad);
    fill.finish = recipe->both_ends ? point_at(&fill.line, fill.filled_m / 2, &heading_rad)
                                    : fill.fill_mark;
    add_hours(arena, &fill);
    if (recipe->verdict != VERDICT_GOOD || recipe->dies)
        add_weak(arena, &fill, recipe);
    return fill;
}

/* ---- The rest of the plan ---- */

static void add_parts(Arena *arena, const PlanRecipe *recipe, Plan *plan) {
    static const char *const names[] = {"Beech, 500–750 µm", "Cherry, mixed", "Charred oak residue",
                                        "Oak, fine chip"};
    double running_kg = 0;
    for (int i = 0; i < recipe->parts; i++) {
        Dust *dust = ARENA_NEW(arena, Dust);
        dust->id = dust->name = named(recipe, names[i % 4]);
        PlanPart part = {.dust = dust,
                         .carrier = i == 0,
                         .wet_share = 1.0 / recipe->parts,
                         .dry_share = 1.0 / recipe->parts,
                         .wet_kg = 0.0884 / recipe->parts,
                         .moisture = 0.09,
                         .stock_left_kg = NOT_STATED,
                         .short_of_stock = i == 3};
        running_kg += part.wet_kg;
        part.running_kg = running_kg;
        LIST_ADD(arena, &plan->blend.parts, part);
    }
    plan->blend.wet_kg = running_kg;
    plan->blend.moisture = 0.09;
}

static void add_samples(Arena *arena, const PlanRecipe *recipe, Plan *plan) {
    for (size_t f = 0; f < plan->fills.count; f++) {
        const PlanFill *fill = &plan->fills.items[f];
        double span_s = (double)(fill->out_at - fill->light_at);
        double fall = recipe->verdict == VERDICT_GOOD   ? 0.25
                      : recipe->verdict == VERDICT_TEND ? 0.5
                                                        : 0.75;
        for (Instant at = fill->light_at; at <= fill->out_at; at += SAMPLE) {
            double part = (double)(at - fill->light_at) / span_s;
            double dip = sin(part * 2.6) * part;
            PlanSample sample = {.at = at,
                                 .fill = fill->number,
                                 .margin = 1.72 - fall * dip,
                                 .margin_low = 1.70 - fall * dip * 1.2,
                                 .moisture = 0.04 + 0.045 * dip,
                                 .cabinet_temp_c = 6 + 9 * (1 - exp(-part * 9)) - 3 * part};
            LIST_ADD(arena, &plan->samples, sample);
        }
        PlanSample gap = {.at = fill->out_at + 1, .fill = 0};
        LIST_ADD(arena, &plan->samples, gap);
    }
}

static void add_step(Arena *arena, Plan *plan, const char *key, Instant at, Quantity amount,
                     Quantity second, const char *name) {
    LIST_ADD(
        arena, &plan->steps,
        (PlanStep){
            .key = key, .at = at, .amount = amount, .second = second, .name = name, .fill = 1});
}

static Quantity minutes(double count) {
    return quantity(QUANTITY_DURATION, count * MINUTE);
}

static void add_oven_steps(Arena *arena, Plan *plan) {
    const Quantity none = no_quantity();
    add_step(arena, plan, "dry", LIT_AT - 75 * MINUTE, quantity(QUANTITY_TEMPERATURE, 100),
             minutes(15), NULL);
    add_step(arena, plan, "check", LIT_AT - 60 * MINUTE, quantity(QUANTITY_MASS, 0.0842),
             quantity(QUANTITY_MASS, 0.004), NULL);
    add_step(arena, plan, "cool_sealed", LIT_AT - 55 * MINUTE, minutes(30), none, NULL);
}

static void add_steps(Arena *arena, const PlanRecipe *recipe, Plan *plan) {
    const Quantity none = no_quantity();
    const char *tray = plan->fills.items[0].tray->name;
    const char *product = plan->batch->product.name;
    Quantity mass = quantity(QUANTITY_MASS, plan->blend.wet_kg);
    add_step(arena, plan, "prepare_cheese", LIT_AT - 6 * HOUR, none, none, product);
    add_step(arena, plan, "weigh", LIT_AT - 95 * MINUTE, mass, none, NULL);
    add_step(arena, plan, "mix", LIT_AT - 85 * MINUTE, none, none, NULL);
    add_step(arena, plan, "fill", LIT_AT - 80 * MINUTE, mass, none, tray);
    if (recipe->drying)
        add_oven_steps(arena, plan);
    add_step(arena, plan, "hang", LIT_AT - 10 * MINUTE, none, none, product);
    add_step(arena, plan, "light", LIT_AT, none, none, tray);
    add_step(arena, plan, "close", LIT_AT + 5 * MINUTE, none, none, NULL);
    add_step(arena, plan, "first_look_in", LIT_AT + 20 * MINUTE, none, none, NULL);
    add_step(arena, plan, "worst_look_in", LIT_AT + 6 * HOUR, quantity(QUANTITY_RATIO, 1.42),
             quantity(QUANTITY_LENGTH, 0.66), NULL);
    if (recipe->fills > 1)
        add_step(arena, plan, "next_fills", plan->fills.items[1].light_at,
                 quantity(QUANTITY_COUNT, recipe->fills - 1), none, NULL);
    add_step(arena, plan, "take_out", plan->burn.out_at,
             quantity(QUANTITY_INSTANT, (double)plan->burn.out_early),
             quantity(QUANTITY_INSTANT, (double)plan->burn.out_late), product);
    add_step(arena, plan, "ash", plan->burn.out_at, minutes(2880), none, NULL);
    add_step(arena, plan, "record", 0, none, none, NULL);
}

/* Each tray in its turn, the glow somewhere along what is filled, a fast one a quarter further. */
static void add_look_in(Arena *arena, const PlanRecipe *recipe, Plan *plan) {
    double span_s = (double)(plan->burn.out_at - LIT_AT);
    for (int i = 0; i < recipe->look_ins; i++) {
        double part = (i + 0.3) / recipe->look_ins;
        size_t number = (size_t)(part * (double)plan->fills.count);
        const PlanFill *fill = &plan->fills.items[number];
        double burnt = part * (double)plan->fills.count - (double)number;
        double reach_m = fill->filled_m * (fill->both_ends ? 0.5 : 1);
        PlanLookIn look_in = {.at = LIT_AT + (Instant)(span_s * part),
                              .fill = fill->number,
                              .lane = 1 + i,
                              .along_m = burnt * reach_m,
                              .second_m = fill->both_ends ? fill->filled_m - burnt * reach_m
                                                          : NOT_STATED,
                              .early_m = fmin(burnt * 1.25, 1) * reach_m,
                              .late_m = burnt * 0.8 * reach_m,
                              .in_lane = part,
                              .cabinet_temp_c = 12,
                              .away = i == 3,
                              .worst = i == 4};
        LIST_ADD(arena, &plan->look_ins, look_in);
    }
}

static void add_judgement(Arena *arena, const PlanRecipe *recipe, Plan *plan) {
    static const Cause causes[] = {CAUSE_DAMP_AIR, CAUSE_FINES, CAUSE_METAL};
    for (int i = 0; i < recipe->reasons; i++)
        LIST_ADD(arena, &plan->reasons, (Reason){causes[i], recipe->verdict});
    const Remedy remedies[] = {{.kind = REMEDY_DRY,
                                .amount = quantity(QUANTITY_MOISTURE, 0.04),
                                .second = quantity(QUANTITY_DURATION, 900),
                                .chance_before = 0.55,
                                .chance_after = 0.91,
                                .chance_said_in = 9,
                                .chance_said_of = 10,
                                .verdict_after = VERDICT_GOOD},
                               {.kind = REMEDY_SIEVE,
                                .amount = quantity(QUANTITY_GRAIN, 0.00025),
                                .second = quantity(QUANTITY_MASS, 0.03),
                                .chance_before = 0.55,
                                .chance_after = 0.78,
                                .chance_said_in = 7,
                                .chance_said_of = 10,
                                .verdict_after = VERDICT_TEND},
                               {.kind = REMEDY_OTHER_HOUR,
                                .amount = quantity(QUANTITY_INSTANT, LIT_AT + 20 * HOUR),
                                .second = no_quantity(),
                                .chance_before = 0.55,
                                .chance_after = 0.74,
                                .chance_said_in = 7,
                                .chance_said_of = 10,
                                .verdict_after = VERDICT_TEND}};
    for (int i = 0; i < recipe->remedies; i++)
        LIST_ADD(arena, &plan->remedies, remedies[i]);
}

static void add_warnings(Arena *arena, const PlanRecipe *recipe, Plan *plan) {
    static const Caution cautions[] = {{"carbon_monoxide_outdoors", "warning"},
                                       {"fire_unattended", "warning"},
                                       {"hot", "caution"},
                                       {"dust", "caution"},
                                       {"damp", "notice"}};
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++)
        LIST_ADD(arena, &plan->cautions, cautions[i]);
    const Quantity none = no_quantity();
    const Decision decisions[] = {
        {"alarm", none, none},
        {"flames", none, none},
        {"cold", minutes(10), none},
        {"out", none, none},
        {"again", none, none},
        {"warm", quantity(QUANTITY_TEMPERATURE, 25), quantity(QUANTITY_TEMPERATURE, 30)},
        {"late", none, quantity(QUANTITY_INSTANT, (double)plan->burn.out_late)},
        {"acrid", none, none}};
    for (size_t i = 0; i < sizeof decisions / sizeof *decisions; i++)
        LIST_ADD(arena, &plan->decisions, decisions[i]);
    const Care care[] = {{"ceiling", CARE_NOTE, quantity(QUANTITY_TEMPERATURE, 25),
                          quantity(QUANTITY_TEMPERATURE, 30)},
                         {"wood_not_declared", CARE_CAUTION, none, none},
                         {"time_usual", CARE_NOTE, minutes(60), minutes(720)},
                         {"listeria", CARE_CAUTION, none, none},
                         {"rest_wrapped", CARE_NOTE, minutes(10080), minutes(20160)}};
    for (int i = 0; i < recipe->care; i++)
        LIST_ADD(arena, &plan->care, care[i]);
}

static void add_figures(const PlanRecipe *recipe, Plan *plan) {
    const PlanFill *first = &plan->fills.items[0];
    const PlanFill *last = &plan->fills.items[plan->fills.count - 1];
    plan->burn = (PlanBurn){.light_at = LIT_AT,
                            .out_at = last->out_at,
                            .out_about = last->out_about,
                            .out_early = last->out_early,
                            .out_late = last->out_late,
                            .duration_s = (double)(last->out_at - LIT_AT),
                            .speed_mps = 3e-5,
                            .margin_at_start = 1.72,
                            .margin_least = recipe->dies ? 0.96 : 1.42,
                            .margin_least_at = first->light_at + 6 * HOUR,
                            .dies = recipe->dies,
                            .dies_at = first->dies_at,
                            .speed_factor = 1};
    const PlanVent half = {VENT_HALF, 40e-4, 0.5}, part = {VENT_PART, 28e-4, 0.35};
    plan->cabinet = (PlanCabinet){.stated = recipe->cabinet,
                                  .inlet = recipe->cabinet ? half : (PlanVent){0},
                                  .outlet = recipe->cabinet ? part : (PlanVent){0},
                                  .peak_temp_c = 14.2,
                                  .peak_at = LIT_AT + HOUR,
                                  .caution_temp_c = recipe->cabinet ? 25 : NOT_STATED,
                                  .limit_temp_c = recipe->cabinet ? 30 : NOT_STATED};
    plan->drying = (PlanDrying){.asked = recipe->drying,
                                .needed = true,
                                .oven_temp_c = 100,
                                .time_s = 900,
                                .from_moisture = 0.09,
                                .to_moisture = 0.04,
                                .start_kg = plan->blend.wet_kg,
                                .end_kg = plan->blend.wet_kg * 1.04 / 1.09,
                                .scale_step_kg = 0.001,
                                .scale_can_tell = recipe->parts > 1,
                                .lit_moisture = 0.042};
    plan->room = (PlanRoom){.stated = true, .outdoors = true};
}

const Plan *plan_from_recipe(Arena *arena, const PlanRecipe *recipe) {
    Plan *plan = ARENA_NEW(arena, Plan);
    Workshop *workshop = make_workshop(arena, recipe);
    plan->workshop = workshop;
    plan->batch = make_batch(arena, recipe, workshop);
    plan->lot = "CHEE-2026-339";
    plan->verdict = recipe->verdict;
    const Tray *tray = make_tray(arena, recipe);
    for (int i = 0; i < recipe->fills; i++)
        LIST_ADD(arena, &plan->fills, make_fill(arena, recipe, tray, i + 1));
    add_parts(arena, recipe, plan);
    add_figures(recipe, plan);
    add_samples(arena, recipe, plan);
    add_judgement(arena, recipe, plan);
    add_steps(arena, recipe, plan);
    add_look_in(arena, recipe, plan);
    add_warnings(arena, recipe, plan);
    Away night = {.from = LIT_AT - HOUR, .to = LIT_AT + 11 * HOUR};
    LIST_ADD(arena, &plan->nights, night);
    return plan;
}
