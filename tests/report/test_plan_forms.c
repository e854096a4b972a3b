/* The plan as XML, CSV and list of fields, for every sample: read back by libxml2 and by a reader
 * of RFC 4180 of the test's own, and held against the text of the printed sheet (pdftotext). What
 * is printed is worked out here from the XML's figures, not by the program's formatter. */
#include "support/outside.h"

#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glob.h>
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One sample with all its forms. */
typedef struct Sample {
    Arena *arena;
    const char *name;
    const char *fields; /* plan --as fields */
    const char *csv;
    const char *sheet; /* text of the sheet, every kind of space as one blank */
    xmlDoc *plan;
} Sample;

static Arena *shared;
static Sample samples[40];
static size_t sample_count;

/* Words run on over lines and columns of the page: any run of white space is one blank. */
static const char *one_blank(Arena *arena, const char *raw) {
    static const char *const spaces[] = {"\u00a0", "\u2009", "\u202f", " ", "\n", "\f", "\r", "\t"};
    Text text = text_new(arena);
    while (*raw) {
        size_t length = 0;
        for (size_t i = 0; i < sizeof spaces / sizeof *spaces && !length; i++)
            if (!strncmp(raw, spaces[i], strlen(spaces[i])))
                length = strlen(spaces[i]);
        if (!length)
            text_add_bytes(&text, raw, 1);
        else if (text.length && text.bytes[text.length - 1] != ' ')
            text_add(&text, " ");
        raw += length ? length : 1;
    }
    return text.bytes;
}

static const char *program(Arena *arena, const char *arguments) {
    int status = -1;
    const char *said = outside_run(arena, &status, "\"$BURNSHEET\" %s", arguments);
    if (status != 0)
        print_error("burnsheet %s:\n%s\n", arguments, said);
    assert_int_equal(status, 0);
    return said;
}

static void read_sample(Sample *sample, const char *file, const char *folder) {
    Arena *arena = shared;
    const char *name = strrchr(file, '/') + 1;
    sample->arena = arena;
    sample->name = arena_copy(arena, name, strlen(name) - strlen(".xml"));
    sample->fields = program(arena, arena_format(arena, "plan --as fields %s", file));
    sample->csv = program(arena, arena_format(arena, "plan --as csv %s", file));
    const char *xml = program(arena, arena_format(arena, "plan --as xml %s", file));
    sample->plan = xmlReadMemory(xml, (int)strlen(xml), NULL, NULL, XML_PARSE_NONET);
    program(arena, arena_format(arena, "sheet -o %s %s", folder, file));
    int status;
    sample->sheet = one_blank(arena, outside_run(arena, &status, "pdftotext -raw %s/%s.sheet.pdf -",
                                                 folder, sample->name));
    assert_int_equal(status, 0);
}

static int read_samples(void **state) {
    (void)state;
    if (!getenv("BURNSHEET"))
        setenv("BURNSHEET", ".build/burnsheet", 0);
    shared = arena_new();
    const char *folder = outside_folder(shared);
    glob_t files;
    assert_int_equal(glob("samples/*.xml", 0, NULL, &files), 0);
    for (size_t i = 0; i < files.gl_pathc; i++)
        if (!strstr(files.gl_pathv[i], "workshop"))
            read_sample(&samples[sample_count++], files.gl_pathv[i], folder);
    globfree(&files);
    outside_remove(folder);
    assert_true(sample_count >= 6);
    return 0;
}

static int free_samples(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++)
        xmlFreeDoc(samples[i].plan);
    xmlCleanupParser();
    arena_free(shared);
    return 0;
}

/* ---- Finding figures ------------------------------------------------------------------------- */

/* All elements of a path such as "blend/part", at most 200. */
typedef struct Found {
    size_t count;
    xmlNode *nodes[200];
} Found;

