#include "layout/label.h"

#include "domain/field_member.h"
#include "layout/block.h"
#include "layout/phrase.h"

#include <math.h>
#include <string.h>

#define GROW_STEP 0.05
#define AIR_SHARE 0.1 /* of the height, left free when a label grows beyond its usual sizes */
#define OUTLINE_MM 0.1
#define OUTLINE_GREY 0.55
#define SLACK_MM 0.001

enum { LABELS_MOST = 1000 };

typedef struct Labeller {
    Arena *arena;
    const LabelRequest *request;
    Locale locale;
    Document *document;
    Diagnostics *diagnostics;
    LabelRun *run;
} Labeller;

/* The labels of one order: as many as its stock wants for a bag. */
typedef struct Bag {
    const PlanBag *bag;
    const FieldGroup *row;
    const Stock *stock;
    int labels; /* that it takes there */
    Layout layouts[2];
    Box label; /* outline of the first on a page */
} Bag;

/* How a label came out at its best. */
typedef struct Fit {
    bool good;
    double over_mm; /* height that was missing */
} Fit;

static Fit measure(Layout *layout, Box inside) {
    double over_mm = layout_height_mm(layout, inside.width_mm) - inside.height_mm;
    bool wide = layout_too_wide(layout, inside.width_mm) != NULL;
    return (Fit){over_mm <= SLACK_MM && !wide, over_mm > SLACK_MM ? over_mm : 0};
}

/* Lets everything grow while it fits without giving way and leaves its share of air. */
static void grow(Layout *layout, Box inside) {
    inside.height_mm *= 1 - AIR_SHARE;
    double scale = 1;
    while (scale + GROW_STEP <= layout->pattern->largest + 1e-9) {
        layout_reset(layout, scale + GROW_STEP);
        if (!measure(layout, inside).good)
            break;
        scale += GROW_STEP;
    }
    layout_reset(layout, scale);
}

static Fit give_way(Layout *layout, Box inside) {
    layout_fit(layout, inside, true);
    return measure(layout, inside);
}

/* Finds the sizes at which the label fits, and leaves the layout at them. */
static Fit fit_label(Layout *layout, Box inside) {
    layout_reset(layout, 1);
    if (!measure(layout, inside).good)
        return give_way(layout, inside);
    grow(layout, inside);
    return (Fit){true, 0};
}

/* The margin within a label's outline: in proportion, between the pattern's bounds. */
static double margin_mm(const Pattern *pattern, const Stock *stock) {
    double height_mm = stock->least_height_mm < stock->label_height_mm ? pattern->made_for_height_mm
                                                                       : stock->label_height_mm;
    double scale = fmin(stock->label_width_mm / pattern->made_for_width_mm,
                        height_mm / pattern->made_for_height_mm);
    return fmin(fmax(pattern->margin_mm * scale, pattern->least_margin_mm),
                pattern->margin_mm * pattern->largest);
}

/* A label on a roll that is cut is as long as its text wants, in the pattern's own sizes. */
static Fit fit_cut(Layout *layout, const Stock *stock, Box *label) {
    Box inside = stock_inside(stock, *label, margin_mm(layout->pattern, stock));
    Fit fit = give_way(layout, inside);
    double around_mm = label->height_mm - inside.height_mm;
    double wanted_mm = layout_height_mm(layout, inside.width_mm) + around_mm;
    label->height_mm = fmax(fmin(wanted_mm, label->height_mm), stock->least_height_mm);
    return fit;
}

static Fit fit_stock(Layout *layout, const Stock *stock, Box *label) {
    *label = stock_label(stock, 0);
    if (stock->least_height_mm < stock->label_height_mm)
        return fit_cut(layout, stock, label);
    return fit_label(layout, stock_inside(stock, *label, margin_mm(layout->pattern, stock)));
}

/* The fields of the bag, with the number of one of its labels. */
static const FieldGroup *numbered_fields(Labeller *labeller, const Bag *bag, int number) {
    FieldGroup *fields = ARENA_NEW(labeller->arena, FieldGroup);
    *fields = (FieldGroup){.name = bag->row->name, .number = bag->row->number, .parent = bag->row};
    field_add_number(labeller->arena, fields, "label_number", QUANTITY_COUNT, number);
    field_add_number(labeller->arena, fields, "label_count", QUANTITY_COUNT,
                     bag->bag->numbered_in_all);
    return fields;
}

