#include "fuzz/night.h"

#include "base/text.h"
#include "fuzz/tree.h"
#include "input/xml.h"
#include "model/plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PAST_MOST = 3 };

_Noreturn void fuzz_found(const char *what) {
    fprintf(stderr, "found: %s\n", what);
    abort();
}

const char *fuzz_path(Arena *arena, const char *name) {
    const char *folder = getenv("FUZZ_FOLDER");
    if (!folder)
        fuzz_found("FUZZ_FOLDER names no folder: start this through 'make fuzz'");
    return arena_format(arena, "%s/%s", folder, name);
}

void fuzz_write(Arena *arena, const char *name, const void *bytes, size_t length) {
    FILE *file = fopen(fuzz_path(arena, name), "wb");
    if (!file || fwrite(bytes, 1, length, file) != length || fclose(file) != 0)
        fuzz_found("a file of the run can not be written");
}

static const Batch *read_part(FuzzNight *night, const Element *part, const char *name) {
    Text text = text_new(night->arena);
    tree_write(&text, part);
    fuzz_write(night->arena, name, text.bytes, text.length);
    if (!strcmp(part->name, "workshop"))
        return NULL;
    return read_batch(&night->reader, fuzz_path(night->arena, name));
}

FuzzNight fuzz_night_read(Arena *arena, const uint8_t *bytes, size_t size) {
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    const Element *root =
        xml_parse(&night.reader.diagnostics, "night.xml", (const char *)bytes, size);
    const Element *workshop = root ? element_child(root, "workshop") : NULL;
    const Element *batch = root ? element_child(root, "batch") : NULL;
    if (!workshop || !batch)
        return night;
    read_part(&night, workshop, "workshop.xml");
    night.batch = read_part(&night, batch, "tonight.xml");
    for (batch = element_sibling(batch, "batch"); batch && night.past.count < PAST_MOST;
         batch = element_sibling(batch, "batch")) {
        const Batch *past =
            read_part(&night, batch, arena_format(arena, "past-%zu.xml", night.past.count));
        if (past && past->record.stated)
            LIST_ADD(arena, &night.past, past);
    }
    return night;
}

const Plan *fuzz_night_plan(const FuzzNight *night) {
    return plan_make_with_records(night->arena, night->batch, night->past.items, night->past.count);
}

void fuzz_night_check_said(FuzzNight *night) {
    Text said = text_new(night->arena);
    diagnostics_add_to(&night->reader.diagnostics, &said);
    for (const char *at = said.bytes; *at; at++)
        if ((unsigned char)*at < 0x20 && *at != '\n')
            fuzz_found("a message would steer the terminal");
}
