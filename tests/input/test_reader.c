/* Whole files into the nouns of the domain: every value in its place, to the last bit. */
#include "input/reader.h"
#include "support/accepted.h"

#include "base/file.h"
#include "input/readers.h"
#include "schema/rule.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glob.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char batch_path[] = "tests/input/good/batch.xml";
static const char workshop_path[] = "tests/input/good/workshop.xml";

static Reader reader;
static const Workshop *workshop;
static const Batch *batch;

static int read_files(void **state) {
    (void)state;
    reader = reader_new(arena_new());
    batch = read_batch(&reader, batch_path);
    workshop = read_workshop(&reader, workshop_path);
    diagnostics_print(&reader.diagnostics, stderr);
    return batch && workshop && !reader.diagnostics.list.count ? 0 : -1;
}

static int give_back(void **state) {
    (void)state;
    arena_free(reader.arena);
    return 0;
}

#define assert_same(value, expected) assert_true((value) == (expected))
#define assert_not_stated(value) assert_true(isnan(value))

static void assert_date(Date date, int year, int month, int day) {
    assert_int_equal(date.year, year);
    assert_int_equal(date.month, month);
    assert_int_equal(date.day, day);
}

/* Berlin is an hour ahead of Greenwich in December. */
static Instant berlin(int day, int hour, int minute) {
    return civil_to_utc((CivilTime){{2026, 12, day}, hour, minute, 0}) - 3600;
}

static void fills_the_workshop(void **state) {
    (void)state;
    assert_string_equal(workshop->file, workshop_path);
    assert_string_equal(workshop->name, "Räucherei");
    assert_string_equal(workshop->timezone, "Europe/Berlin");
    assert_string_equal(zone_name(workshop->zone), "Europe/Berlin");
    assert_int_equal(workshop->units, UNITS_US);
    assert_string_equal(workshop->language, "de");
    assert_int_equal(workshop->paper, PAPER_LETTER);
    assert_int_equal(workshop->market, MARKET_AU);
    assert_int_equal(workshop->filling, FILLING_AVERAGE);
    assert_string_equal(workshop->maker.name, "M & Co");
    assert_string_equal(workshop->maker.contact, "m@toadditch.example");
    assert_int_equal(workshop->maker.address.count, 2);
    assert_string_equal(workshop->maker.address.items[0], "Line one");
    assert_string_equal(workshop->maker.address.items[1], "Line two");
    assert_true(workshop->room.stated);
    assert_false(workshop->room.outdoors);
    assert_same(workshop->room.volume_m3, 40);
    assert_same(workshop->room.air_changes_per_h, 2);
    assert_same(workshop->room.ducted_share, 0.8);
    assert_true(workshop->oven.stated && workshop->oven.fan);
    assert_same(workshop->oven.heat_transfer_w_m2k, 18);
    assert_same(workshop->scale.resolution_kg, 0.0001);
    assert_same(workshop->scale.capacity_kg, 2);
    assert_true(workshop->store.sealed);
    assert_same(workshop->store.temp_c, 15);
    assert_same(workshop->store.humidity, 0.55);
    assert_string_equal(workshop->call.name, "Ä & \"B\" <C>");
    assert_string_equal(workshop->call.telephone, "+49 (0)91/555-0117 #4");
    assert_true(workshop->sleep.stated);
    assert_int_equal(workshop->sleep.from.hour * 60 + workshop->sleep.from.minute, 23 * 60 + 15);
    assert_int_equal(workshop->sleep.to.hour * 60 + workshop->sleep.to.minute, 6 * 60 + 40);
}

