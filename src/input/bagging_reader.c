#include "input/readers.h"

#include "domain/bagging.h"

#include "schema/rows.h"

/* A night finds out how much of a carrier it takes; a day of bagging has none. */
static void check_pack(Form *form, const Element *element, void *into) {
    BagBlend *pack = into;
    const Element *blend = element_child(element, "blend");
    const Element *part = blend ? element_child(blend, "part") : NULL;
    for (; part; part = element_sibling(part, "part"))
        if (form_word(form, part, "share") == 0)
            error_at_value(form, part, "share", "write the share in percent",
                           "a least share where no night says what is enough");
    if (form_has(element, "measured") && !form_has(element, "moisture"))
        error_at_value(form, element, "measured", "write the moisture that was measured, too",
                       "a day of measuring without its 'moisture'");
    for (size_t i = 0; i < pack->bags.count; i++)
        if (!pack->bags.items[i].packed.year)
            pack->bags.items[i].packed = ((const Bagging *)form->outer)->packed;
}

static const AttributeRule pack_attributes[] = {
    ROW("lot", TEXT, BagBlend, lot,
        "lot on the bags; made from the day and the file's name when not written"),
    ROW("sieve-below", LENGTH("20 µm", "5 mm"), BagBlend, sieve_below_m,
        "what is finer is sieved out of each dust before it is weighed in"),
    ROW("dry-to", SHARE("0 %", "30 %"), BagBlend, dry_to,
        "moisture to which the blend is dried before bagging, on dry basis"),
    ROW("moisture", SHARE("0 %", "60 %"), BagBlend, moisture,
        "what was measured of the blend as it is packed, on dry basis, for its labels; from its "
        "dusts when not written, and then not once it was dried"),
    ROW("measured", DATE, BagBlend, measured,
        "day that moisture was measured; that of packing when not written"),
};
static const ChildRule pack_children[] = {
    ONE(blend, 1, BagBlend, blend),
    SEVERAL(bag, 1, 50, BagBlend, bags),
};
static ELEMENT(pack, "One blend and the bags it goes into.", CHILDREN(pack_children),
               OWN_STRUCT(BagBlend), .check = check_pack);

static void check_bagging(Form *form, const Element *root, void *into) {
    Bagging *bagging = into;
    bagging->file = root->place.file;
    bagging->workshop = ((const BatchContext *)form->context)->workshop;
}

static const AttributeRule bagging_attributes[] = {
    ROW("name", TEXT, Bagging, name, "name of the day on paper", MUST),
    ROW("packed", DATE, Bagging, packed, "day of packing", MUST),
    CHECKED("workshop", TEXT,
            "file of the workshop, looked for from the folder of this file; workshop.xml when not "
            "written"),
    ROW("handling-loss", SHARE("0 %", "30 %"), Bagging, handling_loss,
        "what stays in bowls, sieve and air; 1 % when not written"),
};
static const ChildRule bagging_children[] = {SEVERAL(pack, 1, 12, Bagging, packs)};
ELEMENT(bagging, "A day of blending and packing dust, without a night.", CHILDREN(bagging_children),
        OWN_STRUCT(Bagging), .check = check_bagging);
