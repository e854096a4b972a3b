/* A whole evening in XML, changed by the rules of the files: read, planned, and told as text, XML,
 * CSV and fields. No figure of an accepted plan may be no number or without end. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "base/text.h"
#include "report/plan_csv.h"
#include "report/plan_fields.h"
#include "report/plan_text.h"
#include "report/plan_xml.h"

#include <stddef.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

static const char *show(void *context, const Field *field) {
    (void)context;
    return field->name;
}

static const char *say(void *context, const char *key, const FieldGroup *row) {
    (void)context;
    (void)row;
    return key;
}

static void no_wild_figure(const Text *text) {
    static const char *const wild[] = {">nan<", ">-nan<", ">inf<", ">-inf<"};
    for (size_t i = 0; i < sizeof wild / sizeof *wild; i++)
        if (strstr(text->bytes, wild[i]))
            fuzz_found("a figure of the plan is no number or without end");
}

static void tell(const FuzzNight *night) {
    const Plan *plan = fuzz_night_plan(night);
    const FieldGroup *fields = plan_fields(night->arena, plan);
    Text xml = text_new(night->arena);
    plan_xml(&xml, plan, fields, "0");
    no_wild_figure(&xml);
    Text rest = text_new(night->arena);
    plan_text(&rest, fields, say, NULL);
    plan_csv(&rest, plan, fields);
    plan_field_lines(&rest, plan, fields, show, NULL);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    FuzzNight night = fuzz_night_read(arena, bytes, size);
    fuzz_night_check_said(&night);
    if (night.batch)
        tell(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
