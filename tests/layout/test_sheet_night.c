/* The night line of the session sheet: every glow in its lane at its place, all trays of one size,
 * lanes wide enough, nothing in a lane that is not its own. By the marks, for made-up nights and
 * for every sample. */
#include "layout/sheet.h"

#include "command/run.h"
#include "support/language.h"
#include "support/marks.h"
#include "support/plan_maker.h"
#include "support/shipped.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glob.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SLACK_MM 0.05
/* Lanes that can be told apart: 1.6 mm, at 0.6 m some nine minutes of arc (judgement). */
#define LANE_LEAST_MM 1.6
#define GLOW_LEAST_MM 2.0
#define COIL_LEAST_MM 14.0 /* walls included */
#define WALL_MM 0.3

enum { RANDOM_PLANS = 500, MOST_TRAYS = 64 };

typedef struct Fixture {
    Arena *arena; /* of the group */
    const FaceSet *faces;
    const Pattern *pattern;
    const Words *words;
} Fixture;

static int set_up(void **state) {
    Arena *arena = arena_new();
    Fixture *fixture = ARENA_NEW(arena, Fixture);
    fixture->arena = arena;
    fixture->faces = shipped_faces(arena);
    fixture->pattern = shipped_pattern(arena, fixture->faces, "sheet");
    fixture->words = language_words(arena, "en");
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    Fixture *fixture = *state;
    arena_free(fixture->arena);
    return 0;
}

static const Page *page_of(Fixture *fixture, Arena *arena, const Plan *plan, const Words *words) {
    Locale locale = locale_on_night(locale_of(plan->workshop, words), plan->burn.light_at);
    Document *document = document_new(arena, "Session sheet", words->language);
    Diagnostics diagnostics = diagnostics_new(arena);
    if (!sheet_lay_out(fixture->pattern, plan, plan_fields(arena, plan), &locale, fixture->faces,
                       document, &diagnostics)) {
        Text said = text_new(arena);
        diagnostics_add_to(&diagnostics, &said);
        fail_msg("%s", said.bytes);
    }
    return document->pages.items[0];
}

/* ---- The trays of a page ---- */

/* A tray as it is drawn: marks from its walls on to the next tray's. */
typedef struct Drawn {
    const PathMark *walls;
    size_t first, end;
    const PlanLookIn *look_in;
    const PlanFill *fill;
} Drawn;

typedef struct Trays {
    Drawn items[MOST_TRAYS];
    size_t count;
} Trays;

static bool owned(const Mark *mark, const char *owner) {
    return mark->owner && strcmp(mark->owner, owner) == 0;
}

/* Whether the look-in is one with the end: when the burn is over, or somebody is back to take the
 * product out. */
static bool at_the_end(const Plan *plan, const PlanLookIn *look_in) {
    for (size_t i = 0; i < plan->steps.count; i++)
        if (strncmp(plan->steps.items[i].key, "take_out", strlen("take_out")) == 0 &&
            plan->steps.items[i].at == look_in->at)
            return true;
    return look_in->at == plan->burn.out_at || look_in->at == plan->burn.out_about;
}

/* The look-in with a row of its own from an index on: one at the end of the night has none. */
static size_t next_look_in(const Plan *plan, size_t index) {
    while (index < plan->look_ins.count && at_the_end(plan, &plan->look_ins.items[index]))
        index++;
    return index;
}

static Trays trays_of(const Plan *plan, const Page *page) {
    Trays trays = {.count = 0};
    size_t look_in = 0;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        bool own = owned(mark, "tray") || owned(mark, "burnt") || owned(mark, "glow") ||
                   owned(mark, "early") || owned(mark, "late") || owned(mark, "lanes") ||
                   owned(mark, "lit");
        if (own && trays.count)
            trays.items[trays.count - 1].end = i + 1;
        if (!owned(mark, "tray") || (i && owned(mark - 1, "tray")))
            continue;
        look_in = next_look_in(plan, look_in);
        assert_true(look_in < plan->look_ins.count && trays.count < MOST_TRAYS);
        const PlanLookIn *at = &plan->look_ins.items[look_in++];
        trays.items[trays.count++] =
            (Drawn){&mark->as.path, i, i + 1, at, &plan->fills.items[at->fill - 1]};
    }
    return trays;
}

/* ---- Places ---- */

