/* The printed sheet of every sample (by pdftotext) against its plan as XML: what is printed is
 * worked out here from the XML's figures, not by the program's formatter; and every figure on the
 * sheet is one of the XML's. */
#include "support/sample.h"

#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static Samples all;
static Arena *shared;

static int read_samples(void **state) {
    (void)state;
    samples_read(&all);
    shared = all.arena;
    return 0;
}

static int free_samples(void **state) {
    (void)state;
    samples_free(&all);
    return 0;
}

/* HH:MM of an instant written as 2026-12-04T21:30:29+01:00, to the nearest minute. */
static const char *clock_of(const Sample *sample, xmlNode *node, const char *name) {
    int hour, minute, second;
    const char *instant = sample_must(sample, node, name);
    assert_int_equal(sscanf(instant, "%*d-%*d-%*dT%d:%d:%d", &hour, &minute, &second), 3);
    int minutes = (hour * 60 + minute + (second >= 30)) % (24 * 60);
    return arena_format(shared, "%02d:%02d", minutes / 60, minutes % 60);
}

static void printed(const Sample *sample, const char *text) {
    if (!strstr(sample->sheet, text))
        fail_msg("the sheet of %s does not say '%s':\n%s", sample->name, text, sample->sheet);
}

static bool lit(const Sample *sample) {
    const char *verdict = sample_must(sample, sample_only(sample, "."), "verdict");
    bool over = !strcmp(sample_must(sample, sample_only(sample, "happened"), "over"), "yes");
    return !over && strcmp(verdict, "verdict.do_not_light") != 0;
}

/* ---- The sheet against the XML -------------------------------------------------------------- */

static const char *grams(const Sample *sample, xmlNode *node, const char *name) {
    double kg = sample_number(sample, node, name);
    return kg < 0.9995 ? arena_format(shared, "%.0f g", kg * 1000)
                       : arena_format(shared, "%.3f kg", kg);
}

static void headline_is_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        xmlNode *burn = sample_only(sample, "burn");
        printed(sample, sample_must(sample, sample_only(sample, "."), "lot"));
        if (!lit(sample))
            continue; /* nothing of a night that must not be */
        printed(sample, clock_of(sample, burn, "out_early"));
        printed(sample, clock_of(sample, burn, "out_late"));
        printed(sample, clock_of(sample, burn, "light_at"));
        printed(sample, clock_of(sample, burn, "out_about"));
        printed(sample, arena_format(shared, "about %.0f in %.0f",
                                     sample_number(sample, burn, "chance_said_in"),
                                     sample_number(sample, burn, "chance_said_of")));
    }
}

static void weights_are_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        if (!lit(sample))
            continue;
        double running_kg = 0;
        Found parts = sample_find(sample, "blend/part");
        for (size_t part = 0; part < parts.count; part++) {
            xmlNode *node = parts.nodes[part];
            running_kg += sample_number(sample, node, "wet_mass");
            assert_true(fabs(sample_number(sample, node, "running_mass") - running_kg) < 1e-6);
            printed(sample, sample_must(sample, node, "name"));
            printed(sample, arena_format(shared, "%s %s", grams(sample, node, "wet_mass"),
                                         grams(sample, node, "running_mass")));
        }
        xmlNode *blend = sample_only(sample, "blend");
        assert_true(fabs(sample_number(sample, blend, "wet_mass") - running_kg) < 1e-6);
        printed(sample, grams(sample, blend, "wet_mass"));
    }
}

static void steps_are_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        Found steps = sample_find(sample, "step");
        assert_true(steps.count >= 5);
        for (size_t step = 0; lit(sample) && step < steps.count; step++) {
            xmlNode *node = steps.nodes[step];
            const char *part = sample_must(sample, node, "part");
            if (!strcmp(part, "food") || !strcmp(part, "dust"))
                printed(sample, arena_format(shared, "%s ", clock_of(sample, node, "at")));
        }
    }
}

