/* Format: the figures of a plan as a person reads them, in a language, a system of units and with
 * as many digits as mean something. Nothing is worked out here beyond the change of unit.
 *
 * Styles, by kind of quantity (NULL or "" is the first of each line):
 *   instant        clock 21:30, on another day than the locale's 06:20 Sat, a week and more away
 *                  Sat 12 Dec 06:20 · bare 06:20, whatever the day · hour the same, of a
 *                  full hour in twelve hours 6 AM
 *                  day Fri 4 Dec · moment Fri 4 Dec 21:30 ·
 *                  date 4 Dec 2026 · full Friday, 4 December 2026 · weekday Friday ·
 *                  iso 2026-12-04 · stamp 2026-12-04 21:30
 *   date           date · day · full · weekday · iso ·
 *                  month December 2026 · month-short Dec 2026
 *   duration       span 8 h 40 min · minutes 520 min · hours 8.7 h · days 6 days
 *   mass           scale (the scale's own digits; g below 1 kg, kg from there) · g · kg ·
 *                  short (three digits, no closing zeros) · net (a declared quantity)
 *   moisture       basis 4.0 % dry basis · short 4.0 % · wet 3.8 % wet basis · wet-short 3.8 %
 *   share          whole 30 % (one decimal below 1 %) · fine 30.4 %
 *   temperature    whole 22 °C · fine 21.6 °C
 *   length         mm 1020 mm (US: 40 3/16 in) · m 1.02 m (US: 3.35 ft)
 *   grain          unit 512 µm, from 1 mm up 1.41 mm · about 510 µm, 1.4 mm; both systems
 *                  alike, as sieves are marked
 *   speed          hour 110 mm/h
 *   concentration  unit 8.5 mg/m³, from 10 up whole · whole
 *   ppm            unit · whole · fine
 *   any            number: the figure alone, without its unit
 *   yes            word yes, no
 *
 * Between a number and its unit stands U+202F, a narrow no-break space; a minus is U+2212. The
 * clock is of 24 hours in every language, and of twelve, "9:30 PM", where things are measured in
 * US units or sold by US rules.
 */
#ifndef LAYOUT_FORMAT_H
#define LAYOUT_FORMAT_H

#include "base/arena.h"
#include "base/zone.h"
#include "domain/field.h"
#include "domain/quantity.h"
#include "domain/workshop.h"
#include "layout/words.h"

#include <stdbool.h>

/* In what language and units, for which wall clock and with which scale a page is written. */
typedef struct Locale {
    const Words *words;
    UnitSystem units;
    const Zone *zone;
    double scale_step_kg; /* masses show the digits of this step; NAN: of 1 g */
    bool twelve_hours;    /* clock times are "9:30 PM" */
    bool us_market;       /* declared quantities are in both systems */
    Date day; /* of lighting: clock times of another day carry theirs; year 0: none does */
} Locale;

/* The locale of a workshop's pages in the language of `words`. */
Locale locale_of(const Workshop *workshop, const Words *words);

/* The same for a night that is lit at that instant. */
Locale locale_on_night(Locale locale, Instant light_at);

/* A quantity as text. A value that is not stated is "–". NULL when the kind has no such style. */
const char *format_quantity(Arena *arena, const Locale *locale, Quantity quantity,
                            const char *style);

/* The widest of the full hours of a scale of time, in the style `hour`. */
const char *format_widest_hour(const Locale *locale);

/* A field as text. A text field is its text ("–" for NULL), a word field the words' text for its
 * key. NULL when there is no such style, or no such key in the words. */
const char *format_field(Arena *arena, const Locale *locale, const Field *field, const char *style);

/* A date as text, by the styles above. NULL when there is no such style. A date of the year 0 is
 * not stated: "–". */
const char *format_date(Arena *arena, const Locale *locale, Date date, const char *style);

/* A number with that many decimals, in the language's signs. */
const char *format_number(Arena *arena, const Locale *locale, double value, int decimals);

/* Whether the field holds something to show. */
bool format_shown(const Field *field);

/* A declared net quantity: whole grams below 1 kg, kilograms of at most three digits from there;
 * for the US market both systems, "8.8 OZ (250 g)", the ounces rounded down, never up. */
const char *format_net(Arena *arena, const Locale *locale, double net_kg, bool us_market);

#endif
