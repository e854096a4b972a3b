/* A time zone in TZif: read, and asked back and forth. A clock reading that an instant gives must
 * lead back to that instant. */
#include "fuzz/night.h"

#include "base/zone.h"

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static void ask(const Zone *zone, Instant at) {
    CivilTime civil = zone_civil(zone, at);
    Instant first, second;
    int count = zone_local_to_instant(zone, civil, &first, &second);
    if (count == 1 && first != at)
        fuzz_found("a clock reading does not lead back to its instant");
    if (count == 2 && (first > second || zone_offset(zone, first) < zone_offset(zone, second)))
        fuzz_found("two instants of a clock reading are not in order");
    zone_instant(zone, civil, ZONE_LATER);
    zone_abbreviation(zone, at);
    Instant change;
    if (zone_next_change(zone, at, at + 400 * 86400, &change) &&
        (change <= at || change >= at + 400 * 86400))
        fuzz_found("the next change is not where it was looked for");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    const Zone *zone = zone_parse(arena, "Fuzz/Zone", bytes, size);
    for (Instant at = -1700000000; zone && at < 5000000000; at += 100003337)
        ask(zone, at);
    arena_free(arena);
    return 0;
}
