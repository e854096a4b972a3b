/* Hostile files and command lines: whatever stands in a file, the program ends by itself with a
 * status from 0 to 3, says what is wrong, and writes no page of a batch that has faults. A batch
 * that is accepted, however odd, has a plan without NaN, infinity or a negative mass.
 *
 * The same random files in every run. A sanitizer that finds something ends with status 99. */
#include "support/close.h"
#include "support/outside.h"

#include "base/file.h"
#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <ctype.h>
#include <glob.h>
#include <libxml/parser.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { GROUP = 20, FILES_MOST = 600 };

static Arena *arena;
static const char *folder;
static uint64_t seed = 20261205;

typedef struct Batches {
    size_t count;
    const char *path[FILES_MOST];
} Batches;

static const char *const sources[] = {"cheese-overnight",  "butter-short",    "fish-long",
                                      "charred-oak-blend", "cold-damp-night", "herb-salt",
                                      "cheese-last-week"};
enum { SOURCES = sizeof sources / sizeof *sources };

static size_t below(size_t limit) {
    size_t number = (size_t)close_random(&seed, 0, (double)limit);
    return number < limit ? number : limit - 1;
}

static char *sample(const char *name, size_t *length) {
    Bytes bytes;
    const char *error = NULL;
    assert_true(
        file_read(arena, arena_format(arena, "samples/%s.xml", name), 1000000, &bytes, &error));
    *length = bytes.length;
    return (char *)bytes.data;
}

static const char *write_as(const char *name, const void *bytes, size_t length) {
    const char *path = arena_format(arena, "%s/%s", folder, name);
    const char *error = NULL;
    assert_true(file_write(arena, path, bytes, length, &error));
    return path;
}

/* A folder for each group, with what the batches of it refer to: the program looks through the
 * folder of a batch for records. */
static void add(Batches *batches, const char *kind, const void *bytes, size_t length) {
    assert_true(batches->count < FILES_MOST);
    const char *group = arena_format(arena, "%s-%zu", kind, batches->count / GROUP);
    if (batches->count % GROUP == 0)
        outside_run(arena, NULL,
                    "cd samples && mkdir %s/%s && cp workshop.xml mark.svg forecast.csv %s/%s",
                    folder, group, folder, group);
    const char *name = arena_format(arena, "%s/%s-%03zu.xml", group, kind, batches->count);
    batches->path[batches->count++] = write_as(name, bytes, length);
}

static int set_up(void **state) {
    (void)state;
    arena = arena_new();
    setenv("BURNSHEET", ".build/burnsheet", 0);
    setenv("ASAN_OPTIONS", "exitcode=99", 1);
    setenv("UBSAN_OPTIONS", "exitcode=99:print_stacktrace=1", 1);
    folder = outside_folder(arena);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    outside_remove(folder);
    xmlCleanupParser();
    arena_free(arena);
    return 0;
}

/* ---- Running --------------------------------------------------------------------------------- */

static size_t count_files(const char *path) {
    return strtoul(outside_run(arena, NULL, "find %s -type f | wc -l", path), NULL, 10);
}

/* Makes the sheets of some batches, in one process. Returns how many were made. */
static size_t sheets_of(const Batches *batches, size_t from, size_t to) {
    const char *pages = arena_format(arena, "%s/pages-%zu-%zu", folder, from, to);
    Text files = text_new(arena);
    for (size_t i = from; i < to; i++)
        text_addf(&files, " '%s'", batches->path[i]);
    int status;
    const char *said =
        outside_run(arena, &status, "\"$BURNSHEET\" sheet -o %s %s", pages, files.bytes);
    outside_run(arena, NULL, "mkdir -p %s", pages);
    size_t done = count_files(pages);
    if (status < 0 || status > 3 || (status == 0) != (done == to - from))
        fail_msg("status %d with %zu sheets of %zu:\n%s", status, done, to - from, said);
    if (status != 0 && to - from > 1)
        assert_non_null(
            strstr(said, arena_format(arena, "%zu of %zu batches done", done, to - from)));
    outside_run(arena, NULL, "rm -r %s", pages);
    return done;
}

static size_t all_sheets(const Batches *batches) {
    size_t done = 0;
    for (size_t i = 0; i < batches->count; i += GROUP)
        done += sheets_of(batches, i, i + GROUP < batches->count ? i + GROUP : batches->count);
    return done;
}

/* ---- Files that are broken as text ----------------------------------------------------------- */

