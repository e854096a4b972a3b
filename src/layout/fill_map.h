/* Fill map: one tray drawn to scale, with the place of the glow on every full hour. */
#ifndef LAYOUT_FILL_MAP_H
#define LAYOUT_FILL_MAP_H

#include "layout/setting.h"

/* Height of the drawing when it takes the whole of that width. */
double fill_map_height_mm(const PlanFill *fill, double width_mm);

/* Width that the drawing takes of that width when it is so high, its clock times included. */
double fill_map_width_mm(const PlanFill *fill, double width_mm, double height_mm);

/* Draws the fill into the box, as large as it goes, against the left edge. */
void fill_map_draw(Setting *setting, const PlanFill *fill, Box box);

/* A small patch of the hatch of weak stretches, for a legend. */
void fill_map_patch(Pen *pen, Box box);

#endif
