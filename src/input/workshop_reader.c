#include "input/readers.h"
#include "input/sleep.h"

#include <string.h>

#include "schema/rows.h"

/* An id that an earlier element of the same name has. */
void check_id(Form *form, const Element *element) {
    const char *id = element_value(element, "id");
    for (const Element *other = element_child(element->parent, element->name);
         id && other != element; other = element_sibling(other, element->name)) {
        const char *same = element_value(other, "id");
        if (same && !strcmp(same, id)) {
            error_at_value(
                form, element, "id",
                arena_format(form->arena, "the other one stands on line %d", other->place.line),
                "a second %s with the id '%s'", element->name, id);
            return;
        }
    }
}

/* ---- Maker --------------------------------------------------------------------------------- */

static const ElementRule address_rule = {.name = "address",
                                         .help = "A line of the address, as text inside.",
                                         .words = TEXT_MUST,
                                         .size = sizeof(const char *)};

static const AttributeRule maker_attributes[] = {
    ROW("name", TEXT, Maker, name, "name on the label", MUST),
    ROW("contact", TEXT, Maker, contact, "electronic address or telephone number on the label"),
    ROW("logo", TEXT, Maker, logo_file,
        "SVG file with one black path, shown on the label, its name from this file's folder; "
        "'blank' leaves the place free for a stamp"),
};
static const ChildRule maker_children[] = {SEVERAL(address, 0, 4, Maker, address)};
static ELEMENT(maker, "Who stands on the label.", CHILDREN(maker_children), OWN_STRUCT(Maker));

/* ---- Room, oven, scale, store -------------------------------------------------------------- */

static void check_room(Form *form, const Element *element, void *into) {
    const Room *room = into;
    bool volume = form_has(element, "volume"), changes = form_has(element, "air-changes");
    if (room->outdoors && (volume || changes))
        error_at_value(form, element, "outdoors", "take outdoors=\"yes\" out, or the others",
                       "outdoors there is no 'volume' and no 'air-changes'");
    if (!room->outdoors && !(volume && changes))
        error_at(form, element, "write volume=\"40 m3\" air-changes=\"2 /h\", or outdoors=\"yes\"",
                 "'room' without its 'volume' and 'air-changes'");
}

static const AttributeRule room_attributes[] = {
    ROW("outdoors", YES_NO, Room, outdoors, "the cabinet stands outdoors"),
    ROW("volume", VOLUME("1 m3", "100000 m3"), Room, volume_m3,
        "of the room the cabinet stands in"),
    ROW("air-changes", MEASURED(MEASURE_PER_HOUR, "0.05 /h", "100 /h"), Room, air_changes_per_h,
        "how often the air of the room is renewed"),
    ROW("ducted", SHARE("0 %", "100 %"), Room, ducted_share,
        "share of the smoke led outside through a duct", .usual = "0 %"),
};
static ELEMENT(room, "Where the cabinet stands.", OWN_STRUCT(Room), STATED(Room),
               .check = check_room);

static const AttributeRule oven_attributes[] = {
    ROW("fan", YES_NO, Oven, fan, "the oven has a fan"),
    ROW("heat-transfer", HEAT_TRANSFER("1 W/m2K", "200 W/m2K"), Oven, heat_transfer_w_m2k,
        "measured heat transfer to a tray"),
};
static ELEMENT(oven, "The oven for drying.", OWN_STRUCT(Oven), STATED(Oven));

static void check_scale(Form *form, const Element *element, void *into) {
    const Scale *scale = into;
    if (scale->capacity_kg < scale->resolution_kg)
        error_at_value(form, element, "capacity", NULL, "'capacity' is less than 'resolution'");
}

/* A scale for dust when none is stated weighs to a gram (common practice, no source). */
static const AttributeRule scale_attributes[] = {
    ROW("resolution", MASS("0.001 g", "1 kg"), Scale, resolution_kg, "smallest step of the scale",
        MUST, .usual = "1 g"),
    ROW("capacity", MASS("1 g", "1000 kg"), Scale, capacity_kg, "most it weighs"),
};
static ELEMENT(scale, "The scale for weighing out.", OWN_STRUCT(Scale), .check = check_scale);

static const AttributeRule store_attributes[] = {
    ROW("kept", WORDS("open sealed"), Store, sealed, "how dust waits between oven and lighting",
        MUST),
    ROW("temperature", OUTSIDE, Store, temp_c, "of the store; as outside when not written"),
    ROW("humidity", SHARE("1 %", "100 %"), Store, humidity,
        "of the air in the store; as outside when not written"),
};
static ELEMENT(store, "Where dust is kept, which says how damp dust is that nobody measured.",
               OWN_STRUCT(Store));

/* ---- Whom to call -------------------------------------------------------------------------- */

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