static void truncated(void **state) {
    (void)state;
    enum { EVERY = 200 };
    Batches batches = {0};
    for (size_t i = 0; i < SOURCES; i++) {
        size_t length;
        const char *bytes = sample(sources[i], &length);
        for (size_t at = 0; at + 2 < length; at += EVERY)
            add(&batches, "cut", bytes, at);
    }
    assert_true(batches.count > 30);
    assert_int_equal(all_sheets(&batches), 0);
}

static void truncated_workshop(void **state) {
    (void)state;
    size_t length;
    size_t batch_length;
    const char *bytes = sample("workshop", &length);
    const char *batch = sample("butter-short", &batch_length);
    outside_run(arena, NULL, "mkdir %s/shop", folder);
    Batches one = {1, {write_as("shop/batch.xml", batch, batch_length)}};
    for (size_t at = 0; at + 20 < length; at += 200) {
        write_as("shop/workshop.xml", bytes, at);
        assert_int_equal(sheets_of(&one, 0, 1), 0);
    }
}

static void random_bytes(void **state) {
    (void)state;
    Batches batches = {0};
    for (size_t i = 0; i < 40; i++) {
        char bytes[2000];
        size_t length = below(sizeof bytes);
        for (size_t at = 0; at < length; at++)
            bytes[at] = (char)below(256);
        add(&batches, "noise", bytes, length);
    }
    assert_int_equal(all_sheets(&batches), 0);
}

/* Up to twenty bytes of a sample become others: of XML, of numbers, of broken UTF-8. */
static void scattered_bytes(void **state) {
    (void)state;
    static const char others[] = "<>\"'&;=/!?-. 0129%eE\n\t\r\x01\x7f\xc3\xe2\xff\xc0\xed";
    Batches batches = {0};
    for (size_t i = 0; i < 100; i++) {
        size_t length;
        char *bytes = sample(sources[below(SOURCES)], &length);
        for (size_t change = below(20) + 1; change > 0; change--)
            bytes[below(length)] = others[below(sizeof others - 1)];
        add(&batches, "bytes", bytes, length);
    }
    assert_true(all_sheets(&batches) < batches.count / 2);
}

/* ---- Files that are sound as XML ------------------------------------------------------------- */

typedef struct Value {
    const char *start;
    size_t length;
} Value;

/* All attribute values behind the XML declaration. */
static size_t values_of(const char *bytes, Value *values, size_t most) {
    size_t count = 0;
    const char *at = strstr(bytes, "<batch");
    assert_non_null(at);
    for (at = strstr(at, "=\""); at && count < most; at = strstr(at, "=\"")) {
        at += 2;
        values[count++] = (Value){at, strcspn(at, "\"")};
        at += values[count - 1].length + 1;
    }
    return count;
}

/* A copy of the file with one value replaced. */
static char *with_value(const char *bytes, Value old, const char *text, size_t length) {
    Text changed = text_new(arena);
    text_add_bytes(&changed, bytes, (size_t)(old.start - bytes));
    text_add_bytes(&changed, text, length);
    text_add(&changed, old.start + old.length);
    return changed.bytes;
}

static void swapped_values(void **state) {
    (void)state;
    Batches batches = {0};
    for (size_t i = 0; i < 150; i++) {
        size_t length;
        char *bytes = sample(sources[below(SOURCES)], &length);
        for (size_t change = below(3) + 1; change > 0; change--) {
            Value values[200];
            size_t count = values_of(bytes, values, 200);
            Value from = values[below(count)];
            bytes = with_value(bytes, values[below(count)], from.start, from.length);
        }
        add(&batches, "swap", bytes, strlen(bytes));
    }
    size_t done = all_sheets(&batches);
    assert_in_range(done, 1, batches.count / 2);
}

/* A number of the value, times something between a fiftieth and fifty; false: it has none. */
static bool scaled(Value value, Text *text) {
    char old[80];
    if (value.length >= sizeof old || !isdigit((unsigned char)value.start[0]))
        return false;
    memcpy(old, value.start, value.length);
    old[value.length] = '\0';
    char *unit;
    double number = strtod(old, &unit);
    static const double factors[] = {0.02, 0.2, 0.5, 0.8, 1.2, 2, 5, 50};
    if (*unit == '-' || *unit == ':') /* a date */
        return false;
    text_addf(text, "%.4g%s", number * factors[below(8)], unit);
    return !strchr(text->bytes, 'e');
}

static Batches odd_batches(size_t count) {
    Batches batches = {0};
    while (batches.count < count) {
        size_t length;
        char *bytes = sample(sources[below(SOURCES)], &length);
        for (size_t change = below(2) + 1; change > 0;) {
            Value values[200];
            size_t value_count = values_of(bytes, values, 200);
            Value value = values[below(value_count)];
            Text text = text_new(arena);
            if (!scaled(value, &text))
                continue;
            bytes = with_value(bytes, value, text.bytes, text.length);
            change--;
        }
        add(&batches, "odd", bytes, strlen(bytes));
    }
    return batches;
}

