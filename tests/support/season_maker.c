#include "support/season_maker.h"

#include "base/file.h"
#include "base/text.h"
#include "input/reader.h"
#include "model/as_planned.h"
#include "model/past_night.h"
#include "model/speed_factor.h"
#include "support/close.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A cherry that burns slowly and an alder that burns fast; a coil that gives less air than it
 * seems; burns that hold somewhat worse than the model thinks. */
const SeasonTruth season_truth = {.folded_speed = 0.10,
                                  .coil_speed = -0.18,
                                  .beech_speed = 0.06,
                                  .cherry_speed = -0.20,
                                  .alder_speed = 0.22,
                                  .burn_speed = 0.07,
                                  .margin = -0.12,
                                  .coil_margin = -0.08,
                                  .burn_margin = 0.10};

/* So many past nights are learnt from when the next one is planned: enough, and quick. */
enum { LEARNT_NIGHTS = 40, FIVE_MIN_S = 5 * SECONDS_PER_MINUTE, TRIES = 40 };

static const char workshop_text[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<!-- A made-up smokehouse. Its nights beside this file were burnt by the model, at speeds "
    "and\n"
    "     margins that tests/support/season_maker.c knows and the learning has to find. -->\n"
    "<workshop name=\"Dry Ditch Smokehouse\" timezone=\"Europe/Dublin\" units=\"metric\" "
    "language=\"en\"\n          paper=\"A4\" market=\"EU\">\n"
    "  <maker name=\"Dry Ditch Smokehouse\" contact=\"post@dryditch.example\">\n"
    "    <address>4 Dry Ditch Lane</address>\n    <address>Nettlewick</address>\n  </maker>\n"
    "  <dust id=\"beech\" name=\"Beech\" material=\"beech\" form=\"dust\" moisture=\"8 %\" "
    "basis=\"dry\"\n        measured=\"2026-01-09\" lot=\"B-2601\" stock=\"4 kg\" "
    "untreated=\"yes\">\n"
    "    <grain from=\"400 µm\" to=\"900 µm\"/>\n    <weighed volume=\"2 l\" mass=\"452 g\"/>\n"
    "  </dust>\n"
    "  <dust id=\"cherry\" name=\"Cherry\" material=\"cherry\" form=\"dust\" moisture=\"9 %\" "
    "basis=\"dry\"\n        measured=\"2026-01-09\" lot=\"C-2601\" stock=\"30 g\" "
    "untreated=\"yes\">\n"
    "    <grain from=\"355 µm\" to=\"1 mm\"/>\n    <weighed volume=\"2 l\" mass=\"430 g\"/>\n"
    "  </dust>\n"
    "  <dust id=\"alder\" name=\"Alder\" material=\"alder\" form=\"dust\" moisture=\"8.5 %\" "
    "basis=\"dry\"\n        measured=\"2026-01-09\" lot=\"A-2601\" stock=\"1.5 kg\" "
    "untreated=\"yes\">\n"
    "    <grain from=\"350 µm\" to=\"1.1 mm\"/>\n    <weighed volume=\"2 l\" mass=\"352 g\"/>\n"
    "  </dust>\n"
    "  <tray id=\"folded\" name=\"Folded tray\" wall=\"mesh\" channel-width=\"22 mm\"\n"
    "        channel-depth=\"19 mm\" metal=\"1 kg/m2\">\n"
    "    <lanes count=\"5\" length=\"185 mm\" pitch=\"27 mm\"/>\n  </tray>\n"
    "  <tray id=\"coil\" name=\"Coil tray\" wall=\"mesh\" channel-width=\"18 mm\"\n"
    "        channel-depth=\"20 mm\" metal=\"1 kg/m2\">\n"
    "    <spiral turns=\"2.25\" pitch=\"25 mm\" outer=\"155 mm\"/>\n  </tray>\n"
    "  <cabinet id=\"larch\" name=\"Larch cabinet\" width=\"650 mm\" depth=\"550 mm\" "
    "height=\"1.5 m\"\n           wall=\"wood\">\n"
    "    <vent inlet=\"40 cm2\" outlet=\"45 cm2\" rise=\"1.3 m\"/>\n  </cabinet>\n"
    "  <room outdoors=\"yes\"/>\n  <oven fan=\"yes\"/>\n"
    "  <scale resolution=\"1 g\" capacity=\"5 kg\"/>\n  <store kept=\"sealed\"/>\n"
    "</workshop>\n";

/* What is smoked, in turn. */
typedef struct Dish {
    const char *name;
    const char *product;
    const char *blend;
    const char *parts;
    const char *tray;
} Dish;

static const Dish dishes[] = {
    {"Hard cheese",
     "kind=\"cheese\" name=\"Hard cheese, quarters\" mass=\"6 kg\" pieces=\"8\" smoke-time=\"7 h\"",
     "Beech and cherry",
     "<part dust=\"beech\" share=\"65 %\"/>\n    <part dust=\"cherry\" share=\"35 %\"/>", "folded"},
    {"Butter",
     "kind=\"butter\" name=\"Salted butter, half pounds\" mass=\"2.7 kg\" pieces=\"12\"\n"
     "           smoke-time=\"3 h 20 min\"",
     "Beech alone", "<part dust=\"beech\" share=\"100 %\"/>", "coil"},
    {"Trout",
     "kind=\"fish\" name=\"Farmed trout sides, dry-salted\" mass=\"5.4 kg\" pieces=\"9\"\n"
     "           smoke-time=\"6 h\" cured=\"yes\" salt=\"2.8 %\" water=\"66 %\"",
     "Alder alone", "<part dust=\"alder\" share=\"100 %\"/>", "folded"},
    {"Salt", "kind=\"salt\" name=\"Sea salt flakes\" mass=\"5 kg\" smoke-time=\"4 h\"",
     "Cherry with beech",
     "<part dust=\"cherry\" share=\"60 %\"/>\n    <part dust=\"beech\" share=\"40 %\"/>", "coil"},
    {"Goat's cheese",
     "kind=\"cheese\" name=\"Young goat's cheese\" mass=\"3 kg\" pieces=\"20\" smoke-time=\"4 h\"",
     "Alder alone", "<part dust=\"alder\" share=\"100 %\"/>", "coil"},
    {"Loin",
     "kind=\"meat\" name=\"Salted pork loin\" mass=\"3.5 kg\" pieces=\"2\" smoke-time=\"8 h\" "
     "cured=\"yes\"",
     "Beech alone", "<part dust=\"beech\" share=\"100 %\"/>", "folded"},
};

enum { DISHES = sizeof dishes / sizeof *dishes };

static const char *const remarks[] = {"Steady all night.", "A little behind the sheet.",
                                      "Fog from midnight on.", "Smelt fine, thin smoke."};

/* ---- Truth ----------------------------------------------------------------------------------- */

static bool is(const char *id, const char *name) {
    return id && strcmp(id, name) == 0;
}

double season_true_speed(const BurnKind *kind) {
    const SeasonTruth *truth = &season_truth;
    double speed = is(kind->tray->id, "coil") ? truth->coil_speed : truth->folded_speed;
    for (int i = 0; i < kind->count; i++) {
        const char *id = kind->dusts[i]->id;
        speed += kind->dry_shares[i] * (is(id, "beech")    ? truth->beech_speed
                                        : is(id, "cherry") ? truth->cherry_speed
                                                           : truth->alder_speed);
    }
    return speed;
}

double season_true_margin(const BurnKind *kind) {
    return season_truth.margin + (is(kind->tray->id, "coil") ? season_truth.coil_margin : 0);
}

/* ---- Making ---------------------------------------------------------------------------------- */

typedef struct SeasonBurner {
    const SeasonMaking *making;
    Arena *arena;
    Reader reader;
    uint64_t seed;
    LIST_OF(const Batch *) past;
} SeasonBurner;

/* What is chosen of a night before it. */
typedef struct Chosen {
    Date date;
    const Dish *dish;
    double temp_c, humidity, wind_mps, target;
    int minute; /* of lighting, since midnight */
    const char *path;
} Chosen;

static double drawn(SeasonBurner *maker, double low, double high) {
    return close_random(&maker->seed, low, high);
}

/* The normal distribution by its quantile. */
static double drawn_normal(SeasonBurner *maker, double spread) {
    return spread * speed_normal_quantile(drawn(maker, 1e-6, 1 - 1e-6));
}

static void write_or_die(SeasonBurner *maker, const char *path, const Text *text) {
    const char *error = NULL;
    if (!file_write(maker->arena, path, (const uint8_t *)text->bytes, text->length, &error)) {
        fprintf(stderr, "%s\n", error);
        exit(1);
    }
}

static const Batch *read_or_die(SeasonBurner *maker, const char *path) {
    const Batch *batch = read_batch(&maker->reader, path);
    if (!batch) {
        diagnostics_print(&maker->reader.diagnostics, stderr);
        exit(1);
    }
    return batch;
}

static const char *clock_text(Arena *arena, const Zone *zone, Instant at) {
    char civil[CIVIL_TEXT_SIZE];
    civil_format(zone_civil(zone, at), civil);
    return arena_copy(arena, civil, strlen("2026-12-04T21:30"));
}

static void add_head(Text *text, const Chosen *night) {
    char date[DATE_TEXT_SIZE];
    date_format(night->date, date);
    text_add(text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    text_addf(text, "<batch name=\"%s\" workshop=\"workshop.xml\" cabinet=\"larch\">\n",
              night->dish->name);
    text_addf(text, "  <product %s/>\n", night->dish->product);
    text_addf(text, "  <blend name=\"%s\">\n    %s\n  </blend>\n", night->dish->blend,
              night->dish->parts);
    text_addf(text, "  <fill tray=\"%s\" level=\"100 %%\"/>\n", night->dish->tray);
    text_addf(text, "  <predry oven=\"95 °C\" target=\"%.1f %%\"/>\n", night->target * 100);
    text_addf(text, "  <weather temperature=\"%.0f °C\" humidity=\"%.0f %%\" wind=\"%.0f m/s\"/>\n",
              night->temp_c, night->humidity * 100, night->wind_mps);
    text_addf(text, "  <timing light=\"%sT%02d:%02d\"/>\n", date, night->minute / 60,
              night->minute % 60);
}

static void write_night(SeasonBurner *maker, const Chosen *night, const char *record) {
    Text text = text_new(maker->arena);
    add_head(&text, night);
    text_add(&text, record);
    text_add(&text, "</batch>\n");
    write_or_die(maker, night->path, &text);
}

static const Plan *planned(SeasonBurner *maker, const Batch *batch) {
    size_t count = maker->past.count;
    size_t first = count > LEARNT_NIGHTS ? count - LEARNT_NIGHTS : 0;
    const Learning *learning =
        learning_of(maker->arena, batch->workshop, maker->past.items + first, count - first);
    return as_planned(maker->arena, batch, learning);
}

/* Drawn again, drier and in better weather, until somebody would light it. */
static const Plan *choose(SeasonBurner *maker, Chosen *night) {
    for (int i = 0;; i++) {
        double better = (double)i / TRIES;
        night->temp_c = drawn(maker, 0, 11);
        night->humidity = drawn(maker, 0.66, 0.95 - 0.25 * better);
        night->wind_mps = drawn(maker, 0, 4);
        night->target = drawn(maker, 0.03, 0.07 - 0.04 * better);
        night->minute = 5 * (int)drawn(maker, 12 * 19, 12 * 22);
        write_night(maker, night, "");
        const Batch *batch = read_or_die(maker, night->path);
        const Plan *plan = planned(maker, batch);
        if (plan->verdict != VERDICT_DO_NOT_LIGHT || i == TRIES) {
            return plan;
        }
    }
}

/* Where the margin, off by so much, first falls under 1; NAN: nowhere. */
static double dies_at_s(const Night *night, double log_offset) {
    const Lighting *lighting = &night->lightings.items[0];
    const BurnPath *path = &lighting->middle.path;
    for (size_t i = 0; i < path->points.count; i++) {
        const BurnPoint *point = &path->points.items[i];
        if (log(lighting_margin(lighting, point, &point->air)) + log_offset < 0) {
            return point->time_s;
        }
    }
    return NAN;
}

static Instant to_five_minutes(double at) {
    return (Instant)(floor(at / FIVE_MIN_S + 0.5) * FIVE_MIN_S);
}

/* One look, some hours after lighting, while it burns. */
static void add_reading(SeasonBurner *maker, Text *text, const Night *run, Instant lit,
                        double until_s) {
    double after_s = drawn(maker, 1.5, 2.5) * SECONDS_PER_HOUR;
    Instant at = to_five_minutes((double)lit + after_s);
    double elapsed_s = (double)(at - lit);
    if (elapsed_s >= until_s) {
        return;
    }
    BurnPoint point = burn_at(&run->lightings.items[0].middle.path, elapsed_s);
    text_addf(text, "    <reading at=\"%s\" front=\"%.0f mm\"/>\n",
              clock_text(maker->arena,
                         maker->past.count ? maker->past.items[0]->workshop->zone
                                           : run->batch->workshop->zone,
                         at),
              point.along_m[0] * 1000);
}

/* What becomes of a night, written down as its people would. */
static const char *burn(SeasonBurner *maker, const Plan *plan) {
    const Zone *zone = plan->workshop->zone;
    Instant lit = plan->burn.light_at + FIVE_MIN_S * (Instant)drawn(maker, 0, 3);
    double filled_m = floor(plan->fills.items[0].filled_m * 1000 + 0.5) / 1000;
    Batch *batch = ARENA_NEW(maker->arena, Batch);
    *batch = *plan->batch;
    batch->record = (Record){.stated = true, .lit = lit, .filled_m = filled_m, .burnt_m = NAN};
    PastNight past = past_night_of(maker->arena, batch);
    double factor =
        exp(season_true_speed(&past.kind) + drawn_normal(maker, season_truth.burn_speed));
    const Night *run = past_night_run(maker->arena, &past, factor);
    double offset = season_true_margin(&past.kind) + drawn_normal(maker, season_truth.burn_margin);
    double end_s = past_night_end_s(run), dies_s = dies_at_s(run, offset);
    bool dies = isfinite(dies_s);
    bool relit = dies && drawn(maker, 0, 1) < 0.35 && end_s - dies_s > SECONDS_PER_HOUR;
    double found_s = dies_s + drawn(maker, 10, 40) * SECONDS_PER_MINUTE;
    double out_s = !dies ? end_s : relit ? found_s + end_s - dies_s : fmax(dies_s, FIVE_MIN_S);
    Text text = text_new(maker->arena);
    text_addf(
        &text, "  <record lit=\"%s\" out=\"%s\"", clock_text(maker->arena, zone, lit),
        clock_text(maker->arena, zone, to_five_minutes((double)lit + fmax(out_s, FIVE_MIN_S))));
    text_addf(&text, " filled=\"%.0f mm\" used=\"%.0f g\"", filled_m * 1000,
              plan->blend.wet_kg * 1000);
    if (dies && !relit) {
        BurnPoint point = burn_at(&run->lightings.items[0].middle.path, dies_s);
        text_addf(&text, " died=\"yes\" burnt=\"%.0f mm\"", floor(point.along_m[0] * 1000));
    } else {
        text_addf(&text, "\n          ash=\"%.0f g\" remark=\"%s\"",
                  ceil(plan->blend.wet_kg * 1000 * drawn(maker, 0.02, 0.05)),
                  remarks[(int)drawn(maker, 0, 3.999)]);
    }
    text_add(&text, ">\n");
    add_reading(maker, &text, run, lit, dies ? dies_s : end_s);
    if (relit) {
        text_addf(&text, "    <relit at=\"%s\"/>\n",
                  clock_text(maker->arena, zone, to_five_minutes((double)lit + found_s)));
    }
    text_add(&text, "  </record>\n");
    return text.bytes;
}

/* In summer nothing is smoked, nor in the nights in which the clocks are changed: an hour would
 * come twice. */
static bool left_out(Date date) {
    bool changed = (date.month == 3 || date.month == 10) && date.day >= 24 &&
                   date_weekday(date) == 6;
    return changed || (date.month >= 4 && date.month <= 9);
}

/* The days of the past nights, backwards from the last. */
static void set_days(SeasonBurner *maker, Date *days) {
    int64_t day = date_to_days(maker->making->last);
    for (int i = maker->making->nights - 1; i >= 0; i--) {
        while (left_out(date_from_days(day))) {
            day--;
        }
        days[i] = date_from_days(day);
        int apart = maker->making->apart_days;
        day -= apart > 1 ? apart + (int)drawn(maker, 0, 3) - 1 : 1;
    }
}

static const char *night_path(SeasonBurner *maker, int number) {
    return arena_format(maker->arena, "%s/night-%03d.xml", maker->making->folder, number);
}

static void make_past(SeasonBurner *maker) {
    Date *days = ARENA_ARRAY(maker->arena, (size_t)maker->making->nights, Date);
    set_days(maker, days);
    for (int i = 0; i < maker->making->nights; i++) {
        Chosen night = {
            .date = days[i], .dish = &dishes[i % DISHES], .path = night_path(maker, i + 1)};
        const Plan *plan = choose(maker, &night);
        write_night(maker, &night, burn(maker, plan));
        LIST_ADD(maker->arena, &maker->past, read_or_die(maker, night.path));
    }
}

/* The second is lit in the tray of the first while that still burns. */
static void make_upcoming(SeasonBurner *maker) {
    int64_t day = date_to_days(maker->making->last) + 4;
    for (int i = 0; i < maker->making->upcoming; i++) {
        Chosen night = {.date = date_from_days(day),
                        .dish = &dishes[i == 1 ? 5 : (i + (i > 1)) % DISHES],
                        .path = night_path(maker, maker->making->nights + i + 1)};
        choose(maker, &night);
        day += i == 0 ? 0 : 3;
    }
}

static void make_market(SeasonBurner *maker) {
    char date[DATE_TEXT_SIZE];
    date_format(date_from_days(date_to_days(maker->making->last) + 9), date);
    Text text = text_new(maker->arena);
    text_addf(&text,
              "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
              "<bagging name=\"Market day\" packed=\"%s\" workshop=\"workshop.xml\">\n"
              "  <pack>\n    <blend name=\"Beech alone\">\n"
              "      <part dust=\"beech\" share=\"100 %%\"/>\n    </blend>\n"
              "    <bag net=\"250 g\" count=\"8\" stock=\"a4-8\"/>\n  </pack>\n</bagging>\n",
              date);
    write_or_die(maker, arena_format(maker->arena, "%s/market.xml", maker->making->folder), &text);
}

void season_make(const SeasonMaking *making) {
    Arena *arena = arena_new();
    SeasonBurner maker = {
        .making = making, .arena = arena, .reader = reader_new(arena), .seed = making->seed};
    Text workshop = text_new(arena);
    text_add(&workshop, workshop_text);
    write_or_die(&maker, arena_format(arena, "%s/workshop.xml", making->folder), &workshop);
    make_past(&maker);
    if (making->upcoming) {
        make_upcoming(&maker);
        make_market(&maker);
    }
    arena_free(arena);
}
