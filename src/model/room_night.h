/* Room over the night: the carbon monoxide that a night's lightings bring into the room. */
#ifndef MODEL_ROOM_NIGHT_H
#define MODEL_ROOM_NIGHT_H

#include "model/night.h"
#include "model/room.h"

/* The room from the first lighting (time 0) to the last burn-out: by the middle estimate, or by the
 * fast front of the 80 % band (which needs a night of NIGHT_FAST or NIGHT_BAND; the middle serves
 * where it is missing). `co_kg_per_kg`: carbon monoxide for each kg of dry fuel. */
RoomTrace room_night_trace(Arena *arena, const Night *night, bool fast, double co_kg_per_kg);

/* Peak, emission, and every window's mean against its limit, with ordinary smoke at the middle
 * speed factor, and with rich smoke and the fast front at once. Near a limit while nobody is awake:
 * the latter passes a limit, and at some time when nobody is there or it is dark the air still
 * holds more than the least of all limits. */
void room_night_figures(Arena *arena, const Night *night, PlanRoom *room);

#endif
