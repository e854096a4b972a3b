#include "command/follow.h"

#include "command/starter.h"
#include "input/tags.h"

#include <string.h>

static const double prepare_s = 4.0 * SECONDS_PER_HOUR;
static const double long_night_s = 12.0 * SECONDS_PER_HOUR;

/* A stretch of the old file and what comes in its place. */
typedef struct Change {
    Span span;
    const char *by;
} Change;

typedef struct Work {
    const Following *following;
    Arena *arena;
    const char *bytes;
    Tags tags;
    LIST_OF(Change) changes; /* in the order of the file */
} Work;

/* ---- When ---------------------------------------------------------------------------------- */

static double stated(double value) {
    return is_stated(value) ? value : 0;
}

static double needed_s(const Batch *batch) {
    const Salting *salting = &batch->product.salting;
    const Freezing *freezing = &batch->product.freezing;
    double needed = prepare_s;
    if (salting->stated)
        needed += stated(salting->time_s) + stated(salting->rinse_s) + stated(salting->dry_s);
    if (freezing->stated && freezing->planned)
        needed += stated(freezing->time_s) + stated(freezing->thaw_s);
    return batch->timing.kind == TIMING_FINISH_BY ? needed + long_night_s : needed;
}

int follow_days(const Batch *batch, Instant now) {
    const Zone *zone = batch->workshop->zone;
    CivilTime last = zone_civil(zone, batch->timing.at);
    Instant from = now + (Instant)needed_s(batch);
    int64_t first = date_to_days(last.date);
    int64_t days = date_to_days(zone_civil(zone, from).date) - first;
    days = days > 1 ? days : 1;
    CivilTime next = last;
    next.date = date_from_days(first + days);
    return (int)(zone_instant(zone, next, ZONE_EARLIER) < from ? days + 1 : days);
}

/* ---- What stands where --------------------------------------------------------------------- */

static bool is(const Work *work, Span span, const char *name) {
    return span.length == strlen(name) && !memcmp(work->bytes + span.from, name, span.length);
}

static bool blank(char letter) {
    return letter == ' ' || letter == '\t';
}

/* Behind the closing bracket of a tag. */
static size_t tag_end(const Work *work, const Tag *tag) {
    size_t at = tag->name.from + tag->name.length;
    for (size_t i = 0; i < tag->attributes.count; i++)
        at = tag->attributes.items[i].value.from + tag->attributes.items[i].value.length + 1;
    const char *close = strchr(work->bytes + at, '>');
    return close ? (size_t)(close - work->bytes) + 1 : work->following->length;
}

/* The number of the tag that ends the element. */
static size_t closing_tag(const Work *work, size_t opening) {
    int depth = 0;
    size_t at = opening;
    for (; at + 1 < work->tags.count; at++) {
        depth += work->tags.items[at].opens ? 1 : -1;
        if (depth == 0)
            break;
    }
    return at;
}

static Span element_span(const Work *work, size_t opening) {
    const Tag *first = &work->tags.items[opening];
    const Tag *last = &work->tags.items[closing_tag(work, opening)];
    size_t from = first->name.from - 1;
    bool alone = last->name.from == first->name.from;
    return (Span){from, tag_end(work, alone ? first : last) - from};
}

/* The same with its line, when nothing else stands in it. */
static Span whole_lines(const Work *work, Span span) {
    size_t from = span.from, to = span.from + span.length;
    while (from > 0 && blank(work->bytes[from - 1]))
        from--;
    while (blank(work->bytes[to]))
        to++;
    bool starts = from == 0 || work->bytes[from - 1] == '\n';
    if (!starts || (work->bytes[to] != '\n' && work->bytes[to] != '\r'))
        return span;
    to += work->bytes[to] == '\r';
    to += work->bytes[to] == '\n';
    return (Span){from, to - from};
}

/* ---- What changes -------------------------------------------------------------------------- */

