#include "model/lot.h"

#include "base/file_path.h"

#include <stdint.h>

/* Two signs out of the whole name (FNV-1a, 32 bit); no 0, 1, I, L, O, which are misread. */
static void check_signs(const char *stem, char signs[3]) {
    static const char alphabet[] = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
    const uint32_t base = sizeof alphabet - 1;
    uint32_t hash = 2166136261u;
    for (const char *at = stem; *at; at++) {
        hash = (hash ^ (unsigned char)*at) * 16777619u;
    }
    hash ^= hash >> 16;
    signs[0] = alphabet[hash % base];
    signs[1] = alphabet[hash / base % base];
    signs[2] = '\0';
}

const char *lot_short(Arena *arena, Date date, const char *file, int number) {
    char signs[3];
    check_signs(arena_format(arena, "%s %d", file_path_stem(arena, file), number), signs);
    if (!date.year) {
        return arena_format(arena, "L-%s", signs);
    }
    return arena_format(arena, "L%02d%03d-%s", date.year % 100, date_ordinal(date), signs);
}

const char *lot_of_batch(Arena *arena, const Batch *batch, Date date) {
    return batch->lot ? batch->lot : lot_short(arena, date, batch->file ? batch->file : "batch", 0);
}
