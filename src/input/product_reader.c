#include "input/readers.h"

#include "base/salometer.h"

#include "schema/rows.h"

#include <string.h>

/* Raw ham that hung for a year still holds some 45 % water (from memory); less than this is a slip
 * of the decimal point: judgement. */
static const double flesh_water_least = 0.30;

static void need(Form *form, const Element *element, const char *name, const char *method) {
    if (!form_has(element, name))
        error_at(form, element, NULL, "%s 'cure' without its '%s'", method, name);
}

static void refuse(Form *form, const Element *element, const char *name, const char *method) {
    const Attribute *attribute = element_attribute(element, name);
    if (attribute)
        report_error(form->diagnostics, attribute->name_place, "take it out",
                     "%s 'cure' has no '%s'", method, name);
}

static void check_cure(Form *form, const Element *element, void *into) {
    const Cure *cure = into;
    static const char *const methods[] = {"a dry", "a pumped", "an immersed"};
    const char *method = methods[cure->method];
    (cure->method == CURE_IMMERSED ? need : refuse)(form, element, "water", method);
    (cure->method == CURE_PUMPED ? need : refuse)(form, element, "pump", method);
    (cure->method == CURE_PUMPED ? need : refuse)(form, element, "pickle", method);
    if (cure->pickle_kg < cure->cure_kg)
        error_at_value(form, element, "pickle", "'pickle' is the whole of it, with the cure in it",
                       "'pickle' is less than the 'mass' of cure in it");
}

static const AttributeRule cure_attributes[] = {
    ROW("method", WORDS("dry pumped immersed"), Cure, method, "how the cure gets into the meat",
        MUST),
    ROW("mass", MASS("0.1 g", "1000 kg"), Cure, cure_kg, "cure mix used", MUST),
    ROW("nitrite", SHARE("0 %", "20 %"), Cure, nitrite,
        "sodium nitrite in the mix, as its maker states it", MUST),
    ROW("water", MASS("1 g", "10000 kg"), Cure, water_kg, "immersed: water of the brine"),
    ROW("pump", SHARE("0.1 %", "60 %"), Cure, pump_share,
        "pumped: pickle taken up, of the green mass"),
    ROW("pickle", MASS("1 g", "10000 kg"), Cure, pickle_kg,
        "pumped: whole pickle with the cure in it"),
};
static ELEMENT(cure, "A nitrite cure.", OWN_STRUCT(Cure), STATED(Cure), .check = check_cure);

static const AttributeRule freezing_attributes[] = {
    ROW("temperature", TEMPERATURE("-90 °C", "0 °C"), Freezing, temp_c, "coldest temperature held",
        MUST),
    ROW("time", DURATION("1 h", "3650 d"), Freezing, time_s, "how long it was held", MUST),
    ROW("farmed", YES_NO, Freezing, farmed, "fish farmed on pellets in tanks or net pens"),
    ROW("planned", YES_NO, Freezing, planned,
        "still to be done: dated steps are worked back from the night"),
    ROW("begun", INSTANT, Freezing, begun, "planned: when it went into the freezer"),
    ROW("thaw", DURATION("0 h", "7 d"), Freezing, thaw_s,
        "planned: in the refrigerator, common practice, no source", .usual = "24 h"),
};

static void check_freezing(Form *form, const Element *element, void *into) {
    const Freezing *freezing = into;
    static const char *const names[] = {"begun", "thaw"};
    for (size_t i = 0; i < 2; i++)
        if (!freezing->planned && form_has(element, names[i]))
            error_at_name(form, element, names[i], "write planned=\"yes\", or take it out",
                          "'%s' of a freezing that is not 'planned'", names[i]);
}

static ELEMENT(freezing, "Freezing of fish against parasites, done or planned.",
               OWN_STRUCT(Freezing), STATED(Freezing), .check = check_freezing);

/* ---- Salting ------------------------------------------------------------------------------- */

/* What nobody could eat is a slip of the decimal point (judgement). */
static const double even_salt_most = 0.10;

