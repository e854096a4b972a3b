/* Lot: the mark by which a bag and a session sheet find each other again. */
#ifndef MODEL_LOT_H
#define MODEL_LOT_H

#include "base/arena.h"
#include "base/date.h"
#include "domain/batch.h"

/* A short lot: L marks it (Directive 2011/91/EU, article 3), then two digits of the year and the
 * day of the year (ISO 8601 ordinal), and two letters or digits drawn from file and number that
 * keep what is made on one day apart (one pair in about 960 would meet by chance):
 *
 *     L26338-7V     4 December 2026
 *
 * No 0, 1, I, L, O: they are misread by hand. The file's folder and ending do not matter; the same
 * date, file name and number give the same lot. A date of year 0 is left out. `number`: which blend
 * of a bagging file, from 1; 0: the blend of a night. */
const char *lot_short(Arena *arena, Date date, const char *file, int number);

/* The batch's own lot, or else the short one of the session's date and the file's name. */
const char *lot_of_batch(Arena *arena, const Batch *batch, Date date);

#endif
