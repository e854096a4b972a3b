#include "base/zone_place.h"

#include "base/file.h"
#include "base/zone.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { TABLE_BYTES_MAX = 256 * 1024, LINK_BYTES = 4096 };

static const char nowhere[] = "Etc/UTC";

const char *zone_of_machine(Arena *arena) {
    const char *named = getenv("TZ");
    if (named && *named == ':')
        named++;
    if (named && zone_load(arena, named))
        return arena_string(arena, named);
    char path[LINK_BYTES];
    ssize_t length = readlink("/etc/localtime", path, sizeof path - 1);
    path[length > 0 ? length : 0] = '\0';
    const char *at = strstr(path, "zoneinfo/");
    const char *name = at ? at + strlen("zoneinfo/") : "";
    return zone_load(arena, name) ? arena_string(arena, name) : nowhere;
}

/* ±DDMM or ±DDMMSS, up to the sign of the longitude. */
static double latitude_deg(const char *text) {
    char *end;
    long digits = labs(strtol(text, &end, 10));
    bool seconds = end - text > 5;
    long minutes = seconds ? digits / 100 : digits;
    double degrees = (double)(minutes - minutes % 100) / 100 + (double)(minutes % 100) / 60;
    return *text == '-' ? -degrees : degrees;
}

/* Whether the field that begins there is the name. */
static bool is_name(const char *field, const char *name) {
    size_t length = strlen(name);
    return !strncmp(field, name, length) && (!field[length] || strchr("\t\n", field[length]));
}

double zone_latitude_deg(Arena *arena, const char *name) {
    Bytes bytes;
    const char *error;
    if (!file_read(arena, ZONE_FOLDER "zone.tab", TABLE_BYTES_MAX, &bytes, &error))
        return NAN;
    for (const char *line = (const char *)bytes.data; line; line = strchr(line, '\n')) {
        line += *line == '\n';
        const char *place = *line == '#' ? NULL : strpbrk(line, "\t\n");
        const char *zone = place && *place == '\t' ? strpbrk(place + 1, "\t\n") : NULL;
        if (zone && *zone == '\t' && is_name(zone + 1, name))
            return latitude_deg(place + 1);
    }
    return NAN;
}
