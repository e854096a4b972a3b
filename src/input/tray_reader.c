#include "input/readers.h"

/* Steel, kg/m3 (common handbook figure; from memory). */
#define STEEL_KG_M3 7850.0

static double read_metal(Form *form, const Element *element, ChannelWall wall) {
    double metal = form_number(form, element, "metal");
    double gauge = form_number(form, element, "gauge");
    bool has_metal = form_has(element, "metal"), has_gauge = form_has(element, "gauge");
    if (has_metal && has_gauge)
        report_error(form->diagnostics, element_attribute(element, "gauge")->name_place,
                     "keep one of them", "both 'metal' and 'gauge' in one tray");
    if (!has_metal && !has_gauge)
        report_error(form->diagnostics, element->place,
                     wall == WALL_MESH ? "weigh a piece of mesh: metal=\"0.9 kg/m2\""
                                       : "write gauge=\"2 mm\" or metal=\"15.7 kg/m2\"",
                     "'tray' without its 'metal'");
    if (has_gauge && wall == WALL_MESH)
        report_error(form->diagnostics, element_attribute(element, "gauge")->name_place,
                     "weigh a piece of mesh: metal=\"0.9 kg/m2\"", "'gauge' of a mesh");
    return has_metal ? metal : gauge * STEEL_KG_M3;
}

static void read_lanes(Form *form, const Element *element, Tray *tray) {
    tray->path = PATH_LANES;
    tray->lanes = form_count(form, element, "count", 1);
    tray->lane_length_m = form_number(form, element, "length");
    tray->pitch_m = form_number(form, element, "pitch");
    if (tray->lanes > 1 && tray->pitch_m < tray->channel_width_m)
        report_error(form->diagnostics, element_value_place(element, "pitch"),
                     "it is measured from the middle of one lane to the middle of the next",
                     "'pitch' is less than the 'channel-width': the lanes would overlap");
}

static void read_spiral(Form *form, const Element *element, Tray *tray) {
    tray->path = PATH_SPIRAL;
    tray->turns = form_number(form, element, "turns");
    tray->pitch_m = form_number(form, element, "pitch");
    tray->outer_m = form_number(form, element, "outer");
    if (tray->pitch_m < tray->channel_width_m)
        report_error(form->diagnostics, element_value_place(element, "pitch"),
                     "it is measured from the middle of one turn to the middle of the next",
                     "'pitch' is less than the 'channel-width': the turns would overlap");
    if (tray->turns * tray->pitch_m > tray->outer_m / 2)
        report_error(form->diagnostics, element_value_place(element, "turns"),
                     "turns × pitch is at most half of 'outer'",
                     "more turns than the spiral has room for");
}

static void read_straight(Form *form, const Element *element, Tray *tray) {
    tray->path = PATH_STRAIGHT;
    tray->lanes = 1;
    tray->lane_length_m = form_number(form, element, "length");
}

static void read_path(Form *form, const Element *element, Tray *tray) {
    const Element *lanes = element_child(element, "lanes");
    const Element *spiral = element_child(element, "spiral");
    const Element *straight = element_child(element, "straight");
    int paths = (lanes != NULL) + (spiral != NULL) + (straight != NULL);
    if (paths != 1)
        report_error(form->diagnostics, element->place,
                     "it has exactly one of <lanes>, <spiral> and <straight>",
                     paths ? "more than one channel in 'tray'" : "'tray' without its channel");
    if (lanes)
        read_lanes(form, lanes, tray);
    if (spiral)
        read_spiral(form, spiral, tray);
    if (straight)
        read_straight(form, straight, tray);
}

Tray read_tray(Form *form, const Element *element) {
    Tray tray = {.place = element->place,
                 .id = form_text(form, element, "id"),
                 .name = form_text(form, element, "name"),
                 .wall = (ChannelWall)form_word(form, element, "wall", WALL_MESH),
                 .channel_width_m = form_number(form, element, "channel-width"),
                 .channel_depth_m = form_number(form, element, "channel-depth"),
                 .bottom_width_m = form_number(form, element, "bottom-width")};
    if (!form_has(element, "bottom-width"))
        tray.bottom_width_m = tray.channel_width_m;
    if (tray.bottom_width_m > tray.channel_width_m)
        report_error(form->diagnostics, element_value_place(element, "bottom-width"), NULL,
                     "'bottom-width' is more than 'channel-width'");
    tray.metal_kg_m2 = read_metal(form, element, tray.wall);
    read_path(form, element, &tray);
    return tray;
}

/* The area of a vent that is wide open, and whether what it is set to fits into it. */
static double read_full(Form *form, const Element *element, const char *vent, double area_m2) {
    const char *name = arena_format(form->arena, "%s-full", vent);
    double full_m2 = form_number(form, element, name);
    if (area_m2 > full_m2)
        report_error(form->diagnostics, element_value_place(element, vent),
                     arena_format(form->arena,
                                  "'%s' is the area as it is set, '%s' that of the vent wide open",
                                  vent, name),
                     "'%s' is more than '%s'", vent, name);
    return full_m2;
}

static void read_vent(Form *form, const Element *element, Cabinet *cabinet) {
    cabinet->inlet_m2 = form_number(form, element, "inlet");
    cabinet->outlet_m2 = form_number(form, element, "outlet");
    cabinet->inlet_full_m2 = read_full(form, element, "inlet", cabinet->inlet_m2);
    cabinet->outlet_full_m2 = read_full(form, element, "outlet", cabinet->outlet_m2);
    cabinet->rise_m = form_number(form, element, "rise");
    if (cabinet->rise_m > cabinet->height_m)
        report_error(form->diagnostics, element_value_place(element, "rise"),
                     "'rise' is the height between the two vents",
                     "'rise' is more than the cabinet's 'height'");
}

Cabinet read_cabinet(Form *form, const Element *element) {
    Cabinet cabinet = {
        .place = element->place,
        .id = form_text(form, element, "id"),
        .name = form_text(form, element, "name"),
        .width_m = form_number(form, element, "width"),
        .depth_m = form_number(form, element, "depth"),
        .height_m = form_number(form, element, "height"),
        .wall = (CabinetWall)form_word(form, element, "wall", CABINET_WOOD),
        .wall_w_m2k = form_number(form, element, "u-value"),
        .inlet_full_m2 = NOT_STATED,
        .outlet_full_m2 = NOT_STATED,
        .rise_m = NOT_STATED,
        .exposure = (CabinetExposure)form_word(form, element, "exposure", EXPOSURE_SHELTERED)};
    const Element *vent = element_child(element, "vent");
    if (vent)
        read_vent(form, vent, &cabinet);
    return cabinet;
}