static void check_brine(Form *form, const Element *element, const Salting *salting) {
    bool dry = salting->method == SALTING_DRY, even = salting->method == SALTING_EQUILIBRIUM;
    static const char *const methods[] = {"a dry", "a brine", "an equilibrium"};
    const char *const names[] = {"salt", "strength", "water"};
    const bool wanted[] = {dry, salting->method == SALTING_BRINE,
                           salting->method == SALTING_BRINE || form_has(element, "strength")};
    const bool refused[] = {salting->method == SALTING_BRINE, dry, dry};
    for (size_t i = 0; i < 3; i++)
        if (wanted[i] && !form_has(element, names[i]))
            error_at(form, element, NULL, "%s 'salting' without its '%s'", methods[salting->method],
                     names[i]);
        else if (refused[i] && form_has(element, names[i]))
            error_at_name(form, element, names[i], "take it out", "%s 'salting' has no '%s'",
                          methods[salting->method], names[i]);
    if (even && form_has(element, "salt") == form_has(element, "strength"))
        error_at(form, element,
                 "write 'salt', a share of meat and water, or 'strength' and 'water'",
                 "an equilibrium 'salting' says how salty in one way");
}

static void check_salting(Form *form, const Element *element, void *into) {
    Salting *salting = into;
    const char *strength = element_value(element, "strength");
    salting->in_degrees = strength && !strchr(strength, '%');
    check_brine(form, element, salting);
    bool even = salting->method == SALTING_EQUILIBRIUM;
    if (even && salting->salt > even_salt_most)
        error_at_value(form, element, "salt",
                       "in equilibrium all of it ends so salty: at most 10 %",
                       "'salt' is more than anybody could eat");
    if (even && !form_has(element, "rinse"))
        salting->rinse_s = 0;
}

/* Times: common practice, no source; 3 °C: New York rules for brining ask for 38 °F. */
static const AttributeRule salting_attributes[] = {
    ROW("method", WORDS("dry brine equilibrium"), Salting, method,
        "rubbed with salt, in brine for a time, or until all is equally salty", MUST),
    ROW("salt", SHARE("0.5 %", "100 %"), Salting, salt,
        "dry: share of the product's mass; equilibrium: of product and water together"),
    ROW("strength", STRENGTH("1 %", "26.395 %"), Salting, strength,
        "of the brine as it is made: salt by mass, or degrees of the salometer, of which 100 are "
        "saturated (26.395 % at 15.6 °C)"),
    ROW("water", MASS("10 g", "10000 kg"), Salting, water_kg, "of the brine"),
    ROW("time", DURATION("5 min", "90 d"), Salting, time_s,
        "in the salt or brine; nobody can work it out for you", MUST),
    ROW("temperature", TEMPERATURE("-3 °C", "15.6 °C"), Salting, temp_c,
        "of the cold in which it is salted, thawed and dried", .usual = "3 °C"),
    ROW("rinse", DURATION("0 min", "24 h"), Salting, rinse_s,
        "in cold water; an equilibrium salting is only wiped when not written", .usual = "10 min"),
    ROW("dry", DURATION("1 h", "14 d"), Salting, dry_s, "open on a rack, until tacky",
        .usual = "12 h"),
    ROW("begun", INSTANT, Salting, begun,
        "when it went into the salt; worked back from the night when not written"),
};
static ELEMENT(salting, "Salting in the days before: dated steps are worked back from the night.",
               OWN_STRUCT(Salting), STATED(Salting), .check = check_salting);

/* A nitrite cure goes in with the salt. */
static void check_cure_with(Form *form, const Element *element, const Product *product) {
    static const double hair_kg = 1e-9;
    const Element *cure = element_child(element, "cure");
    bool wet = is_stated(product->salting.water_kg);
    if (!cure)
        return;
    if (product->cure.method == CURE_PUMPED)
        error_at_value(form, cure, "method", "leave <salting> out: a pickle is no salting",
                       "a pumped 'cure' beside a 'salting'");
    else if (wet != (product->cure.method == CURE_IMMERSED))
        error_at_value(form, cure, "method",
                       "immersed goes with a salting in water, dry with one without",
                       "the 'cure' and the 'salting' are not of one kind");
    else if (wet && !(product->cure.water_kg >= product->salting.water_kg - hair_kg &&
                      product->cure.water_kg <= product->salting.water_kg + hair_kg))
        error_at_value(form, cure, "water", "it is the same brine",
                       "the 'water' of the 'cure' is not that of the 'salting'");
}