static void check_call(Form *form, const Element *element, void *into) {
    const Call *call = into;
    if (call->telephone && !is_telephone(call->telephone))
        error_at_value(form, element, "telephone",
                       "write it as it is dialled, such as '091 555 0117' or '+353 91 555 0117'",
                       "'%s' is not a telephone number", shown_value(form->arena, call->telephone));
}

static const AttributeRule call_attributes[] = {
    ROW("name", TEXT, Call, name, "who it is", MUST),
    ROW("telephone", TEXT, Call, telephone, "number as it is dialled", MUST),
};
static ELEMENT(call,
               "Whom to call in the night when in doubt; without it the sheet leaves a blank line.",
               OWN_STRUCT(Call), .check = check_call);

/* ---- Sleep --------------------------------------------------------------------------------- */

static void read_clock(Form *form, const Element *element, const char *name, CivilTime *clock) {
    const char *text = form_text(form, element, name);
    if (text && !sleep_clock(form->arena, text, clock))
        error_at_value(form, element, name, "write it as '23:00'", "'%s' is no time of the clock",
                       shown_value(form->arena, text));
}

static void check_asleep(Form *form, const Element *element, void *into) {
    Sleep *sleep = into;
    read_clock(form, element, "from", &sleep->from);
    read_clock(form, element, "to", &sleep->to);
    if (sleep->from.hour == sleep->to.hour && sleep->from.minute == sleep->to.minute &&
        form_has(element, "from") && form_has(element, "to"))
        error_at_value(form, element, "to", NULL, "'to' is the time of 'from'");
}

static const AttributeRule asleep_attributes[] = {
    CHECKED("from", TEXT, "time of the clock, such as 23:00", MUST),
    CHECKED("to", TEXT, "time of the clock, such as 06:30", MUST),
};
static ELEMENT(asleep,
               "When nobody is up, every night: counts like an 'away' of each batch, and no hour "
               "of a window is chosen in it.",
               OWN_STRUCT(Sleep), STATED(Sleep), .check = check_asleep);

/* ---- Workshop ------------------------------------------------------------------------------ */

/* Trays may stand behind the dusts whose trials name them. */
static void check_trial_trays(Form *form, const Element *root, const Workshop *workshop) {
    for (const Element *dust = element_child(root, "dust"); dust;
         dust = element_sibling(dust, "dust"))
        for (const Element *trial = element_child(dust, "trial"); trial;
             trial = element_sibling(trial, "trial"))
            find_item(form, trial, "tray", element_value(trial, "tray"),
                      ITEMS(workshop->trays, Tray));
}

static void check_workshop(Form *form, const Element *root, void *into) {
    Workshop *workshop = into;
    const char *name = workshop->timezone;
    workshop->file = root->place.file;
    workshop->zone = name ? zone_load(form->arena, name) : NULL;
    if (name && !workshop->zone)
        error_at_value(form, root, "timezone",
                       "'timezone' is a place of the IANA list, such as 'Europe/Dublin'",
                       "unknown time zone '%s'", shown_value(form->arena, name));
    check_trial_trays(form, root, workshop);
    check_language(form, root);
}

static const AttributeRule workshop_attributes[] = {
    ROW("name", TEXT, Workshop, name, "name of the smokehouse", MUST),
    ROW("timezone", TEXT, Workshop, timezone,
        "place of the IANA time zone list, such as Europe/Dublin", MUST),
    ROW("units", WORDS("metric us"), Workshop, units, "units on paper", .usual = "metric"),
    ROW("language", LANGUAGES, Workshop, language, "language on paper", .usual = "en"),
    ROW("paper", WORDS("A4 Letter"), Workshop, paper, "paper of the sheets", .usual = "A4"),
    ROW("market", MARKETS, Workshop, market,
        "whose rules labels follow, and whose emergency number is on the sheet", .usual = "EU"),
    ROW("filling", WORDS("minimum average"), Workshop, filling,
        "how bags are filled: each to its net quantity at least, or to it on average, with the "
        "records that this takes, which alone puts the e-mark on labels",
        .usual = "minimum"),
};
static const ChildRule workshop_children[] = {
    ONE(maker, 1, Workshop, maker),         SEVERAL(dust, 1, 200, Workshop, dusts),
    SEVERAL(tray, 1, 100, Workshop, trays), SEVERAL(cabinet, 1, 50, Workshop, cabinets),
    ONE(room, 0, Workshop, room),           ONE(oven, 0, Workshop, oven),
    ONE(scale, 0, Workshop, scale),         ONE(store, 0, Workshop, store),
    ONE(call, 0, Workshop, call),           ONE(asleep, 0, Workshop, sleep),
};
ELEMENT(workshop, "What the smokehouse owns.", CHILDREN(workshop_children), OWN_STRUCT(Workshop),
        .check = check_workshop);
