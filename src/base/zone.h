/* Zone: a time zone of the IANA database, read without touching the program's own clock
 * settings (no TZ variable, no tzset), so that several zones can be used side by side.
 *
 * The rules come from a TZif file (RFC 9636): a list of past and near transitions and, for all
 * later years, a POSIX rule in the file's footer. Everything lives in the arena handed in.
 */
#ifndef BASE_ZONE_H
#define BASE_ZONE_H

#include "base/arena.h"
#include "base/date.h"

#include <stdbool.h>
#include <stddef.h>

/* Where the system's database lies. */
#define ZONE_FOLDER "/usr/share/zoneinfo/"

typedef struct Zone Zone;

/* What to do with a clock reading that occurs twice (clocks put back). */
typedef enum ZoneChoice {
    ZONE_EARLIER, /* the first time the clock shows it */
    ZONE_LATER    /* the second time */
} ZoneChoice;

/* The zone of that IANA name ("Europe/Dublin"), from the system's database. NULL if the name
 * is not one (only letters, digits, + - _ and single slashes between parts are let through, so
 * it cannot leave the database's folder), or the file is missing or damaged. */
Zone *zone_load(Arena *arena, const char *name);

/* Reads a TZif file that is already in memory, version 1 to 4. NULL if it is damaged. `name`
 * is kept for zone_name. */
Zone *zone_parse(Arena *arena, const char *name, const unsigned char *bytes, size_t size);

/* The name it was loaded under. */
const char *zone_name(const Zone *zone);

/* Seconds that local time is east of (ahead of) UTC at the instant. */
int zone_offset(const Zone *zone, Instant instant);

/* What a clock on the wall shows at the instant. */
CivilTime zone_civil(const Zone *zone, Instant instant);

/* The instants at which the wall clock shows `civil`, in order. Returns how many: 1 as a rule,
 * 0 if the clock was put forward over it, 2 if it was put back over it. With 1, *second is
 * *first. With 0, both are the instant at which the clock jumped. Either pointer may be NULL. */
int zone_local_to_instant(const Zone *zone, CivilTime civil, Instant *first, Instant *second);

/* One instant for every clock reading: for a reading that occurs twice the one chosen; for one
 * that the clock jumped over, the instant as far after the jump as the reading is (02:30 in a
 * gap 02:00→03:00 becomes 03:30 on the new clock), which is what a sleeper with a watch that
 * was not put forward would mean. */
Instant zone_instant(const Zone *zone, CivilTime civil, ZoneChoice choice);

#endif