static Found find(const Sample *sample, const char *path) {
    Found found = {0};
    xmlXPathContext *context = xmlXPathNewContext(sample->plan);
    const char *whole = arena_format(sample->arena, "/plan/%s", path);
    xmlXPathObject *result = xmlXPathEvalExpression((const xmlChar *)whole, context);
    assert_non_null(result);
    for (int i = 0; result->nodesetval && i < result->nodesetval->nodeNr; i++) {
        assert_true(found.count < sizeof found.nodes / sizeof *found.nodes);
        found.nodes[found.count++] = result->nodesetval->nodeTab[i];
    }
    xmlXPathFreeObject(result);
    xmlXPathFreeContext(context);
    return found;
}

static const char *text_of(const Sample *sample, xmlNode *node, const char *name) {
    xmlChar *raw = xmlGetNoNsProp(node, (const xmlChar *)name);
    const char *text = raw ? arena_string(sample->arena, (const char *)raw) : NULL;
    xmlFree(raw);
    return text;
}

static const char *must(const Sample *sample, xmlNode *node, const char *name) {
    const char *text = text_of(sample, node, name);
    if (!text)
        fail_msg("%s: '%s' has no '%s'", sample->name, (const char *)node->name, name);
    return text;
}

static double number_of(const Sample *sample, xmlNode *node, const char *name) {
    return strtod(must(sample, node, name), NULL);
}

static xmlNode *only(const Sample *sample, const char *path) {
    Found found = find(sample, path);
    assert_int_equal(found.count, 1);
    return found.nodes[0];
}

/* HH:MM of an instant written as 2026-12-04T21:30:29+01:00, to the nearest minute. */
static const char *clock_of(const Sample *sample, xmlNode *node, const char *name) {
    int hour, minute, second;
    const char *instant = must(sample, node, name);
    assert_int_equal(sscanf(instant, "%*d-%*d-%*dT%d:%d:%d", &hour, &minute, &second), 3);
    int minutes = (hour * 60 + minute + (second >= 30)) % (24 * 60);
    return arena_format(sample->arena, "%02d:%02d", minutes / 60, minutes % 60);
}

static void printed(const Sample *sample, const char *text) {
    if (!strstr(sample->sheet, text))
        fail_msg("the sheet of %s does not say '%s':\n%s", sample->name, text, sample->sheet);
}

static bool lit(const Sample *sample) {
    const char *verdict = must(sample, only(sample, "."), "verdict");
    return strcmp(verdict, "verdict.do_not_light") != 0;
}

/* ---- Forms ----------------------------------------------------------------------------------- */

static void well_formed(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        if (!samples[i].plan)
            fail_msg("the plan of %s as XML is not well formed", samples[i].name);
        assert_string_equal((const char *)xmlDocGetRootElement(samples[i].plan)->name, "plan");
    }
}

/* The attribute a field's path names: "fill.2.hour.3.at" is the `at` of the element
 * fill[@number=2]/hour[@number=3]. NULL: there is none. */
static const char *at_path(const Sample *sample, const char *path) {
    xmlNode *node = xmlDocGetRootElement(sample->plan);
    char *words = arena_string(sample->arena, path);
    char *last = strrchr(words, '.');
    if (last)
        *last = '\0';
    char *place = NULL;
    for (char *word = last ? strtok_r(words, ".", &place) : NULL; word && node;
         word = strtok_r(NULL, ".", &place)) {
        const char *number = place && *place >= '0' && *place <= '9' ? strtok_r(NULL, ".", &place)
                                                                     : NULL;
        for (node = node->children; node; node = node->next)
            if (node->type == XML_ELEMENT_NODE && !strcmp((const char *)node->name, word) &&
                (!number || !strcmp(must(sample, node, "number"), number)))
                break;
    }
    return node ? text_of(sample, node, last ? last + 1 : words) : NULL;
}

static size_t count_attributes(const xmlNode *node) {
    size_t count = 0;
    for (const xmlAttr *attribute = node->properties; attribute; attribute = attribute->next)
        count++;
    for (const xmlNode *child = node->children; child; child = child->next)
        if (child->type == XML_ELEMENT_NODE)
            count += count_attributes(child);
    return count;
}

