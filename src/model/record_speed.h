/* Record speed: the one speed that a recorded night tells, from its end and its readings. */
#ifndef MODEL_RECORD_SPEED_H
#define MODEL_RECORD_SPEED_H

#include "model/learning.h"
#include "model/past_night.h"

typedef struct RecordSpeed {
    RecordTold told;
    double log_factor;
    double error;   /* spread with which it was measured */
    double took_s;  /* lit to the end, or to the last reading … */
    double burnt_m; /* … by when so much had burnt */
} RecordSpeed;

RecordSpeed record_speed(Arena *arena, const PastNight *past);

/* What it would have taken, in place of took_s, at another speed factor. */
double record_speed_took_s(Arena *arena, const PastNight *past, const RecordSpeed *speed,
                           double speed_factor);

#endif
