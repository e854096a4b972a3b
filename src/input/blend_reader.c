#include "input/readers.h"

#include "base/number.h"

#include <string.h>

/* Shares may miss 100 % by so much, as thirds do; they are then scaled to 1. */
#define SHARE_SUM_SLACK 0.005

enum { LIGHTINGS_MAX = 8 };

/* The number of the item whose id an attribute names; reports when there is none. `ids` holds the
 * ids in the order of the items, NULL when they are not known. Returns -1 when it is not written,
 * not known or cannot be known. */
static int find_named(Form *form, const Element *element, const char *name, const Names *ids) {
    const char *id = form_text(form, element, name);
    if (!id || !ids)
        return -1;
    for (size_t i = 0; i < ids->count; i++)
        if (!strcmp(ids->items[i], id))
            return (int)i;
    report_unknown(form, element_value_place(element, name), name, id, "", ids);
    return -1;
}

static const Dust *find_dust(Form *form, const Element *part, const Workshop *workshop) {
    Names ids = {0};
    for (size_t i = 0; workshop && i < workshop->dusts.count; i++) {
        const char *id = workshop->dusts.items[i].id;
        LIST_ADD(form->arena, &ids, id ? id : "");
    }
    int found = find_named(form, part, "dust", workshop ? &ids : NULL);
    return workshop && found >= 0 ? &workshop->dusts.items[found] : NULL;
}

static const Tray *find_tray(Form *form, const Element *fill, const Workshop *workshop) {
    Names ids = {0};
    for (size_t i = 0; workshop && i < workshop->trays.count; i++) {
        const char *id = workshop->trays.items[i].id;
        LIST_ADD(form->arena, &ids, id ? id : "");
    }
    int found = find_named(form, fill, "tray", workshop ? &ids : NULL);
    return workshop && found >= 0 ? &workshop->trays.items[found] : NULL;
}

static BlendPart read_part(Form *form, const Element *element, const Workshop *workshop) {
    bool least = form_special(form, element, "share") >= 0;
    double at_least = form_number(form, element, "at-least");
    double weight = form_number(form, element, "weight");
    double share = form_number(form, element, "share");
    if (least)
        share = is_stated(weight) ? weight : 1;
    if (!least && form_has(element, "weight"))
        report_error(form->diagnostics, element_attribute(element, "weight")->name_place,
                     "'weight' divides what it takes among several parts with share=\"least\"",
                     "'weight' of a part with a fixed share");
    return (BlendPart){.place = element->place,
                       .dust = find_dust(form, element, workshop),
                       .kind = least ? SHARE_LEAST : SHARE_FIXED,
                       .share = share,
                       .at_least = is_stated(at_least) ? at_least : 0};
}

static void check_twice(Form *form, const Element *part) {
    const char *dust = element_value(part, "dust");
    for (const Element *other = element_child(part->parent, "part"); dust && other != part;
         other = element_sibling(other, "part")) {
        const char *same = element_value(other, "dust");
        if (same && !strcmp(same, dust)) {
            report_error(form->diagnostics, element_value_place(part, "dust"), "make it one part",
                         "'%s' is already in the blend", dust);
            return;
        }
    }
}

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
        report_error(form->diagnostics, blend->place,
                     carriers ? "the shares beside the carrier divide what it leaves: 100 % of it"
                              : "they make up 100 %",
                     "the fixed shares come to %s %%",
                     number_text(form->arena, sum * 100, 1, number_plain));
    if (!fixed && carriers)
        report_error(form->diagnostics, blend->place,
                     "write a share in percent for what is to be carried",
                     "every part has the share 'least'");
    if (at_least > 1)
        report_error(form->diagnostics, blend->place, NULL,
                     "the 'at-least' shares come to more than 100 %%");
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
            report_error(form->diagnostics, element_attribute(part, "at-least")->name_place,
                         "it goes with another part that has share=\"least\"",
                         "'at-least' in a blend of fixed shares");
    if (form_has(element, "target-margin"))
        report_error(form->diagnostics, element_attribute(element, "target-margin")->name_place,
                     "it goes with a part that has share=\"least\"",
                     "'target-margin' in a blend of fixed shares");
}

Blend read_blend(Form *form, const Element *element, const Workshop *workshop) {
    Blend blend = {.place = element->place,
                   .name = form_text(form, element, "name"),
                   .by_volume = form_word(form, element, "by", 0) == 1,
                   .target_margin = form_number(form, element, "target-margin")};
    for (const Element *part = element_child(element, "part"); part;
         part = element_sibling(part, "part")) {
        LIST_ADD(form->arena, &blend.parts, read_part(form, part, workshop));
        check_twice(form, part);
    }
    check_shares(form, &blend);
    check_asked(form, element, &blend);
    return blend;
}

static Fill read_fill(Form *form, const Element *element, const Workshop *workshop) {
    double level = form_number(form, element, "level");
    double angle = form_number(form, element, "heap");
    int heap = form_special(form, element, "heap");
    Fill fill = {.place = element->place,
                 .tray = find_tray(form, element, workshop),
                 .level = form_has(element, "level") ? level : 1,
                 .heaped = heap == 1 || is_stated(angle),
                 .heap_angle_rad = angle,
                 .packing = (Packing)form_word(form, element, "packing", PACKING_LEVELLED),
                 .both_ends = form_word(form, element, "light", 0) == 1,
                 .repeat = form_count(form, element, "repeat", 1),
                 .burn_time_s = form_number(form, element, "burn-time"),
                 .whole = form_word(form, element, "channel", 0) == 1,
                 .filled_m = NOT_STATED};
    if (fill.heaped && fill.level < 1)
        report_error(form->diagnostics, element_value_place(element, "level"),
                     "take 'heap' out, or write level=\"100 %\"",
                     "a heap on a channel that is not full");
    if (fill.whole && form_has(element, "burn-time"))
        report_error(form->diagnostics, element_value_place(element, "channel"),
                     "take 'burn-time' out, or channel=\"whole\"",
                     "a whole channel that is to burn for a given time");
    return fill;
}

void read_fills(Form *form, const Element *batch, const Workshop *workshop, Batch *into) {
    int lightings = 0;
    for (const Element *element = element_child(batch, "fill"); element;
         element = element_sibling(element, "fill")) {
        Fill fill = read_fill(form, element, workshop);
        LIST_ADD(form->arena, &into->fills, fill);
        bool had_room = lightings <= LIGHTINGS_MAX;
        lightings += fill.repeat;
        if (had_room && lightings > LIGHTINGS_MAX)
            report_error(form->diagnostics, element->place,
                         arena_format(form->arena, "a batch has at most %d", LIGHTINGS_MAX),
                         "%d lightings with this one", lightings);
    }
}
