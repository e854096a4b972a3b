/* Extremes: whatever the readers accept, the plan holds no infinity, nothing that is no number
 * where one belongs, and no negative mass, length or share. Files are written with every value at
 * an end of the range that the readers' own table allows, read back, and planned. */
#include "base/text.h"
#include "domain/field.h"
#include "input/reader.h"
#include "schema/rule.h"
#include "model/plan.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { FILES = 150, ACCEPTED_AT_LEAST = 120 };

typedef struct Writer {
    Arena *arena;
    Text text;
    uint64_t seed;
} Writer;

static bool chance(Writer *writer, double share) {
    return close_random(&writer->seed, 0, 1) < share;
}

static const char *one_of(Writer *writer, const char *const *choices, int count) {
    return choices[(int)close_random(&writer->seed, 0, count - 1e-9)];
}

static const char *either(Writer *writer, const char *a, const char *b) {
    return chance(writer, 0.5) ? a : b;
}

static const char *word_of_rule(Writer *writer, const AttributeRule *rule) {
    Names words = rule_words(writer->arena, rule);
    return one_of(writer, words.items, (int)words.count);
}

/* An end of the range, or a word; NULL: nothing that could be made up here. */
static const char *extreme(Writer *writer, const AttributeRule *rule) {
    bool word = rule->words && (rule->kind == VALUE_WORD || chance(writer, 0.3));
    if (word) {
        return word_of_rule(writer, rule);
    }
    return rule->least ? either(writer, rule->least, rule->most) : NULL;
}

/* The value given for an attribute among "name=value;name=value"; "" leaves it out, NULL: none. */
static const char *given(Writer *writer, const char *values, const char *name) {
    size_t length = strlen(name);
    for (const char *at = values; at && *at; at = strchr(at, ';') ? strchr(at, ';') + 1 : NULL) {
        if (strncmp(at, name, length) == 0 && at[length] == '=') {
            return arena_copy(writer->arena, at + length + 1, strcspn(at + length + 1, ";"));
        }
    }
    return NULL;
}

/* Opens an element with the values given, and the ends of ranges for the rest. */
static void open_element(Writer *writer, const char *element, const char *values) {
    const ElementRule *rule = element_rule(file_roots, element, NULL);
    const AttributeRule *rules = rule->attributes;
    text_addf(&writer->text, "<%s", element);
    for (size_t i = 0; i < rule->attribute_count; i++) {
        const char *value = given(writer, values, rules[i].name);
        if (!value && (rules[i].required || chance(writer, 0.5))) {
            value = extreme(writer, &rules[i]);
        }
        if (value && *value) {
            text_addf(&writer->text, " %s=\"%s\"", rules[i].name, value);
        }
    }
    text_add(&writer->text, ">");
}

static void close_element(Writer *writer, const char *element) {
    text_addf(&writer->text, "</%s>\n", element);
}

static void whole_element(Writer *writer, const char *element, const char *values) {
    open_element(writer, element, values);
    close_element(writer, element);
}

static void add_dust(Writer *writer, const char *id) {
    static const char *const grains[] = {"from=10 µm;to=50 mm", "from=10 µm;to=11 µm",
                                         "from=49 mm;to=50 mm", "from=0.5 mm;to=0.75 mm"};
    const char *moisture =
        chance(writer, 0.2) ? "moisture=;basis="
                            : either(writer, "moisture=0 %;basis=dry", "moisture=60 %;basis=wet");
    const char *values = arena_format(writer->arena,
                                      "id=%s;name=D;material=%s;measured=;lot=;received=;%s", id,
                                      either(writer, "beech", "moonwood"), moisture);
    open_element(writer, "dust", values);
    if (chance(writer, 0.3)) {
        whole_element(writer, "sieve", "sample=");
        writer->text.bytes[writer->text.length -= strlen("</sieve>\n")] = '\0';
        text_addf(&writer->text, "<on aperture=\"%s\" retained=\"%s\"/><pan retained=\"1 g\"/>",
                  either(writer, "20 µm", "125 mm"), either(writer, "0.001 g", "100 kg"));
        close_element(writer, "sieve");
    } else {
        whole_element(writer, "grain", one_of(writer, grains, 4));
    }
    if (chance(writer, 0.3)) {
        whole_element(writer, "weighed",
                      either(writer, "volume=1000 l;mass=31 kg", "volume=10 ml;mass=9 g"));
    }
    if (chance(writer, 0.3)) {
        whole_element(writer, "trial", "tray=tray;moisture=60 %;basis=dry");
    }
    close_element(writer, "dust");
}

