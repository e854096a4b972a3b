#include "input/readers.h"

#include <string.h>

/* A scale for dust when none is stated (common practice, no source). */
#define USUAL_SCALE_STEP_KG 0.001

static Maker read_maker(Form *form, const Element *element) {
    Maker maker = {.place = element->place,
                   .name = form_text(form, element, "name"),
                   .contact = form_text(form, element, "contact")};
    for (const Element *line = element_child(element, "address"); line;
         line = element_sibling(line, "address"))
        LIST_ADD(form->arena, &maker.address, element_words(form->arena, line));
    return maker;
}

static Room read_room(Form *form, const Element *element) {
    Room room = {.place = element->place,
                 .stated = true,
                 .outdoors = form_yes(form, element, "outdoors", false),
                 .volume_m3 = form_number(form, element, "volume"),
                 .air_changes_per_h = form_number(form, element, "air-changes"),
                 .ducted_share = 0};
    double ducted = form_number(form, element, "ducted");
    if (is_stated(ducted))
        room.ducted_share = ducted;
    bool sized = form_has(element, "volume") || form_has(element, "air-changes");
    if (room.outdoors && sized)
        report_error(form->diagnostics, element_value_place(element, "outdoors"),
                     "take outdoors=\"yes\" out, or the others",
                     "outdoors there is no 'volume' and no 'air-changes'");
    if (!room.outdoors && !(form_has(element, "volume") && form_has(element, "air-changes")))
        report_error(form->diagnostics, element->place,
                     "write volume=\"40 m3\" air-changes=\"2 /h\", or outdoors=\"yes\"",
                     "'room' without its 'volume' and 'air-changes'");
    return room;
}

static Oven read_oven(Form *form, const Element *element) {
    return (Oven){.stated = true,
                  .fan = form_yes(form, element, "fan", false),
                  .heat_transfer_w_m2k = form_number(form, element, "heat-transfer"),
                  .place = element->place};
}

static Scale read_scale(Form *form, const Element *element) {
    Scale scale = {.resolution_kg = form_number(form, element, "resolution"),
                   .capacity_kg = form_number(form, element, "capacity"),
                   .place = element->place};
    if (scale.capacity_kg < scale.resolution_kg)
        report_error(form->diagnostics, element_value_place(element, "capacity"), NULL,
                     "'capacity' is less than 'resolution'");
    return scale;
}

static Store read_store(Form *form, const Element *element) {
    return (Store){.sealed = form_word(form, element, "kept", 0) == 1,
                   .temp_c = form_number(form, element, "temperature"),
                   .humidity = form_number(form, element, "humidity"),
                   .place = element->place};
}

/* What a telephone number is written with. */
#define TELEPHONE_SIGNS "0123456789 +-()/.#*"

/* From the shortest emergency numbers to the 15 digits of ITU-T E.164 (from memory); of signs no
 * more than stay on one line of the sheet. */
enum { TELEPHONE_DIGITS_MIN = 3, TELEPHONE_DIGITS_MAX = 15, TELEPHONE_SIGNS_MAX = 24 };

static bool is_telephone(const char *text) {
    int digits = 0;
    for (const char *at = text; *at; at++)
        digits += *at >= '0' && *at <= '9';
    return !text[strspn(text, TELEPHONE_SIGNS)] && strlen(text) <= TELEPHONE_SIGNS_MAX &&
           digits >= TELEPHONE_DIGITS_MIN && digits <= TELEPHONE_DIGITS_MAX;
}

static Call read_call(Form *form, const Element *element) {
    Call call = {.place = element->place,
                 .name = form_text(form, element, "name"),
                 .telephone = form_text(form, element, "telephone")};
    if (call.telephone && !is_telephone(call.telephone))
        report_error(form->diagnostics, element_value_place(element, "telephone"),
                     "write it as it is dialled, such as '091 555 0117' or '+353 91 555 0117'",
                     "'%s' is not a telephone number", shown_value(form->arena, call.telephone));
    return call;
}

