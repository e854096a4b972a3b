/* Learnt: what records and trials changed, burn by burn, and what to measure next. */
#ifndef MODEL_LEARNT_H
#define MODEL_LEARNT_H

#include "base/arena.h"
#include "domain/learnt.h"

/* From the batches of one workshop that have records; trials stand in the workshop. `before` is
 * what trials alone say, which were there before the first night, or what is believed when nothing
 * was measured.
 *
 *  - Of each dust in each tray that it was burnt or timed in: its speed there if burnt alone, and
 *    the chance that a burn of it lasts where the model gives it the margin that is good before
 *    anything was measured (model/holding.h).
 *  - Of each blend in each tray: its latest night, planned without any record and again with all,
 *    its own among them: as if it were to be lit once more.
 *  - Of what might be measured: how much better the ends of such nights as were burnt, each counted
 *    as often as it was, would be known with a stretch of one dust timed, or one more such night
 *    written down. The middle of what is believed is taken for what would come out. */
Learnt learnt_from(Arena *arena, const Workshop *workshop, const Batch *const *past, size_t count);

#endif
