#include "model/absence.h"

#include <stddef.h>
#include <string.h>

Away absence_whole(const Batch *batch, Away span) {
    size_t count = batch->timing.away.count;
    for (size_t turn = 0; turn < count; turn++) {
        for (size_t i = 0; i < count; i++) {
            const Away *other = &batch->timing.away.items[i];
            if (other->from <= span.to && span.from <= other->to) {
                span.from = other->from < span.from ? other->from : span.from;
                span.to = other->to > span.to ? other->to : span.to;
            }
        }
    }
    return span;
}

bool absence_at(const Batch *batch, Instant at, Away *span) {
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        const Away *away = &batch->timing.away.items[i];
        if (at > away->from && at < away->to) {
            *span = absence_whole(batch, *away);
            return true;
        }
    }
    return false;
}

Instant absence_back(const Batch *batch, Instant at) {
    Away span;
    return absence_at(batch, at, &span) ? span.to : at;
}

static Instant rounded_down(Instant at, Instant step_s) {
    return at - ((at % step_s) + step_s) % step_s;
}

/* Each move clears one span for good, for it only goes backwards. */
Instant absence_done_by(const Batch *batch, Instant until, Instant length_s, Instant step_s) {
    size_t count = batch->timing.away.count;
    for (size_t turn = 0; turn < count; turn++) {
        for (size_t i = 0; i < count; i++) {
            const Away *away = &batch->timing.away.items[i];
            Instant from = until - length_s;
            bool inside = from > away->from && from < away->to;
            if (inside || (from < away->to && until > away->from)) {
                until = rounded_down(away->from, step_s);
            }
        }
    }
    return until;
}

const Batch *absence_without(Arena *arena, const Batch *batch, Instant from, Instant to) {
    Batch *attended = ARENA_NEW(arena, Batch);
    *attended = *batch;
    memset(&attended->timing.away, 0, sizeof attended->timing.away);
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        const Away *away = &batch->timing.away.items[i];
        Away before = {away->from, away->to < from ? away->to : from, away->place};
        Away after = {away->from > to ? away->from : to, away->to, away->place};
        if (before.to > before.from) {
            LIST_ADD(arena, &attended->timing.away, before);
        }
        if (after.to > after.from) {
            LIST_ADD(arena, &attended->timing.away, after);
        }
    }
    return attended;
}