static void add_tray(Writer *writer) {
    static const char *const paths[] = {"lanes", "spiral", "straight"};
    bool narrow = chance(writer, 0.5);
    bool plate = chance(writer, 0.5);
    open_element(
        writer, "tray",
        arena_format(writer->arena, "id=tray;name=T;wall=%s;channel-width=%s;%s%s",
                     plate ? "plate" : "mesh", narrow ? "3 mm" : "300 mm",
                     narrow ? "bottom-width=1 mm;" : "",
                     either(writer, plate ? "metal=;gauge=0.05 mm" : "gauge=;metal=0.05 kg/m2",
                            plate ? "metal=;gauge=12 mm" : "gauge=;metal=100 kg/m2")));
    const char *path = one_of(writer, paths, 3);
    bool spiral = strcmp(path, "spiral") == 0;
    whole_element(writer, path,
                  arena_format(writer->arena, "pitch=%s;%s", narrow ? "4 mm" : "500 mm",
                               !spiral  ? ""
                               : narrow ? "turns=40;outer=400 mm"
                                        : "turns=2.5;outer=3 m"));
    close_element(writer, "tray");
}

static void write_workshop(Writer *writer) {
    writer->text = text_new(writer->arena);
    open_element(writer, "workshop", "name=W;timezone=Europe/Dublin");
    whole_element(writer, "maker", "name=M;contact=");
    add_dust(writer, "one");
    add_dust(writer, "two");
    add_tray(writer);
    open_element(writer, "cabinet", "id=box;name=C");
    whole_element(writer, "vent",
                  either(writer, "rise=;inlet-full=;outlet-full=",
                         "rise=1 cm;inlet-full=10000 cm2;outlet-full=10000 cm2"));
    close_element(writer, "cabinet");
    if (chance(writer, 0.8)) {
        static const char *const rooms[] = {"outdoors=yes;volume=;air-changes=;ducted=",
                                            "outdoors=no;volume=1 m3;air-changes=0.05 /h",
                                            "outdoors=;volume=100000 m3;air-changes=100 /h"};
        whole_element(writer, "room", one_of(writer, rooms, 3));
    }
    whole_element(writer, "oven", "");
    whole_element(writer, "scale", "capacity=");
    whole_element(writer, "store", "");
    close_element(writer, "workshop");
}

static void add_blend(Writer *writer) {
    static const char *const shares[][2] = {
        {"share=0.1 %;weight=;at-least=", "share=99.9 %;weight=;at-least="},
        {"share=100 %;weight=;at-least=", "share=least;weight=;at-least="},
        {"share=100 %;weight=;at-least=0.1 %", "share=least;weight=0.01;at-least="},
        {"share=100 %;weight=;at-least=40 %", "share=least;weight=;at-least=0.1 %"}};
    int row = (int)close_random(&writer->seed, 0, 3.999);
    open_element(writer, "blend", row == 0 ? "name=B;target-margin=" : "name=B");
    whole_element(writer, "part", arena_format(writer->arena, "dust=one;%s", shares[row][0]));
    whole_element(writer, "part", arena_format(writer->arena, "dust=two;%s", shares[row][1]));
    close_element(writer, "blend");
}

static void add_weather(Writer *writer) {
    if (chance(writer, 0.6)) {
        whole_element(writer, "weather",
                      arena_format(writer->arena, "from=;temperature=%s;humidity=%s",
                                   either(writer, "-30 °C", "50 °C"),
                                   either(writer, "1 %", "100 %")));
        return;
    }
    text_add(&writer->text, "<weather>");
    for (int hour = 10; hour < 20; hour++) {
        whole_element(writer, "hour", arena_format(writer->arena, "at=2026-12-04T%d:00", hour));
    }
    close_element(writer, "weather");
}

static void write_batch(Writer *writer) {
    static const char *const dryings[] = {"target=;time=1 min", "target=;time=24 h",
                                          "time=;target=0 %", "time=;target=30 %"};
    writer->text = text_new(writer->arena);
    open_element(writer, "batch", "name=B;lot=;workshop=workshop.xml;cabinet=box");
    whole_element(writer, "product",
                  either(writer, "name=P;salt=20 %;water=60 %;raw=",
                         "kind=other;name=P;salt=20 %;water=60 %"));
    add_blend(writer);
    int fills = chance(writer, 0.95) ? 1 : 8;
    for (int i = 0; i < fills; i++) {
        whole_element(writer, "fill",
                      arena_format(writer->arena, "%s;%s", fills > 1 ? "repeat=1" : "",
                                   either(writer, "tray=tray;heap=no", "tray=tray;level=")));
    }
    if (chance(writer, 0.6)) {
        whole_element(writer, "predry", one_of(writer, dryings, 4));
    }
    add_weather(writer);
    open_element(writer, "timing",
                 chance(writer, 0.9) ? "light=2026-12-04T15:00" : "finish-by=2026-12-05T12:00");
    if (chance(writer, 0.3)) {
        text_add(&writer->text, "<away from=\"2026-12-04T17:00\" to=\"2026-12-06T17:00\"/>");
    }
    close_element(writer, "timing");
    if (chance(writer, 0.5)) {
        whole_element(writer, "bag", "stock=a4-8;packed=;first=1;face-width=;face-height=");
    }
    close_element(writer, "batch");
}