static void looks_are_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        Found look_ins = sample_find(sample, "look");
        for (size_t look_in = 0; lit(sample) && look_in < look_ins.count; look_in++) {
            xmlNode *node = look_ins.nodes[look_in];
            xmlNode *out = sample_only(sample, "step[starts-with(@text,'step.take_out')]");
            if (!strcmp(sample_must(sample, node, "at"), sample_must(sample, out, "at")))
                continue; /* the end has a row of its own */
            const char *fill = sample_must(sample, node, "fill");
            const char *tray = arena_format(shared, "fill[@number='%s']", fill);
            const char *channel = sample_must(sample, sample_only(sample, tray), "channel");
            bool lanes = !strcmp(channel, "channel.lanes");
            const char *place =
                lanes
                    ? arena_format(shared, "lane %s, %.0f %%", sample_must(sample, node, "lane"),
                                   100 * sample_number(sample, node, "in_lane"))
                    : arena_format(shared, "%.0f mm", 1000 * sample_number(sample, node, "along"));
            printed(sample, clock_of(sample, node, "at"));
            bool drawn = strstr(sample->sheet, "arrow the glow") !=
                         NULL; /* its tray, by its marks */
            if (!drawn)
                printed(sample, place);
            bool ended = !strcmp(sample_must(sample, node, "after_end"), "yes");
            printed(sample, ended ? "should be out; glow here: slow"
                                  : arena_format(shared, "%.0f °C",
                                                 sample_number(sample, node, "cabinet_temp")));
        }
    }
}

/* The map names as many of the full hours as there is room for, but never another one. */
static void map_hours_are_in_the_plan(void **state) {
    (void)state;
    size_t shown = 0;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        Found hours = sample_find(sample, "fill/hour");
        for (size_t hour = 0; hour < hours.count; hour++) {
            const char *clock = clock_of(sample, hours.nodes[hour], "at");
            assert_string_equal(clock + 2, ":00");
            shown += strstr(sample->sheet, clock) != NULL;
        }
    }
    assert_true(shown > 20);
}

static void drying_is_printed(void **state) {
    (void)state;
    size_t dried = 0;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        xmlNode *drying = sample_only(sample, "drying");
        if (!lit(sample) || strcmp(sample_must(sample, drying, "needed"), "yes") != 0)
            continue;
        dried++;
        /* a loss that the scale cannot show is told by its size, and dried by the clock */
        bool shows = !strcmp(sample_must(sample, drying, "scale_can_tell"), "yes");
        bool assumed = !strcmp(sample_must(sample, drying, "assumed"), "yes");
        bool range = assumed && shows;
        const char *end = shows ? "end_mass" : "water_mass";
        printed(sample, grams(sample, drying, range ? "end_low_mass" : end));
        printed(sample, grams(sample, drying, range ? "end_high_mass" : end));
        double minutes = sample_number(sample, drying, "time") / 60;
        double oven_c = sample_number(sample, drying, "oven_temp");
        printed(sample, arena_format(shared, "%.0f °C", oven_c));
        printed(sample, arena_format(shared, "%.0f min", minutes));
        /* a full page gives the panel of the drying up, and keeps the step */
        if (strstr(sample->sheet, "before; moisture"))
            printed(sample, arena_format(shared, "%.1f %%",
                                         100 * sample_number(sample, drying, "to_moisture")));
        double left_kg = sample_number(sample, drying, "end_mass");
        double all_kg = left_kg + sample_number(sample, drying, "water_mass");
        assert_true(fabs(all_kg - sample_number(sample, drying, "start_mass")) < 1e-6);
    }
    assert_true(dried >= 3);
}

/* ---- Every figure of the sheet, looked for in the XML --------------------------------------- */

typedef struct PrintedUnit {
    const char *sign; /* on the sheet, behind the number */
    const char *unit; /* in the XML; "" for a plain number */
    double scale;
} PrintedUnit;

static const PrintedUnit printed_units[] = {
    {" g", " kg", 1000}, {" kg", " kg", 1},        {" °C", " C", 1},   {" mm", " m", 1000},
    {" %", "", 100},     {" mm/h", " m/s", 3.6e6}, {" µm", " m", 1e6},
};

/* Whether an attribute of the node or below it, in that unit, rounds to the printed number. */
static bool has_figure(xmlNode *node, const PrintedUnit *wanted, const char *number, int decimals) {
    for (const xmlAttr *attribute = node->properties; attribute; attribute = attribute->next) {
        const char *raw = (const char *)attribute->children->content;
        char *unit;
        double value = strtod(raw, &unit);
        char rounded[60];
        snprintf(rounded, sizeof rounded, "%.*f", decimals, value * wanted->scale);
        if (unit != raw && !strcmp(unit, wanted->unit) && !strcmp(rounded, number))
            return true;
    }
    for (xmlNode *child = node->children; child; child = child->next)
        if (child->type == XML_ELEMENT_NODE && has_figure(child, wanted, number, decimals))
            return true;
    return false;
}

