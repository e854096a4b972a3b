#include "base/zone.h"

#include "base/file.h"
#include "base/zone_rule.h"

#include <stdint.h>
#include <string.h>

enum {
    ZONE_NAME_MAX = 100,
    FILE_BYTES_MAX = 64 * 1024,
    HEADER_BYTES = 44,
    TYPE_BYTES = 6,
    OFFSET_LIMIT = 26 * SECONDS_PER_HOUR, /* RFC 9636: between −25 h and 26 h */
    FOOTER_MAX = 256
};

struct Zone {
    const char *name;
    int first_offset; /* before the first change */
    Instant *changes; /* ascending */
    int *offsets;     /* from each change on */
    size_t change_count;
    bool has_rule;
    ZoneRule rule; /* in force after the last change */
};

/* The counts of a TZif header, RFC 9636 section 3.1. */
typedef struct Header {
    int version;
    size_t utc_flags;
    size_t standard_flags;
    size_t leap_seconds;
    size_t changes;
    size_t types;
    size_t letters;
} Header;

static int64_t big_endian(const unsigned char *bytes, size_t size) {
    uint64_t value = bytes[0] & 0x80 ? UINT64_MAX : 0;
    for (size_t i = 0; i < size; i++)
        value = value << 8 | bytes[i];
    return (int64_t)value;
}

static bool read_header(const unsigned char *bytes, size_t size, Header *header) {
    if (size < HEADER_BYTES || memcmp(bytes, "TZif", 4) != 0)
        return false;
    size_t counts[6];
    for (size_t i = 0; i < 6; i++) {
        int64_t count = big_endian(bytes + 20 + 4 * i, 4);
        if (count < 0 || count > FILE_BYTES_MAX)
            return false;
        counts[i] = (size_t)count;
    }
    *header = (Header){bytes[4] ? bytes[4] - '0' : 1,
                       counts[0],
                       counts[1],
                       counts[2],
                       counts[3],
                       counts[4],
                       counts[5]};
    return header->version >= 1;
}

static size_t data_bytes(const Header *header, size_t time_bytes) {
    return header->changes * (time_bytes + 1) + header->types * TYPE_BYTES + header->letters +
           header->leap_seconds * (time_bytes + 4) + header->standard_flags + header->utc_flags;
}

/* Seconds east of Greenwich of one type of local time; OFFSET_LIMIT, and more, when damaged. */
static int type_offset(const Header *header, const unsigned char *types, size_t index) {
    if (index >= header->types)
        return OFFSET_LIMIT;
    const unsigned char *type = types + index * TYPE_BYTES;
    int64_t offset = big_endian(type, 4);
    return offset > -OFFSET_LIMIT && offset < OFFSET_LIMIT && type[5] < header->letters
               ? (int)offset
               : OFFSET_LIMIT;
}

static bool read_changes(Arena *arena, Zone *zone, const Header *header, const unsigned char *bytes,
                         size_t time_bytes) {
    const unsigned char *indices = bytes + header->changes * time_bytes;
    const unsigned char *types = indices + header->changes;
    zone->first_offset = type_offset(header, types, 0);
    zone->change_count = header->changes;
    zone->changes = ARENA_ARRAY(arena, header->changes, Instant);
    zone->offsets = ARENA_ARRAY(arena, header->changes, int);
    for (size_t i = 0; i < header->changes; i++) {
        zone->changes[i] = big_endian(bytes + i * time_bytes, time_bytes);
        zone->offsets[i] = type_offset(header, types, indices[i]);
        if (zone->offsets[i] == OFFSET_LIMIT || (i > 0 && zone->changes[i] <= zone->changes[i - 1]))
            return false;
    }
    return zone->first_offset != OFFSET_LIMIT;
}

/* The line between two newlines that closes the file; empty says there is no rule. */
static bool read_footer(Zone *zone, const unsigned char *bytes, size_t size) {
    char text[FOOTER_MAX];
    if (size < 2 || bytes[0] != '\n')
        return false;
    const unsigned char *end = memchr(bytes + 1, '\n', size - 1);
    if (!end)
        return false;
    size_t length = (size_t)(end - bytes) - 1;
    if (length == 0)
        return true;
    if (length >= sizeof text || memchr(bytes + 1, '\0', length))
        return false;
    memcpy(text, bytes + 1, length);
    text[length] = '\0';
    zone->has_rule = zone_rule_parse(text, &zone->rule);
    return zone->has_rule;
}

static bool read_data(Arena *arena, Zone *zone, const Header *header, const unsigned char *bytes,
                      size_t size, size_t time_bytes) {
    /* Files that count leap seconds ("right/…") have another notion of an instant. */
    if (header->types == 0 || header->letters == 0 || header->leap_seconds > 0 ||
        data_bytes(header, time_bytes) > size)
        return false;
    return read_changes(arena, zone, header, bytes, time_bytes);
}

