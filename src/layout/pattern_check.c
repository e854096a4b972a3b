/* What law, or the safety of whoever reads a paper, wants on it: no pattern can leave it out. */
#include "layout/pattern.h"
#include "layout/sign.h"

#include <string.h>

typedef struct Must {
    const char *paper;
    const char *words; /* key of some node's words; NULL: … */
    const char *each;  /* … rows that some node is repeated for */
} Must;

static const Must musts[] = {
    {"sheet", "{verdict}", NULL},
    {"sheet", "footer.estimates", NULL},
    {"sheet", NULL, "caution"},
    {"sheet", NULL, "care"},
    {"desk", "{verdict}", NULL},
    {"desk", "footer.estimates", NULL},
    {"label", "label.name", NULL},
    {"label", "label.part", NULL},
    {"label", "label.quantity", NULL},
    {"label", "label.quantity_us", NULL},
    {"label", "label.lot_mark", NULL},
    {"label", "label.packed_on", NULL},
    {"label", "label.maker", NULL},
    {"label", "label.address", NULL},
    {"label", "label.contact", NULL},
    {"label", "label.use", NULL},
    {"label", "label.monoxide", NULL},
    {"label", "label.fine_dust", NULL},
    {"label", "label.keep", NULL},
    {"label", "label.untreated", NULL},
    {"label", "label.untreated_herbs", NULL},
    {"label", "label.grain_declared", NULL},
    {"label", "label.grain_range", NULL},
    {"label", "label.moisture_dry", NULL},
    {"label", "label.moisture_wet", NULL},
    {"label_front", "label.name", NULL},
    {"label_front", "label.kind", NULL},
    {"label_front", "label.quantity", NULL},
    {"label_front", "label.quantity_us", NULL},
    {"label_front", "label.lot_mark", NULL},
    {"label_front", "label.maker", NULL},
    {"label_front", "label.address", NULL},
    {"label_front", "label.contact", NULL},
    {"label_second", "label.part", NULL},
    {"label_second", "label.lot_mark", NULL},
    {"label_second", "label.packed_on", NULL},
    {"label_second", "label.use", NULL},
    {"label_second", "label.monoxide", NULL},
    {"label_second", "label.fine_dust", NULL},
    {"label_second", "label.keep", NULL},
    {"label_second", "label.untreated", NULL},
    {"label_second", "label.untreated_herbs", NULL},
    {"slip", "caution.dust", NULL},
    {"slip", "slip.lot", NULL},
    {"slip", "slip.least", NULL},
    {"slip", "slip.rules", NULL},
    {"slip", NULL, "weighing"},
    {"slip", NULL, "stock"},
    {"dust_sheet", "caution.dust", NULL},
    {"dust_sheet", "caution.fire", NULL},
    {"dust_sheet", "caution.carbon_monoxide_outdoors", NULL},
    {"dust_sheet", "dust_sheet.dry", NULL},
    {"record", "filed.blanks", NULL},
    {"record", "{happened.text}", NULL},
    {"record", NULL, "compared"},
    {"record", NULL, "check"},
    {"record", NULL, "care"},
    {"trace", "trace.rules", NULL},
    {"trace", NULL, "into"},
    {"trace", NULL, "of"},
};

static bool is_it(const Node *node, const Must *must) {
    const char *has = must->words ? node->words : node->each;
    return has && strcmp(has, must->words ? must->words : must->each) == 0;
}

/* Whether the node and all it stands in are there once `step` steps gave way. */
static bool stands(const Node *node, int step, NodeWhen when) {
    for (; node; node = node->parent) {
        bool gone = node->drop && node->drop <= step;
        if (gone || node->from > step || (node->when != WHEN_ANY && node->when != when))
            return false;
    }
    return true;
}

static bool is_there(const Pattern *pattern, const Must *must, int step, NodeWhen when) {
    for (size_t i = 0; i < pattern->nodes.count; i++)
        if (is_it(pattern->nodes.items[i], must) && stands(pattern->nodes.items[i], step, when))
            return true;
    return false;
}

static const Node *find(const Pattern *pattern, const Must *must) {
    for (size_t i = 0; i < pattern->nodes.count; i++)
        if (is_it(pattern->nodes.items[i], must))
            return pattern->nodes.items[i];
    return NULL;
}

static void check_must(const Pattern *pattern, const Must *must, Diagnostics *diagnostics) {
    const char *what = must->words ? must->words : must->each;
    const char *kind = must->words ? "words" : "rows";
    const char *paper = strncmp(pattern->paper, "label", 5) == 0 ? "bag" : pattern->paper;
    const Node *node = find(pattern, must);
    if (!node) {
        report_error(diagnostics, pattern->place,
                     must->words ? "write <text words=\"…\" style=\"…\"/>"
                                 : "write <text each=\"…\" words=\"{text}\" style=\"…\"/>",
                     "the %s '%s' have to be on every %s", kind, what, paper);
        return;
    }
    for (int when = WHEN_NIGHT_LIT; when <= WHEN_NIGHT_REFUSED; when++) {
        for (int step = 0; step <= pattern->steps; step++) {
            if (is_there(pattern, must, step, (NodeWhen)when))
                continue;
            report_error(diagnostics, node->place, "give way elsewhere",
                         "the %s '%s' have to be on every %s: they are not when the night is %s%s",
                         kind, what, paper, when == WHEN_NIGHT_LIT ? "lit" : "refused",
                         step ? ", or are dropped" : "");
            return;
        }
    }
}

/* The net quantity is as high as the law asks, which only the plan knows. */
static void check_quantity(const Pattern *pattern, Diagnostics *diagnostics) {
    for (size_t i = 0; i < pattern->nodes.count; i++) {
        const Node *node = pattern->nodes.items[i];
        bool quantity = node->words && strcmp(node->words, "label.quantity") == 0;
        bool in_letters = node->words && strcmp(node->words, "label.quantity_us") == 0;
        const TypeStyle *style = node->style >= 0 ? &pattern->styles.items[node->style] : NULL;
        if (quantity && style && !style->capitals)
            report_error(diagnostics, node->place, "give its style capitals=\"figure_height\"",
                         "the figures of the quantity have to be as high as the law asks");
        if (in_letters && style && !style->small_letters)
            report_error(diagnostics, node->place, "give its style small-letters=\"figure_height\"",
                         "the letters of the quantity have to be as high as the law asks");
    }
}

/* The e-mark is at least 3 mm high (Directive 76/211/EEC, Annex I, 3.3), and gives way to nothing
 * in size. */
static void check_e_mark(const Pattern *pattern, Diagnostics *diagnostics) {
    const double least_mm = 3;
    for (size_t i = 0; i < pattern->nodes.count; i++) {
        const Node *node = pattern->nodes.items[i];
        bool mark = node->kind == NODE_SIGN && node->drawing == SIGN_E_MARK;
        if (mark && (node->style >= 0 || node->size < least_mm))
            report_error(diagnostics, node->place, "write size=\"3.2 mm\", without a style",
                         "the e-mark has to be at least %g mm high", least_mm);
    }
}

void pattern_check(const Pattern *pattern, Diagnostics *diagnostics) {
    for (size_t i = 0; i < sizeof musts / sizeof *musts; i++)
        if (strcmp(musts[i].paper, pattern->paper) == 0)
            check_must(pattern, &musts[i], diagnostics);
    check_quantity(pattern, diagnostics);
    check_e_mark(pattern, diagnostics);
}
