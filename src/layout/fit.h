/* Fit: the panels of a sheet brought onto one page, giving way as the template says. */
#ifndef LAYOUT_FIT_H
#define LAYOUT_FIT_H

#include "layout/panel.h"

/* Height of the whole arrangement at the least, for that width. */
double fit_height_mm(Setting *setting, double width_mm);

/* Gives way step by step until the arrangement fits into the box. Returns the millimetres by
 * which it still does not; 0 when it fits, or when an error was reported while measuring. */
double fit_give_way(Setting *setting, Box box);

/* Draws every panel that is shown into the box, spare height given to those that grow. */
void fit_draw(Setting *setting, Box box);

#endif