/* Builds the labels that a bag takes on the stock. False, and reported, when they can not be. */
static bool build(Labeller *labeller, Bag *bag, const Stock *stock) {
    const LabelRequest *request = labeller->request;
    const LabelPatterns *patterns = &request->patterns;
    bool good = true;
    const FieldGroup *fields = bag->row;
    if (bag->bag->order->numbered) /* the last number is the widest */
        fields = numbered_fields(labeller, bag, bag->bag->numbered_in_all);
    bag->stock = stock;
    bag->labels = stock_for_bag(stock);
    for (int i = 0; i < bag->labels; i++) {
        const Pattern *pattern = !stock->pair ? patterns->whole
                                 : i == 0     ? patterns->front
                                              : patterns->second;
        Layout *layout = &bag->layouts[i];
        *layout = layout_new(labeller->arena, pattern, request->plan, fields, &labeller->locale,
                             request->faces, labeller->diagnostics);
        layout->place = bag->bag->order->place;
        good = layout_build(layout) && good;
    }
    return good;
}

/* Fits all labels of the bag; returns the first layout that does not, and how; NULL: all do. */
static Layout *fit_bag(Bag *bag, Fit *fit) {
    for (int i = 0; i < bag->labels; i++) {
        *fit = fit_stock(&bag->layouts[i], bag->stock, &bag->label);
        if (!fit->good)
            return &bag->layouts[i];
    }
    return NULL;
}

/* The smallest other stock of the same kind that would hold the labels; NULL: none. */
static const Stock *stock_that_fits(Labeller *labeller, const Bag *refused) {
    const StockSet *set = labeller->request->stocks;
    const Stock *tried = refused->stock, *best = NULL;
    for (size_t i = 0; i < set->stocks.count; i++) {
        const Stock *stock = &set->stocks.items[i];
        double area = stock->label_width_mm * stock->label_height_mm;
        Bag bag = {.bag = refused->bag, .row = refused->row};
        Fit fit;
        bool alike = stock->roll == tried->roll &&
                     (stock->roll || fabs(stock->page_width_mm - tried->page_width_mm) < 0.1);
        if (alike && (!best || area < best->label_width_mm * best->label_height_mm) &&
            build(labeller, &bag, stock) && !fit_bag(&bag, &fit))
            best = stock;
    }
    return best;
}

static const char *remedy_of(Labeller *labeller, const Bag *bag) {
    const Stock *other = stock_that_fits(labeller, bag);
    bool large = labeller->locale.us_market && !is_stated(bag->bag->order->face_width_m);
    const char *face = large ? "; or write face-width and face-height of the bag, which is taken "
                               "for a large one and asks for tall letters"
                             : "";
    if (!other)
        return arena_format(labeller->arena, "no stock of this kind would do: shorten the text%s",
                            face);
    return arena_format(labeller->arena, "stock '%s' (%s of %g × %g mm) would do%s", other->name,
                        other->pair ? "two labels a bag" : "labels", other->label_width_mm,
                        other->label_height_mm, face);
}

/* So that a hair too much is never "0.0 mm". */
static double up_to_tenth(double over_mm) {
    return ceil(over_mm * 10) / 10;
}

static void report_too_small(Labeller *labeller, const Bag *bag, Layout *layout, Fit fit) {
    Arena *arena = labeller->arena;
    const Stock *stock = bag->stock;
    Box inside = stock_inside(stock, stock_label(stock, 0), margin_mm(layout->pattern, stock));
    const char *which = !stock->pair                 ? "the label"
                        : layout == &bag->layouts[0] ? "the first of a bag's two labels"
                                                     : "the second of a bag's two labels";
    const char *wide = layout_too_wide(layout, inside.width_mm);
    const char *longest = layout_longest(layout, inside.width_mm).string;
    const char *remedy = remedy_of(labeller, bag);
    if (fit.over_mm > 0)
        report_error(labeller->diagnostics, layout->place, remedy,
                     "%s does not fit on stock '%s': it is %.1f mm too high, and its longest text "
                     "is '%s'",
                     which, stock->name, up_to_tenth(fit.over_mm), excerpt(arena, longest));
    else
        report_error(labeller->diagnostics, layout->place, remedy,
                     "%s does not fit on stock '%s': '%s' holds a word wider than it", which,
                     stock->name, excerpt(arena, wide));
}

