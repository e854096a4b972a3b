#include "input/readers.h"

#include "schema/rows.h"

/* Steel, kg/m3 (common handbook figure; from memory). */
#define STEEL_KG_M3 7850.0

/* ---- The channel --------------------------------------------------------------------------- */

static void check_lanes(Form *form, const Element *element, void *into) {
    Tray *tray = into;
    tray->path = PATH_LANES;
    if (tray->lanes > 1 && tray->pitch_m < tray->channel_width_m)
        error_at_value(form, element, "pitch",
                       "it is measured from the middle of one lane to the middle of the next",
                       "'pitch' is less than the 'channel-width': the lanes would overlap");
}

static void check_spiral(Form *form, const Element *element, void *into) {
    Tray *tray = into;
    tray->path = PATH_SPIRAL;
    if (tray->pitch_m < tray->channel_width_m)
        error_at_value(form, element, "pitch",
                       "it is measured from the middle of one turn to the middle of the next",
                       "'pitch' is less than the 'channel-width': the turns would overlap");
    if (tray->turns * tray->pitch_m > tray->outer_m / 2)
        error_at_value(form, element, "turns", "turns × pitch is at most half of 'outer'",
                       "more turns than the spiral has room for");
}

static void set_straight(Form *form, const Element *element, void *into) {
    (void)form, (void)element;
    Tray *tray = into;
    tray->path = PATH_STRAIGHT;
    tray->lanes = 1;
    tray->pitch_m = 0;
}

static const AttributeRule lanes_attributes[] = {
    ROW("count", COUNT("1", "60"), Tray, lanes, "number of lanes", MUST),
    ROW("length", LENGTH("10 mm", "5 m"), Tray, lane_length_m, "length of one lane", MUST),
    ROW("pitch", LENGTH("4 mm", "500 mm"), Tray, pitch_m,
        "middle of one lane to the middle of the next", MUST),
};
static ELEMENT(lanes, "Straight lanes side by side, joined at their ends.", .check = check_lanes);

static const AttributeRule spiral_attributes[] = {
    ROW("turns", NUMBER("0.5", "40"), Tray, turns, "number of turns", MUST),
    ROW("pitch", LENGTH("4 mm", "500 mm"), Tray, pitch_m,
        "middle of one turn to the middle of the next", MUST),
    ROW("outer", LENGTH("20 mm", "3 m"), Tray, outer_m, "diameter of the outermost centre line",
        MUST),
};
static ELEMENT(spiral, "A spiral channel.", .check = check_spiral);

static const AttributeRule straight_attributes[] = {
    ROW("length", LENGTH("10 mm", "20 m"), Tray, lane_length_m, "length of the channel", MUST),
};
static ELEMENT(straight, "One straight channel.", .check = set_straight);

/* ---- Tray ---------------------------------------------------------------------------------- */

/* Mass by area of what trays are made of. Woven wire of diameter d at pitch p has 2 · π/4 · d² / p
 * of steel: 0.25 mm at 1.25 mm, 0.3 mm at 1.25 mm, 0.45 mm at 1.6 mm; a sheet of 1 mm with two
 * fifths punched out. Which wire a kind has is judgement, to within a factor of 1.4, for which the
 * chance counts less (model/doubt.h). */
#define METAL_KINDS "light-mesh mesh heavy-mesh perforated-sheet"
static const double metal_kinds_kg_m2[] = {0.6, 0.9, 1.6, 4.7};

static void check_metal(Form *form, const Element *element, Tray *tray) {
    static const char weigh_it[] = "weigh a piece of mesh: metal=\"0.9 kg/m2\"; or name its "
                                   "kind: metal=\"mesh\"";
    double gauge = form_number(form, element, "gauge");
    bool has_metal = form_has(element, "metal"), has_gauge = form_has(element, "gauge");
    if (has_metal && has_gauge)
        error_at_name(form, element, "gauge", "keep one of them",
                      "both 'metal' and 'gauge' in one tray");
    if (!has_metal && !has_gauge)
        error_at(form, element,
                 tray->wall == WALL_MESH ? weigh_it
                                         : "write gauge=\"2 mm\" or metal=\"15.7 kg/m2\"",
                 "'tray' without its 'metal'");
    if (has_gauge && tray->wall == WALL_MESH)
        error_at_name(form, element, "gauge", weigh_it, "'gauge' of a mesh");
    int kind = form_word(form, element, "metal");
    tray->metal_judged = kind >= 0;
    if (kind >= 0)
        tray->metal_kg_m2 = metal_kinds_kg_m2[kind];
    if (!has_metal)
        tray->metal_kg_m2 = gauge * STEEL_KG_M3;
}

static void check_tray(Form *form, const Element *element, void *into) {
    Tray *tray = into;
    int paths = (element_child(element, "lanes") != NULL) +
                (element_child(element, "spiral") != NULL) +
                (element_child(element, "straight") != NULL);
    if (!form_has(element, "bottom-width"))
        tray->bottom_width_m = tray->channel_width_m;
    if (tray->bottom_width_m > tray->channel_width_m)
        error_at_value(form, element, "bottom-width", NULL,
                       "'bottom-width' is more than 'channel-width'");
    check_metal(form, element, tray);
    if (paths != 1)
        error_at(form, element, "it has exactly one of <lanes>, <spiral> and <straight>",
                 paths ? "more than one channel in 'tray'" : "'tray' without its channel");
    check_id(form, element);
}