static void save(const char *folder, const char *name, const Text *text) {
    char path[256];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text->bytes, 1, text->length, file), text->length);
    assert_int_equal(fclose(file), 0);
}

/* Whether a figure of that kind may be under zero. Stock may be short. */
static bool may_be_negative(const Field *field) {
    QuantityKind kind = field->quantity.kind;
    return kind == QUANTITY_TEMPERATURE || kind == QUANTITY_INSTANT ||
           strcmp(field->name, "stock_left") == 0;
}

static bool is_fraction(QuantityKind kind) {
    return kind == QUANTITY_SHARE || kind == QUANTITY_HUMIDITY;
}

/* A figure that was not stated or not asked for may be missing, but never out of bounds. */
static void assert_fields_sound(const FieldGroup *group, const char *batch) {
    for (size_t i = 0; i < group->fields.count; i++) {
        const Field *field = &group->fields.items[i];
        if (field->type != FIELD_QUANTITY || isnan(field->quantity.value)) {
            continue;
        }
        double value = field->quantity.value;
        bool sound = isfinite(value) && (value >= -1e-9 || may_be_negative(field)) &&
                     (!is_fraction(field->quantity.kind) || value <= 1 + 1e-9);
        if (!sound) {
            fail_msg("%s.%s is %g in\n%s", group->name, field->name, value, batch);
        }
    }
    for (size_t i = 0; i < group->groups.count; i++) {
        assert_fields_sound(group->groups.items[i], batch);
    }
}

#define assert_number(value, batch)                                                                \
    do {                                                                                           \
        if (!isfinite(value))                                                                      \
            fail_msg("%s is %g in\n%s", #value, value, batch);                                     \
    } while (0)

static void assert_numbers(const Plan *plan, const char *batch) {
    assert_number(plan->burn.duration_s, batch);
    assert_number(plan->burn.margin_least, batch);
    assert_number(plan->burn.margin_at_start, batch);
    assert_number(plan->burn.dry_burnt_kg, batch);
    assert_number(plan->cabinet.peak_temp_c, batch);
    assert_number(plan->cabinet.peak_fast_c, batch);
    for (size_t i = 0; i < plan->room.windows.count; i++) {
        assert_number(plan->room.windows.items[i].mean_mg_m3, batch);
        assert_number(plan->room.windows.items[i].rich_mg_m3, batch);
    }
    assert_number(plan->blend.wet_kg, batch);
    assert_true(plan->burn.duration_s > 0 && plan->burn.dry_burnt_kg > 0);
    if (!(plan->burn.out_early <= plan->burn.out_at && plan->burn.out_at <= plan->burn.out_late)) {
        fail_msg("the band is out of order in\n%s", batch);
    }
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        const PlanFill *fill = &plan->fills.items[sample->fill - 1];
        bool last = i + 1 == plan->samples.count || sample[1].fill != sample->fill;
        if (last && !fill->both_ends && fabs(sample->along_m - fill->filled_m) > 1e-6) {
            fail_msg("fill %d is not burnt to its end in\n%s", sample->fill, batch);
        }
        assert_number(plan->samples.items[i].margin, batch);
        assert_number(plan->samples.items[i].moisture, batch);
        assert_number(plan->samples.items[i].cabinet_temp_c, batch);
        assert_number(plan->samples.items[i].co_mg_m3, batch);
    }
}

static void no_accepted_file_gives_nonsense(void **state) {
    (void)state;
    char folder[] = "/tmp/burnsheet-extremes-XXXXXX";
    assert_non_null(mkdtemp(folder));
    uint64_t seed = 0xe47e3e;
    int accepted = 0;
    for (int i = 0; i < FILES; i++) {
        Arena *arena = arena_new();
        Writer writer = {.arena = arena, .seed = seed};
        write_workshop(&writer);
        save(folder, "workshop.xml", &writer.text);
        const char *workshop = writer.text.bytes;
        write_batch(&writer);
        save(folder, "batch.xml", &writer.text);
        seed = writer.seed;
        Reader reader = reader_new(arena);
        const Batch *batch = read_batch(&reader, arena_format(arena, "%s/batch.xml", folder));
        if (batch) {
            const char *both = arena_format(arena, "%s%s", workshop, writer.text.bytes);
            const Plan *plan = plan_make(arena, batch);
            assert_numbers(plan, both);
            assert_fields_sound(plan_fields(arena, plan), both);
            accepted++;
        }
        arena_free(arena);
    }
    assert_int_equal(unlink(strcat(strcpy((char[64]){0}, folder), "/workshop.xml")), 0);
    assert_int_equal(unlink(strcat(strcpy((char[64]){0}, folder), "/batch.xml")), 0);
    assert_int_equal(rmdir(folder), 0);
    if (accepted < ACCEPTED_AT_LEAST) {
        fail_msg("only %d of %d files were accepted", accepted, FILES);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_accepted_file_gives_nonsense),
    };
    const char *against = "extremes: every end of the readers' ranges";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
