/* Attendance: what the night does in the hours when nobody is there. */
#ifndef MODEL_ATTENDANCE_H
#define MODEL_ATTENDANCE_H

#include "model/night.h"

/* Sets the burn's first hours of absence in which its margin is not good (untended_from to
 * untended_to: that stretch of absence, within the lighting; untended_margin: the least in it), or
 * 0 and NAN if there are none; and the cabinet's warmest moment of all absence, NAN if somebody
 * always is there. By the middle estimate, looked at on every step of its path. */
void attendance_judge(const Night *night, PlanBurn *burn, PlanCabinet *cabinet);

#endif
