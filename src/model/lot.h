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

/* A short lot for what is bagged: L, two digits of the year and the day of the year (ISO 8601
 * ordinal), and two letters or digits drawn from file and number that keep the blends of one day
 * apart (one pair of blends in about 960 would meet by chance):
 *
 *     L26338-7V     4 December 2026
 *
 * No 0, 1, I, L, O: they are misread by hand. `number`: which blend of the file, from 1. */
const char *lot_short(Arena *arena, Date date, const char *file, int number);

#endif