static void check_figure(const char *path, const xmlNode *node, const xmlAttr *attribute) {
    const char *name = (const char *)attribute->name;
    const char *text = (const char *)attribute->children->content;
    size_t length = strlen(name);
    bool mass = length >= 4 && !strcmp(name + length - 4, "mass");
    bool other = !strncmp(text, "nan", 3) || !strncmp(text, "-nan", 4) || !strncmp(text, "inf", 3);
    if (other || (mass && *text == '-'))
        fail_msg("%s: %s of %s is '%s'", path, name, (const char *)node->name, text);
}

static size_t check_figures(const char *path, const xmlNode *node) {
    size_t count = 0;
    for (const xmlAttr *attribute = node->properties; attribute; attribute = attribute->next)
        if (attribute->children) {
            check_figure(path, node, attribute);
            count++;
        }
    for (const xmlNode *child = node->children; child; child = child->next)
        if (child->type == XML_ELEMENT_NODE)
            count += check_figures(path, child);
    return count;
}

/* Whether the batch was accepted; its plan is then looked through. */
static bool sound_plan(const char *path) {
    int status;
    const char *said =
        outside_run(arena, &status, "{ \"$BURNSHEET\" plan --as xml '%s' 2>/dev/null; }", path);
    if (status < 0 || status > 1)
        fail_msg("%s: status %d\n%s", path, status, said);
    if (status == 1)
        return false;
    xmlDoc *plan = xmlReadMemory(said, (int)strlen(said), NULL, NULL, XML_PARSE_NONET);
    if (!plan)
        fail_msg("%s: the plan is no XML:\n%s", path, said);
    assert_true(check_figures(path, xmlDocGetRootElement(plan)) > 100);
    xmlFreeDoc(plan);
    return true;
}

/* What is printed is what was accepted, apart from pages that can not fit. Each alone: together
 * some would be in the way of others. */
static void odd_values(void **state) {
    (void)state;
    Batches batches = odd_batches(200);
    size_t accepted = 0, done = 0;
    for (size_t i = 0; i < batches.count; i++) {
        accepted += sound_plan(batches.path[i]);
        done += sheets_of(&batches, i, i + 1);
    }
    print_message("%zu accepted, %zu printed of %zu\n", accepted, done, batches.count);
    assert_true(accepted > batches.count / 3);
    assert_true(done <= accepted);
    assert_true(done >= accepted * 9 / 10);
}

/* ---- Command lines --------------------------------------------------------------------------- */

static void random_words(void **state) {
    (void)state;
    static const char *const words[] = {"sheet",
                                        "labels",
                                        "plan",
                                        "check",
                                        "-o",
                                        "--as",
                                        "xml",
                                        "--template",
                                        "--",
                                        "-",
                                        "''",
                                        "--first",
                                        "-1",
                                        "--offset",
                                        "1,",
                                        "--paper",
                                        "A4",
                                        "--units=us",
                                        "--language",
                                        "../../../x",
                                        "--outlines",
                                        "--help",
                                        "/dev/null",
                                        "/",
                                        "samples/butter-short.xml",
                                        "samples",
                                        "'%s%n%x'",
                                        "$(printf '\\377\\376')",
                                        "\"$(printf 'x%.0s' $(seq 5000))\"",
                                        "-ox",
                                        "--o",
                                        "--output="};
    size_t count = sizeof words / sizeof *words;
    outside_run(arena, NULL, "cp -r samples %s", folder);
    for (size_t i = 0; i < 120; i++) {
        Text line = text_new(arena);
        for (size_t word = below(6) + 1; word > 0; word--)
            text_addf(&line, " %s", words[below(count)]);
        int status;
        const char *said = outside_run(arena, &status,
                                       "program=$(realpath \"$BURNSHEET\"); cd %s; $program %s",
                                       folder, line.bytes);
        if (status < 0 || status > 3)
            fail_msg("burnsheet%s\nstatus %d\n%s", line.bytes, status, said);
        if (status != 0)
            assert_true(strlen(said) > 10);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(truncated),      cmocka_unit_test(truncated_workshop),
        cmocka_unit_test(random_bytes),   cmocka_unit_test(scattered_bytes),
        cmocka_unit_test(swapped_values), cmocka_unit_test(odd_values),
        cmocka_unit_test(random_words),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
