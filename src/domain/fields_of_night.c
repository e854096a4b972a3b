/* The fields of what people do: reasons, remedies, care, learning, steps, look-ins, decisions,
 * cautions, bags, dark hours. In each of these rows `text` is the key of the row's words; a
 * decision also has those of what to do, `then`. */
#include "domain/field_member.h"
#include "domain/word.h"

#include <string.h>

static const Member remedy_members[] = {
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(Remedy, name)},
    {"amount", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Remedy, amount)},
    {"second", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Remedy, second)},
    {"margin_before", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(Remedy, margin_before)},
    {"margin_after", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(Remedy, margin_after)},
    {"chance_before", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(Remedy, chance_before)},
    {"chance_after", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(Remedy, chance_after)},
    {"chance_said_in", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(Remedy, chance_said_in)},
    {"chance_said_of", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(Remedy, chance_said_of)},
    {"temp_after", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(Remedy, temp_after_c)},
};

/* Of the second change of two: what comes of both stands with the first. */
static const Member change_members[] = {
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(Remedy, name)},
    {"amount", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Remedy, amount)},
    {"second", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Remedy, second)},
    {"temp_after", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(Remedy, temp_after_c)},
};

static const Member care_members[] = {
    {"value", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Care, value)},
    {"limit", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Care, limit)},
};

static const Member learning_members[] = {
    {"amount", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(LearningNote, said)},
    {"from", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(LearningNote, from)},
    {"to", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(LearningNote, to)},
    {"count", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(LearningNote, others)},
};

static const Member step_members[] = {
    {"at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanStep, at)},
    {"amount", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(PlanStep, amount)},
    {"second", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(PlanStep, second)},
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanStep, name)},
    {"fill", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanStep, fill)},
};

static const Member look_in_members[] = {
    {"at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanLookIn, at)},
    {"fill", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanLookIn, fill)},
    {"lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanLookIn, lane)},
    {"along", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanLookIn, along_m)},
    {"in_lane", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanLookIn, in_lane)},
    {"second", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanLookIn, second_m)},
    {"early", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanLookIn, early_m)},
    {"late", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanLookIn, late_m)},
    {"cabinet_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanLookIn, cabinet_temp_c)},
    {"away", MEMBER_YES, QUANTITY_NONE, offsetof(PlanLookIn, away)},
    {"alone_from", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanLookIn, alone_from)},
    {"alone_until", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanLookIn, alone_until)},
    {"alone_since", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanLookIn, alone_since)},
    {"worst", MEMBER_YES, QUANTITY_NONE, offsetof(PlanLookIn, worst)},
};

static const Member decision_members[] = {
    {"limit", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Decision, limit)},
    {"second", MEMBER_QUANTITY, QUANTITY_NONE, offsetof(Decision, second)},
};

static const Member bag_members[] = {
    {"net_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBag, net_kg)},
    {"count", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBag, count)},
    {"figure_height", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanBag, figure_height_m)},
    {"grain_from", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(PlanBag, grain_from_m)},
    {"grain_to", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(PlanBag, grain_to_m)},
    {"moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanBag, moisture)},
    {"moisture_wet", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBag, moisture_wet)},
    {"packed", MEMBER_DATE, QUANTITY_NONE, offsetof(PlanBag, packed)},
    {"untreated", MEMBER_YES, QUANTITY_NONE, offsetof(PlanBag, untreated)},
    {"tolerance", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBag, tolerance_kg)},
    {"total_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBag, total_kg)},
};

static const Member bag_part_members[] = {
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(BagPart, name)},
    {"share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(BagPart, share)},
};

static const Member span_members[] = {
    {"from", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(Away, from)},
    {"to", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(Away, to)},
};

/* The words of a row: "step" and "weigh" make `step.weigh`. */
static void add_words(Arena *arena, FieldGroup *row, const char *key) {
    field_add_word(arena, row, "text", arena_format(arena, "%s.%s", row->name, key));
}

static void add_vents_of(Arena *arena, FieldGroup *row, const Remedy *remedy) {
    if (remedy->kind == REMEDY_WIDER_VENT) {
        field_add_vents(arena, row, &remedy->inlet, &remedy->outlet);
    }
}