/* The place at a length along a line, worked out here by itself. */
static MapPoint place_at(const MapPoints *line, double along_m) {
    for (size_t i = 1; i < line->count; i++) {
        MapPoint a = line->items[i - 1], b = line->items[i];
        if (along_m <= b.along_m || i + 1 == line->count) {
            double part = (along_m - a.along_m) / fmax(b.along_m - a.along_m, 1e-12);
            part = fmin(fmax(part, 0), 1);
            return (MapPoint){a.x_m + part * (b.x_m - a.x_m), a.y_m + part * (b.y_m - a.y_m), 0};
        }
    }
    return line->items[0];
}

/* Extent of the tray's centre line in its own plane. */
static Box plane_of(const MapPoints *line) {
    double left = INFINITY, top = INFINITY, right = -INFINITY, foot = -INFINITY;
    for (size_t i = 0; i < line->count; i++) {
        left = fmin(left, line->items[i].x_m);
        right = fmax(right, line->items[i].x_m);
        top = fmin(top, line->items[i].y_m);
        foot = fmax(foot, line->items[i].y_m);
    }
    return (Box){left, top, right - left, foot - top};
}

static double mapped(double value, double from, double length, double to, double to_length) {
    return length > 1e-9 ? to + (value - from) / length * to_length : to;
}

/* A place of the plane on the paper, by the extents of the centre line there and here. */
static Point on_paper(const Drawn *tray, MapPoint place) {
    Box plane = plane_of(&tray->fill->line);
    Box paper = path_box(&tray->walls->steps);
    return (Point){mapped(place.x_m, plane.x_mm, plane.width_mm, paper.x_mm, paper.width_mm),
                   mapped(place.y_m, plane.y_mm, plane.height_mm, paper.y_mm, paper.height_mm)};
}

/* Distance of a point from a stretch. */
static double away_mm(Point at, Point from, Point to) {
    double x = to.x_mm - from.x_mm;
    double y = to.y_mm - from.y_mm;
    double square = x * x + y * y;
    double part = square > 0 ? ((at.x_mm - from.x_mm) * x + (at.y_mm - from.y_mm) * y) / square : 0;
    part = fmin(fmax(part, 0), 1);
    return hypot(at.x_mm - from.x_mm - part * x, at.y_mm - from.y_mm - part * y);
}

/* Distance of a point from a drawn line, with how wide that line is. */
static double from_line_mm(Point at, const Steps *steps) {
    double nearest_mm = INFINITY;
    for (size_t i = 1; i < steps->count; i++)
        nearest_mm = fmin(nearest_mm, away_mm(at, steps->items[i - 1].to, steps->items[i].to));
    return nearest_mm;
}

static double length_mm(const Steps *steps) {
    double sum_mm = 0;
    for (size_t i = 1; i < steps->count; i++)
        sum_mm += hypot(steps->items[i].to.x_mm - steps->items[i - 1].to.x_mm,
                        steps->items[i].to.y_mm - steps->items[i - 1].to.y_mm);
    return sum_mm;
}

/* The walls show the tray: every corner of its line where that lies in the tray's plane, and a coil
 * is not stretched. */
static void check_walls(const Drawn *tray) {
    const Steps *steps = &tray->walls->steps;
    const MapPoints *line = &tray->fill->line;
    for (size_t i = 0; i < line->count; i++)
        if (from_line_mm(on_paper(tray, line->items[i]), steps) > SLACK_MM)
            fail_msg("the walls of a tray miss its corner %zu", i);
    Box plane = plane_of(line), paper = path_box(steps);
    if (tray->fill->tray->path == PATH_SPIRAL)
        assert_true(fabs(paper.width_mm / paper.height_mm - plane.width_mm / plane.height_mm) <
                    0.01);
}

/* ---- What is drawn in them ---- */

/* The white gap of a glow ends where the plan has it, lies along the channel as the plan lays it,
 * and is long enough to be seen. */