/* Every field that has a figure is an attribute with the same figure, and there is no other. */
static void fields_are_attributes(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        size_t stated = 0;
        char *rest = NULL;
        for (char *line = strtok_r(arena_string(shared, sample->fields), "\n", &rest); line;
             line = strtok_r(NULL, "\n", &rest)) {
            char *figure = strchr(line, '\t');
            assert_non_null(figure);
            *figure++ = '\0';
            char *shown = strchr(figure, '\t');
            assert_non_null(shown);
            *shown = '\0';
            const char *attribute = at_path(sample, line);
            if (*figure && !attribute)
                fail_msg("%s: the XML lacks %s=\"%s\"", sample->name, line, figure);
            if (attribute)
                assert_string_equal(attribute, figure);
            stated += *figure != '\0';
        }
        assert_int_equal(count_attributes(xmlDocGetRootElement(sample->plan)), stated);
    }
}

static int by_text(const void *a, const void *b) {
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static void field_lines_are_unique(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        static char *lines[20000];
        size_t count = 0;
        char *rest = NULL;
        for (char *line = strtok_r(arena_string(shared, samples[i].fields), "\n", &rest); line;
             line = strtok_r(NULL, "\n", &rest)) {
            assert_true(count < sizeof lines / sizeof *lines);
            line[strcspn(line, "\t")] = '\0';
            lines[count++] = line;
        }
        assert_true(count > 300);
        qsort(lines, count, sizeof *lines, by_text);
        for (size_t line = 1; line < count; line++)
            assert_string_not_equal(lines[line - 1], lines[line]);
    }
}

/* Whether some sample lists the field: whole ("burn.out_at") or at the end of a row's path. */
static bool some_sample_lists(const char *name, size_t length) {
    const char *ending = arena_format(shared, ".%.*s\t", (int)length, name);
    const char *whole = arena_format(shared, "\n%.*s\t", (int)length, name);
    for (size_t i = 0; i < sample_count; i++)
        if (strstr(samples[i].fields, ending) || strstr(samples[i].fields, whole) ||
            !strncmp(samples[i].fields, whole + 1, length + 1))
            return true;
    return false;
}

/* What the words fill in, {path} or {path:style}, is a field of the plan. */
static void words_name_fields(void **state) {
    (void)state;
    static const char *const languages[] = {"en", "de", "pl"};
    for (size_t i = 0; i < 3; i++) {
        const char *words =
            outside_run(shared, NULL, "cat templates/words/%s.xml", languages[i]);
        words = strstr(words, "<word ");
        size_t count = 0;
        for (const char *at = strchr(words, '{'); at; at = strchr(at + 1, '{'), count++) {
            size_t length = strcspn(at + 1, ":}");
            if (!some_sample_lists(at + 1, length))
                fail_msg("%s.xml names {%.*s}, which is no field", languages[i], (int)length,
                         at + 1);
        }
        assert_true(count > 100);
    }
}

/* ---- CSV ------------------------------------------------------------------------------------- */

enum { CSV_COLUMNS = 14 };

/* One line without quotes (no field of it needs any), ended by CR LF. */
static const char *csv_line(const char *at, double *numbers, int *columns, char *instant) {
    const char *end = strstr(at, "\r\n");
    assert_non_null(end);
    assert_null(memchr(at, '"', (size_t)(end - at)));
    assert_null(memchr(at, '\n', (size_t)(end - at)));
    *columns = 0;
    for (; at < end; (*columns)++) {
        size_t length = strcspn(at, ",\r");
        assert_true(*columns < CSV_COLUMNS);
        if (*columns == 0) {
            assert_true(length < 40);
            memcpy(instant, at, length);
            instant[length] = '\0';
        } else {
            char *stop;
            numbers[*columns] = strtod(at, &stop);
            if (stop != at + length)
                numbers[*columns] = NAN;
        }
        at += length + (at[length] == ',');
    }
    return end + 2;
}

static long utc_of(const char *instant) {
    int y, m, d, hour, minute, second, off_hour, off_minute;
    char sign;
    assert_int_equal(sscanf(instant, "%d-%d-%dT%d:%d:%d%c%d:%d", &y, &m, &d, &hour, &minute,
                            &second, &sign, &off_hour, &off_minute),
                     9);
    /* Julian day number, Fliegel and van Flandern, Comm. ACM 11 (1968) 657 */
    long a = (m - 14) / 12;
    long day = (1461L * (y + 4800 + a)) / 4 + (367L * (m - 2 - 12 * a)) / 12 -
               (3L * ((y + 4900 + a) / 100)) / 4 + d - 32075;
    long offset = (off_hour * 60L + off_minute) * 60 * (sign == '-' ? -1 : 1);
    return ((day * 24 + hour) * 60 + minute) * 60 + second - offset;
}