static Page *new_page(Labeller *labeller, const Bag *bag, const char *bookmark) {
    const Stock *stock = bag->stock;
    double height_mm = stock->roll ? bag->label.height_mm : stock->page_height_mm;
    Page *page = document_page(labeller->document, stock->page_width_mm, height_mm);
    page->bookmark = bookmark;
    return page;
}

static void draw_outline(Page *page, Box label) {
    page->owner = "outline";
    mark_rectangle(page, label, style_line(OUTLINE_MM, ink_grey(OUTLINE_GREY)));
}

static void draw_label(Labeller *labeller, const Bag *bag, Layout *layout, Page *page, int number) {
    Box label = stock_label(bag->stock, number);
    label.height_mm = bag->label.height_mm;
    label.x_mm += labeller->request->options.offset_x_mm;
    label.y_mm += labeller->request->options.offset_y_mm;
    if (labeller->request->options.outlines)
        draw_outline(page, label);
    layout->root->owner = arena_format(labeller->arena, "label %d", number + 1);
    double margin = margin_mm(layout->pattern, bag->stock);
    layout_draw(layout, page, stock_inside(bag->stock, label, margin));
}

static int first_asked(const Labeller *labeller, const BagOrder *order, const Stock *stock) {
    return label_sheet_first(&labeller->run->sheets, labeller->request->options.firsts, stock,
                             order);
}

/* Where the page of a sheet is kept that is being filled. */
static Page **page_of(Labeller *labeller, const LabelSheet *sheet) {
    LabelRun *run = labeller->run;
    size_t index = (size_t)(sheet - run->sheets.sheets.items);
    while (run->pages.count <= index)
        LIST_ADD(labeller->arena, &run->pages, NULL);
    return &run->pages.items[index];
}

static void draw_order(Labeller *labeller, Bag *bag) {
    const char *bookmark = layout_words(&bag->layouts[0], "label.quantity", bag->row);
    LabelRun *run = labeller->run;
    int asked = first_asked(labeller, bag->bag->order, bag->stock);
    LabelSheet *sheet = label_sheet_start(labeller->arena, &run->sheets, bag->stock, asked);
    Page **page = page_of(labeller, sheet);
    for (int i = 0; i < bag->bag->count; i++) {
        int sheets = sheet->sheets;
        int number = label_sheet_take(sheet);
        if (sheet->sheets > sheets)
            *page = new_page(labeller, bag, bookmark);
        for (int k = 0; k < bag->labels; k++) {
            if (bag->bag->order->numbered)
                layout_rebuild(&bag->layouts[k],
                               numbered_fields(labeller, bag, bag->bag->numbered_before + i + 1));
            draw_label(labeller, bag, &bag->layouts[k], *page, number + k);
        }
    }
}

/* Whether everything stays on the paper when it is moved by the print offset. */
static bool check_offset(Labeller *labeller, const BagOrder *order, const Stock *stock) {
    const LabelOptions *options = &labeller->request->options;
    const LabelPatterns *patterns = &labeller->request->patterns;
    const Pattern *pattern = stock->pair ? patterns->front : patterns->whole;
    Box inside = stock_inside(stock, stock_label(stock, 0), margin_mm(pattern, stock));
    if (fabs(options->offset_x_mm) <= inside.x_mm && fabs(options->offset_y_mm) <= inside.y_mm)
        return true;
    report_error(labeller->diagnostics, order->place,
                 arena_format(labeller->arena, "at most %.1f mm across and %.1f mm down",
                              inside.x_mm, inside.y_mm),
                 "a print offset of %g, %g mm moves the labels of stock '%s' off the paper",
                 options->offset_x_mm, options->offset_y_mm, stock->name);
    return false;
}

/* The stock an order names; NULL, and reported, when there is none or it cannot be used so. */
static const Stock *usable_stock(Labeller *labeller, const BagOrder *order) {
    const Stock *named = stock_find(labeller->request->stocks, order->stock);
    int first = named ? first_asked(labeller, order, named) : order->first;
    const Stock *stock = stock_asked(labeller->request->stocks, order->stock ? order->stock : "",
                                     order->place, first, order->place, labeller->diagnostics);
    return stock && check_offset(labeller, order, stock) ? stock : NULL;
}

