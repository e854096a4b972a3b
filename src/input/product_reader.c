#include "input/readers.h"

/* Salt in brine that is saturated, by mass: 100 degrees of the salometer are 26.4 % (a brine table
 * of seafood training). More is a slip of the pen. */
static const double saturated_brine = 0.264;

/* Raw ham that hung for a year still holds some 45 % water (from memory); less than this is a slip
 * of the decimal point: judgement. */
static const double flesh_water_least = 0.30;

static void need(Form *form, const Element *element, const char *name, const char *method) {
    if (!form_has(element, name))
        report_error(form->diagnostics, element->place, NULL, "%s 'cure' without its '%s'", method,
                     name);
}

static void refuse(Form *form, const Element *element, const char *name, const char *method) {
    const Attribute *attribute = element_attribute(element, name);
    if (attribute)
        report_error(form->diagnostics, attribute->name_place, "take it out",
                     "%s 'cure' has no '%s'", method, name);
}

static Cure read_cure(Form *form, const Element *element) {
    Cure cure = {.stated = true,
                 .method = (CureMethod)form_word(form, element, "method", CURE_DRY),
                 .cure_kg = form_number(form, element, "mass"),
                 .nitrite = form_number(form, element, "nitrite"),
                 .water_kg = form_number(form, element, "water"),
                 .pump_share = form_number(form, element, "pump"),
                 .pickle_kg = form_number(form, element, "pickle"),
                 .place = element->place};
    static const char *const methods[] = {"a dry", "a pumped", "an immersed"};
    const char *method = methods[cure.method];
    (cure.method == CURE_IMMERSED ? need : refuse)(form, element, "water", method);
    (cure.method == CURE_PUMPED ? need : refuse)(form, element, "pump", method);
    (cure.method == CURE_PUMPED ? need : refuse)(form, element, "pickle", method);
    if (cure.pickle_kg < cure.cure_kg)
        report_error(form->diagnostics, element_value_place(element, "pickle"),
                     "'pickle' is the whole of it, with the cure in it",
                     "'pickle' is less than the 'mass' of cure in it");
    return cure;
}

static Freezing read_freezing(Form *form, const Element *element) {
    return (Freezing){.stated = true,
                      .temp_c = form_number(form, element, "temperature"),
                      .time_s = form_number(form, element, "time"),
                      .farmed = form_yes(form, element, "farmed", false),
                      .place = element->place};
}

static Cure no_cure(void) {
    return (Cure){.cure_kg = NOT_STATED,
                  .nitrite = NOT_STATED,
                  .water_kg = NOT_STATED,
                  .pump_share = NOT_STATED,
                  .pickle_kg = NOT_STATED};
}

/* A slip of the decimal point in the water would make any fish look well salted. */
static void check_salt_and_water(Form *form, const Element *element, const Product *product) {
    bool flesh = product->kind == PRODUCT_FISH || product->kind == PRODUCT_MEAT;
    double most = saturated_brine * (product->salt + product->water);
    if (product->salt + product->water > 1) {
        report_error(form->diagnostics, element_value_place(element, "water"),
                     "both are shares of the whole product",
                     "'salt' and 'water' are more than 100 %%");
    } else if (flesh && product->water < flesh_water_least) {
        report_error(form->diagnostics, element_value_place(element, "water"),
                     "look at the decimal point: fish and meat hold at least 30 %",
                     "'water' is too little for fish or meat");
    } else if (product->kind != PRODUCT_SALT && product->salt > most) {
        report_error(form->diagnostics, element_value_place(element, "salt"),
                     "look at both decimal points: saturated brine is 26.4 % salt",
                     "'salt' is more than the 'water' can dissolve");
    }
}

Product read_product(Form *form, const Element *element) {
    Product product = {.place = element->place,
                       .kind = (ProductKind)form_word(form, element, "kind", PRODUCT_OTHER),
                       .name = form_text(form, element, "name"),
                       .mass_kg = form_number(form, element, "mass"),
                       .pieces = form_count(form, element, "pieces", 0),
                       .smoke_time_s = form_number(form, element, "smoke-time"),
                       .salt = form_number(form, element, "salt"),
                       .water = form_number(form, element, "water"),
                       .cured = form_yes(form, element, "cured", false),
                       .cured_stated = form_has(element, "cured"),
                       .vacuum_packed = form_yes(form, element, "vacuum-packed", false),
                       .not_raw = form_has(element, "raw") && !form_yes(form, element, "raw", true),
                       .limit_temp_c = form_number(form, element, "limit"),
                       .cure = no_cure(),
                       .freezing = {.temp_c = NOT_STATED, .time_s = NOT_STATED}};
    if (form_has(element, "raw") && product.kind != PRODUCT_OTHER)
        report_error(form->diagnostics, element_attribute(element, "raw")->name_place,
                     "take it out, or write kind=\"other\"", "'raw' is said of 'other' alone");
    check_salt_and_water(form, element, &product);
    const Element *cure = element_child(element, "cure");
    if (cure)
        product.cure = read_cure(form, cure);
    const Element *freezing = element_child(element, "freezing");
    if (freezing)
        product.freezing = read_freezing(form, freezing);
    return product;
}
