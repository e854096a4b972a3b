#include "layout/label.h"

#include "base/utf8.h"
#include "layout/label_setting.h"
#include "layout/phrase.h"

#include <math.h>

#define SHRINK_STEP_PT 0.25
#define GROW_STEP 0.05
#define AIR_SHARE 0.1 /* of the height, left free when a label grows beyond its usual sizes */
#define OUTLINE_MM 0.1
#define OUTLINE_GREY 0.55

enum { EXCERPT_CHARACTERS = 60, LABELS_MOST = 1000 };

typedef struct Labeller {
    Arena *arena;
    const LabelRequest *request;
    Document *document;
    Diagnostics *diagnostics;
    const Stock *stock; /* of the page being filled */
    Page *page;
    int next; /* first free label of the page */
} Labeller;

/* How a label came out at its best. */
typedef struct Fit {
    bool good;
    double height_mm;
    double over_mm; /* height that was missing */
} Fit;

static Fit measure(LabelSetting *setting, Box inside) {
    double height_mm = label_setting_draw(setting, (Box){0, 0, inside.width_mm, 0});
    double over_mm = height_mm - inside.height_mm;
    return (Fit){over_mm <= 0.001 && !setting->too_wide, height_mm, fmax(over_mm, 0)};
}

/* Takes one step off the named texts; false when all are as small as this shrinking goes. */
static bool shrink(LabelSetting *setting, const LabelGive *give) {
    bool changed = false;
    for (int i = 0; i < LABEL_TEXTS; i++) {
        double least_pt = fmax(label_setting_least_pt(setting, (LabelText)i), give->to_pt);
        if (!give->texts[i] || setting->sizes_pt[i] <= least_pt)
            continue;
        double step_pt = fmax(SHRINK_STEP_PT, setting->sizes_pt[i] * 0.04);
        setting->sizes_pt[i] = fmax(setting->sizes_pt[i] - step_pt, least_pt);
        changed = true;
    }
    return changed;
}

/* Lets one entry of the give-way list do what it can. */
static Fit give_way(LabelSetting *setting, const LabelGive *give, Box inside) {
    setting->tight = setting->tight || give->kind == LABEL_TIGHTEN;
    setting->run_in = setting->run_in || give->kind == LABEL_RUN_IN;
    setting->shortened = setting->shortened || give->kind == LABEL_SHORTEN;
    if (give->kind == LABEL_DROP)
        setting->words[give->item].dropped = true;
    Fit fit = measure(setting, inside);
    while (!fit.good && give->kind == LABEL_SHRINK && shrink(setting, give))
        fit = measure(setting, inside);
    return fit;
}

static Fit give_all(LabelSetting *setting, Box inside) {
    label_setting_size(setting, 1);
    Fit fit = measure(setting, inside);
    for (size_t i = 0; !fit.good && i < setting->template->give_way.count; i++)
        fit = give_way(setting, &setting->template->give_way.items[i], inside);
    return fit;
}

/* Lets everything grow while it fits without giving way and leaves its share of air. */
static Fit grow(LabelSetting *setting, Box inside) {
    Box airy = inside;
    airy.height_mm *= 1 - AIR_SHARE;
    double scale = 1;
    while (scale + GROW_STEP <= setting->template->largest + 1e-9) {
        label_setting_size(setting, scale + GROW_STEP);
        if (!measure(setting, airy).good)
            break;
        scale += GROW_STEP;
    }
    label_setting_size(setting, scale);
    return measure(setting, inside);
}

/* Finds the sizes at which the label fits, and leaves the setting at them. */
static Fit fit_label(LabelSetting *setting, Box inside) {
    setting->pen.page = NULL;
    label_setting_size(setting, 1);
    return measure(setting, inside).good ? grow(setting, inside) : give_all(setting, inside);
}

/* The margin within a label's outline: in proportion, between the template's bounds. */
static double margin_mm(const LabelTemplate *template, const Stock *stock) {
    double height_mm = stock->least_height_mm < stock->label_height_mm
                           ? template->made_for_height_mm
                           : stock->label_height_mm;
    double scale = fmin(stock->label_width_mm / template->made_for_width_mm,
                        height_mm / template->made_for_height_mm);
    return fmin(fmax(template->margin_mm * scale, template->least_margin_mm),
                template->margin_mm * template->largest);
}

