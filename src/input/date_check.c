#include "input/date_check.h"

#include "base/zone.h"

#include <stdbool.h>
#include <stdlib.h>

enum { YEAR_DAYS = 366, OLDEST_YEARS = 20 };

/* Days since 1970. */
typedef struct Span {
    int64_t first, last;
} Span;

static int64_t day_of(const Workshop *workshop, Instant at) {
    const Zone *zone = workshop ? workshop->zone : NULL;
    return date_to_days((zone ? zone_civil(zone, at) : civil_from_utc(at)).date);
}

static int64_t years(int64_t days) {
    return (llabs(days) + YEAR_DAYS / 2) / YEAR_DAYS;
}

/* A day of the past, held against the span from today to the session, whichever comes first. */
static void check_past(Diagnostics *diagnostics, Place place, const char *name, const char *what,
                       Date date, Span span) {
    if (!date_valid(date)) {
        return;
    }
    char text[DATE_TEXT_SIZE];
    date_format(date, text);
    int64_t ahead = date_to_days(date) - span.last;
    int64_t ago = span.first - date_to_days(date);
    if (ahead > YEAR_DAYS)
        report_error(diagnostics, place, "a date is written 2026-12-04",
                     "'%s' was %s on %s, %lld years from now", name, what, text,
                     (long long)years(ahead));
    if (ago > (int64_t)OLDEST_YEARS * YEAR_DAYS)
        report_error(diagnostics, place, "a date is written 2026-12-04",
                     "'%s' was %s on %s, %lld years ago", name, what, text, (long long)years(ago));
}

static void check_dusts(Diagnostics *diagnostics, const Blend *blend, Span span) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        const Dust *dust = blend->parts.items[i].dust;
        if (dust) {
            check_past(diagnostics, dust->place, dust->id, "measured", dust->measured, span);
            check_past(diagnostics, dust->place, dust->id, "received", dust->received, span);
        }
    }
}

static void check_bags(Diagnostics *diagnostics, const Batch *batch, int64_t session) {
    for (size_t i = 0; i < batch->bags.count; i++) {
        const BagOrder *bag = &batch->bags.items[i];
        int64_t apart = date_valid(bag->packed) ? date_to_days(bag->packed) - session : 0;
        if (llabs(apart) > YEAR_DAYS)
            report_error(diagnostics, bag->place, "leave 'packed' out for the day of the session",
                         "packed %lld years %s the session", (long long)years(apart),
                         apart > 0 ? "after" : "before");
    }
}

void date_check(Diagnostics *diagnostics, const Batch *batch, Instant now) {
    if (!batch->timing.at) {
        return;
    }
    int64_t session = day_of(batch->workshop, batch->timing.at);
    check_bags(diagnostics, batch, session);
    if (!now) {
        return;
    }
    int64_t today = day_of(batch->workshop, now);
    Span span = session > today ? (Span){today, session} : (Span){session, today};
    check_dusts(diagnostics, &batch->blend, span);
    if (!batch->record.stated && session - today > YEAR_DAYS)
        report_error(diagnostics, batch->timing.place, "the hour is written 2026-12-04T21:30",
                     "the session is %lld years from now", (long long)years(session - today));
}

void date_check_bagging(Diagnostics *diagnostics, const Bagging *bagging, Instant now) {
    if (!now || !date_valid(bagging->packed)) {
        return;
    }
    int64_t today = day_of(bagging->workshop, now);
    int64_t packed = date_to_days(bagging->packed);
    Span span = packed > today ? (Span){today, packed} : (Span){packed, today};
    for (size_t i = 0; i < bagging->packs.count; i++)
        check_dusts(diagnostics, &bagging->packs.items[i].blend, span);
    if (packed - today > YEAR_DAYS)
        report_error(diagnostics, bagging->place, "a date is written 2026-12-04",
                     "packed %lld years from now", (long long)years(packed - today));
}
