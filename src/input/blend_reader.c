#include "input/readers.h"

#include "base/number.h"

#include <string.h>

#include "schema/rows.h"

/* Shares may miss 100 % by so much, as thirds do; they are then scaled to 1. */
#define SHARE_SUM_SLACK 0.005

enum { LIGHTINGS_MAX = 8 };

const void *find_item(Form *form, const Element *element, const char *name, const char *id,
                      Items items) {
    Names known = {0};
    for (size_t i = 0; id && i < items.count; i++) {
        const char *item = (const char *)items.items + i * items.size;
        const char *other = *(const char *const *)(const void *)(item + items.id_at);
        if (other && !strcmp(other, id))
            return item;
        if (other)
            LIST_ADD(form->arena, &known, other);
    }
    if (id)
        report_unknown(form, element_value_place(element, name), name, id, "", &known);
    return NULL;
}

/* The workshop that names are looked up in; NULL when it could not be read. */
static const Workshop *workshop_of(const Form *form) {
    return ((const BatchContext *)form->context)->workshop;
}

/* ---- Blend --------------------------------------------------------------------------------- */

static void check_twice(Form *form, const Element *part) {
    const char *dust = element_value(part, "dust");
    for (const Element *other = element_child(part->parent, "part"); dust && other != part;
         other = element_sibling(other, "part")) {
        const char *same = element_value(other, "dust");
        if (same && !strcmp(same, dust)) {
            error_at_value(form, part, "dust", "make it one part", "'%s' is already in the blend",
                           dust);
            return;
        }
    }
}

static void check_part(Form *form, const Element *element, void *into) {
    BlendPart *part = into;
    bool least = form_word(form, element, "share") == 0;
    double weight = form_number(form, element, "weight");
    part->kind = least ? SHARE_LEAST : SHARE_FIXED;
    const char *dust = form_text(form, element, "dust");
    if (workshop_of(form))
        part->dust = find_item(form, element, "dust", dust, ITEMS(workshop_of(form)->dusts, Dust));
    if (least)
        part->share = is_stated(weight) ? weight : 1;
    if (!is_stated(part->at_least))
        part->at_least = 0;
    if (!least && form_has(element, "weight"))
        error_at_name(form, element, "weight",
                      "'weight' divides what it takes among several parts with share=\"least\"",
                      "'weight' of a part with a fixed share");
    check_twice(form, element);
}

static const AttributeRule part_attributes[] = {
    CHECKED("dust", ID, "id of a dust", MUST),
    ROW("share", MEASURED_OR("least", MEASURE_SHARE, "0.1 %", "100 %"), BlendPart, share,
        "of the blend, or of what the carriers leave; least: as little of this carrier as it takes",
        MUST),
    ROW("at-least", SHARE("0.1 %", "100 %"), BlendPart, at_least,
        "least share of the finished blend"),
    CHECKED("weight", NUMBER("0.01", "100"),
            "how several carriers share what it takes; 1 when not written"),
};
static ELEMENT(
    part, "One dust of the blend.", OWN_STRUCT(BlendPart), .check = check_part,
    .advice = "<part dust=\"beech\" share=\"100 %\"/>, the dust by its id in the workshop");

/* Fixed shares are of the blend, or of what the carriers leave, and make up the whole of it. */
static void check_shares(Form *form, Blend *blend) {
    double sum = 0, at_least = 0;
    size_t carriers = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const BlendPart *part = &blend->parts.items[i];
        carriers += part->kind == SHARE_LEAST;
        sum += part->kind == SHARE_FIXED ? part->share : 0;
        at_least += part->at_least;
    }
    size_t fixed = blend->parts.count - carriers;
    if (fixed && is_stated(sum) && !(fabs(sum - 1) <= SHARE_SUM_SLACK))
        error_at(form, blend,
                 carriers ? "the shares beside the carrier divide what it leaves: 100 % of it"
                          : "they make up 100 %",
                 "the fixed shares come to %s %%",
                 number_text(form->arena, sum * 100, 1, number_plain));
    if (!fixed && carriers)
        error_at(form, blend, "write a share in percent for what is to be carried",
                 "every part has the share 'least'");
    if (at_least > 1)
        error_at(form, blend, NULL, "the 'at-least' shares come to more than 100 %%");
    for (size_t i = 0; i < blend->parts.count; i++) {
        BlendPart *part = &blend->parts.items[i];
        if (part->kind == SHARE_FIXED)
            part->share /= sum;
    }
}