/* The number that ends at `end`, copied without the signs that group digits. */
static const char *number_before(const Sample *sample, const char *end, int *decimals) {
    const char *start = end;
    while (start > sample->sheet && strchr("0123456789.", start[-1]))
        start--;
    const char *point = memchr(start, '.', (size_t)(end - start));
    *decimals = point ? (int)(end - point) - 1 : 0;
    return arena_copy(shared, start, (size_t)(end - start));
}

static bool ends_word(const char *at) {
    return !((*at >= 'a' && *at <= 'z') || *at == '/' || *at == '\'');
}

/* What the words say as they stand, such as "butter is soft at 20 °C", is no figure of the plan. */
static bool stands_in_words(const char *words, const char *number, const char *sign) {
    return strstr(words, arena_format(shared, "%s%s", number, sign)) != NULL;
}

static size_t check_unit(const Sample *sample, const PrintedUnit *unit, const char *words) {
    size_t count = 0;
    for (const char *at = strstr(sample->sheet, unit->sign); at; at = strstr(at + 1, unit->sign)) {
        int decimals;
        const char *number = number_before(sample, at, &decimals);
        if (!*number || !ends_word(at + strlen(unit->sign)))
            continue;
        count++;
        if (!has_figure(xmlDocGetRootElement(sample->plan), unit, number, decimals) &&
            !stands_in_words(words, number, unit->sign))
            fail_msg("the sheet of %s says '%s%s', the XML does not", sample->name, number,
                     unit->sign);
    }
    return count;
}

static void printed_figures_are_in_the_plan(void **state) {
    (void)state;
    const char *words = outside_run(shared, NULL, "cat templates/words/en.xml");
    words = sample_one_blank(shared, words);
    for (size_t i = 0; i < all.count; i++) {
        size_t count = 0;
        for (size_t unit = 0; unit < sizeof printed_units / sizeof *printed_units; unit++)
            count += check_unit(&all.items[i], &printed_units[unit], words);
        assert_true(count >= (lit(&all.items[i]) ? 10 : 3));
    }
}

/* Whether an attribute that is an instant shows as that clock time. */
static bool has_clock(const Sample *sample, xmlNode *node, const char *clock) {
    for (const xmlAttr *attribute = node->properties; attribute; attribute = attribute->next) {
        const char *raw = (const char *)attribute->children->content;
        if (strlen(raw) == strlen("2026-12-04T21:30:00+00:00") && raw[10] == 'T' &&
            !strcmp(clock_of(sample, node, (const char *)attribute->name), clock))
            return true;
    }
    for (xmlNode *child = node->children; child; child = child->next)
        if (child->type == XML_ELEMENT_NODE && has_clock(sample, child, clock))
            return true;
    return false;
}

static void printed_times_are_in_the_plan(void **state) {
    (void)state;
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
        const char *end = strstr(sample->sheet, "burnsheet "); /* the footer: time of printing */
        assert_non_null(end);
        for (const char *at = sample->sheet; at + 5 < end; at++) {
            int hour, minute;
            /* full hours are also what the axis of the curve is divided by */
            if (at[2] != ':' || sscanf(at, "%2d:%2d", &hour, &minute) != 2 || minute == 0)
                continue;
            const char *clock = arena_format(shared, "%02d:%02d", hour, minute);
            if (!has_clock(sample, xmlDocGetRootElement(sample->plan), clock))
                fail_msg("the sheet of %s says %s, the XML does not", sample->name, clock);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(headline_is_printed),
        cmocka_unit_test(weights_are_printed),
        cmocka_unit_test(steps_are_printed),
        cmocka_unit_test(looks_are_printed),
        cmocka_unit_test(map_hours_are_in_the_plan),
        cmocka_unit_test(drying_is_printed),
        cmocka_unit_test(printed_figures_are_in_the_plan),
        cmocka_unit_test(printed_times_are_in_the_plan),
    };
    return cmocka_run_group_tests(tests, read_samples, free_samples);
}