static void change(Work *work, Span span, const char *by) {
    LIST_ADD(work->arena, &work->changes, (Change){span, by});
}

/* With the blanks before it. */
static void leave_out_attribute(Work *work, const TagAttribute *attribute) {
    size_t from = attribute->name.from;
    while (from > 0 && strchr(" \t\r\n", work->bytes[from - 1]))
        from--;
    size_t to = attribute->value.from + attribute->value.length + 1;
    change(work, (Span){from, to - from}, "");
}

static void move_hour(Work *work, const TagAttribute *attribute) {
    const char *written =
        arena_copy(work->arena, work->bytes + attribute->value.from, attribute->value.length);
    const char *hour = strchr(written, 'T');
    Date date;
    if (!hour || !date_parse(arena_copy(work->arena, written, (size_t)(hour - written)), &date))
        return;
    char text[DATE_TEXT_SIZE];
    date_format(date_from_days(date_to_days(date) + work->following->days), text);
    change(work, attribute->value, arena_format(work->arena, "%s%s", text, hour));
}

static bool is_of_that_night(const Work *work, const Tag *tag, const TagAttribute *attribute) {
    static const char *const rows[][2] = {
        {"batch", "lot"},    {"product", "lot"},   {"bag", "packed"},    {"product", "cured"},
        {"product", "salt"}, {"product", "water"}, {"salting", "begun"}, {"freezing", "begun"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (is(work, tag->name, rows[i][0]) && is(work, attribute->name, rows[i][1]))
            return true;
    return false;
}

/* With quotes of its own: those that are there may be single ones. */
static void rename_batch(Work *work, Span value) {
    const char *name = starter_quoted(work->arena, work->following->name);
    change(work, (Span){value.from - 1, value.length + 2},
           arena_format(work->arena, "\"%s\"", name));
}

static void change_attributes(Work *work, const Tag *tag) {
    bool hours = is(work, tag->name, "timing") || is(work, tag->name, "away");
    const char *name = work->following->name;
    for (size_t i = 0; i < tag->attributes.count; i++) {
        const TagAttribute *attribute = &tag->attributes.items[i];
        if (is_of_that_night(work, tag, attribute))
            leave_out_attribute(work, attribute);
        else if (hours)
            move_hour(work, attribute);
        else if (name && is(work, tag->name, "batch") && is(work, attribute->name, "name"))
            rename_batch(work, attribute->value);
    }
}

/* Changes the element as a whole, and says so. */
static bool change_element(Work *work, size_t at) {
    const Tag *tag = &work->tags.items[at];
    const Freezing *freezing = &work->following->batch->product.freezing;
    Span span = element_span(work, at);
    if (is(work, tag->name, "weather") && !tag_attribute(tag, work->bytes, "from")) {
        change(work, span, arena_format(work->arena, "<weather %s/>", work->following->weather));
        return true;
    }
    if (!is(work, tag->name, "record") && !(is(work, tag->name, "freezing") && !freezing->planned))
        return false;
    change(work, whole_lines(work, span), "");
    return true;
}

Text follow_text(const Following *following) {
    Work work = {.following = following, .arena = following->arena, .bytes = following->bytes};
    work.tags = tags_scan(following->arena, following->bytes, following->length);
    for (size_t i = 0; i < work.tags.count; i++) {
        if (!work.tags.items[i].opens)
            continue;
        if (change_element(&work, i))
            i = closing_tag(&work, i);
        else
            change_attributes(&work, &work.tags.items[i]);
    }
    Text text = text_new(following->arena);
    size_t at = 0;
    for (size_t i = 0; i < work.changes.count; i++) {
        const Change *next = &work.changes.items[i];
        text_add_bytes(&text, following->bytes + at, next->span.from - at);
        text_add(&text, next->by);
        at = next->span.from + next->span.length;
    }
    text_add_bytes(&text, following->bytes + at, following->length - at);
    return text;
}