/* What was asked for and is left out is said. */
static void note_tray(Labeller *labeller, const PlanBag *bag) {
    if (!bag->order->tray || is_stated(bag->burns_from_s))
        return;
    report_note(labeller->diagnostics, bag->order->place,
                "name a tray that suits the blend, or none",
                "the label does not say how long tray '%s' burns: this blend, dried as the label "
                "says, does not burn out there with a good chance",
                bag->order->tray->name);
}

static void lay_out_bag(Labeller *labeller, size_t index) {
    const LabelRequest *request = labeller->request;
    Bag bag = {.bag = &request->plan->bags.items[index],
               .row = field_row(request->fields, "bag", index)};
    const Stock *stock = usable_stock(labeller, bag.bag->order);
    if (!stock || !bag.row || !build(labeller, &bag, stock))
        return;
    note_tray(labeller, bag.bag);
    Fit fit;
    Layout *refused = fit_bag(&bag, &fit);
    if (refused)
        report_too_small(labeller, &bag, refused, fit);
    else
        draw_order(labeller, &bag);
}

/* What the law wants on a package is on it in English: NIST Handbook 130, Uniform Packaging and
 * Labeling Regulation, 8.1 (from memory); 16 CFR 500 gives its words in English alone. */
static bool check_language(const LabelRequest *request, Diagnostics *diagnostics) {
    const Workshop *workshop = request->plan->workshop;
    const char *language = request->locale->words->language;
    if (workshop->market != MARKET_US || request->plan->bags.count == 0 ||
        strcmp(language, "en") == 0)
        return true;
    report_error(diagnostics, request->plan->bags.items[0].order->place,
                 "write language=\"en\" for these bags, or the market they are for",
                 "labels for the US market are in English, not in '%s'", language);
    return false;
}

/* 16 CFR 500.5: name and place of business of the maker, packer or distributor. Whether the lines
 * hold city, State and ZIP code nobody can tell from here. */
static bool check_place(const LabelRequest *request, Diagnostics *diagnostics) {
    const Workshop *workshop = request->plan->workshop;
    if (workshop->market != MARKET_US || request->plan->bags.count == 0 ||
        workshop->maker.address.count > 0)
        return true;
    report_error(diagnostics, request->plan->bags.items[0].order->place,
                 "write it into the workshop's <maker>: <address>street, city, State and ZIP "
                 "code</address>",
                 "labels for the US market name the maker's place of business (16 CFR 500.5), and "
                 "the maker has no address");
    return false;
}

/* Thousands of labels by a slip of the keyboard would take memory and paper without end. */
static bool check_count(const LabelRequest *request, Diagnostics *diagnostics) {
    long long sum = 0;
    const BagOrder *most = NULL;
    for (size_t i = 0; i < request->plan->bags.count; i++) {
        const BagOrder *order = request->plan->bags.items[i].order;
        sum += request->plan->bags.items[i].count;
        most = !most || order->count > most->count ? order : most;
    }
    if (sum <= LABELS_MOST)
        return true;
    report_error(diagnostics, most->place, "make them in several runs with a smaller count",
                 "%lld labels of one batch, at most %d", sum, LABELS_MOST);
    return false;
}

bool labels_lay_out(Arena *arena, const LabelRequest *request, Document *document,
                    Diagnostics *diagnostics) {
    size_t errors = diagnostics_errors(diagnostics, NULL);
    size_t pages = document->pages.count;
    LabelRun own = {0};
    Labeller labeller = {.arena = arena,
                         .request = request,
                         .locale = *request->locale,
                         .document = document,
                         .diagnostics = diagnostics,
                         .run = request->run ? request->run : &own};
    labeller.locale.us_market = request->plan->workshop->market == MARKET_US;
    bool good = check_language(request, diagnostics) && check_place(request, diagnostics) &&
                check_count(request, diagnostics);
    for (size_t i = 0; good && i < request->plan->bags.count; i++)
        lay_out_bag(&labeller, i);
    if (diagnostics_errors(diagnostics, NULL) == errors)
        return true;
    document->pages.count = pages;
    return false;
}
