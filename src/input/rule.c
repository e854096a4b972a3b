#include "input/rule.h"

#include <string.h>

static const ElementRule elements[] = {
    {"workshop", NULL, 1, 1, false},       {"maker", "workshop", 1, 1, false},
    {"address", "maker", 0, 4, true},      {"dust", "workshop", 1, 200, false},
    {"sieve", "dust", 0, 1, false},        {"on", "sieve", 1, 40, false},
    {"pan", "sieve", 1, 1, false},         {"grain", "dust", 0, 1, false},
    {"weighed", "dust", 0, 1, false},      {"trial", "dust", 0, 50, false},
    {"tray", "workshop", 1, 100, false},   {"lanes", "tray", 0, 1, false},
    {"spiral", "tray", 0, 1, false},       {"straight", "tray", 0, 1, false},
    {"cabinet", "workshop", 1, 50, false}, {"vent", "cabinet", 1, 1, false},
    {"room", "workshop", 0, 1, false},     {"oven", "workshop", 0, 1, false},
    {"scale", "workshop", 0, 1, false},    {"store", "workshop", 0, 1, false},
    {"call", "workshop", 0, 1, false},

    {"batch", NULL, 1, 1, false},          {"product", "batch", 1, 1, false},
    {"cure", "product", 0, 1, false},      {"freezing", "product", 0, 1, false},
    {"blend", "batch", 1, 1, false},       {"part", "blend", 1, 12, false},
    {"fill", "batch", 1, 8, false},        {"predry", "batch", 0, 1, false},
    {"weather", "batch", 1, 1, false},     {"hour", "weather", 0, 1000, false},
    {"timing", "batch", 1, 1, false},      {"away", "timing", 0, 20, false},
    {"bag", "batch", 0, 50, false},        {"record", "batch", 0, 1, false},
    {"relit", "record", 0, 50, false},     {"reading", "record", 0, 500, false},
};

/* Short names for the rows below. */
#define MUST true
#define MAY false
#define TEXT(element, name, must)                                                                  \
    { element, name, VALUE_TEXT, must, 0, NULL, NULL, NULL }
#define ID(element, name, must)                                                                    \
    { element, name, VALUE_ID, must, 0, NULL, NULL, NULL }
#define WORD(element, name, must, words)                                                           \
    { element, name, VALUE_WORD, must, 0, NULL, NULL, words }
#define YES_NO(element, name) WORD(element, name, MAY, "no yes")
#define DATE(element, name)                                                                        \
    { element, name, VALUE_DATE, MAY, 0, NULL, NULL, NULL }
#define INSTANT(element, name, must)                                                               \
    { element, name, VALUE_INSTANT, must, 0, NULL, NULL, NULL }
#define COUNT(element, name, must, least, most)                                                    \
    { element, name, VALUE_COUNT, must, 0, least, most, NULL }
#define NUMBER(element, name, must, least, most)                                                   \
    { element, name, VALUE_NUMBER, must, 0, least, most, NULL }
