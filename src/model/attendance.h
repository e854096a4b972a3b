/* Attendance: what the night does in the hours when nobody is there. */
#ifndef MODEL_ATTENDANCE_H
#define MODEL_ATTENDANCE_H

#include "model/chance.h"

/* Sets the hours of the burn, until its slowest front is out, when nobody is there (alone_from to
 * alone_to, 0 if there are none); those of them in which it is weak, if its chance is not good
 * (untended_from to untended_to, and untended_out); and the cabinet's warmest moment of all absence
 * by the middle estimate, NAN if somebody always is there. Needs the burn's chance; without one
 * (NULL) no hours are weak. */
void attendance_judge(const Night *night, const Chance *chance, PlanBurn *burn,
                      PlanCabinet *cabinet);

#endif
