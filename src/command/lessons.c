#include "command/lessons.h"

#include <string.h>

static const double hour_s = 3600, minute_s = 60;

/* Whole hours from ten on, whole minutes under two. */
static const char *duration(Arena *arena, Quantity quantity) {
    double hours = quantity.value / hour_s;
    if (hours < 2)
        return arena_format(arena, "%.0f min", quantity.value / minute_s);
    return arena_format(arena, hours < 10 ? "%.1f h" : "%.0f h", hours);
}

static const char *or_none(const char *text) {
    return text ? text : "";
}

static bool was_told(const Lessons *lessons, const LearningNote *note) {
    for (size_t i = 0; i < lessons->told.count; i++) {
        const LearningNote *other = &lessons->told.items[i];
        if (!strcmp(other->key, note->key) && other->place.line == note->place.line &&
            !strcmp(or_none(other->place.file), or_none(note->place.file)))
            return true;
    }
    return false;
}

static void report_aside(Reader *reader, const LearningNote *note) {
    Arena *arena = reader->arena;
    const char *said = duration(arena, note->said);
    const char *from = duration(arena, note->from), *to = duration(arena, note->to);
    const char *what = note->dust ? arena_format(arena, "this trial of '%s'", note->dust) : "it";
    const char *remedy = note->dust ? "look at its 'length' and 'took'"
                                    : "look at 'lit', 'out', 'filled' and 'burnt'";
    if (note->others > 0)
        report_warning(&reader->diagnostics, note->place, remedy,
                       "%s says %s; the other %d make it %s to %s: left out", what, said,
                       note->others, from, to);
    else
        report_warning(&reader->diagnostics, note->place, remedy,
                       "%s says %s; %s to %s would be usual: left out", what, said, from, to);
}

static void report_one(Reader *reader, const LearningNote *note) {
    if (!strcmp(note->key, "length_unknown"))
        report_note(&reader->diagnostics, note->place,
                    "write filled=\"744 mm\", or the dust used=\"66 g\", into the record",
                    "it teaches no speed, since it does not say how far the tray was filled");
    else if (!strcmp(note->key, "at_odds"))
        report_warning(&reader->diagnostics, note->place, "look at its times and lengths",
                       "what was read on the way and the end do not go together: left out");
    else if (!strcmp(note->key, "weather_usual"))
        report_note(&reader->diagnostics, note->place,
                    "write into its weather what it was, and take usual=\"yes\" out",
                    "it counts for less, since its weather is only what is usual");
    else
        report_aside(reader, note);
}

void lessons_report(Reader *reader, const LearningNotes *notes, Lessons *lessons) {
    for (size_t i = 0; i < notes->count; i++) {
        const LearningNote *note = &notes->items[i];
        if (was_told(lessons, note))
            continue;
        LIST_ADD(reader->lasting, &lessons->told, *note);
        report_one(reader, note);
    }
}

static bool among(const char *path, char *const *files, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (!strcmp(path, files[i]))
            return true;
    return false;
}

void lessons_report_unread(Reader *reader, const Records *records, char *const *files,
                           size_t count) {
    for (size_t i = 0; i < records->unread.count; i++) {
        const char *path = records->unread.items[i];
        if (!among(path, files, count))
            report_note(&reader->diagnostics, (Place){.file = path},
                        arena_format(reader->arena, "'burnsheet check %s' says which", path),
                        "nothing is learnt from it, since it has faults");
    }
}
