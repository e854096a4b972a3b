/* The plan as XML, CSV and list of fields, for every sample: read back by libxml2 and by a reader
 * of RFC 4180 of the test's own. */
#include "support/sample.h"

#include "base/text.h"
#include "domain/dust_sheet.h"
#include "domain/learnt.h"
#include "domain/field_member.h"
#include "domain/season.h"
#include "domain/trace.h"
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

/* ---- Forms ----------------------------------------------------------------------------------- */

static void well_formed(void **state) {
    (void)state;
    for (size_t i = 0; i < all.count; i++) {
        if (!all.items[i].plan)
            fail_msg("the plan of %s as XML is not well formed", all.items[i].name);
        assert_string_equal((const char *)xmlDocGetRootElement(all.items[i].plan)->name, "plan");
    }
}

/* The attribute a field's path names: "fill.2.hour.3.at" is the `at` of the element
 * fill[@number=2]/hour[@number=3]. NULL: there is none. */
static const char *at_path(const Sample *sample, const char *path) {
    xmlNode *node = xmlDocGetRootElement(sample->plan);
    char *words = arena_string(shared, path);
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
                (!number || !strcmp(sample_must(sample, node, "number"), number)))
                break;
    }
    return node ? sample_text(sample, node, last ? last + 1 : words) : NULL;
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
    for (size_t i = 0; i < all.count; i++) {
        const Sample *sample = &all.items[i];
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
    for (size_t i = 0; i < all.count; i++) {
        static char *lines[20000];
        size_t count = 0;
        char *rest = NULL;
        for (char *line = strtok_r(arena_string(shared, all.items[i].fields), "\n", &rest); line;
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

/* Whether the sample lists the field: whole ("burn.out_at") or at the end of a row's path. */
static bool lists(const Sample *sample, const char *name, size_t length) {
    const char *ending = arena_format(shared, ".%.*s\t", (int)length, name);
    const char *whole = arena_format(shared, "\n%.*s\t", (int)length, name);
    return strstr(sample->fields, ending) || strstr(sample->fields, whole) ||
           !strncmp(sample->fields, whole + 1, length + 1);
}

static bool some_sample_lists(const char *name, size_t length) {
    for (size_t i = 0; i < all.count; i++)
        if (lists(&all.items[i], name, length))
            return true;
    return false;
}

/* Fields of the printed paper itself, not of the plan (layout/sheet.c, layout/test_page.c). */
static bool is_of_paper(const char *name, size_t length) {
    static const char *const names[] = {"creator", "printed_at", "height", "right", "down"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strlen(names[i]) == length && !strncmp(names[i], name, length))
            return true;
    return false;
}

/* Those of a group that is no row have its name before theirs. */
static void add_names(Text *text, const FieldGroup *group) {
    bool row = group->number || !group->parent;
    for (size_t i = 0; i < group->fields.count; i++)
        text_addf(text, "\n%s%s%s\t", row ? "" : group->name, row ? "" : ".",
                  group->fields.items[i].name);
    for (size_t i = 0; i < group->groups.count; i++)
        add_names(text, group->groups.items[i]);
}

/* The fields of a season with one of everything that a word may speak of. */
static void add_season_names(Text *text) {
    SeasonEntry entry = {.date = {2026, 12, 4}};
    SeasonMonth month = {.first = {2026, 12, 1}, .days = 31, .count = 1};
    SeasonClash clash = {.name = "one"};
    SeasonNeed need = {.name = "Beech"};
    SeasonChance chance = {.chance_said_of = 10};
    SeasonDeath death = {CAUSE_FINES, 1};
    SeasonYield yield = {.nights = 1};
    const char *faulty = "file";
    const Season season = {.entries = {.items = &entry, .count = 1},
                           .months = {.items = &month, .count = 1},
                           .clashes = {.items = &clash, .count = 1},
                           .needs = {.items = &need, .count = 1},
                           .chances = {.items = &chance, .count = 1},
                           .deaths = {.items = &death, .count = 1},
                           .yields = {.items = &yield, .count = 1},
                           .faulty = {.items = &faulty, .count = 1}};
    add_names(text, season_fields(shared, &season));
    const SeasonPage page = {.overview = true};
    add_names(text, season_page_fields(shared, &season, &page));
}

/* The names of the fields of what is about no plan, a trace, a dust sheet, what was learnt, a
 * season; and of a plan that was made together with another. */
static Sample other_pages(void) {
    const TraceLink link = {.lot = "A-1"};
    TraceStep step = {.link = &link, .depth = 1};
    const Trace trace = {.lot = "A-1", .into = {.items = &step, .count = 1}};
    const Workshop workshop = {.name = "Shop"};
    const Dust dust = {.id = "beech"};
    LearntRow row = {.fuel = "Beech"};
    LearntStep measure = {.fuel = "Beech"};
    const Learnt learnt = {.dusts = {.items = &row, .count = 1},
                           .steps = {.items = &measure, .count = 1}};
    Text text = text_new(shared);
    add_names(&text, learnt_fields(shared, &learnt));
    add_names(&text, trace_fields(shared, &trace));
    add_season_names(&text);
    add_names(&text, dust_sheet_fields(shared, &workshop, &dust, "shop.xml"));
    PlanWith with = {.name = "another", .words = "with.tray"};
    const Plan together = {.choice = {.with = {&with, 1, 1}}};
    FieldGroup *root = field_group_new(shared, NULL, "plan", 0);
    fields_of_choice(shared, root, &together);
    add_names(&text, root);
    return (Sample){.fields = text.bytes};
}

/* What the words fill in, {path} or {path:style}, is a field of the plan. */
static void words_name_fields(void **state) {
    (void)state;
    static const char *const languages[] = {"en", "de", "pl"};
    Sample bagging = {
        .fields = outside_run(shared, NULL,
                              "\"$BURNSHEET\" plan --as fields samples/bagging/market-day.xml")};
    Sample others = other_pages();
    for (size_t i = 0; i < 3; i++) {
        const char *words = outside_run(shared, NULL, "cat templates/words/%s.xml", languages[i]);
        words = strstr(words, "<word ");
        size_t count = 0;
        for (const char *at = strchr(words, '{'); at; at = strchr(at + 1, '{'), count++) {
            size_t length = strcspn(at + 1, ":}");
            if (!some_sample_lists(at + 1, length) && !lists(&bagging, at + 1, length) &&
                !lists(&others, at + 1, length) && !is_of_paper(at + 1, length))
                fail_msg("%s.xml names {%.*s}, which is no field", languages[i], (int)length,
                         at + 1);
        }
        assert_true(count > 100);
    }
}

/* ---- CSV ------------------------------------------------------------------------------------- */

enum { CSV_COLUMNS = 15 };

/* The fields of a sample by name, in the units of a spreadsheet. */
static const char csv_heading[] =
    "at,fill,lane,along_mm,speed_mm_per_h,moisture_percent_dry,margin,margin_low,power_w,"
    "outside_temp_c,outside_humidity_percent,cabinet_temp_c,cabinet_humidity_percent,co_mg_per_m3,"
    "lasting_percent\r\n";

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
    for (size_t i = 0; i < all.count; i++) {
        double numbers[CSV_COLUMNS] = {0};
        char instant[40] = "";
        int columns;
        long before = 0;
        size_t rows = 0;
        assert_true(!strncmp(all.items[i].csv, csv_heading, strlen(csv_heading)));
        const char *at = csv_line(all.items[i].csv, numbers, &columns, instant);
        assert_int_equal(columns, CSV_COLUMNS);
        assert_string_equal(instant, "at");
        for (; *at; rows++) {
            double fill = numbers[1];
            at = csv_line(at, numbers, &columns, instant);
            assert_int_equal(columns, CSV_COLUMNS);
            /* one tray is lit in the moment in which the one before is out */
            assert_true(utc_of(instant) >= before + (rows == 0 || numbers[1] == fill));
            before = utc_of(instant);
            for (int column = 1; column < CSV_COLUMNS; column++)
                assert_true(isfinite(numbers[column]));
        }
        assert_int_equal(rows, sample_find(&all.items[i], "sample").count);
        assert_true(rows > 10);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(well_formed),
        cmocka_unit_test(fields_are_attributes),
        cmocka_unit_test(field_lines_are_unique),
        cmocka_unit_test(words_name_fields),
        cmocka_unit_test(csv_reads_back),
    };
    return cmocka_run_group_tests(tests, read_samples, free_samples);
}