static void fills_a_dust(void **state) {
    (void)state;
    assert_int_equal(workshop->dusts.count, 3);
    const Dust *dust = &workshop->dusts.items[0];
    assert_string_equal(dust->id, "a");
    assert_string_equal(dust->name, "Ą dust");
    assert_string_equal(dust->material, "beech");
    assert_int_equal(dust->form, FORM_LEAF);
    assert_true(dust->charred && dust->untreated);
    assert_close(dust->moisture, 0.25, 1e-15); /* 20 of water in 100 is 20 to 80 dry */
    assert_int_equal(dust->stated_basis, BASIS_WET);
    assert_date(dust->measured, 2026, 11, 20);
    assert_string_equal(dust->lot, "L1");
    assert_date(dust->received, 2026, 10, 2);
    assert_close(dust->stock_kg, 0.5669904625, 1e-15); /* 20 oz of 28.349523125 g */
    assert_same(dust->steadiness, 0.9);
    assert_same(dust->bulk_density_kg_m3, 200);
    assert_not_stated(dust->grain_from_m);
    assert_int_equal(dust->place.line, 5);
}

static void fills_the_grains(void **state) {
    (void)state;
    const SieveAnalysis *sieve = &workshop->dusts.items[0].sieve;
    assert_same(sieve->sample_kg, 0.1);
    assert_false(sieve->by_percent);
    assert_int_equal(sieve->classes.count, 3);
    assert_same(sieve->classes.items[0].aperture_m, 0.0014);
    assert_same(sieve->classes.items[1].aperture_m, 0.0005);
    assert_same(sieve->classes.items[1].retained, 0.0605);
    assert_same(sieve->classes.items[2].aperture_m, 0);
    assert_same(sieve->classes.items[2].retained, 0.0295);
    const Dust *plain = &workshop->dusts.items[1];
    assert_int_equal(plain->sieve.classes.count, 0);
    assert_same(plain->grain_from_m, 0.0005);
    assert_same(plain->grain_to_m, 0.00075);
    assert_true(workshop->dusts.items[2].sieve.by_percent);
    assert_same(workshop->dusts.items[2].sieve.classes.items[0].retained, 0.4);
    assert_not_stated(workshop->dusts.items[2].sieve.sample_kg);
}

static void leaves_unstated_what_is(void **state) {
    (void)state;
    const Dust *plain = &workshop->dusts.items[1];
    assert_int_equal(plain->form, FORM_DUST);
    assert_false(plain->charred || plain->untreated);
    assert_true(plain->untreated_stated); /* "no" is not the same as nothing */
    assert_false(workshop->dusts.items[2].untreated_stated);
    assert_not_stated(plain->moisture);
    assert_not_stated(plain->steadiness);
    assert_not_stated(plain->stock_kg);
    assert_not_stated(plain->bulk_density_kg_m3);
    assert_null(plain->lot);
    assert_int_equal(plain->measured.year, 0);
    const Cabinet *two = &workshop->cabinets.items[1];
    assert_not_stated(two->wall_w_m2k);
    assert_not_stated(two->rise_m);
}

static void fills_trials(void **state) {
    (void)state;
    assert_int_equal(workshop->dusts.items[0].trials.count, 2);
    const Trial *trial = workshop->dusts.items[0].trials.items;
    assert_same(trial[0].length_m, 0.1);
    assert_same(trial[0].took_s, 3120);
    assert_string_equal(trial[0].tray_id, "coil");
    assert_same(trial[0].moisture, 0.05);
    assert_same(trial[0].temp_c, 10);
    assert_close(trial[1].length_m, 0.1016, 1e-15);
    assert_null(trial[1].tray_id);
    assert_not_stated(trial[1].moisture);
}