static void check_glow(const Drawn *tray, const Steps *steps, double along_m, bool back) {
    const MapPoints *line = &tray->fill->line;
    Point wanted = on_paper(tray, place_at(line, along_m));
    Point front = steps->items[back ? 0 : steps->count - 1].to;
    double off_mm = hypot(front.x_mm - wanted.x_mm, front.y_mm - wanted.y_mm);
    if (off_mm > SLACK_MM)
        fail_msg("a glow at %.3f m is drawn %.2f mm from its place", along_m, off_mm);
    for (size_t i = 0; i < steps->count; i++)
        assert_true(from_line_mm(steps->items[i].to, &tray->walls->steps) < SLACK_MM);
    double room_m = back ? tray->fill->filled_m - along_m : along_m;
    Point end = on_paper(tray, place_at(line, back ? tray->fill->filled_m : 0));
    double from_end_mm = hypot(end.x_mm - wanted.x_mm, end.y_mm - wanted.y_mm);
    if (length_mm(steps) < GLOW_LEAST_MM - SLACK_MM && from_end_mm > GLOW_LEAST_MM && room_m > 0)
        fail_msg("a glow is %.2f mm long", length_mm(steps));
}

/* A tick lies across the channel, its middle at its place. */
static void check_tick(const Drawn *tray, const Steps *steps, double along_m) {
    Point a = steps->items[0].to, b = steps->items[1].to;
    Point middle = {(a.x_mm + b.x_mm) / 2, (a.y_mm + b.y_mm) / 2};
    Point wanted = on_paper(tray, place_at(&tray->fill->line, along_m));
    double off_mm = hypot(middle.x_mm - wanted.x_mm, middle.y_mm - wanted.y_mm);
    if (off_mm > SLACK_MM)
        fail_msg("a tick at %.3f m is drawn %.2f mm from its place", along_m, off_mm);
}

/* What is black ends where the glow is; the channel before it is whole. */
static void check_burnt(const Drawn *tray, const Steps *steps) {
    Point end = steps->items[steps->count - 1].to;
    Point wanted = on_paper(tray, place_at(&tray->fill->line, tray->look_in->along_m));
    assert_true(hypot(end.x_mm - wanted.x_mm, end.y_mm - wanted.y_mm) < SLACK_MM);
}

static bool overlap(Box a, Box b) {
    return a.x_mm + SLACK_MM < b.x_mm + b.width_mm && b.x_mm + SLACK_MM < a.x_mm + a.width_mm &&
           a.y_mm + SLACK_MM < b.y_mm + b.height_mm && b.y_mm + SLACK_MM < a.y_mm + a.height_mm;
}

/* A number stands beside its own lane, and neither it nor a flame in any. */
static void check_beside(const Fixture *fixture, const Drawn *tray, const Mark *mark) {
    Box box = mark_box(mark, fixture->faces);
    if (overlap(box, path_box(&tray->walls->steps)))
        fail_msg("something beside a tray stands in a lane");
    if (mark->kind != MARK_TEXT)
        return;
    int lane = (int)strtol(mark->as.text.string, NULL, 10);
    assert_true(lane >= 1 && lane <= tray->fill->tray->lanes);
    Point at = on_paper(tray, tray->fill->line.items[(size_t)(lane - 1) * 2]);
    double middle_mm =
        mark->as.text.baseline.y_mm -
        face_cap_height_mm(fixture->faces->faces[mark->as.text.face], mark->as.text.size_pt) / 2;
    if (fabs(middle_mm - at.y_mm) > 0.4)
        fail_msg("the number %d stands %.2f mm off its lane", lane, middle_mm - at.y_mm);
    bool left = box.x_mm < path_box(&tray->walls->steps).x_mm;
    assert_true(left == (lane % 2 == 1)); /* where the glow comes in */
}

static int check_tray(const Fixture *fixture, const Page *page, const Drawn *tray) {
    int glows = 0;
    bool burnt = false;
    check_walls(tray);
    for (size_t i = tray->first; i < tray->end; i++) {
        const Mark *mark = &page->marks.items[i];
        const Mark *before = i ? mark - 1 : mark;
        bool stroke = mark->kind == MARK_PATH && !mark->as.path.style.filled;
        bool gap = owned(mark, "glow") && stroke && mark->as.path.style.line.grey > 0.99;
        if (gap) {
            bool back = glows == 1;
            check_glow(tray, &mark->as.path.steps,
                       back ? tray->look_in->second_m : tray->look_in->along_m, back);
            glows++;
        }
        if (owned(mark, "early") || owned(mark, "late"))
            check_tick(tray, &mark->as.path.steps,
                       owned(mark, "early") ? tray->look_in->early_m : tray->look_in->late_m);
        if (owned(mark, "burnt") && !owned(before, "burnt") && tray->look_in->along_m > 1e-6)
            check_burnt(tray, &mark->as.path.steps), burnt = true;
        if (owned(mark, "lanes") || owned(mark, "lit"))
            check_beside(fixture, tray, mark);
    }
    bool two = tray->fill->both_ends && isfinite(tray->look_in->second_m) &&
               tray->look_in->second_m < tray->fill->filled_m - 1e-6;
    if (tray->look_in->along_m > 1e-6) {
        assert_int_equal(glows, two ? 2 : 1);
        assert_true(burnt);
    }
    return glows;
}