static void csv_reads_back(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        double numbers[CSV_COLUMNS] = {0};
        char instant[40] = "";
        int columns;
        long before = 0;
        size_t rows = 0;
        const char *at = csv_line(samples[i].csv, numbers, &columns, instant);
        assert_int_equal(columns, CSV_COLUMNS);
        assert_string_equal(instant, "at");
        for (; *at; rows++) {
            at = csv_line(at, numbers, &columns, instant);
            assert_int_equal(columns, CSV_COLUMNS);
            assert_true(utc_of(instant) > before);
            before = utc_of(instant);
            for (int column = 1; column < CSV_COLUMNS; column++)
                assert_true(isfinite(numbers[column]));
        }
        assert_int_equal(rows, find(&samples[i], "sample").count);
        assert_true(rows > 10);
    }
}

/* ---- The sheet against the XML ---------------------------------------------------------------- */

static const char *grams(const Sample *sample, xmlNode *node, const char *name) {
    double kg = number_of(sample, node, name);
    return kg < 0.9995 ? arena_format(sample->arena, "%.0f g", kg * 1000)
                       : arena_format(sample->arena, "%.3f kg", kg);
}

static void headline_is_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        xmlNode *burn = only(sample, "burn");
        printed(sample, arena_format(sample->arena, "%s–%s", clock_of(sample, burn, "out_early"),
                                     clock_of(sample, burn, "out_late")));
        printed(sample, clock_of(sample, burn, "light_at"));
        printed(sample, clock_of(sample, burn, "out_at"));
        printed(sample, must(sample, only(sample, "."), "lot"));
        if (find(sample, "reason").count)
            printed(sample, arena_format(sample->arena, "%.2f",
                                         number_of(sample, burn, "margin_least")));
    }
}

static void weights_are_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        if (!lit(sample))
            continue;
        double running_kg = 0;
        Found parts = find(sample, "blend/part");
        for (size_t part = 0; part < parts.count; part++) {
            xmlNode *node = parts.nodes[part];
            running_kg += number_of(sample, node, "wet_mass");
            assert_true(fabs(number_of(sample, node, "running_mass") - running_kg) < 1e-6);
            printed(sample, must(sample, node, "name"));
            printed(sample, arena_format(sample->arena, "%.0f %% %s",
                                         100 * number_of(sample, node, "wet_share"),
                                         grams(sample, node, "wet_mass")));
            printed(sample, grams(sample, node, "running_mass"));
        }
        assert_true(fabs(number_of(sample, only(sample, "blend"), "wet_mass") - running_kg) < 1e-6);
        printed(sample, grams(sample, only(sample, "blend"), "wet_mass"));
    }
}

static void steps_are_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        Found steps = find(sample, "step");
        assert_true(steps.count >= 5);
        for (size_t step = 0; lit(sample) && step < steps.count; step++) {
            xmlNode *node = steps.nodes[step];
            const char *number = must(sample, node, "number");
            if (text_of(sample, node, "at"))
                printed(sample, arena_format(sample->arena, "%s %s ", number,
                                             clock_of(sample, node, "at")));
        }
    }
}

static void looks_are_printed(void **state) {
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        Found looks = find(sample, "look");
        for (size_t look = 0; lit(sample) && look < looks.count; look++) {
            xmlNode *node = looks.nodes[look];
            const char *fill = must(sample, node, "fill");
            const char *tray = arena_format(sample->arena, "fill[@number='%s']", fill);
            bool lanes = !strcmp(must(sample, only(sample, tray), "channel"), "channel.lanes");
            const char *place =
                lanes ? arena_format(sample->arena, "lane %s, %.0f %%", must(sample, node, "lane"),
                                     100 * number_of(sample, node, "in_lane"))
                      : arena_format(sample->arena, "%.0f mm",
                                     1000 * number_of(sample, node, "along"));
            printed(sample, clock_of(sample, node, "at"));
            printed(sample, place);
            printed(sample, arena_format(sample->arena, "%.0f °C",
                                         number_of(sample, node, "cabinet_temp")));
        }
    }
}