/* What went into the salt is out of the freezer. */
static void check_order(Form *form, const Element *element, const Product *product) {
    const Freezing *freezing = &product->freezing;
    const Salting *salting = &product->salting;
    if (!freezing->planned || !salting->begun)
        return;
    double thawed = (double)freezing->begun + freezing->time_s + freezing->thaw_s;
    if (!freezing->begun)
        error_at_value(form, element_child(element, "freezing"), "planned",
                       "say when it had 'begun', or take 'planned' out once it is done",
                       "a freezing still 'planned' of what is in the salt already");
    else if (thawed > (double)salting->begun)
        error_at_value(form, element_child(element, "salting"), "begun",
                       "it is frozen for its 'time', thawed, and then salted",
                       "salted before it was frozen and thawed");
}

static void check_salted(Form *form, const Element *element, const Product *product) {
    const Element *salting = element_child(element, "salting");
    ProductKind kind = product->kind;
    if (!salting)
        return;
    if (kind != PRODUCT_FISH && kind != PRODUCT_MEAT && kind != PRODUCT_OTHER)
        error_at(form, salting, "fish, meat and other are salted: take it out",
                 "a 'salting' of this kind of product");
    if (form_has(element, "cured"))
        error_at_name(form, element, "cured",
                      "take it out: the salting's 'begun' and 'time' say it",
                      "'cured' beside a 'salting'");
    if (!form_has(element, "mass"))
        error_at(form, element, "the salt is weighed for it", "a 'salting' without the 'mass'");
    check_cure_with(form, element, product);
    check_order(form, element, product);
}

/* A slip of the decimal point in the water would make any fish look well salted. */
static void check_salt_and_water(Form *form, const Element *element, const Product *product) {
    bool flesh = product->kind == PRODUCT_FISH || product->kind == PRODUCT_MEAT;
    double most = SALOMETER_SATURATED * (product->salt + product->water);
    if (product->salt + product->water > 1) {
        error_at_value(form, element, "water", "both are shares of the whole product",
                       "'salt' and 'water' are more than 100 %%");
    } else if (flesh && product->water < flesh_water_least) {
        error_at_value(form, element, "water",
                       "look at the decimal point: fish and meat hold at least 30 %",
                       "'water' is too little for fish or meat");
    } else if (product->kind != PRODUCT_SALT && product->salt > most) {
        error_at_value(form, element, "salt",
                       "look at both decimal points: saturated brine is 26.4 % salt",
                       "'salt' is more than the 'water' can dissolve");
    }
}

static void check_product(Form *form, const Element *element, void *into) {
    Product *product = into;
    product->cured_stated = form_has(element, "cured");
    product->not_raw = form_word(form, element, "raw") == 0;
    if (form_has(element, "raw") && product->kind != PRODUCT_OTHER)
        error_at_name(form, element, "raw", "take it out, or write kind=\"other\"",
                      "'raw' is said of 'other' alone");
    check_salt_and_water(form, element, product);
    check_salted(form, element, product);
}

static const AttributeRule product_attributes[] = {
    ROW("kind", WORDS("cheese butter fish salt meat other"), Product, kind, "what is smoked", MUST,
        .usual = "other"),
    ROW("name", TEXT, Product, name, "name on paper", MUST),
    ROW("lot", TEXT, Product, lot, "lot of the food as it came"),
    ROW("mass", MASS("1 g", "10000 kg"), Product, mass_kg, "of the whole load"),
    ROW("pieces", COUNT("1", "100000"), Product, pieces, "number of pieces"),
    ROW("smoke-time", DURATION("5 min", "14 d"), Product, smoke_time_s, "wanted time in smoke"),
    ROW("salt", SHARE("0 %", "100 %"), Product, salt, "of the product after curing"),
    ROW("water", SHARE("0 %", "100 %"), Product, water, "of the product after curing"),
    ROW("cured", YES_NO, Product, cured, "salting or curing is finished"),
    ROW("vacuum-packed", YES_NO, Product, vacuum_packed, "to be vacuum packed afterwards"),
    CHECKED("raw", YES_NO,
            "of kind other: no when it is no raw flesh, such as nuts or cooked food; taken for raw "
            "when not written"),
    ROW("limit", TEMPERATURE("-20 °C", "40 °C"), Product, limit_temp_c,
        "own ceiling for the temperature in the cabinet; that of the kind when not written"),
};
static const ChildRule product_children[] = {
    ONE(cure, 0, Product, cure),
    ONE(freezing, 0, Product, freezing),
    ONE(salting, 0, Product, salting),
};
ELEMENT(product, "What is in the cabinet.", CHILDREN(product_children), OWN_STRUCT(Product),
        .check = check_product,
        .advice = "what is smoked: <product kind=\"cheese\" name=\"Cheddar\"/>");
