/* BagMaker: small plans whose bags can be labelled, for tests; the made-up smokehouse of the
 * samples. */
#ifndef SUPPORT_BAG_MAKER_H
#define SUPPORT_BAG_MAKER_H

#include "layout/label.h"

/* Everything that labels_lay_out wants, with the shipped template, stock and faces. A test that
 * cannot read them ends the program. */
typedef struct BagMaker {
    Arena *arena;
    Diagnostics diagnostics;
    Workshop *workshop;
    Batch *batch;
    Plan *plan;
    Locale locale;
    LabelRequest request;
    Document *document;
} BagMaker;

BagMaker *bag_maker(const char *language);
void bag_maker_free(BagMaker *maker);

/* Adds a bag of "Beech and cherry" to the plan; the figure height is that of the EU's bands. */
PlanBag *bag_maker_add(BagMaker *maker, const char *stock, double net_kg, int count, int first);

/* Gives it grains between two sizes, as much mass in each part of the logarithm of size. */
void bag_maker_grains(PlanBag *bag, double from_m, double to_m);

/* Lays all bags out, with the fields of the plan as it now is. */
bool bag_maker_lay_out(BagMaker *maker);

/* All reports so far, as text. */
const char *bag_maker_reports(BagMaker *maker);

/* The ink of a mark: of a text from its capitals to just under its baseline. */
Box bag_maker_ink(BagMaker *maker, const Mark *mark);

/* Whether two boxes have nothing in common. */
bool boxes_apart(Box one, Box other);

#endif
