#include "report/record_form.h"

#include "base/utf8.h"

#include <math.h>
#include <string.h>

enum { LINE_CHARACTERS = 100, TIME_CHARACTERS = 16 /* 2026-12-04T21:30 */ };

typedef struct Form {
    Text *text;
    const Plan *plan;
    const FieldGroup *fields;
    SayWords say;
    void *context;
} Form;

/* ---- Values as a file has them ------------------------------------------------------------- */

static const char *local_time(const Form *form, Instant at) {
    char civil[CIVIL_TEXT_SIZE];
    const Zone *zone = form->plan->workshop->zone;
    Instant half = SECONDS_PER_MINUTE / 2;
    civil_format(zone ? zone_civil(zone, at + half) : civil_from_utc(at + half), civil);
    return arena_copy(form->text->arena, civil, TIME_CHARACTERS);
}

static const char *length(const Form *form, double length_m) {
    const double inch_m = 0.0254;
    return form->plan->workshop->units == UNITS_US
               ? arena_format(form->text->arena, "%.1f in", length_m / inch_m)
               : arena_format(form->text->arena, "%.0f mm", length_m * 1000);
}

static const char *mass(const Form *form, double mass_kg) {
    const double ounce_kg = 0.45359237 / 16;
    double step_kg = form->plan->workshop->scale.resolution_kg;
    if (form->plan->workshop->units == UNITS_US)
        return arena_format(form->text->arena, "%.2f oz", mass_kg / ounce_kg);
    return arena_format(form->text->arena, step_kg < 0.001 ? "%.1f g" : "%.0f g", mass_kg * 1000);
}

/* ---- Comments ------------------------------------------------------------------------------ */

static const char *said(const Form *form, const char *key, const FieldGroup *row) {
    const char *words = form->say(form->context, key, row);
    return words ? words : "";
}

/* A comment must not hold two hyphens in a row. */
static void add_word(Text *text, const char *word, size_t bytes) {
    for (size_t i = 0; i < bytes; i++) {
        text_add_bytes(text, word + i, 1);
        if (word[i] == '-' && (i + 1 == bytes || word[i + 1] == '-'))
            text_add(text, " ");
    }
}

/* Words in lines of their own between the signs of a comment. */
static void add_comment(const Form *form, const char *indent, const char *words) {
    size_t column = utf8_count(indent) + strlen("<!--");
    text_addf(form->text, "%s<!--", indent);
    while (*words) {
        size_t bytes = strcspn(words, " ");
        size_t wide = utf8_count(arena_copy(form->text->arena, words, bytes));
        bool turns = column + 1 + wide > LINE_CHARACTERS - strlen(" -->");
        column = turns ? utf8_count(indent) + 4 + wide : column + 1 + wide;
        text_add(form->text, turns ? "\n" : " ");
        if (turns)
            text_addf(form->text, "%s    ", indent);
        add_word(form->text, words, bytes);
        words += bytes + strspn(words + bytes, " ");
    }
    text_add(form->text, " -->\n");
}

/* "; " between what is said. */
static const char *joined(const Form *form, const char *before, const char *key,
                          const FieldGroup *row) {
    const char *words = said(form, key, row);
    return *before ? arena_format(form->text->arena, "%s; %s", before, words) : words;
}

static const char *planned_night(const Form *form) {
    const char *words = said(form, "record_form.planned", form->fields);
    bool one = form->plan->batch->fills.count == 1;
    if (one)
        words = joined(form, words, "record_form.planned_fill", field_row(form->fields, "fill", 0));
    return words;
}

static const char *planned_look(const Form *form, const PlanLookIn *look_in,
                                const FieldGroup *row) {
    const char *words = "";
    bool burns = is_stated(look_in->along_m) && look_in->fill > 0 && !look_in->after_end;
    words = joined(form, words, burns ? "record_form.front" : "record_form.all_out", row);
    if (is_stated(look_in->cabinet_temp_c))
        words = joined(form, words, "record_form.cabinet", row);
    return words;
}

/* ---- The element --------------------------------------------------------------------------- */

static void add_record(const Form *form) {
    const Plan *plan = form->plan;
    Text *text = form->text;
    text_addf(text, "<record lit=\"? %s\" out=\"?\" died=\"?\" burnt=\"?\"\n    ",
              local_time(form, plan->burn.light_at));
    if (plan->batch->fills.count == 1) {
        double used_kg = 0;
        for (size_t i = 0; i < plan->fills.count; i++)
            used_kg += plan->fills.items[i].wet_kg;
        text_addf(text, "filled=\"? %s\" used=\"? %s\" ",
                  length(form, plan->fills.items[0].filled_m), mass(form, used_kg));
    }
    text_add(text, "ash=\"?\" after=\"?\" by=\"?\" remark=\"?\">\n");
}

static void add_readings(const Form *form) {
    const Plan *plan = form->plan;
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        const PlanLookIn *look_in = &plan->look_ins.items[i];
        const FieldGroup *row = field_row(form->fields, "look", i);
        add_comment(form, "  ", planned_look(form, look_in, row));
        text_addf(form->text,
                  "  <reading at=\"%s\" front=\"?\" cabinet=\"?\" humidity=\"?\" remark=\"?\"/>\n",
                  local_time(form, look_in->at));
    }
}

void record_form(Text *text, const Plan *plan, const FieldGroup *fields, SayWords say,
                 void *context) {
    Form form = {text, plan, fields, say, context};
    add_comment(&form, "", said(&form, "record_form.how", fields));
    add_comment(&form, "", planned_night(&form));
    add_record(&form);
    add_comment(&form, "  ", said(&form, "record_form.relit", fields));
    add_readings(&form);
    text_add(text, "</record>\n");
}
