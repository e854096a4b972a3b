/* Format of times: instants on the wall clock, and lengths of time. The styles stand in
 * layout/format.h, which is what other files include. */
#ifndef LAYOUT_FORMAT_TIME_H
#define LAYOUT_FORMAT_TIME_H

#include "layout/format.h"

/* An instant (UTC seconds) on the locale's wall clock; "–" for 0, which is no time. NULL when there
 * is no such style. */
const char *format_instant(Arena *arena, const Locale *locale, Instant at, const char *style);

/* A length of time in seconds. NULL when there is no such style. */
const char *format_duration(Arena *arena, const Locale *locale, double seconds, const char *style);

#endif
