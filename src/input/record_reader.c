#include "input/readers.h"

#include <math.h>

#include "schema/rows.h"

/* Lengths measured by hand along a channel's middle may come out a little long (judgement). */
static const double LENGTH_ALLOWANCE = 1.02;
/* Slower than any front: published speeds start at 50 mm/h, and a full channel of heavy plate,
 * which gets air from above only, has a third of a mesh one's (judgement). */
static const double SLOWEST_MPS = 0.020 / 3600;
/* Heavier than any dust lies: tamped hardwood, wet through (judgement). And the steepest heap. */
static const double HEAVIEST_KG_M3 = 600;
static const double STEEPEST_HEAP = 1.7320508; /* tangent of 60 degrees */

/* What the batch's fills hold. */
typedef struct Capacity {
    const Tray *tray; /* of the first fill; NULL: unknown, nothing is checked */
    double channel_m; /* of it */
    double all_m;     /* of all lightings */
    double all_kg;
    int lightings;
} Capacity;

static double section_m2(const Tray *tray, const Fill *fill) {
    double width_m = fmax(tray->channel_width_m, tray->bottom_width_m);
    double heap_m2 = fill->heaped ? width_m * width_m / 4 * STEEPEST_HEAP : 0;
    return width_m * tray->channel_depth_m + heap_m2;
}

static Capacity capacity_of(const Batch *batch) {
    Capacity capacity = {0};
    for (size_t i = 0; i < batch->fills.count; i++) {
        const Fill *fill = &batch->fills.items[i];
        if (!fill->tray)
            return (Capacity){0};
        double length_m = tray_channel_m(fill->tray) * fill->repeat;
        capacity.tray = capacity.tray ? capacity.tray : fill->tray;
        capacity.channel_m = i ? capacity.channel_m : length_m / fill->repeat;
        capacity.all_m += length_m;
        capacity.all_kg += length_m * section_m2(fill->tray, fill) * HEAVIEST_KG_M3;
        capacity.lightings += fill->repeat;
    }
    return capacity;
}

/* Whether the length written at `name` fits into the channel; reports if not. */
static bool check_fits(Form *form, const Element *element, const char *name, double length_m,
                       const Capacity *capacity) {
    if (!capacity->tray || !(length_m > capacity->channel_m * LENGTH_ALLOWANCE))
        return true;
    error_at_value(form, element, name,
                   arena_format(form->arena, "the channel of '%s' is %.0f mm long along its middle",
                                capacity->tray->id, capacity->channel_m * 1000),
                   "'%s' is longer than the channel", name);
    return false;
}

/* Whether it is not more than `other` was; reports if it is. */
static bool check_not_over(Form *form, const Element *element, const char *name, double length_m,
                           const char *other, double most_m) {
    if (!(length_m > most_m * LENGTH_ALLOWANCE))
        return true;
    error_at_value(form, element, name,
                   arena_format(form->arena, "that was %.0f mm", most_m * 1000),
                   "'%s' is more than %s", name, other);
    return false;
}

/* One fault a value is enough. Of several lightings nobody knows which one a reading means. */
static void check_front(Form *form, const Element *child, double front_m, const Record *record,
                        const Capacity *capacity) {
    if (check_fits(form, child, "front", front_m, capacity) && capacity->lightings == 1 &&
        check_not_over(form, child, "front", front_m, "what was filled", record->filled_m))
        check_not_over(form, child, "front", front_m, "what had burnt in the end", record->burnt_m);
}

static void check_reading(Form *form, const Element *child, const Record *record,
                          const Capacity *capacity, const Reading *reading) {
    check_front(form, child, reading->front_m, record, capacity);
    if (is_stated(reading->front_m) && record->out > record->lit && reading->at > record->out)
        error_at_value(form, child, "at", "put 'out' later, or take the front out",
                       "a front that burns on after it was 'out'");
}

/* A form that nobody filled in: a look that did not happen. */
static bool says_nothing(Form *form, const Element *child, const Reading *reading) {
    bool open = form_open(form, child, "front") || form_open(form, child, "cabinet") ||
                form_open(form, child, "humidity") || form_open(form, child, "remark");
    return open && !is_stated(reading->front_m) && !is_stated(reading->cabinet_temp_c) &&
           !is_stated(reading->humidity) && !reading->remark;
}