/* An id that an earlier element of the same name has, or that is missing. */
static void check_id(Form *form, const Element *element) {
    const char *id = element_value(element, "id");
    for (const Element *other = element_child(element->parent, element->name);
         id && other != element; other = element_sibling(other, element->name)) {
        const char *same = element_value(other, "id");
        if (same && !strcmp(same, id)) {
            report_error(
                form->diagnostics, element_value_place(element, "id"),
                arena_format(form->arena, "the other one stands on line %d", other->place.line),
                "a second %s with the id '%s'", element->name, id);
            return;
        }
    }
}

static void read_owned(Form *form, const Element *root, Workshop *workshop) {
    for (const Element *child = root->first; child; child = child->next) {
        if (!strcmp(child->name, "dust"))
            LIST_ADD(form->arena, &workshop->dusts, read_dust(form, child));
        else if (!strcmp(child->name, "tray"))
            LIST_ADD(form->arena, &workshop->trays, read_tray(form, child));
        else if (!strcmp(child->name, "cabinet"))
            LIST_ADD(form->arena, &workshop->cabinets, read_cabinet(form, child));
        else
            continue;
        check_id(form, child);
    }
}

static void read_conditions(Form *form, const Element *root, Workshop *workshop) {
    const Element *room = element_child(root, "room"), *oven = element_child(root, "oven");
    const Element *scale = element_child(root, "scale"), *store = element_child(root, "store");
    const Element *call = element_child(root, "call");
    workshop->call = call ? read_call(form, call) : (Call){0};
    workshop->room = room ? read_room(form, room)
                          : (Room){.volume_m3 = NOT_STATED, .air_changes_per_h = NOT_STATED};
    workshop->oven = oven ? read_oven(form, oven) : (Oven){.heat_transfer_w_m2k = NOT_STATED};
    workshop->scale =
        scale ? read_scale(form, scale)
              : (Scale){.resolution_kg = USUAL_SCALE_STEP_KG, .capacity_kg = NOT_STATED};
    workshop->store = store ? read_store(form, store)
                            : (Store){.temp_c = NOT_STATED, .humidity = NOT_STATED};
}

/* Trays may stand behind the dusts whose trials name them. */
static void check_trial_trays(Form *form, const Element *root, const Workshop *workshop) {
    Names known = {0};
    for (size_t i = 0; i < workshop->trays.count; i++)
        if (workshop->trays.items[i].id)
            LIST_ADD(form->arena, &known, workshop->trays.items[i].id);
    for (const Element *dust = element_child(root, "dust"); dust;
         dust = element_sibling(dust, "dust"))
        for (const Element *trial = element_child(dust, "trial"); trial;
             trial = element_sibling(trial, "trial")) {
            const char *id = element_value(trial, "tray");
            bool found = !id;
            for (size_t i = 0; i < known.count && !found; i++)
                found = !strcmp(known.items[i], id);
            if (!found)
                report_unknown(form, element_value_place(trial, "tray"), "tray", id, "", &known);
        }
}

static const Zone *read_zone(Form *form, const Element *root, const char *name) {
    const Zone *zone = name ? zone_load(form->arena, name) : NULL;
    if (name && !zone)
        report_error(form->diagnostics, element_value_place(root, "timezone"),
                     "'timezone' is a place of the IANA list, such as 'Europe/Dublin'",
                     "unknown time zone '%s'", shown_value(form->arena, name));
    return zone;
}

void read_workshop_element(Form *form, const Element *root, Workshop *workshop) {
    workshop->place = root->place;
    workshop->file = root->place.file;
    workshop->name = form_text(form, root, "name");
    workshop->timezone = form_text(form, root, "timezone");
    workshop->zone = read_zone(form, root, workshop->timezone);
    workshop->units = (UnitSystem)form_word(form, root, "units", UNITS_METRIC);
    int language = form_word(form, root, "language", 0);
    workshop->language =
        rule_words(form->arena, attribute_rule("workshop", "language")).items[language];
    workshop->paper = (Paper)form_word(form, root, "paper", PAPER_A4);
    workshop->market = (Market)form_word(form, root, "market", MARKET_EU);
    const Element *maker = element_child(root, "maker");
    if (maker)
        workshop->maker = read_maker(form, maker);
    read_owned(form, root, workshop);
    read_conditions(form, root, workshop);
    check_trial_trays(form, root, workshop);
}