/* Width of the open channel: the white stroke over the walls. */
static double lane_mm(const Page *page, const Drawn *tray) {
    double lane = 0;
    for (size_t i = tray->first; i < tray->end && owned(&page->marks.items[i], "tray"); i++)
        if (page->marks.items[i].as.path.style.line.grey > 0.99)
            lane = page->marks.items[i].as.path.style.line_mm;
    return lane;
}

static void check_sizes(const Page *page, const Trays *trays) {
    for (size_t i = 0; i < trays->count; i++) {
        const Drawn *tray = &trays->items[i];
        Box box = path_box(&tray->walls->steps);
        bool coil = tray->fill->tray->path == PATH_SPIRAL;
        if (!coil && lane_mm(page, tray) < LANE_LEAST_MM - 1e-6)
            fail_msg("a lane is %.2f mm wide", lane_mm(page, tray));
        double scale = box.width_mm / plane_of(&tray->fill->line).width_mm;
        if (coil && scale * tray->fill->map_height_m < COIL_LEAST_MM - 2 * WALL_MM)
            fail_msg("a coil is %.1f mm high", scale * tray->fill->map_height_m);
        for (size_t j = 0; j < i; j++) {
            Box other = path_box(&trays->items[j].walls->steps);
            if (trays->items[j].fill->tray == tray->fill->tray &&
                (fabs(other.width_mm - box.width_mm) > 1e-6 ||
                 fabs(other.height_mm - box.height_mm) > 1e-6))
                fail_msg("a tray is %.2f mm high, another %.2f", box.height_mm, other.height_mm);
        }
    }
}

/* Returns the glows. */
static int check_page(const Fixture *fixture, const Plan *plan, const Page *page) {
    Trays trays = trays_of(plan, page);
    int glows = 0;
    for (size_t i = 0; i < trays.count; i++)
        glows += check_tray(fixture, page, &trays.items[i]);
    check_sizes(page, &trays);
    return glows;
}

/* ---- The map with letters ---- */

/* The walls of a map: a black stroke along the whole line, then the white channel on it. */
static const PathMark *map_walls(const Page *page, const PlanFill *fill, double *band_mm) {
    for (size_t i = 0; i + 1 < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        bool along = mark->kind == MARK_PATH && mark[1].kind == MARK_PATH &&
                     mark->as.path.steps.count == fill->line.count &&
                     mark[1].as.path.steps.count == fill->line.count;
        if (!owned(mark, "night-list") || !along || !(mark->as.path.style.line.grey < 0.01))
            continue;
        *band_mm = mark[1].as.path.style.line_mm;
        return &mark->as.path;
    }
    return NULL;
}

static bool is_letters(const char *string) {
    return *string && string[strspn(string, "ABCDEFGHIJKLMNOPQRSTUVWXYZ ")] == '\0';
}

/* A letter stands in the lane of its look-in, or off the tray. Returns how many stand there. */
static int check_letters(const Fixture *fixture, const Plan *plan, const Page *page) {
    const PlanFill *fill = &plan->fills.items[0];
    double band_mm = 0;
    Drawn map = {.walls = map_walls(page, fill, &band_mm), .fill = fill};
    int letters = 0;
    for (size_t i = 0; map.walls && i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind != MARK_TEXT || !owned(mark, "night-list") ||
            !is_letters(mark->as.text.string))
            continue;
        Box box = mark_box(mark, fixture->faces);
        const Face *face = fixture->faces->faces[mark->as.text.face];
        double middle_mm = mark->as.text.baseline.y_mm -
                           face_cap_height_mm(face, mark->as.text.size_pt) / 2;
        bool off = !overlap(box, path_box(&map.walls->steps));
        for (const char *at = mark->as.text.string; *at; at++) {
            const PlanLookIn *look_in = &plan->look_ins.items[*at == ' ' ? 0 : *at - 'A'];
            Point place = on_paper(&map, place_at(&fill->line, look_in->along_m));
            /* in a turn it may stand in either of the lanes that this joins */
            double pitch_mm = path_box(&map.walls->steps).height_mm / (fill->tray->lanes - 1);
            double in_lanes = (place.y_mm - path_box(&map.walls->steps).y_mm) / pitch_mm;
            bool turn = fabs(in_lanes - round(in_lanes)) > 0.01;
            letters += *at != ' ';
            if (*at != ' ' && !off &&
                fabs(middle_mm - place.y_mm) > (turn ? pitch_mm : band_mm) / 2)
                fail_msg("%c stands %.2f mm off its lane of %.2f", *at, middle_mm - place.y_mm,
                         band_mm);
        }
    }
    return letters;
}