static void fills_trays_and_cabinets(void **state) {
    (void)state;
    const Tray *fold = &workshop->trays.items[0], *coil = fold + 1, *gutter = fold + 2;
    assert_int_equal(fold->path, PATH_LANES);
    assert_int_equal(fold->lanes, 5);
    assert_same(fold->lane_length_m, 0.18);
    assert_same(fold->pitch_m, 0.024);
    assert_same(fold->channel_depth_m, 0.025);
    assert_same(fold->bottom_width_m, 0.02);
    assert_int_equal(fold->wall, WALL_MESH);
    assert_same(fold->metal_kg_m2, 0.9);
    assert_int_equal(coil->path, PATH_SPIRAL);
    assert_same(coil->turns, 2.5);
    assert_same(coil->outer_m, 0.3);
    assert_same(coil->bottom_width_m, 0.02);
    assert_int_equal(coil->wall, WALL_PLATE);
    assert_close(coil->metal_kg_m2, 15.7, 1e-12); /* 2 mm of 7850 kg/m3 */
    assert_int_equal(gutter->path, PATH_STRAIGHT);
    assert_same(gutter->lane_length_m, 2);
    const Cabinet *one = &workshop->cabinets.items[0];
    assert_same(one->width_m, 0.6);
    assert_same(one->depth_m, 0.5);
    assert_same(one->height_m, 1.4);
    assert_int_equal(one->wall, CABINET_INSULATED);
    assert_same(one->wall_w_m2k, 0.8);
    assert_same(one->inlet_m2, 0.004);
    assert_same(one->outlet_m2, 0.005);
    assert_same(one->rise_m, 1.2);
    assert_same(one->inlet_full_m2, 0.008);
    assert_not_stated(one->outlet_full_m2);
    assert_int_equal(one->exposure, EXPOSURE_HALF_OPEN);
    assert_int_equal(workshop->cabinets.items[1].wall, CABINET_CARDBOARD);
    assert_int_equal(workshop->cabinets.items[1].exposure, EXPOSURE_SHELTERED);
}

static void fills_the_product(void **state) {
    (void)state;
    assert_string_equal(batch->file, batch_path);
    assert_string_equal(batch->name, "Everything");
    assert_string_equal(batch->lot, "X7");
    assert_ptr_equal(batch->workshop, workshop); /* read once */
    assert_ptr_equal(batch->cabinet, &workshop->cabinets.items[1]);
    const Product *product = &batch->product;
    assert_int_equal(product->kind, PRODUCT_FISH);
    assert_string_equal(product->lot, "H-4711");
    assert_same(product->mass_kg, 4);
    assert_int_equal(product->pieces, 12);
    assert_same(product->smoke_time_s, 21600);
    assert_same(product->salt, 0.03);
    assert_same(product->water, 0.6);
    assert_true(product->cured && product->cured_stated && product->vacuum_packed);
    assert_same(product->limit_temp_c, 28);
    assert_true(product->cure.stated);
    assert_int_equal(product->cure.method, CURE_PUMPED);
    assert_same(product->cure.cure_kg, 0.2);
    assert_same(product->cure.nitrite, 0.006);
    assert_same(product->cure.pump_share, 0.1);
    assert_same(product->cure.pickle_kg, 2.2);
    assert_not_stated(product->cure.water_kg);
    assert_true(product->freezing.stated && product->freezing.farmed);
    assert_same(product->freezing.temp_c, -20);
    assert_same(product->freezing.time_s, 604800);
}

static void fills_the_days_before(void **state) {
    (void)state;
    const Batch *salted = read_batch(&reader, "tests/input/good/salted.xml");
    assert_non_null(salted);
    const Freezing *freezing = &salted->product.freezing;
    assert_true(freezing->planned);
    assert_int_equal(freezing->begun, berlin(-20, 8, 0)); /* 10 November */
    assert_same(freezing->thaw_s, 36 * 3600);
    const Salting *salting = &salted->product.salting;
    assert_true(salting->stated && salting->in_degrees);
    assert_int_equal(salting->method, SALTING_EQUILIBRIUM);
    assert_not_stated(salting->salt);
    assert_close(salting->strength, 0.15837, 1e-12);
    assert_same(salting->water_kg, 5);
    assert_same(salting->time_s, 3 * 86400);
    assert_same(salting->temp_c, 2);
    assert_same(salting->rinse_s, 0); /* only wiped, as nothing is written */
    assert_same(salting->dry_s, 36000);
    assert_int_equal(salting->begun, berlin(-10, 8, 0));
    assert_false(batch->product.salting.stated || batch->product.freezing.planned);
    const Batch *brined = read_batch(&reader, "samples/trout-brined.xml");
    assert_same(brined->product.salting.temp_c, 3);
    assert_same(brined->product.salting.rinse_s, 900);
    assert_int_equal(brined->product.salting.begun, 0);
}

