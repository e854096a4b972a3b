/* Date check: dates that are years off, held against each other and against the day of reading. */
#ifndef INPUT_DATE_CHECK_H
#define INPUT_DATE_CHECK_H

#include "base/diagnostic.h"
#include "domain/bagging.h"

/* Reports dates of the batch and of the dusts it names that can not be meant: a dust measured or
 * received more than a year after both today and the session, or more than twenty years before; a
 * bag packed more than a year from the session; a session, not yet recorded, more than a year
 * ahead. `now`: the instant of reading; 0: not known, then only the packing is looked at. All
 * bounds are judgement. */
void date_check(Diagnostics *diagnostics, const Batch *batch, Instant now);

/* The same of a day of bagging. */
void date_check_bagging(Diagnostics *diagnostics, const Bagging *bagging, Instant now);

#endif