/* ---- Tests ---- */

static void each_letter_stands_in_its_lane(void **state) {
    Fixture *fixture = *state;
    int letters = 0, looked = 0;
    for (int kind = 0; kind < 48; kind++) {
        Arena *arena = arena_new();
        PlanRecipe recipe = recipe_usual();
        recipe.lanes = 2 + kind % 8;
        recipe.fills = 3 + kind / 8 % 3;
        recipe.look_ins = 9;
        recipe.both_ends = kind / 24;
        const Plan *plan = plan_from_recipe(arena, &recipe);
        letters += check_letters(fixture, plan, page_of(fixture, arena, plan, fixture->words));
        looked += 9;
        arena_free(arena);
    }
    print_message("          %d letters of %d look-ins on maps\n", letters, looked);
    assert_true(letters > looked * 9 / 10);
}

static void each_glow_lies_in_its_lane_at_its_place(void **state) {
    Fixture *fixture = *state;
    int glows = 0;
    for (unsigned seed = 20001; seed < 20001 + RANDOM_PLANS; seed++) {
        Arena *arena = arena_new();
        PlanRecipe recipe = recipe_random(arena, seed);
        recipe.verdict = VERDICT_GOOD;
        recipe.reasons = recipe.remedies = 0;
        recipe.name = NULL;
        recipe.parts = 2;
        recipe.lanes = 1 + (int)(seed % 9);
        recipe.fills = 1 + (int)(seed % 2);
        const Plan *plan = plan_from_recipe(arena, &recipe);
        glows += check_page(fixture, plan, page_of(fixture, arena, plan, fixture->words));
        arena_free(arena);
    }
    print_message("          %d glows on %d nights\n", glows, RANDOM_PLANS);
    assert_true(glows > RANDOM_PLANS);
}

static ExitStatus check_sample(Run *run, Job *job) {
    Fixture *fixture = run->shared;
    const Page *page = NULL;
    if (job->plan->verdict == VERDICT_DO_NOT_LIGHT || job->plan->happened.over)
        return STATUS_DONE;
    page = page_of(fixture, job->arena, job->plan, job->locale.words);
    check_page(fixture, job->plan, page);
    Trays trays = trays_of(job->plan, page);
    if (trays.count)
        print_message(
            "          %s: %zu trays %.1f mm high, lanes %.2f mm\n", job->file, trays.count,
            path_box(&trays.items[0].walls->steps).height_mm + trays.items[0].walls->style.line_mm,
            lane_mm(page, &trays.items[0]));
    return STATUS_DONE;
}

/* In every language, on both papers and in both units. */
static void the_samples_keep_it_too(void **state) {
    static const char *const languages[] = {"en", "de", "pl"};
    glob_t found;
    assert_int_equal(glob("samples/*-*.xml", 0, NULL, &found), 0);
    size_t count = 0;
    for (size_t i = 0; i < found.gl_pathc; i++)
        if (!strstr(found.gl_pathv[i], "workshop")) {
            char *batch = found.gl_pathv[i];
            found.gl_pathv[i] = found.gl_pathv[count];
            found.gl_pathv[count++] = batch;
        }
    assert_true(count >= 6);
    for (int kind = 0; kind < 6; kind++) {
        Options options = {.language = languages[kind % 3],
                           .paper = kind / 3 ? "Letter" : "A4",
                           .units = kind / 3 ? "us" : "metric",
                           .files = found.gl_pathv,
                           .file_count = count};
        Run run = run_begin(&options);
        run.shared = *state;
        assert_int_equal(run_files(&run, RUN_BATCHES, check_sample), STATUS_DONE);
        run_end(&run);
    }
    globfree(&found);
}