static void fills_the_blend(void **state) {
    (void)state;
    const Blend *blend = &batch->blend;
    assert_true(blend->by_volume);
    assert_same(blend->target_margin, 1.4);
    assert_int_equal(blend->parts.count, 3);
    const BlendPart *part = blend->parts.items;
    assert_ptr_equal(part[0].dust, &workshop->dusts.items[0]);
    assert_int_equal(part[0].kind, SHARE_FIXED);
    assert_close(part[0].share, 0.602 / 1.002, 1e-15); /* scaled to a sum of 1 */
    assert_close(part[1].share, 0.4 / 1.002, 1e-15);
    assert_same(part[0].at_least, 0.2);
    assert_same(part[1].at_least, 0);
    assert_int_equal(part[2].kind, SHARE_LEAST);
    assert_same(part[2].share, 2);
    assert_ptr_equal(part[2].dust, &workshop->dusts.items[2]);
}

static void fills_the_fills(void **state) {
    (void)state;
    assert_int_equal(batch->fills.count, 4);
    const Fill *fill = batch->fills.items;
    assert_ptr_equal(fill[0].tray, &workshop->trays.items[0]);
    assert_same(fill[0].level, 0.8);
    assert_false(fill[0].heaped);
    assert_int_equal(fill[0].packing, PACKING_TAMPED);
    assert_true(fill[0].both_ends);
    assert_int_equal(fill[0].repeat, 2);
    assert_same(fill[0].burn_time_s, 18000);
    assert_true(fill[1].heaped);
    assert_close(fill[1].heap_angle_rad, 0.6108652381980153, 1e-15); /* 35 π/180 */
    assert_int_equal(fill[1].packing, PACKING_SPRINKLED);
    assert_true(fill[2].heaped);
    assert_not_stated(fill[2].heap_angle_rad);
    assert_same(fill[2].level, 1);
    assert_int_equal(fill[2].packing, PACKING_LEVELLED);
    assert_false(fill[2].both_ends);
    assert_int_equal(fill[2].repeat, 1);
    assert_not_stated(fill[2].burn_time_s);
    assert_false(fill[3].heaped);
    assert_true(batch->predry.stated);
    assert_same(batch->predry.oven_temp_c, 100);
    assert_not_stated(batch->predry.time_s);
    assert_same(batch->predry.target, 0.04);
    assert_same(batch->predry.wait_s, 9000);
}

static void fills_the_night(void **state) {
    (void)state;
    assert_int_equal(batch->weather.readings.count, 2);
    const WeatherReading *hour = batch->weather.readings.items;
    assert_int_equal(hour[0].at, berlin(4, 12, 0));
    assert_same(hour[0].temp_c, 6.5);
    assert_same(hour[0].humidity, 0.78);
    assert_not_stated(hour[0].wind_mps);
    assert_same(hour[1].wind_mps, 21.5);
    assert_false(batch->weather.swings);
    assert_int_equal(hour[1].at, berlin(5, 12, 0));
    assert_same(hour[1].temp_c, -1);
    assert_same(hour[1].humidity, 1);
    assert_int_equal(batch->timing.kind, TIMING_BEST);
    assert_int_equal(batch->timing.at, berlin(4, 18, 0));
    assert_int_equal(batch->timing.to, berlin(5, 6, 0));
    /* and a night of sleep for each day that it may burn in */
    assert_int_equal(batch->timing.away.count, 2 + 20);
    assert_int_equal(batch->timing.away.items[0].from, berlin(5, 0, 0));
    assert_int_equal(batch->timing.away.items[1].to, berlin(5, 9, 0));
}

static void amounts_of_a_record(void **state) {
    (void)state;
    Arena *own = arena_new();
    Reader other = reader_new(own);
    const Batch *read = read_batch(&other, "samples/cheese-last-week.xml");
    assert_non_null(read);
    assert_same(read->record.filled_m, 0.821);
    assert_same(read->record.used_kg, 0.072);
    assert_not_stated(read->record.burnt_m);
    assert_not_stated(batch->record.filled_m);
    assert_not_stated(batch->record.used_kg);
    arena_free(own);
}