/* Without a carrier a share is what it is, and nothing is left to ask for. */
static void check_asked(Form *form, const Element *element, const Blend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++)
        if (blend->parts.items[i].kind == SHARE_LEAST)
            return;
    for (const Element *part = element_child(element, "part"); part;
         part = element_sibling(part, "part"))
        if (form_has(part, "at-least"))
            error_at_name(form, part, "at-least",
                          "it goes with another part that has share=\"least\"",
                          "'at-least' in a blend of fixed shares");
    if (form_has(element, "target-margin"))
        error_at_name(form, element, "target-margin",
                      "it goes with a part that has share=\"least\"",
                      "'target-margin' in a blend of fixed shares");
}

static void check_blend(Form *form, const Element *element, void *into) {
    Blend *blend = into;
    check_shares(form, blend);
    check_asked(form, element, blend);
}

static const AttributeRule blend_attributes[] = {
    ROW("name", TEXT, Blend, name, "name of the blend on paper", MUST),
    ROW("by", WORDS("mass volume"), Blend, by_volume,
        "shares are of mass as weighed, or of loose volume", .usual = "mass"),
    ROW("target-margin", NUMBER("1", "3"), Blend, target_margin,
        "hold margin wanted from a carrier; what makes a good night when not written"),
};
static const ChildRule blend_children[] = {SEVERAL(part, 1, 12, Blend, parts)};
ELEMENT(blend, "The blend of dusts.", CHILDREN(blend_children), OWN_STRUCT(Blend),
        .check = check_blend,
        .advice = "<blend name=\"Beech\"><part dust=\"beech\" share=\"100 %\"/></blend>");

/* ---- Fill ---------------------------------------------------------------------------------- */

static void check_lightings(Form *form, const Element *element, const Fill *fill) {
    const Batch *batch = form->outer;
    int before = 0;
    for (size_t i = 0; i < batch->fills.count; i++)
        before += batch->fills.items[i].repeat;
    int lightings = before + fill->repeat;
    if (before <= LIGHTINGS_MAX && lightings > LIGHTINGS_MAX)
        error_at(form, element, arena_format(form->arena, "a batch has at most %d", LIGHTINGS_MAX),
                 "%d lightings with this one", lightings);
}

static void check_fill(Form *form, const Element *element, void *into) {
    Fill *fill = into;
    const char *tray = form_text(form, element, "tray");
    if (workshop_of(form))
        fill->tray = find_item(form, element, "tray", tray, ITEMS(workshop_of(form)->trays, Tray));
    fill->heaped = form_word(form, element, "heap") == 1 || is_stated(fill->heap_angle_rad);
    fill->filled_m = NOT_STATED;
    if (fill->heaped && fill->level < 1)
        error_at_value(form, element, "level", "take 'heap' out, or write level=\"100 %\"",
                       "a heap on a channel that is not full");
    if (fill->whole && form_has(element, "burn-time"))
        error_at_value(form, element, "channel", "take 'burn-time' out, or channel=\"whole\"",
                       "a whole channel that is to burn for a given time");
    check_lightings(form, element, fill);
}

static const AttributeRule fill_attributes[] = {
    CHECKED("tray", ID, "id of a tray", MUST),
    ROW("level", SHARE("1 %", "100 %"), Fill, level, "filled share of the depth", .usual = "100 %"),
    ROW("heap", MEASURED_OR("no yes", MEASURE_ANGLE, "5 deg", "60 deg"), Fill, heap_angle_rad,
        "heaped over the rim: yes, or the angle of repose"),
    ROW("packing", WORDS("sprinkled levelled tamped"), Fill, packing, "how it is put in",
        .usual = "levelled"),
    ROW("light", WORDS("one-end both-ends"), Fill, both_ends, "where it is lit",
        .usual = "one-end"),
    ROW("repeat", COUNT("1", "8"), Fill, repeat, "how often in turn", .usual = "1"),
    ROW("burn-time", DURATION("10 min", "7 d"), Fill, burn_time_s, "wanted: fill only so far"),
    ROW("channel", WORDS("as-needed whole"), Fill, whole,
        "as-needed: as far as burn-time or the product's smoke-time needs", .usual = "as-needed"),
};
ELEMENT(fill, "A filled tray; several burn in turn.", OWN_STRUCT(Fill), .check = check_fill,
        .advice = "<fill tray=\"…\"/>, the tray by its id in the workshop");
