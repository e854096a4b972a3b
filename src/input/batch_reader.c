#include "input/readers.h"

#include <string.h>

#include "schema/rows.h"

const char *path_beside(Arena *arena, const char *folder, const char *path) {
    return path[0] == '/' ? path : arena_format(arena, "%s%s", folder, path);
}

void check_language(Form *form, const Element *element) {
    const char *language = form_text(form, element, "language");
    if (!language || !form->languages)
        return;
    for (size_t i = 0; i < form->languages->count; i++)
        if (!strcmp(form->languages->items[i], language))
            return;
    report_unknown(form, element_value_place(element, "language"), "language", language, "",
                   form->languages);
}

static const Cabinet *find_cabinet(Form *form, const Element *root, const Workshop *workshop) {
    const char *id = form_text(form, root, "cabinet");
    if (!workshop || !workshop->cabinets.count)
        return NULL;
    return id ? find_item(form, root, "cabinet", id, ITEMS(workshop->cabinets, Cabinet))
              : &workshop->cabinets.items[0];
}

static void check_predry(Form *form, const Element *element, void *into) {
    (void)into;
    if (form_has(element, "time") == form_has(element, "target"))
        error_at(form, element, "write either time=\"15 min\" or target=\"4 %\"",
                 form_has(element, "time") ? "both 'time' and 'target' in 'predry'"
                                           : "'predry' without its 'time' or 'target'");
}

static const AttributeRule predry_attributes[] = {
    ROW("oven", TEMPERATURE("40 °C", "150 °C"), Predry, oven_temp_c, "temperature of the oven",
        MUST),
    ROW("time", DURATION("1 min", "24 h"), Predry, time_s, "time in the oven"),
    ROW("target", SHARE("0 %", "30 %"), Predry, target, "wanted moisture, on dry basis"),
    ROW("wait", DURATION("0 min", "30 d"), Predry, wait_s,
        "between oven and lighting, besides cooling"),
};
static ELEMENT(predry, "Drying in the oven before lighting: time or target.", OWN_STRUCT(Predry),
               STATED(Predry), .check = check_predry);

static void check_bag(Form *form, const Element *element, void *into) {
    BagOrder *bag = into;
    check_language(form, element);
    int market = form_word(form, element, "market");
    bag->market_stated = market >= 0;
    bag->market = market >= 0 ? (Market)market : MARKET_EU;
    const Workshop *workshop = ((const BatchContext *)form->context)->workshop;
    const char *tray = form_text(form, element, "tray");
    if (workshop)
        bag->tray = find_item(form, element, "tray", tray, ITEMS(workshop->trays, Tray));
    if (form_has(element, "face-width") != form_has(element, "face-height"))
        error_at(form, element, "the bag's face has both",
                 "'face-width' or 'face-height' without the other");
}

static const AttributeRule bag_attributes[] = {
    ROW("net", MASS("1 g", "50 kg"), BagOrder, net_kg, "net quantity of one bag", MUST),
    ROW("count", COUNT("1", "10000"), BagOrder, count, "number of bags", MUST, .usual = "1"),
    ROW("stock", ID, BagOrder, stock, "name of a label stock", MUST),
    ROW("first", COUNT("1", "1000"), BagOrder, first, "first free label on the first sheet",
        .usual = "1"),
    ROW("language", LANGUAGES, BagOrder, language,
        "language of the label; the workshop's when not written"),
    CHECKED("market", MARKETS, "whose rules the label follows; the workshop's when not written"),
    ROW("packed", DATE, BagOrder, packed, "day of packing; that of the session when not written"),
    CHECKED("tray", ID,
            "id of a tray of which the label tells how long it burns, where there is room and the "
            "blend burns out there with a good chance"),
    ROW("numbered", YES_NO, BagOrder, numbered,
        "its labels are numbered, through all numbered bags of the lot: 1 of 12 and so on",
        .usual = "no"),
    ROW("label-name", TEXT, BagOrder, label_name,
        "what the label calls the blend, in the buyer's language; the blend's name when not "
        "written"),
    ROW("face-width", LENGTH("10 mm", "2 m"), BagOrder, face_width_m,
        "width of the bag's face, where the law goes by its area"),
    ROW("face-height", LENGTH("10 mm", "2 m"), BagOrder, face_height_m, "height of the bag's face"),
};
ELEMENT(bag, "Bags to fill and label.", OWN_STRUCT(BagOrder), .check = check_bag);

/* ---- Batch --------------------------------------------------------------------------------- */

/* Hours that a night takes for which only its end is stated (common practice, no source). */
static const double usual_night_s = 8.0 * SECONDS_PER_HOUR;

/* A single reading is that of the hour of lighting: as stated; at a window's start; and, of a night
 * that only has an end, as long before it as the product wants to be smoked. */
static void take_reading(Batch *batch, const Zone *zone) {
    const Timing *timing = &batch->timing;
    double smoke_s = batch->product.smoke_time_s;
    double before_s = is_stated(smoke_s) ? smoke_s : usual_night_s;
    batch->weather.read_at = timing->at;
    if (timing->kind == TIMING_FINISH_BY)
        batch->weather.read_at -= (Instant)before_s;
    CivilTime civil = zone_civil(zone, batch->weather.read_at);
    batch->weather.read_clock_s = civil.hour * SECONDS_PER_HOUR +
                                  civil.minute * SECONDS_PER_MINUTE + civil.second;
}

static void check_batch(Form *form, const Element *root, void *into) {
    Batch *batch = into;
    batch->file = root->place.file;
    batch->workshop = ((const BatchContext *)form->context)->workshop;
    batch->cabinet = find_cabinet(form, root, batch->workshop);
    if (batch->workshop && batch->workshop->zone)
        take_reading(batch, batch->workshop->zone);
}

static const AttributeRule batch_attributes[] = {
    ROW("name", TEXT, Batch, name, "name of the session on paper", MUST),
    ROW("lot", TEXT, Batch, lot, "lot; made from date and file name when not written"),
    CHECKED("workshop", TEXT,
            "file of the workshop, looked for from the folder of this file; workshop.xml when not "
            "written"),
    CHECKED("cabinet", ID, "id of a cabinet; the first of the workshop when not written"),
};
static const ChildRule batch_children[] = {
    ONE(product, 1, Batch, product),   ONE(blend, 1, Batch, blend),
    SEVERAL(fill, 1, 8, Batch, fills), ONE(predry, 0, Batch, predry),
    ONE(weather, 1, Batch, weather),   ONE(timing, 1, Batch, timing),
    SEVERAL(bag, 0, 50, Batch, bags),  ONE(record, 0, Batch, record),
};
ELEMENT(batch, "What is smoked tonight.", CHILDREN(batch_children), OWN_STRUCT(Batch),
        .check = check_batch);