static void fills_bags_and_record(void **state) {
    (void)state;
    assert_int_equal(batch->bags.count, 2);
    const BagOrder *bag = batch->bags.items;
    assert_close(bag[0].net_kg, 0.3401942775, 1e-15);
    assert_int_equal(bag[0].count, 6);
    assert_string_equal(bag[0].stock, "a4-8");
    assert_int_equal(bag[0].first, 3);
    assert_same(bag[0].face_width_m, 0.1);
    assert_same(bag[0].face_height_m, 0.15);
    assert_date(bag[0].packed, 2026, 12, 4);
    assert_string_equal(bag[0].tray->id, "coil");
    assert_true(bag[0].numbered);
    assert_null(bag[1].tray);
    assert_false(bag[1].numbered);
    assert_int_equal(bag[1].first, 1);
    assert_not_stated(bag[1].face_width_m);
    assert_int_equal(bag[1].packed.year, 0);
    const Record *record = &batch->record;
    assert_true(record->stated && record->went_out_early);
    assert_int_equal(record->lit, berlin(4, 21, 30));
    assert_int_equal(record->out, berlin(5, 5, 10) + 30);
    assert_same(record->burnt_m, 0.6);
    assert_same(record->ash_kg, 0.012);
    assert_string_equal(record->remark, "windy");
    assert_int_equal(record->relit.count, 2);
    assert_int_equal(record->relit.items[1], berlin(5, 1, 0));
    assert_int_equal(record->readings.count, 3); /* of which nothing is written did not happen */
    assert_same(record->readings.items[0].front_m, 0.05);
    assert_not_stated(record->readings.items[0].cabinet_temp_c);
    assert_close(record->readings.items[1].cabinet_temp_c, 18, 1e-12);
    assert_string_equal(record->readings.items[1].remark, "cold");
    assert_close(record->readings.items[1].humidity, 0.81, 1e-12);
    assert_int_equal(record->readings.items[2].at, berlin(5, 3, 0));
    assert_not_stated(record->readings.items[2].front_m);
    assert_string_equal(record->readings.items[2].remark, "? cold too"); /* somebody's words */
    assert_not_stated(record->filled_m);
    assert_same(record->product_kg, 3.8);
    assert_string_equal(record->by, "M. K.");
}

/* ---- Behaviour ----------------------------------------------------------------------------- */

static void accepts_the_samples(void **state) {
    (void)state;
    glob_t files;
    Reader samples = reader_new(arena_new());
    assert_int_equal(glob("samples/*.xml", 0, NULL, &files), 0);
    assert_true(files.gl_pathc > 1);
    for (size_t i = 0; i < files.gl_pathc; i++)
        if (!file_accepted(&samples, files.gl_pathv[i]))
            fail_msg("%s has faults", files.gl_pathv[i]);
    assert_int_equal(samples.workshops.count, 3);
    globfree(&files);
    arena_free(samples.arena);
}

/* Files read one after the other, each in memory of its own: the workshop stays, the lines of its
 * file can still be shown, and what was reported of one batch is gone with it. */
static void reads_in_memory_for_a_while(void **state) {
    (void)state;
    Arena *lasting = arena_new();
    Reader several = reader_new(lasting);
    const Workshop *shared = NULL;
    for (int turn = 0; turn < 3; turn++) {
        Arena *own = arena_new();
        Diagnostics before = reader_enter(&several, own);
        const Batch *cheese = read_batch(&several, "samples/cheese-overnight.xml");
        assert_non_null(cheese);
        assert_true(!shared || cheese->workshop == shared);
        shared = cheese->workshop;
        assert_null(read_batch(&several, "tests/broken/five-mistakes.xml"));
        reader_leave(&several, &before);
        arena_free(own);
        assert_int_equal(diagnostics_errors(&several.diagnostics, NULL), 0);
    }
    assert_string_equal(shared->dusts.items[0].id, "beech");
    report_error(&several.diagnostics, shared->dusts.items[0].place, NULL, "here");
    Text text = text_new(lasting);
    diagnostics_add_to(&several.diagnostics, &text);
    assert_non_null(strstr(text.bytes, "<dust id=\"beech\""));
    arena_free(lasting);
}

