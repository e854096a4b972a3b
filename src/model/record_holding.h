/* Record holding: what a recorded night says of how well its burn held. */
#ifndef MODEL_RECORD_HOLDING_H
#define MODEL_RECORD_HOLDING_H

#include "model/holding.h"
#include "model/past_night.h"

/* Fills *observation from the night run at the speed factor it had. Lasted: the least margin on its
 * way held. Died, or was relit (then it had died before): somewhere between the last sign of life
 * and the place, or the time, it was found at. Stopped: as far as it came it held. Returns false
 * where the record tells nothing. A night of several lightings counts as one burn. */
bool record_holding(const PastNight *past, const Night *night, HoldingObservation *observation);

#endif
