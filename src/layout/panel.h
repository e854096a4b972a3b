/* Panel: one block of a session sheet, measured and drawn.
 *
 * Every kind of panel is a function that draws downwards from the top of a box with the pen of
 * the setting and returns the height used; without a page in the pen it only measures. Panels
 * that can use spare room have a second function that says how much at most.
 */
#ifndef LAYOUT_PANEL_H
#define LAYOUT_PANEL_H

#include "layout/setting.h"

/* The height a panel needs, and the height beyond which more is of no use to it. */
typedef struct Extent {
    double least_mm;
    double most_mm;
} Extent;

/* Whether the panel stands on this plan's sheet: not dropped, the plan of the right kind, and
 * something to say. A panel of care that was dropped keeps what is more than a note, one of
 * remedies its first until it is dropped again, a map one drawing of the fills that look alike. */
bool panel_shown(Setting *setting, const Panel *panel);

/* Height for that width, title and all. */
Extent panel_extent(Setting *setting, const Panel *panel, double width_mm);

/* Draws it with the given height, which is at least the least. Returns the height used. */
double panel_draw(Setting *setting, const Panel *panel, Box box);

/* Bodies of the kinds of panels, each in the file of its name. Returns the height used; a box of
 * no height asks for the least. */
double headline_draw(Setting *setting, const Panel *panel, Box box);
double remedies_draw(Setting *setting, const Panel *panel, Box box);
double weigh_out_draw(Setting *setting, const Panel *panel, Box box);
double drying_draw(Setting *setting, const Panel *panel, Box box);
double tray_map_draw(Setting *setting, const Panel *panel, Box box);
double curve_draw(Setting *setting, const Panel *panel, Box box);
double steps_draw(Setting *setting, const Panel *panel, Box box);
double rules_draw(Setting *setting, const Panel *panel, Box box);
double log_draw(Setting *setting, const Panel *panel, Box box);
double record_draw(Setting *setting, const Panel *panel, Box box);
double cautions_draw(Setting *setting, const Panel *panel, Box box);
double care_draw(Setting *setting, const Panel *panel, Box box);
double words_draw(Setting *setting, const Panel *panel, Box box);
double footer_draw(Setting *setting, const Panel *panel, Box box);

/* The greatest useful height of the bodies that can stretch. */
double tray_map_most(Setting *setting, const Panel *panel, double width_mm);
double curve_most(Setting *setting, const Panel *panel, double width_mm);
double steps_most(Setting *setting, const Panel *panel, double width_mm);
double record_most(Setting *setting, const Panel *panel, double width_mm);

/* Whether the body has anything to say about this plan. */
bool cautions_shown(Setting *setting, const Panel *panel);
bool care_shown(Setting *setting, const Panel *panel);

#endif