/* Eight trays and twelve dusts: the small trays give way to one map, and nobody is lost. */
static void eight_trays_fit_on_one_page(void **state) {
    static const char *const languages[] = {"en", "de", "pl"};
    Fixture *fixture = *state;
    for (int kind = 0; kind < 12; kind++) {
        PlanRecipe recipe = recipe_usual();
        recipe.parts = kind / 6 ? 12 : 2;
        recipe.fills = 8;
        recipe.look_ins = 9;
        recipe.paper = kind / 3 % 2 ? PAPER_LETTER : PAPER_A4;
        const Plan *plan = plan_from_recipe(fixture->arena, &recipe);
        const Words *words = language_words(fixture->arena, languages[kind % 3]);
        const Page *page = page_of(fixture, fixture->arena, plan, words);
        int rows = 0;
        for (size_t i = 0; i < page->marks.count; i++) {
            const Mark *mark = &page->marks.items[i];
            bool hour = mark->kind == MARK_TEXT && owned(mark, "night-rows") &&
                        mark->as.text.face == FACE_CONDENSED_BOLD &&
                        strchr(mark->as.text.string, ':') &&
                        strspn(mark->as.text.string, "0123456789:") >= 5;
            rows += hour && strlen(mark->as.text.string) < 14;
        }
        assert_true(rows >= 8 + 9); /* and the end */
    }
}

/* In front of every unit of temperature a line of 20 mm to write on: four figures by hand. */
static void there_is_room_to_write(void **state) {
    static const char *const languages[] = {"en", "de", "pl"};
    Fixture *fixture = *state;
    for (int kind = 0; kind < 24; kind++) {
        PlanRecipe recipe = recipe_usual();
        recipe.units = kind / 3 % 2 ? UNITS_US : UNITS_METRIC;
        recipe.paper = kind / 6 % 2 ? PAPER_LETTER : PAPER_A4;
        recipe.fills = kind / 12 ? 6 : 1; /* small trays, or a list */
        const Plan *plan = plan_from_recipe(fixture->arena, &recipe);
        const Words *words = language_words(fixture->arena, languages[kind % 3]);
        const Page *page = page_of(fixture, fixture->arena, plan, words);
        int blanks = 0;
        for (size_t i = 1; i < page->marks.count; i++) {
            const Mark *mark = &page->marks.items[i];
            bool unit =
                mark->kind == MARK_TEXT && mark[-1].kind == MARK_PATH &&
                (!strcmp(mark->as.text.string, "°C") || !strcmp(mark->as.text.string, "°F"));
            double room_mm = unit ? path_box(&mark[-1].as.path.steps).width_mm : 20;
            if (room_mm < 20)
                fail_msg("%s %d: %.1f mm to write on", languages[kind % 3], kind, room_mm);
            blanks += unit;
        }
        assert_true(blanks >= 5);
    }
}

/* Four sizes of type and two weights of one face, but for the numbers of the lanes, while rows and
 * steps go down together. */
static void a_page_has_four_sizes_of_type(void **state) {
    Fixture *fixture = *state;
    for (int kind = 0; kind < 3; kind++) {
        PlanRecipe recipe = recipe_usual();
        recipe.verdict = (Verdict)kind;
        recipe.reasons = recipe.remedies = kind;
        const Plan *plan = plan_from_recipe(fixture->arena, &recipe);
        const Page *page = page_of(fixture, fixture->arena, plan, fixture->words);
        double sizes_pt[8];
        size_t count = 0;
        for (size_t i = 0; i < page->marks.count && count < 8; i++) {
            const Mark *mark = &page->marks.items[i];
            if (mark->kind != MARK_TEXT || owned(mark, "lanes"))
                continue;
            FaceRole face = mark->as.text.face;
            assert_true(face == FACE_CONDENSED || face == FACE_CONDENSED_BOLD);
            size_t at = 0;
            while (at < count && fabs(sizes_pt[at] - mark->as.text.size_pt) > 1e-6)
                at++;
            sizes_pt[at] = mark->as.text.size_pt;
            count += at == count;
        }
        if (count > 4)
            fail_msg("kind %d: %zu sizes of type or more", kind, count);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_glow_lies_in_its_lane_at_its_place),
        cmocka_unit_test(each_letter_stands_in_its_lane),
        cmocka_unit_test(the_samples_keep_it_too),
        cmocka_unit_test(there_is_room_to_write),
        cmocka_unit_test(a_page_has_four_sizes_of_type),
        cmocka_unit_test(eight_trays_fit_on_one_page),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
