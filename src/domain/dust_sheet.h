/* Dust sheet: what somebody needs who measures a dust that nobody measured: how much of it to take,
 * how long, how hot. SI units. */
#ifndef DOMAIN_DUST_SHEET_H
#define DOMAIN_DUST_SHEET_H

#include "domain/field.h"

/* Wood is dry when an oven of 103 °C takes no more water out of it (EN 13183-1, from memory). */
#define DUST_SHEET_OVEN_C 103.0
/* Two weighings so far apart that agree: common practice, no source. The standard waits 2 h, for
 * pieces of timber. */
#define DUST_SHEET_APART_S 1200.0
/* The least sample in steps of the scale, so that one step is half a percent of it; and the least
 * of all (judgement). */
#define DUST_SHEET_SAMPLE_STEPS 200
#define DUST_SHEET_SAMPLE_KG 0.05
/* A jar that levels well (judgement). */
#define DUST_SHEET_JAR_M3 1e-3
/* How long the sieve is shaken (judgement). */
#define DUST_SHEET_SHAKEN_S 180.0
/* The length that is timed, and what is left to burn before it, where the lighter still helps
 * (judgement). */
#define DUST_SHEET_TIMED_M 0.1
#define DUST_SHEET_RUN_UP_M 0.03

/* All figures of a dust's sheet, in the arena; the root group is named "dust_sheet"
 * (domain/field.h says how fields are found). `file` is that of the workshop. */
FieldGroup *dust_sheet_fields(Arena *arena, const Workshop *workshop, const Dust *dust,
                              const char *file);

#endif
