/* The fields of what people do: steps, look-ins, decisions, cautions, what happens by the clock,
 * hours of nobody there and of darkness. In each of these rows `text` is the key of the row's
 * words; a decision also has those of what to do, `then`. */
#include "domain/field_member.h"
#include "domain/word.h"

#include <string.h>

static const Member step_members[] = {
    MEMBER(PlanStep, at),   MEMBER(PlanStep, amount), MEMBER(PlanStep, second),
    MEMBER(PlanStep, name), MEMBER(PlanStep, fill),
};

static const Member look_in_members[] = {
    MEMBER(PlanLookIn, at),
    MEMBER(PlanLookIn, fill),
    MEMBER(PlanLookIn, lane),
    MEASURED("along", LENGTH, PlanLookIn, along_m),
    MEASURED("in_lane", SHARE, PlanLookIn, in_lane),
    MEASURED("second", LENGTH, PlanLookIn, second_m),
    MEASURED("early", LENGTH, PlanLookIn, early_m),
    MEASURED("late", LENGTH, PlanLookIn, late_m),
    MEASURED("cabinet_temp", TEMPERATURE, PlanLookIn, cabinet_temp_c),
    MEMBER(PlanLookIn, away),
    MEMBER(PlanLookIn, alone_from),
    MEMBER(PlanLookIn, alone_until),
    MEMBER(PlanLookIn, alone_since),
    MEMBER(PlanLookIn, after_end),
    MEMBER(PlanLookIn, worst),
};

static const Member decision_members[] = {
    MEMBER(Decision, limit),
    MEMBER(Decision, second),
};

static const Member away_members[] = {
    MEMBER(Away, from),
    MEMBER(Away, to),
};

/* Where a step belongs: with the food or the dust before lighting, with the lighting, with a look
 * or a further tray, which the night's events tell, or after it all. */
static const char *part_of_step(const PlanStep *step) {
    static const struct {
        const char *start; /* of the key */
        const char *part;
    } parts[] = {{"prepare_", "food"},  {"hang", "food"},   {"light", "light"}, {"close", "light"},
                 {"first_", "look"},    {"worst_", "look"}, {"refill", "tray"}, {"next_", "tray"},
                 {"take_out", "after"}, {"ash", "after"},   {"record", "after"}};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (strncmp(step->key, parts[i].start, strlen(parts[i].start)) == 0) {
            return parts[i].part;
        }
    }
    return "dust";
}

static void add_tasks(Arena *arena, FieldGroup *root, const Plan *plan) {
    for (size_t i = 0; i < plan->steps.count; i++) {
        const PlanStep *step = &plan->steps.items[i];
        FieldGroup *row = field_group_new(arena, root, "step", (int)i + 1);
        field_add_row_words(arena, row, step->key);
        FIELD_ADD(arena, row, step_members, step);
        field_add_text(arena, row, "part", part_of_step(step));
        field_add_yes(arena, row, "is_fill", strncmp(step->key, "fill", strlen("fill")) == 0);
        if (step->fill > 0 && (size_t)step->fill <= plan->fills.count) {
            row->parent = field_row(root, "fill", (size_t)step->fill - 1);
        }
        if (strcmp(step->key, "close") == 0) {
            field_add_vents(arena, row, &plan->cabinet.inlet, &plan->cabinet.outlet);
        }
    }
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        const PlanLookIn *look_in = &plan->look_ins.items[i];
        bool burns = look_in->fill > 0 && (size_t)look_in->fill <= plan->fills.count;
        const PlanFill *fill = burns ? &plan->fills.items[look_in->fill - 1] : NULL;
        FieldGroup *row = field_group_new(arena, root, "look", (int)i + 1);
        FIELD_ADD(arena, row, look_in_members, look_in);
        field_add_text(arena, row, "letter", arena_format(arena, "%c", 'A' + (int)(i % 26)));
        field_add_yes(arena, row, "in_lanes", fill && fill->tray->path == PATH_LANES);
        field_add_instant(arena, row, "out_early", fill ? fill->out_early : 0);
        field_add_instant(arena, row, "out_late", fill ? fill->out_late : 0);
    }
    for (size_t i = 0; i < plan->decisions.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "decision", (int)i + 1);
        const char *key = plan->decisions.items[i].key;
        field_add_row_words(arena, row, key);
        field_add_word(arena, row, "then", arena_format(arena, "decision.%s.then", key));
        FIELD_ADD(arena, row, decision_members, &plan->decisions.items[i]);
    }
    for (size_t i = 0; i < plan->cautions.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "caution", (int)i + 1);
        field_add_row_words(arena, row, plan->cautions.items[i].key);
        field_add_word(arena, row, "signal",
                       arena_format(arena, "signal.%s", plan->cautions.items[i].signal));
    }
}

/* What happens in the night by the clock: trays lit, look-ins, and the end, which a look at the
 * same time is part of. Each row of `event` has the fields of what it is (`what`: fill, look or
 * end), besides its own. */
typedef struct Event {
    Instant at;
    const char *what;
    const FieldGroup *of;
} Event;

static size_t insert_event(Event *events, size_t count, Event event) {
    size_t at = count;
    for (; at > 0 && events[at - 1].at > event.at; at--) {
        events[at] = events[at - 1];
    }
    events[at] = event;
    return count + 1;
}

/* When the product is to come out, by the clock of the steps. */
static Instant end_of_night(const Plan *plan) {
    for (size_t i = 0; i < plan->steps.count; i++) {
        const PlanStep *step = &plan->steps.items[i];
        if (step->at && strncmp(step->key, "take_out", strlen("take_out")) == 0) {
            return step->at;
        }
    }
    return plan->burn.out_at;
}

static void add_events(Arena *arena, FieldGroup *root, const Plan *plan) {
    Event *events = ARENA_ARRAY(arena, plan->fills.count + plan->look_ins.count + 1, Event);
    size_t count = 0;
    Instant end = end_of_night(plan);
    const char *end_letter = NULL; /* of the look that is one with the end */
    for (size_t i = 0; i < plan->fills.count; i++) {
        Event event = {plan->fills.items[i].light_at, "fill", field_row(root, "fill", i)};
        count = insert_event(events, count, event);
    }
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        const FieldGroup *look_in = field_row(root, "look", i);
        if (plan->look_ins.items[i].at == end) {
            end_letter = field_find(look_in, "letter")->text;
        } else {
            count =
                insert_event(events, count, (Event){plan->look_ins.items[i].at, "look", look_in});
        }
    }
    count = insert_event(events, count, (Event){end, "end", root});
    for (size_t i = 0; i < count; i++) {
        FieldGroup *row = field_group_new(arena, root, "event", (int)i + 1);
        field_add_instant(arena, row, "event_at", events[i].at);
        field_add_text(arena, row, "what", events[i].what);
        if (strcmp(events[i].what, "look") != 0) {
            bool end_of_all = events[i].of == root;
            field_add_text(arena, row, "letter", end_of_all ? end_letter : NULL);
        }
        row->parent = events[i].of;
    }
}

void fields_of_tasks(Arena *arena, FieldGroup *root, const Plan *plan) {
    field_add_yes(arena, root, "several_fills", plan->fills.count > 1);
    add_tasks(arena, root, plan);
    add_events(arena, root, plan);
    FIELD_ADD_ROWS(arena, field_group_new(arena, root, "timing", 0), "away", away_members,
                   plan->batch->timing.away);
    FIELD_ADD_ROWS(arena, root, "night", away_members, plan->nights);
}
