/* Net quantity: how tall its figures must be on a bag, and how far a bag may fall short of it.
 *
 * What stands here are published figures, not legal advice; local rules come first.
 */
#ifndef MODEL_NET_QUANTITY_H
#define MODEL_NET_QUANTITY_H

#include "domain/workshop.h"

/* Least height of the figures, m.
 *
 * EU and UK go by the quantity: Directive 76/211/EEC, Annex I, 3.1, and SI 1987/1538; 6 mm are
 * taken from exactly 1 kg up, which also meets the one reading that asks for it. The US goes by
 * the area of the bag's face: 16 CFR 500.21, NIST Handbook 130 (cells above 25 sq in from
 * memory). Australia goes by the pack's longest side: National Trade Measurement Regulations
 * 2009, 4.12. A face that is not stated (NAN) is taken as large: up to 400 sq in in the US, over
 * 360 mm in Australia.
 *
 * `net_kg` over 0; face sides in metres, over 0 or NAN. */
double net_quantity_figure_height_m(Market market, double net_kg, double face_width_m,
                                    double face_height_m);

/* Tolerable negative error, kg: only few bags may fall short by more.
 *
 * EU, UK: Directive 76/211/EEC and SI 2006/659, percentages rounded up to 0.1 g. US: maximum
 * allowable variation of NIST Handbook 133, table 2-5 (from memory). Australia: OIML R 87, which
 * has the same table as the EU. Below 5 g the lowest row is carried on. */
double net_quantity_tolerance_kg(Market market, double net_kg);

/* Of so many bags one at most may fall short by more than the tolerable error, the strictest of
 * the published shares: 2 % in the German prepackage ordinance (FPackV), section 9 (3). */
#define NET_QUANTITY_ONE_SHORT_OF 50

/* What no bag may fall short by, kg: twice the tolerable error before rounding (the three packers'
 * rules, GOV.UK and FPackV, section 9); in the US, where no bag may pass it, the allowable
 * variation itself (NIST Handbook 133; the rule looked up, its table from memory). */
double net_quantity_most_short_kg(Market market, double net_kg);

/* Whether a bag may carry the e-mark (℮), by which its packer vouches for the average system: only
 * where that was declared, in the EU and the United Kingdom, from 5 g to 10 kg. Directive
 * 76/211/EEC, articles 1 and 2 and Annex I, 3.3; SI 2006/659, regulation 2. */
bool net_quantity_e_mark(Market market, FillingRule filling, double net_kg);

#endif
