#include "input/readers.h"

#include "schema/rows.h"

/* Salt in brine that is saturated, by mass: 100 degrees of the salometer are 26.4 % (a brine table
 * of seafood training). More is a slip of the pen. */
static const double saturated_brine = 0.264;

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
};
static ELEMENT(freezing, "Freezing of fish against parasites.", OWN_STRUCT(Freezing),
               STATED(Freezing));

/* A slip of the decimal point in the water would make any fish look well salted. */
static void check_salt_and_water(Form *form, const Element *element, const Product *product) {
    bool flesh = product->kind == PRODUCT_FISH || product->kind == PRODUCT_MEAT;
    double most = saturated_brine * (product->salt + product->water);
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
};
ELEMENT(product, "What is in the cabinet.", CHILDREN(product_children), OWN_STRUCT(Product),
        .check = check_product,
        .advice = "what is smoked: <product kind=\"cheese\" name=\"Cheddar\"/>");