/* The map names as many of the full hours as there is room for, but never another one. */
static void map_hours_are_in_the_plan(void **state) {
    (void)state;
    size_t shown = 0;
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        Found hours = find(sample, "fill/hour");
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
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        xmlNode *drying = only(sample, "drying");
        if (!lit(sample) || strcmp(must(sample, drying, "needed"), "yes") != 0)
            continue;
        dried++;
        printed(sample, grams(sample, drying, "end_mass"));
        printed(sample, arena_format(sample->arena, "%.0f min", number_of(sample, drying, "time") / 60));
        printed(sample, arena_format(sample->arena, "%.0f °C", number_of(sample, drying, "oven_temp")));
        /* a full page gives the panel of the drying up, and keeps the step */
        if (strstr(sample->sheet, "before; moisture"))
            printed(sample, arena_format(sample->arena, "%.1f %%",
                                         100 * number_of(sample, drying, "to_moisture")));
        double lost = number_of(sample, drying, "start_mass") - number_of(sample, drying, "end_mass");
        assert_true(fabs(lost - number_of(sample, drying, "water_mass")) < 1e-6);
    }
    assert_true(dried >= 3);
}

/* ---- Every figure of the sheet, looked for in the XML ------------------------------------------ */

typedef struct PrintedUnit {
    const char *sign; /* on the sheet, behind the number */
    const char *unit; /* in the XML; "" for a plain number */
    double scale;
} PrintedUnit;

static const PrintedUnit printed_units[] = {
    {" g", " kg", 1000}, {" kg", " kg", 1},   {" °C", " C", 1},  {" mm", " m", 1000},
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
    return arena_copy(sample->arena, start, (size_t)(end - start));
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
    for (const char *at = strstr(sample->sheet, unit->sign); at;
         at = strstr(at + 1, unit->sign)) {
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
    const char *words = one_blank(shared, outside_run(shared, NULL, "cat templates/words/en.xml"));
    for (size_t i = 0; i < sample_count; i++) {
        size_t count = 0;
        for (size_t unit = 0; unit < sizeof printed_units / sizeof *printed_units; unit++)
            count += check_unit(&samples[i], &printed_units[unit], words);
        assert_true(count >= 10);
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
    for (size_t i = 0; i < sample_count; i++) {
        const Sample *sample = &samples[i];
        const char *end = strstr(sample->sheet, "burnsheet "); /* the footer: time of printing */
        assert_non_null(end);
        for (const char *at = strchr(sample->sheet, ':'); at && at < end; at = strchr(at + 1, ':')) {
            int hour, minute;
            if (at - sample->sheet < 2 || sscanf(at - 2, "%2d:%2d", &hour, &minute) != 2)
                continue;
            const char *clock = arena_format(shared, "%02d:%02d", hour, minute);
            if (minute == 0) /* also what the axis of the curve is divided by */
                continue;
            if (!has_clock(sample, xmlDocGetRootElement(sample->plan), clock))
                fail_msg("the sheet of %s says %s, the XML does not", sample->name, clock);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(well_formed),           cmocka_unit_test(fields_are_attributes),
        cmocka_unit_test(field_lines_are_unique), cmocka_unit_test(words_name_fields),
        cmocka_unit_test(csv_reads_back),        cmocka_unit_test(headline_is_printed),
        cmocka_unit_test(weights_are_printed),   cmocka_unit_test(steps_are_printed),
        cmocka_unit_test(looks_are_printed),     cmocka_unit_test(map_hours_are_in_the_plan),
        cmocka_unit_test(drying_is_printed),
        cmocka_unit_test(printed_figures_are_in_the_plan),
        cmocka_unit_test(printed_times_are_in_the_plan),
    };
    return cmocka_run_group_tests(tests, read_samples, free_samples);
}
