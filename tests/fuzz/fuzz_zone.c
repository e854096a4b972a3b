/* A time zone in TZif: read, and asked back and forth. */
#include "fuzz/night.h"

#include "base/zone.h"

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static void ask(const Zone *zone, Instant at) {
    CivilTime civil = zone_civil(zone, at);
    Instant first, second;
    int count = zone_local_to_instant(zone, civil, &first, &second);
    if (count < 0 || count > 2)
        fuzz_found("a clock reading comes more than twice");
    zone_instant(zone, civil, ZONE_LATER);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    const Zone *zone = zone_parse(arena, "Fuzz/Zone", bytes, size);
    for (Instant at = -1700000000; zone && at < 5000000000; at += 100003337)
        ask(zone, at);
    arena_free(arena);
    return 0;
}