Zone *zone_parse(Arena *arena, const char *name, const unsigned char *bytes, size_t size) {
    Zone *zone = ARENA_NEW(arena, Zone);
    zone->name = arena_string(arena, name);
    Header header;
    if (size > FILE_BYTES_MAX || !read_header(bytes, size, &header))
        return NULL;
    if (header.version == 1)
        return read_data(arena, zone, &header, bytes + HEADER_BYTES, size - HEADER_BYTES, 4) ? zone
                                                                                             : NULL;
    /* The block for old readers is skipped: the one with 64-bit times follows. */
    size_t skipped = HEADER_BYTES + data_bytes(&header, 4);
    if (skipped > size || !read_header(bytes + skipped, size - skipped, &header))
        return NULL;
    bytes += skipped + HEADER_BYTES;
    size -= skipped + HEADER_BYTES;
    if (!read_data(arena, zone, &header, bytes, size, 8))
        return NULL;
    size_t data = data_bytes(&header, 8);
    return read_footer(zone, bytes + data, size - data) ? zone : NULL;
}

static bool is_name_letter(char letter) {
    return (letter >= 'A' && letter <= 'Z') || (letter >= 'a' && letter <= 'z') ||
           (letter >= '0' && letter <= '9') || letter == '+' || letter == '-' || letter == '_';
}

/* Parts of permitted letters with single slashes between them: no dots, so no way upwards. */
static bool is_zone_name(const char *name) {
    size_t length = strlen(name);
    if (length == 0 || length > ZONE_NAME_MAX || name[length - 1] == '/')
        return false;
    for (size_t i = 0; i < length; i++) {
        bool slash = name[i] == '/';
        if (slash ? i == 0 || name[i - 1] == '/' : !is_name_letter(name[i]))
            return false;
    }
    return true;
}

Zone *zone_load(Arena *arena, const char *name) {
    if (!name || !is_zone_name(name))
        return NULL;
    const char *path = arena_format(arena, ZONE_FOLDER "%s", name);
    const char *error;
    Bytes bytes;
    if (!file_read(arena, path, FILE_BYTES_MAX, &bytes, &error))
        return NULL;
    return zone_parse(arena, name, bytes.data, bytes.length);
}

const char *zone_name(const Zone *zone) {
    return zone->name;
}

/* Number of listed changes that are at or before the instant. */
static size_t changes_passed(const Zone *zone, Instant instant) {
    size_t low = 0;
    size_t high = zone->change_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (zone->changes[middle] <= instant)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

int zone_offset(const Zone *zone, Instant instant) {
    size_t passed = changes_passed(zone, instant);
    if (passed == zone->change_count && zone->has_rule)
        return zone_rule_offset(&zone->rule, instant);
    return passed == 0 ? zone->first_offset : zone->offsets[passed - 1];
}

CivilTime zone_civil(const Zone *zone, Instant instant) {
    return civil_from_utc(instant + zone_offset(zone, instant));
}

/* The instant between the two at which the offset changes. */
static Instant jump_between(const Zone *zone, Instant before, Instant after) {
    int offset = zone_offset(zone, before);
    while (after - before > 1) {
        Instant middle = before + (after - before) / 2;
        if (zone_offset(zone, middle) == offset)
            before = middle;
        else
            after = middle;
    }
    return after;
}

/* Clocks are not changed twice within two days. */
int zone_local_to_instant(const Zone *zone, CivilTime civil, Instant *first, Instant *second) {
    Instant as_utc = civil_to_utc(civil);
    Instant before = as_utc - OFFSET_LIMIT, after = as_utc + OFFSET_LIMIT;
    int offsets[] = {zone_offset(zone, before), zone_offset(zone, after)};
    Instant found[2];
    int count = 0;
    for (int i = 0; i < (offsets[0] == offsets[1] ? 1 : 2); i++)
        if (zone_offset(zone, as_utc - offsets[i]) == offsets[i])
            found[count++] = as_utc - offsets[i];
    if (count == 0)
        found[0] = jump_between(zone, before, after);
    if (first)
        *first = found[0];
    if (second)
        *second = found[count == 2];
    return count;
}

Instant zone_instant(const Zone *zone, CivilTime civil, ZoneChoice choice) {
    Instant first;
    Instant second;
    int count = zone_local_to_instant(zone, civil, &first, &second);
    if (count == 0) /* read on the clock in force just before the jump */
        return civil_to_utc(civil) - zone_offset(zone, first - 1);
    return choice == ZONE_LATER ? second : first;
}