static void reads_a_bad_workshop_once(void **state) {
    (void)state;
    Reader bad = reader_new(arena_new());
    assert_null(read_batch(&bad, "tests/broken/bad-workshop.xml"));
    size_t own = diagnostics_errors(&bad.diagnostics, "tests/broken/workshop-faults.xml");
    assert_int_equal(own, 6);
    diagnostics_clear(&bad.diagnostics);
    assert_null(read_batch(&bad, "tests/broken/bad-workshop.xml"));
    assert_int_equal(diagnostics_errors(&bad.diagnostics, "tests/broken/workshop-faults.xml"), 0);
    assert_int_equal(diagnostics_errors(&bad.diagnostics, "tests/broken/bad-workshop.xml"), 2);
    assert_null(read_workshop(&bad, "tests/broken/workshop-faults.xml"));
    assert_false(file_accepted(&bad, "tests/broken/workshop-faults.xml"));
    arena_free(bad.arena);
}

static void tells_what_could_not_be_opened(void **state) {
    (void)state;
    Reader none = reader_new(arena_new());
    assert_null(read_batch(&none, "tests/broken/none.xml"));
    assert_true(none.could_not_open);
    assert_null(read_batch(&none, "tests/broken/shares.xml"));
    assert_false(none.could_not_open);
    assert_null(read_batch(&none, "tests/broken/no-workshop.xml"));
    assert_true(none.could_not_open);
    assert_null(read_batch(&none, "tests/broken/no-workshop.xml"));
    assert_true(none.could_not_open);
    assert_null(read_workshop(&none, "tests/broken"));
    assert_true(none.could_not_open);
    arena_free(none.arena);
}

/* A file of this text in a folder of its own; its path lives in the arena. */
static const char *written(Arena *arena, const char *text, size_t length) {
    char *path = arena_string(arena, "/tmp/burnsheet-input-XXXXXX");
    int descriptor = mkstemp(path);
    assert_true(descriptor >= 0);
    assert_int_equal(write(descriptor, text, length), (ssize_t)length);
    close(descriptor);
    return path;
}

/* The shortest file in which the attribute stands, with a value that can not be. */
static const char *with_nonsense(Arena *arena, const ElementRule *element,
                                 const AttributeRule *rule, const char *folder) {
    bool words = rule->kind == VALUE_TEXT || rule->kind == VALUE_ID;
    const char *text =
        arena_format(arena, "<%s %s=\"%s\"/>", element->name, rule->name, words ? " " : "!");
    const ElementRule *outer;
    for (element_rule(file_roots, element->name, &outer); outer;
         element_rule(file_roots, outer->name, &outer))
        text = arena_format(arena, "<%s>%s</%s>", outer->name, text, outer->name);
    if (!strncmp(text, "<batch>", 7))
        text = arena_format(arena, "<batch workshop=\"%s/tests/broken/workshop-good.xml\">%s",
                            folder, text + 7);
    return text;
}

/* Whether an error points at a value that is one character long and stands in front of `"/>`. */
static bool has_error_at(const Diagnostics *diagnostics, int column) {
    for (size_t i = 0; i < diagnostics->list.count; i++) {
        const Diagnostic *item = &diagnostics->list.items[i];
        if (item->severity == SEVERITY_ERROR && item->place.column == column)
            return true;
    }
    return false;
}

static void is_read(const ElementRule *element, const AttributeRule *rule, const char *folder) {
    Reader one = reader_new(arena_new());
    const char *text = with_nonsense(one.arena, element, rule, folder);
    const char *path = written(one.arena, text, strlen(text));
    assert_false(file_accepted(&one, path));
    unlink(path);
    const char *start = strstr(text, arena_format(one.arena, " %s=\"", rule->name));
    while (strstr(start + 1, arena_format(one.arena, " %s=\"", rule->name)))
        start = strstr(start + 1, arena_format(one.arena, " %s=\"", rule->name));
    int column = (int)(start - text) + (int)strlen(rule->name) + 3 + 1;
    if (!has_error_at(&one.diagnostics, column))
        fail_msg("nobody minds nonsense in '%s' of '%s'", rule->name, element->name);
    arena_free(one.arena);
}