#define SI(measure, element, name, must, least, most)                                              \
    { element, name, VALUE_MEASURE, must, MEASURE_##measure, least, most, NULL }

/* The ranges keep slips of the pen out; they are wider than what is sensible to do
 * (common practice, no source). */
static const AttributeRule attributes[] = {
    TEXT("workshop", "name", MUST),
    TEXT("workshop", "timezone", MUST),
    WORD("workshop", "units", MAY, "metric us"),
    WORD("workshop", "language", MAY, "en de pl"),
    WORD("workshop", "paper", MAY, "A4 Letter"),
    WORD("workshop", "market", MAY, "EU UK US AU"),
    TEXT("maker", "name", MUST),
    TEXT("maker", "contact", MAY),

    ID("dust", "id", MUST),
    TEXT("dust", "name", MUST),
    TEXT("dust", "material", MUST),
    WORD("dust", "form", MAY, "dust chip leaf"),
    YES_NO("dust", "charred"),
    SI(SHARE, "dust", "moisture", MAY, "0 %", "60 %"),
    WORD("dust", "basis", MAY, "dry wet"),
    DATE("dust", "measured"),
    TEXT("dust", "lot", MAY),
    DATE("dust", "received"),
    SI(MASS, "dust", "stock", MAY, "0 kg", "10000 kg"),
    YES_NO("dust", "untreated"),
    NUMBER("dust", "steadiness", MAY, "0.2", "1.5"),
    SI(MASS, "sieve", "sample", MAY, "1 g", "100 kg"),
    SI(LENGTH, "on", "aperture", MUST, "20 µm", "125 mm"),
    {"on", "retained", VALUE_RETAINED, MUST, MEASURE_MASS, NULL, NULL, NULL},
    {"pan", "retained", VALUE_RETAINED, MUST, MEASURE_MASS, NULL, NULL, NULL},
    SI(LENGTH, "grain", "from", MUST, "10 µm", "50 mm"),
    SI(LENGTH, "grain", "to", MUST, "10 µm", "50 mm"),
    SI(VOLUME, "weighed", "volume", MUST, "10 ml", "1000 l"),
    SI(MASS, "weighed", "mass", MUST, "1 g", "1000 kg"),
    SI(LENGTH, "trial", "length", MUST, "5 mm", "50 m"),
    SI(DURATION, "trial", "took", MUST, "1 min", "7 d"),
    ID("trial", "tray", MAY),
    SI(SHARE, "trial", "moisture", MAY, "0 %", "60 %"),
    WORD("trial", "basis", MAY, "dry wet"),
    SI(TEMPERATURE, "trial", "temperature", MAY, "-30 °C", "50 °C"),

    ID("tray", "id", MUST),
    TEXT("tray", "name", MUST),
    WORD("tray", "wall", MUST, "mesh plate"),
    SI(LENGTH, "tray", "channel-width", MUST, "3 mm", "300 mm"),
    SI(LENGTH, "tray", "channel-depth", MUST, "3 mm", "300 mm"),
    SI(LENGTH, "tray", "bottom-width", MAY, "1 mm", "300 mm"),
    SI(AREAL_MASS, "tray", "metal", MAY, "0.05 kg/m2", "100 kg/m2"),
    SI(LENGTH, "tray", "gauge", MAY, "0.05 mm", "12 mm"),
    COUNT("lanes", "count", MUST, "1", "60"),
    SI(LENGTH, "lanes", "length", MUST, "10 mm", "5 m"),
    SI(LENGTH, "lanes", "pitch", MUST, "4 mm", "500 mm"),
    NUMBER("spiral", "turns", MUST, "0.5", "40"),
    SI(LENGTH, "spiral", "pitch", MUST, "4 mm", "500 mm"),
    SI(LENGTH, "spiral", "outer", MUST, "20 mm", "3 m"),
    SI(LENGTH, "straight", "length", MUST, "10 mm", "20 m"),

    ID("cabinet", "id", MUST),
    TEXT("cabinet", "name", MUST),
    SI(LENGTH, "cabinet", "width", MUST, "100 mm", "10 m"),
    SI(LENGTH, "cabinet", "depth", MUST, "100 mm", "10 m"),
    SI(LENGTH, "cabinet", "height", MUST, "100 mm", "10 m"),
    WORD("cabinet", "wall", MUST, "wood steel insulated brick cardboard"),
    SI(HEAT_TRANSFER, "cabinet", "u-value", MAY, "0.05 W/m2K", "20 W/m2K"),
    WORD("cabinet", "exposure", MAY, "sheltered half-open open"),
    SI(AREA, "vent", "inlet", MUST, "0.5 cm2", "10000 cm2"),
    SI(AREA, "vent", "outlet", MUST, "0.5 cm2", "10000 cm2"),
    SI(AREA, "vent", "inlet-full", MAY, "0.5 cm2", "10000 cm2"),
    SI(AREA, "vent", "outlet-full", MAY, "0.5 cm2", "10000 cm2"),
    SI(LENGTH, "vent", "rise", MAY, "1 cm", "20 m"),
    YES_NO("room", "outdoors"),
    SI(VOLUME, "room", "volume", MAY, "1 m3", "100000 m3"),
    SI(PER_HOUR, "room", "air-changes", MAY, "0.05 /h", "100 /h"),
    SI(SHARE, "room", "ducted", MAY, "0 %", "100 %"),
    YES_NO("oven", "fan"),
    SI(HEAT_TRANSFER, "oven", "heat-transfer", MAY, "1 W/m2K", "200 W/m2K"),
    SI(MASS, "scale", "resolution", MUST, "0.001 g", "1 kg"),
    SI(MASS, "scale", "capacity", MAY, "1 g", "1000 kg"),
    WORD("store", "kept", MUST, "open sealed"),
    SI(TEMPERATURE, "store", "temperature", MAY, "-30 °C", "50 °C"),
    SI(SHARE, "store", "humidity", MAY, "1 %", "100 %"),
    TEXT("call", "name", MUST),
    TEXT("call", "telephone", MUST),

    TEXT("batch", "name", MUST),
    TEXT("batch", "lot", MAY),
    TEXT("batch", "workshop", MAY),
    ID("batch", "cabinet", MAY),
    WORD("product", "kind", MUST, "cheese butter fish salt meat other"),
    TEXT("product", "name", MUST),
    SI(MASS, "product", "mass", MAY, "1 g", "10000 kg"),
    COUNT("product", "pieces", MAY, "1", "100000"),
    SI(DURATION, "product", "smoke-time", MAY, "5 min", "14 d"),
    SI(SHARE, "product", "salt", MAY, "0 %", "100 %"),
    SI(SHARE, "product", "water", MAY, "0 %", "100 %"),
    YES_NO("product", "cured"),
    YES_NO("product", "vacuum-packed"),
    YES_NO("product", "raw"),
    SI(TEMPERATURE, "product", "limit", MAY, "-20 °C", "40 °C"),
    WORD("cure", "method", MUST, "dry pumped immersed"),
    SI(MASS, "cure", "mass", MUST, "0.1 g", "1000 kg"),
    SI(SHARE, "cure", "nitrite", MUST, "0 %", "20 %"),
    SI(MASS, "cure", "water", MAY, "1 g", "10000 kg"),
    SI(SHARE, "cure", "pump", MAY, "0.1 %", "60 %"),
    SI(MASS, "cure", "pickle", MAY, "1 g", "10000 kg"),
    SI(TEMPERATURE, "freezing", "temperature", MUST, "-90 °C", "0 °C"),
    SI(DURATION, "freezing", "time", MUST, "1 h", "3650 d"),
    YES_NO("freezing", "farmed"),

    TEXT("blend", "name", MUST),
    WORD("blend", "by", MAY, "mass volume"),
    NUMBER("blend", "target-margin", MAY, "1", "3"),
    ID("part", "dust", MUST),
    {"part", "share", VALUE_MEASURE, MUST, MEASURE_SHARE, "0.1 %", "100 %", "least"},
    SI(SHARE, "part", "at-least", MAY, "0.1 %", "100 %"),
    NUMBER("part", "weight", MAY, "0.01", "100"),

    ID("fill", "tray", MUST),
    SI(SHARE, "fill", "level", MAY, "1 %", "100 %"),
    {"fill", "heap", VALUE_MEASURE, MAY, MEASURE_ANGLE, "5 deg", "60 deg", "no yes"},
    WORD("fill", "packing", MAY, "sprinkled levelled tamped"),
    WORD("fill", "light", MAY, "one-end both-ends"),
    COUNT("fill", "repeat", MAY, "1", "8"),
    SI(DURATION, "fill", "burn-time", MAY, "10 min", "7 d"),
    WORD("fill", "channel", MAY, "as-needed whole"),
    SI(TEMPERATURE, "predry", "oven", MUST, "40 °C", "150 °C"),
    SI(DURATION, "predry", "time", MAY, "1 min", "24 h"),
    SI(SHARE, "predry", "target", MAY, "0 %", "30 %"),
    SI(DURATION, "predry", "wait", MAY, "0 min", "30 d"),

    SI(TEMPERATURE, "weather", "temperature", MAY, "-30 °C", "50 °C"),
    SI(SHARE, "weather", "humidity", MAY, "1 %", "100 %"),
    SI(WIND, "weather", "wind", MAY, "0 m/s", "60 m/s"),
    WORD("weather", "sky", MAY, "cloudy clear"),
    TEXT("weather", "from", MAY),
    INSTANT("hour", "at", MUST),
    SI(TEMPERATURE, "hour", "temperature", MUST, "-30 °C", "50 °C"),
    SI(SHARE, "hour", "humidity", MUST, "1 %", "100 %"),
    SI(WIND, "hour", "wind", MAY, "0 m/s", "60 m/s"),
    INSTANT("timing", "light", MAY),
    INSTANT("timing", "finish-by", MAY),
    INSTANT("timing", "best-from", MAY),
    INSTANT("timing", "best-to", MAY),
    COUNT("timing", "look-ins", MAY, "0", "12"),
    INSTANT("away", "from", MUST),
    INSTANT("away", "to", MUST),

    SI(MASS, "bag", "net", MUST, "1 g", "50 kg"),
    COUNT("bag", "count", MUST, "1", "10000"),
    ID("bag", "stock", MUST),
    COUNT("bag", "first", MAY, "1", "1000"),
    DATE("bag", "packed"),
    SI(LENGTH, "bag", "face-width", MAY, "10 mm", "2 m"),
    SI(LENGTH, "bag", "face-height", MAY, "10 mm", "2 m"),

    INSTANT("record", "lit", MAY),
    INSTANT("record", "out", MAY),
    YES_NO("record", "died"),
    SI(LENGTH, "record", "filled", MAY, "1 mm", "100 m"),
    SI(MASS, "record", "used", MAY, "0.1 g", "100 kg"),
    SI(LENGTH, "record", "burnt", MAY, "0 mm", "100 m"),
    SI(MASS, "record", "ash", MAY, "0 g", "100 kg"),
    TEXT("record", "remark", MAY),
    INSTANT("relit", "at", MUST),
    INSTANT("reading", "at", MUST),
    SI(LENGTH, "reading", "front", MAY, "0 mm", "100 m"),
    SI(TEMPERATURE, "reading", "cabinet", MAY, "-30 °C", "150 °C"),
    TEXT("reading", "remark", MAY),
};

enum {
    ELEMENT_COUNT = sizeof elements / sizeof *elements,
    ATTRIBUTE_COUNT = sizeof attributes / sizeof *attributes
};

const ElementRule *element_rule(const char *name) {
    for (size_t i = 0; i < ELEMENT_COUNT; i++)
        if (!strcmp(elements[i].name, name))
            return &elements[i];
    return NULL;
}

const AttributeRule *attribute_rule(const char *element, const char *name) {
    for (size_t i = 0; i < ATTRIBUTE_COUNT; i++)
        if (!strcmp(attributes[i].element, element) && !strcmp(attributes[i].name, name))
            return &attributes[i];
    return NULL;
}

const ElementRule *element_rules(size_t *count) {
    *count = ELEMENT_COUNT;
    return elements;
}

const AttributeRule *attribute_rules(size_t *count) {
    *count = ATTRIBUTE_COUNT;
    return attributes;
}

Names child_names(Arena *arena, const char *element) {
    Names names = {0};
    for (size_t i = 0; i < ELEMENT_COUNT; i++)
        if (elements[i].parent && !strcmp(elements[i].parent, element))
            LIST_ADD(arena, &names, elements[i].name);
    return names;
}

Names attribute_names(Arena *arena, const char *element) {
    Names names = {0};
    for (size_t i = 0; i < ATTRIBUTE_COUNT; i++)
        if (!strcmp(attributes[i].element, element))
            LIST_ADD(arena, &names, attributes[i].name);
    return names;
}

Names rule_words(Arena *arena, const AttributeRule *rule) {
    Names names = {0};
    for (const char *at = rule->words; at && *at;) {
        size_t length = strcspn(at, " ");
        LIST_ADD(arena, &names, arena_copy(arena, at, length));
        at += length + (at[length] == ' ');
    }
    return names;
}
