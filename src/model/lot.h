/* Lot: the mark by which a bag and a session sheet find each other again. */
#ifndef MODEL_LOT_H
#define MODEL_LOT_H

#include "base/arena.h"
#include "base/date.h"
#include "domain/batch.h"

/* The batch's own lot, or else one made of the session's date and the file's name:
 *
 *     L2026-338-cheese-k3     4 December 2026, cheese-overnight.xml
 *
 * L marks a lot (Directive 2011/91/EU, article 3); the date is ISO 8601 ordinal; then the file
 * name's first word in plain small letters and digits, at most 10. Where that is not the whole
 * name, two letters drawn from the whole name keep batches of one day apart. The same date and
 * name give the same lot. A date of year 0 is left out. */
const char *lot_of_batch(Arena *arena, const Batch *batch, Date date);

#endif