static void every_attribute_is_read(void **state) {
    (void)state;
    char folder[4096];
    assert_non_null(getcwd(folder, sizeof folder));
    Arena *arena = arena_new();
    size_t count = 0;
    for (Roots root = file_roots; *root; root++) {
        ElementRules elements = element_rules(arena, *root);
        for (size_t i = 0; i < elements.count; i++)
            for (size_t k = 0; k < elements.items[i]->attribute_count; k++, count++)
                is_read(elements.items[i], &elements.items[i]->attributes[k], folder);
    }
    assert_true(count > 150);
    arena_free(arena);
}

/* A good file with a few bytes changed is accepted or refused with a reason that can be shown;
 * what is accepted has no value that is no number where one must be. */
static void survives_changed_bytes(void **state) {
    (void)state;
    static const char put_in[] = "<>&\"'=/ !-?[]%0123456789.,kgmhT:\xC3\x80\xFF\n\tabz";
    const char *const paths[] = {"tests/broken/workshop-good.xml", batch_path};
    uint64_t seed = 4122026;
    for (int run = 0; run < 600; run++) {
        Reader one = reader_new(arena_new());
        Bytes bytes;
        const char *error;
        assert_true(file_read(one.arena, paths[run % 2], 100000, &bytes, &error));
        int changes = (int)close_random(&seed, 1, 4);
        for (int i = 0; i < changes; i++) {
            size_t at = (size_t)close_random(&seed, 0, (double)bytes.length - 0.5);
            size_t letter = (size_t)close_random(&seed, 0, sizeof put_in - 1.5);
            bytes.data[at] = (uint8_t)put_in[letter];
        }
        size_t length = run % 5 ? bytes.length
                                : (size_t)close_random(&seed, 0, (double)bytes.length);
        const char *path = written(one.arena, (const char *)bytes.data, length);
        bool accepted = file_accepted(&one, path);
        unlink(path);
        assert_int_equal(accepted, diagnostics_errors(&one.diagnostics, NULL) == 0);
        Text text = text_new(one.arena);
        diagnostics_add_to(&one.diagnostics, &text);
        arena_free(one.arena);
    }
}

/* Of three dusts, one without an id, only so many are looked through as are said to be there. */
static void what_has_an_id_is_found_and_nothing_beyond(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Diagnostics diagnostics = diagnostics_new(arena);
    Form form = {.arena = arena, .diagnostics = &diagnostics};
    Element part = {.name = "part"};
    const Dust dusts[] = {{.id = NULL}, {.id = "oak"}, {.id = "beech"}};
    Items items = {dusts, 2, sizeof *dusts, offsetof(Dust, id)};
    assert_ptr_equal(find_item(&form, &part, "dust", "oak", items), &dusts[1]);
    assert_null(find_item(&form, &part, "dust", NULL, items));
    assert_int_equal(diagnostics.list.count, 0);
    assert_null(find_item(&form, &part, "dust", "beech", items));
    assert_int_equal(diagnostics.list.count, 1);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fills_the_workshop),
        cmocka_unit_test(fills_a_dust),
        cmocka_unit_test(fills_the_grains),
        cmocka_unit_test(leaves_unstated_what_is),
        cmocka_unit_test(fills_trials),
        cmocka_unit_test(fills_trays_and_cabinets),
        cmocka_unit_test(fills_the_product),
        cmocka_unit_test(fills_the_days_before),
        cmocka_unit_test(fills_the_blend),
        cmocka_unit_test(fills_the_fills),
        cmocka_unit_test(fills_the_night),
        cmocka_unit_test(fills_bags_and_record),
        cmocka_unit_test(amounts_of_a_record),
        cmocka_unit_test(accepts_the_samples),
        cmocka_unit_test(reads_in_memory_for_a_while),
        cmocka_unit_test(reads_a_bad_workshop_once),
        cmocka_unit_test(tells_what_could_not_be_opened),
        cmocka_unit_test(every_attribute_is_read),
        cmocka_unit_test(survives_changed_bytes),
        cmocka_unit_test(what_has_an_id_is_found_and_nothing_beyond),
    };
    return cmocka_run_group_tests(tests, read_files, give_back);
}