static void add_remedy(Arena *arena, FieldGroup *root, const Remedy *remedy, int number) {
    FieldGroup *row = field_group_new(arena, root, "remedy", number);
    field_add_word(arena, row, "text", word_of_remedy(remedy->kind));
    FIELD_ADD(arena, row, remedy_members, remedy);
    add_vents_of(arena, row, remedy);
    field_add_word(arena, row, "verdict_after", word_of_verdict(remedy->verdict_after));
    field_add_word(arena, row, "lasts",
                   remedy->chance_said_in > 0 ? "chance.after" : "chance.after_few");
    if (remedy->with) {
        FieldGroup *with = field_group_new(arena, row, "with", 1);
        field_add_word(arena, with, "text", word_of_remedy(remedy->with->kind));
        FIELD_ADD(arena, with, change_members, remedy->with);
        add_vents_of(arena, with, remedy->with);
    }
}

static void add_judgement(Arena *arena, FieldGroup *root, const Plan *plan) {
    for (size_t i = 0; i < plan->reasons.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "reason", (int)i + 1);
        const char *cause = word_of_cause(plan->reasons.items[i].cause);
        field_add_word(arena, row, "cause", cause);
        add_words(arena, row, strchr(cause, '.') + 1);
        field_add_word(arena, row, "verdict", word_of_verdict(plan->reasons.items[i].verdict));
    }
    for (size_t i = 0; i < plan->remedies.count; i++) {
        add_remedy(arena, root, &plan->remedies.items[i], (int)i + 1);
    }
    for (size_t i = 0; i < plan->care.count; i++) {
        const Care *care = &plan->care.items[i];
        FieldGroup *row = field_group_new(arena, root, "care", (int)i + 1);
        add_words(arena, row, care->key);
        field_add_word(arena, row, "level", word_of_care_level(care->level));
        FIELD_ADD(arena, row, care_members, care);
    }
    for (size_t i = 0; i < plan->learning.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "learning", (int)i + 1);
        add_words(arena, row, plan->learning.items[i].key);
        const LearningNote *note = &plan->learning.items[i];
        field_add_text(arena, row, "name", note->dust ? note->dust : note->file);
        FIELD_ADD(arena, row, learning_members, note);
    }
}

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
        FieldGroup *row = field_group_new(arena, root, "step", (int)i + 1);
        add_words(arena, row, plan->steps.items[i].key);
        FIELD_ADD(arena, row, step_members, &plan->steps.items[i]);
        field_add_text(arena, row, "part", part_of_step(&plan->steps.items[i]));
        if (strcmp(plan->steps.items[i].key, "close") == 0) {
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
        add_words(arena, row, key);
        field_add_word(arena, row, "then", arena_format(arena, "decision.%s.then", key));
        FIELD_ADD(arena, row, decision_members, &plan->decisions.items[i]);
    }
    for (size_t i = 0; i < plan->cautions.count; i++) {
        FieldGroup *row = field_group_new(arena, root, "caution", (int)i + 1);
        add_words(arena, row, plan->cautions.items[i].key);
        field_add_word(arena, row, "signal",
                       arena_format(arena, "signal.%s", plan->cautions.items[i].signal));
    }
}

static void add_bag(Arena *arena, FieldGroup *root, const PlanBag *bag, int number) {
    FieldGroup *row = field_group_new(arena, root, "bag", number);
    FIELD_ADD(arena, row, bag_members, bag);
    if (is_stated(bag->moisture)) {
        field_add_word(arena, row, "basis", word_of_basis(bag->basis));
    } else {
        field_add_text(arena, row, "basis", NULL); /* no moisture, no basis */
    }
    field_add_text(arena, row, "stock", bag->order->stock);
    field_add_number(arena, row, "first", QUANTITY_COUNT, bag->order->first);
    for (size_t i = 0; i < bag->parts.count; i++) {
        FIELD_ADD(arena, field_group_new(arena, row, "part", (int)i + 1), bag_part_members,
                  &bag->parts.items[i]);
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

void fields_of_night(Arena *arena, FieldGroup *root, const Plan *plan) {
    add_judgement(arena, root, plan);
    add_tasks(arena, root, plan);
    add_events(arena, root, plan);
    for (size_t i = 0; i < plan->bags.count; i++) {
        add_bag(arena, root, &plan->bags.items[i], (int)i + 1);
    }
    for (size_t i = 0; i < plan->nights.count; i++) {
        FIELD_ADD(arena, field_group_new(arena, root, "night", (int)i + 1), span_members,
                  &plan->nights.items[i]);
    }
}