/* A label on a roll that is cut is as long as its text wants, in the template's own sizes. */
static Fit fit_cut(LabelSetting *setting, const Stock *stock, Box *label) {
    Box inside = stock_inside(stock, *label, margin_mm(setting->template, stock));
    setting->pen.page = NULL;
    Fit fit = give_all(setting, inside);
    double around_mm = label->height_mm - inside.height_mm;
    label->height_mm = fmax(fit.height_mm + around_mm, stock->least_height_mm);
    return fit;
}

static Fit fit_stock(LabelSetting *setting, const Stock *stock, Box *label) {
    *label = stock_label(stock, 0);
    if (stock->least_height_mm < stock->label_height_mm)
        return fit_cut(setting, stock, label);
    return fit_label(setting, stock_inside(stock, *label, margin_mm(setting->template, stock)));
}

/* The smallest other stock of the same kind that would hold the label; NULL: none. */
static const Stock *stock_that_fits(LabelSetting *setting, const StockSet *set,
                                    const Stock *tried) {
    const Stock *best = NULL;
    for (size_t i = 0; i < set->stocks.count; i++) {
        const Stock *stock = &set->stocks.items[i];
        double area = stock->label_width_mm * stock->label_height_mm;
        Box label;
        bool alike = stock->roll == tried->roll &&
                     (stock->roll || fabs(stock->page_width_mm - tried->page_width_mm) < 0.1);
        if (alike && (!best || area < best->label_width_mm * best->label_height_mm) &&
            fit_stock(setting, stock, &label).good)
            best = stock;
    }
    return best;
}

/* The beginning of a text as it is shown in a message, without the signs of strong stretches. */
static const char *excerpt(Arena *arena, const char *string) {
    Text text = text_new(arena);
    size_t characters = 0;
    for (const char *at = string ? string : ""; *at; characters++) {
        const char *from = at;
        uint32_t code = 0;
        if (!utf8_next(&at, &code))
            break;
        if (characters == EXCERPT_CHARACTERS) {
            text_add(&text, "…");
            break;
        }
        if (code >= ' ')
            text_add_bytes(&text, from, (size_t)(at - from));
    }
    return text.bytes;
}

static void report_too_small(Labeller *labeller, LabelSetting *setting, const Stock *stock,
                             Fit fit) {
    const char *wide = excerpt(labeller->arena, setting->too_wide);
    const char *longest = excerpt(labeller->arena, setting->pen.longest.string);
    const Stock *other = stock_that_fits(setting, labeller->request->stocks, stock);
    const char *remedy =
        other ? arena_format(labeller->arena, "stock '%s' (labels of %g × %g mm) would do",
                             other->name, other->label_width_mm, other->label_height_mm)
              : "no stock of this kind would do: shorten the text";
    if (fit.over_mm > 0)
        report_error(labeller->diagnostics, setting->bag->order->place, remedy,
                     "the label does not fit on stock '%s': it is %.1f mm too high, and its "
                     "longest text is '%s'",
                     stock->name, fit.over_mm, longest);
    else
        report_error(labeller->diagnostics, setting->bag->order->place, remedy,
                     "the label does not fit on stock '%s': '%s' holds a word wider than it",
                     stock->name, wide);
}

static void turn_page(Labeller *labeller, const Stock *stock, Box label, const char *bookmark) {
    double height_mm = stock->roll ? label.height_mm : stock->page_height_mm;
    labeller->page = document_page(labeller->document, stock->page_width_mm, height_mm);
    labeller->page->bookmark = bookmark;
    labeller->stock = stock;
    labeller->next = 0;
}

static void draw_outline(Labeller *labeller, Box label) {
    labeller->page->owner = "outline";
    mark_rectangle(labeller->page, label, style_line(OUTLINE_MM, ink_grey(OUTLINE_GREY)));
}

static void draw_label(Labeller *labeller, LabelSetting *setting, Box label) {
    label.x_mm += labeller->request->options.offset_x_mm;
    label.y_mm += labeller->request->options.offset_y_mm;
    if (labeller->request->options.outlines)
        draw_outline(labeller, label);
    labeller->page->owner = arena_format(labeller->arena, "label %d", labeller->next + 1);
    setting->pen.page = labeller->page;
    setting->pen.owner = labeller->page->owner;
    label_setting_draw(setting, stock_inside(labeller->stock, label,
                                             margin_mm(setting->template, labeller->stock)));
}

/* The label on which an order starts, from 0; it continues a page of the same stock unless the
 * order says otherwise. */