/* Takes the looks out that did not happen. */
static void drop_open_readings(Form *form, const Element *element, Record *record) {
    size_t kept = 0;
    const Element *child = element_child(element, "reading");
    for (size_t i = 0; i < record->readings.count; i++) {
        if (!says_nothing(form, child, &record->readings.items[i]))
            record->readings.items[kept++] = record->readings.items[i];
        child = element_sibling(child, "reading");
    }
    record->readings.count = kept;
}

static void check_readings(Form *form, const Element *element, const Capacity *capacity,
                           const Record *record) {
    double front_m = 0;
    Instant before = 0; /* of the last that came after 'lit' */
    const Reading *reading = record->readings.items;
    for (const Element *child = element_child(element, "reading"); child;
         child = element_sibling(child, "reading"), reading++) {
        if (says_nothing(form, child, reading))
            continue;
        check_reading(form, child, record, capacity, reading);
        if (check_after(form, child, "at", reading->at, "'lit'", record->lit))
            check_after(form, child, "at", reading->at, "the reading before it", before);
        if (capacity->lightings == 1 && reading->front_m < front_m)
            error_at_value(form, child, "front", "it says how much has burnt so far",
                           "'front' is less than in a reading before it");
        front_m = fmax(front_m, reading->front_m); /* one not read counts as none */
        before = reading->at;
    }
}

static void check_relit(Form *form, const Element *element, void *into) {
    const Instant *at = into;
    const Record *record = form->outer;
    check_after(form, element, "at", *at, "'lit'", record->lit);
    if (*at && record->out && *at >= record->out)
        error_at_value(form, element, "at", NULL, "relit after it was 'out'");
}

/* A slip of the date shows as a burn that no front is slow enough for. Hours in which nobody was
 * there to light the next fill come on top. */
static void check_duration(Form *form, const Element *element, const Record *record,
                           const Batch *batch, const Capacity *capacity) {
    double waited_s = 0;
    for (size_t i = 0; i < batch->timing.away.count; i++)
        waited_s += (double)(batch->timing.away.items[i].to - batch->timing.away.items[i].from);
    double longest_s = capacity->all_m / SLOWEST_MPS + fmax(waited_s, 0);
    if (capacity->tray && record->lit && record->out &&
        (double)(record->out - record->lit) > longest_s)
        error_at_value(form, element, "out",
                       arena_format(form->arena,
                                    "look at the dates of 'lit' and 'out'; so much "
                                    "channel is out in %.0f h at the very most",
                                    ceil(longest_s / SECONDS_PER_HOUR)),
                       "burning for %.0f hours",
                       (double)(record->out - record->lit) / SECONDS_PER_HOUR);
}

static void check_amounts(Form *form, const Element *element, const Record *record,
                          const Batch *batch, const Capacity *capacity) {
    static const char *const names[] = {"filled", "used"};
    check_fits(form, element, "filled", record->filled_m, capacity);
    if (check_fits(form, element, "burnt", record->burnt_m, capacity))
        check_not_over(form, element, "burnt", record->burnt_m, "what was filled",
                       record->filled_m);
    if (capacity->tray && record->used_kg > capacity->all_kg)
        error_at_value(
            form, element, "used",
            arena_format(form->arena, "they hold %.0f g at the very most", capacity->all_kg * 1000),
            "'used' is more than the trays hold");
    for (size_t i = 0; i < 2; i++)
        if (batch->fills.count > 1 && form_answered(form, element, names[i]))
            error_at_name(form, element, names[i],
                          "take it out: nobody can tell which fill is meant",
                          "'%s' of a batch with several fills", names[i]);
}

