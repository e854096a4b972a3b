#include "input/readers.h"

#include <string.h>

const char *path_beside(Arena *arena, const char *folder, const char *path) {
    return path[0] == '/' ? path : arena_format(arena, "%s%s", folder, path);
}

static const Cabinet *find_cabinet(Form *form, const Element *root, const Workshop *workshop) {
    const char *id = form_text(form, root, "cabinet");
    if (!workshop || !workshop->cabinets.count)
        return NULL;
    if (!id)
        return &workshop->cabinets.items[0];
    Names known = {0};
    for (size_t i = 0; i < workshop->cabinets.count; i++) {
        const Cabinet *cabinet = &workshop->cabinets.items[i];
        if (cabinet->id && !strcmp(cabinet->id, id))
            return cabinet;
        if (cabinet->id)
            LIST_ADD(form->arena, &known, cabinet->id);
    }
    report_unknown(form, element_value_place(root, "cabinet"), "cabinet", id, "", &known);
    return NULL;
}

static Predry read_predry(Form *form, const Element *element) {
    Predry predry = {.place = element->place,
                     .stated = true,
                     .oven_temp_c = form_number(form, element, "oven"),
                     .time_s = form_number(form, element, "time"),
                     .target = form_number(form, element, "target"),
                     .wait_s = form_number(form, element, "wait")};
    if (form_has(element, "time") == form_has(element, "target"))
        report_error(form->diagnostics, element->place,
                     "write either time=\"15 min\" or target=\"4 %\"",
                     form_has(element, "time") ? "both 'time' and 'target' in 'predry'"
                                               : "'predry' without its 'time' or 'target'");
    return predry;
}

static BagOrder read_bag(Form *form, const Element *element) {
    BagOrder bag = {.place = element->place,
                    .net_kg = form_number(form, element, "net"),
                    .count = form_count(form, element, "count", 1),
                    .stock = form_text(form, element, "stock"),
                    .first = form_count(form, element, "first", 1),
                    .face_width_m = form_number(form, element, "face-width"),
                    .face_height_m = form_number(form, element, "face-height"),
                    .packed = form_date(form, element, "packed")};
    if (form_has(element, "face-width") != form_has(element, "face-height"))
        report_error(form->diagnostics, element->place, "the bag's face has both",
                     "'face-width' or 'face-height' without the other");
    return bag;
}

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

static void read_night(Form *form, const Element *root, const char *folder, bool *could_not_open,
                       Batch *batch) {
    const Element *weather = element_child(root, "weather");
    if (weather)
        batch->weather = read_weather(form, weather, folder, could_not_open);
    const Element *timing = element_child(root, "timing");
    if (timing)
        batch->timing = read_timing(form, timing, &batch->weather);
    if (batch->workshop && batch->workshop->zone)
        take_reading(batch, batch->workshop->zone);
    const Element *record = element_child(root, "record");
    batch->record = record ? read_record(form, record, batch)
                           : (Record){.filled_m = NOT_STATED,
                                      .used_kg = NOT_STATED,
                                      .burnt_m = NOT_STATED,
                                      .ash_kg = NOT_STATED};
}

void read_batch_element(Form *form, const Element *root, const Workshop *workshop,
                        const char *folder, bool *could_not_open, Batch *batch) {
    batch->place = root->place;
    batch->file = root->place.file;
    batch->name = form_text(form, root, "name");
    batch->lot = form_text(form, root, "lot");
    batch->workshop = workshop;
    batch->cabinet = find_cabinet(form, root, workshop);
    const Element *product = element_child(root, "product");
    if (product)
        batch->product = read_product(form, product);
    const Element *blend = element_child(root, "blend");
    if (blend)
        batch->blend = read_blend(form, blend, workshop);
    read_fills(form, root, workshop, batch);
    const Element *predry = element_child(root, "predry");
    batch->predry = predry ? read_predry(form, predry)
                           : (Predry){.oven_temp_c = NOT_STATED,
                                      .time_s = NOT_STATED,
                                      .target = NOT_STATED,
                                      .wait_s = NOT_STATED};
    read_night(form, root, folder, could_not_open, batch);
    for (const Element *bag = element_child(root, "bag"); bag; bag = element_sibling(bag, "bag"))
        LIST_ADD(form->arena, &batch->bags, read_bag(form, bag));
}