static int first_label(const Labeller *labeller, const BagOrder *order, size_t index,
                       const Stock *stock) {
    int asked = index == 0 && labeller->request->options.first > 0
                    ? labeller->request->options.first
                    : order->first;
    if (asked > 1)
        return asked - 1;
    bool goes_on = index > 0 && labeller->stock == stock && labeller->page && !stock->roll;
    return goes_on ? labeller->next : 0;
}

static void draw_order(Labeller *labeller, LabelSetting *setting, const Stock *stock, Box label,
                       size_t index) {
    const char *bookmark = phrase_word(labeller->arena, setting->locale, setting->template->place,
                                       "label.bookmark", setting->row, labeller->diagnostics);
    int next = first_label(labeller, setting->bag->order, index, stock);
    bool goes_on = labeller->page && labeller->stock == stock && next > 0 && next == labeller->next;
    if (!goes_on)
        labeller->page = NULL;
    for (int i = 0; i < setting->bag->count; i++) {
        if (!labeller->page || next >= stock_count(stock)) {
            next = labeller->page || next >= stock_count(stock) ? 0 : next;
            turn_page(labeller, stock, label, bookmark);
        }
        labeller->next = next;
        Box place = stock_label(stock, next);
        place.height_mm = label.height_mm;
        draw_label(labeller, setting, place);
        labeller->next = ++next;
    }
}

/* Shares what height is left out among the spaces that grow. */
static void spread(LabelSetting *setting, const Stock *stock, Box label, double height_mm) {
    Box inside = stock_inside(stock, label, margin_mm(setting->template, stock));
    double growing = label_setting_grow(setting);
    if (growing > 0)
        setting->spread_mm = fmax(inside.height_mm - height_mm, 0) / growing;
}

static bool check_first(Labeller *labeller, const BagOrder *order, const Stock *stock) {
    int first = labeller->request->options.first > 0 ? labeller->request->options.first
                                                     : order->first;
    if (first <= stock_count(stock))
        return true;
    report_error(labeller->diagnostics, order->place,
                 arena_format(labeller->arena, "from 1 to %d", stock_count(stock)),
                 "a page of stock '%s' has no label %d", stock->name, first);
    return false;
}

/* Whether everything stays on the paper when it is moved by the print offset. */
static bool check_offset(Labeller *labeller, const BagOrder *order, const Stock *stock) {
    const LabelOptions *options = &labeller->request->options;
    Box inside =
        stock_inside(stock, stock_label(stock, 0), margin_mm(labeller->request->template, stock));
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
    const StockSet *stocks = labeller->request->stocks;
    const char *name = order->stock ? order->stock : "";
    const Stock *stock = stock_find(stocks, name);
    if (!stock)
        report_error(labeller->diagnostics, order->place,
                     stock_remedy(stocks, name, labeller->diagnostics), "unknown label stock '%s'",
                     name);
    bool usable = stock && check_first(labeller, order, stock) &&
                  check_offset(labeller, order, stock);
    return usable ? stock : NULL;
}

static LabelSetting setting_of(const Labeller *labeller, size_t index) {
    const LabelRequest *request = labeller->request;
    return (LabelSetting){
        .pen = {.arena = labeller->arena, .faces = request->faces, .ink = ink_black()},
        .template = request->template,
        .locale = request->locale,
        .bag = &request->plan->bags.items[index],
        .row = field_row(request->fields, "bag", index),
        .us_market = request->plan->workshop->market == MARKET_US,
        .diagnostics = labeller->diagnostics};
}

static void lay_out_bag(Labeller *labeller, size_t index) {
    LabelSetting setting = setting_of(labeller, index);
    const Stock *stock = usable_stock(labeller, setting.bag->order);
    if (!stock || !setting.row || !label_setting_begin(&setting))
        return;
    Box label;
    Fit fit = fit_stock(&setting, stock, &label);
    if (!fit.good) {
        report_too_small(labeller, &setting, stock, fit);
        return;
    }
    spread(&setting, stock, label, fit.height_mm);
    draw_order(labeller, &setting, stock, label, index);
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
    Labeller labeller = {
        .arena = arena, .request = request, .document = document, .diagnostics = diagnostics};
    bool few = check_count(request, diagnostics);
    for (size_t i = 0; few && i < request->plan->bags.count; i++)
        lay_out_bag(&labeller, i);
    if (diagnostics_errors(diagnostics, NULL) == errors)
        return true;
    document->pages.count = pages;
    return false;
}