static const AttributeRule tray_attributes[] = {
    ROW("id", ID, Tray, id, "short name that batches refer to", MUST),
    ROW("name", TEXT, Tray, name, "name on paper", MUST),
    ROW("wall", WORDS("mesh plate"), Tray, wall, "what the channel is made of", MUST),
    ROW("channel-width", LENGTH("3 mm", "300 mm"), Tray, channel_width_m, "inner width at the rim",
        MUST),
    ROW("channel-depth", LENGTH("3 mm", "300 mm"), Tray, channel_depth_m, "inner depth", MUST),
    ROW("bottom-width", LENGTH("1 mm", "300 mm"), Tray, bottom_width_m,
        "inner width at the floor; that of the rim when not written"),
    ROW("metal", MEASURED_OR(METAL_KINDS, MEASURE_AREAL_MASS, "0.05 kg/m2", "100 kg/m2"), Tray,
        metal_kg_m2,
        "mass of wall and floor by their area; or its kind, which is not weighed and makes less "
        "sure"),
    CHECKED("gauge", LENGTH("0.05 mm", "12 mm"), "thickness of steel plate, in place of metal"),
};
static const ChildRule tray_children[] = {INSIDE(lanes, 0), INSIDE(spiral, 0), INSIDE(straight, 0)};
ELEMENT(tray, "A channel for dust: it has one of lanes, spiral and straight.",
        CHILDREN(tray_children), OWN_STRUCT(Tray), .check = check_tray);

/* ---- Cabinet ------------------------------------------------------------------------------- */

/* Whether what a vent is set to fits into the vent wide open. */
static void check_full(Form *form, const Element *element, const char *vent, double area_m2,
                       double full_m2) {
    if (area_m2 > full_m2)
        error_at_value(form, element, vent,
                       arena_format(form->arena,
                                    "'%s' is the area as it is set, '%s-full' that of the vent "
                                    "wide open",
                                    vent, vent),
                       "'%s' is more than '%s-full'", vent, vent);
}

static void check_vent(Form *form, const Element *element, void *into) {
    const Cabinet *cabinet = into;
    check_full(form, element, "inlet", cabinet->inlet_m2, cabinet->inlet_full_m2);
    check_full(form, element, "outlet", cabinet->outlet_m2, cabinet->outlet_full_m2);
    if (cabinet->rise_m > cabinet->height_m)
        error_at_value(form, element, "rise", "'rise' is the height between the two vents",
                       "'rise' is more than the cabinet's 'height'");
}

static void check_cabinet(Form *form, const Element *element, void *into) {
    (void)into;
    check_id(form, element);
}

static const AttributeRule vent_attributes[] = {
    ROW("inlet", AREA("0.5 cm2", "10000 cm2"), Cabinet, inlet_m2, "free area of the lower vent",
        MUST),
    ROW("outlet", AREA("0.5 cm2", "10000 cm2"), Cabinet, outlet_m2, "free area of the upper vent",
        MUST),
    ROW("inlet-full", AREA("0.5 cm2", "10000 cm2"), Cabinet, inlet_full_m2,
        "free area of the lower vent wide open: the sheet then says how far to open it"),
    ROW("outlet-full", AREA("0.5 cm2", "10000 cm2"), Cabinet, outlet_full_m2,
        "free area of the upper vent wide open"),
    ROW("rise", LENGTH("1 cm", "20 m"), Cabinet, rise_m,
        "height between the two vents; that of the cabinet when not written"),
};
static ELEMENT(vent, "Its two openings.", .check = check_vent,
               .advice = "the open areas: <vent inlet=\"40 cm2\" outlet=\"40 cm2\"/>");

static const AttributeRule cabinet_attributes[] = {
    ROW("id", ID, Cabinet, id, "short name that batches refer to", MUST),
    ROW("name", TEXT, Cabinet, name, "name on paper", MUST),
    ROW("width", LENGTH("100 mm", "10 m"), Cabinet, width_m, "inner width", MUST),
    ROW("depth", LENGTH("100 mm", "10 m"), Cabinet, depth_m, "inner depth", MUST),
    ROW("height", LENGTH("100 mm", "10 m"), Cabinet, height_m, "inner height", MUST),
    ROW("wall", WORDS("wood steel insulated brick cardboard"), Cabinet, wall,
        "what the walls are made of", MUST),
    ROW("u-value", HEAT_TRANSFER("0.05 W/m2K", "20 W/m2K"), Cabinet, wall_w_m2k,
        "heat the walls pass; from the kind of wall when not written"),
    ROW("exposure", WORDS("sheltered half-open open"), Cabinet, exposure,
        "how far the wind gets at its vents, out of doors", .usual = "sheltered"),
};
static const ChildRule cabinet_children[] = {INSIDE(vent, 1)};
ELEMENT(cabinet, "The box the smoke goes through.", CHILDREN(cabinet_children), OWN_STRUCT(Cabinet),
        .check = check_cabinet);