/* What was asked for with a question mark and answered, so that it can not be passed over. */
static bool has_answers(Form *form, const Element *element, const Record *record) {
    static const char *const names[] = {"out", "died", "burnt", "ash", "after"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (form_answered(form, element, names[i]))
            return true;
    return record->readings.count > 0 || record->relit.count > 0;
}

/* Answers that are owed once others are given: a night that was not lit can not be out, and one
 * that is out had its end or did not. */
static void check_open(Form *form, const Element *element, Record *record) {
    if (form_open(form, element, "lit") && has_answers(form, element, record))
        error_at_value(form, element, "lit", "write when it was lit, lit=\"2026-12-04T21:30\"",
                       "'lit' is still open, though more is written");
    if (form_open(form, element, "died") && form_answered(form, element, "out"))
        error_at_value(
            form, element, "died",
            "write died=\"no\" when all of it burnt, died=\"yes\" when it went out before",
            "'died' is still open, though it was out");
    record->stated = !form_open(form, element, "lit");
}

static void check_product_after(Form *form, const Element *element, const Record *record,
                                const Batch *batch) {
    if (record->product_kg > batch->product.mass_kg)
        report_warning(
            form->diagnostics, element_value_place(element, "after"),
            arena_format(form->arena, "'mass' of the product is %.3f kg", batch->product.mass_kg),
            "the product was heavier after the smoke than before");
}

static void check_record(Form *form, const Element *element, void *into) {
    Record *record = into;
    const Batch *batch = form->outer;
    Capacity capacity = capacity_of(batch);
    check_after(form, element, "out", record->out, "'lit'", record->lit);
    if (form_answered(form, element, "out") && !form_has(element, "lit"))
        error_at(form, element, "write when it was lit, lit=\"2026-12-04T21:30\"",
                 "'record' with 'out' but no 'lit'");
    check_amounts(form, element, record, batch, &capacity);
    check_duration(form, element, record, batch, &capacity);
    check_readings(form, element, &capacity, record);
    check_product_after(form, element, record, batch);
    drop_open_readings(form, element, record);
    check_open(form, element, record);
}

static const AttributeRule relit_attributes[] = {
    {.name = "at", INSTANT, .into = INTO_INSTANT, .help = "when it was lit again", MUST},
};
static ELEMENT(relit, "It was lit again.", .size = sizeof(Instant), .check = check_relit);

static const AttributeRule reading_attributes[] = {
    ROW("at", INSTANT, Reading, at, "when somebody looked", MUST),
    ROW("front", LENGTH("0 mm", "100 m"), Reading, front_m, "where the front was, from the lit end",
        OPEN),
    ROW("cabinet", TEMPERATURE("-30 °C", "150 °C"), Reading, cabinet_temp_c,
        "temperature in the cabinet", OPEN),
    ROW("humidity", SHARE("0 %", "100 %"), Reading, humidity, "relative humidity in the cabinet",
        OPEN),
    ROW("remark", TEXT, Reading, remark, "what was noticed", OPEN),
};
static ELEMENT(reading, "A look at the smoker.", OWN_STRUCT(Reading));

/* In the order of the blanks on the night's sheet and of what `record` writes. */
static const AttributeRule record_attributes[] = {
    ROW("lit", INSTANT, Record, lit, "when it was lit", OPEN),
    ROW("out", INSTANT, Record, out, "when it was out", OPEN),
    ROW("died", YES_NO, Record, went_out_early, "went out before the end of the channel", OPEN),
    ROW("burnt", LENGTH("0 mm", "100 m"), Record, burnt_m,
        "length burnt when it died or was stopped", OPEN),
    ROW("filled", LENGTH("1 mm", "100 m"), Record, filled_m, "length of channel that was filled",
        OPEN),
    ROW("used", MASS("0.1 g", "100 kg"), Record, used_kg,
        "dust put on the trays, as weighed before drying", OPEN),
    ROW("ash", MASS("0 g", "100 kg"), Record, ash_kg, "ash left", OPEN),
    ROW("after", MASS("1 g", "10000 kg"), Record, product_kg, "mass of the product afterwards",
        OPEN),
    ROW("by", TEXT, Record, by, "who ran the night", OPEN),
    ROW("remark", TEXT, Record, remark, "what was noticed", OPEN),
};
static const ChildRule record_children[] = {
    SEVERAL(relit, 0, 50, Record, relit),
    SEVERAL(reading, 0, 500, Record, readings),
};
ELEMENT(record, "What was written down afterwards.", CHILDREN(record_children), OWN_STRUCT(Record),
        STATED(Record), .check = check_record);
