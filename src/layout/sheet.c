#include "layout/sheet.h"

#include "domain/field_member.h"

#include <string.h>

typedef struct PaperSize {
    double width_mm;
    double height_mm;
} PaperSize;

/* ISO 216 A4; ANSI/ASME Y14.1 A, 8.5 by 11 inches. */
static PaperSize paper_size(Paper paper) {
    return paper == PAPER_LETTER ? (PaperSize){215.9, 279.4} : (PaperSize){210, 297};
}

static Box type_area(const Pattern *pattern, PaperSize paper) {
    double margin_mm = pattern->margin_mm;
    return (Box){margin_mm, margin_mm, paper.width_mm - 2 * margin_mm,
                 paper.height_mm - 2 * margin_mm};
}

/* The plan's fields with those of the paper itself before them. */
static const FieldGroup *paper_fields(const FieldGroup *fields, const Document *document) {
    FieldGroup *group = field_group_new(document->arena, NULL, "paper", 0);
    group->parent = fields;
    field_add_text(document->arena, group, "creator", document->creator);
    field_add_instant(document->arena, group, "printed_at",
                      document->dated ? document->created : 0);
    return group;
}

static void report_overflow(Layout *layout, Box area, double over_mm) {
    const Batch *batch = layout->plan->batch;
    LongText longest = layout_longest(layout, area.width_mm);
    const char *remedy =
        arena_format(layout->pen.arena,
                     "the longest text is '%s' in '%s'; shorten it, or take something out of %s",
                     excerpt(layout->pen.arena, longest.string), longest.owner ? longest.owner : "",
                     layout->pattern->file);
    report_error(layout->diagnostics, batch->place, remedy,
                 "the %s of '%s' is %.1f mm too long for its page", layout->pattern->paper,
                 batch->name, over_mm);
}

/* A row of the plan that has to be found on the page. */
typedef struct Wanted {
    const char *group;
    int number;
} Wanted;

static bool is_about(const FieldGroup *row, const Wanted *wanted) {
    return row->number == wanted->number && strcmp(row->name, wanted->group) == 0;
}

/* A text for that row; one that gathers several rows stands for all of them. */
static bool says(Layout *layout, Block *block, void *with) {
    const Wanted *wanted = with;
    (void)layout;
    if (block->node->kind != NODE_TEXT)
        return false;
    if (is_about(block->row, wanted))
        return true;
    for (size_t i = 0; i < block->node->nodes.count; i++) {
        const Node *node = block->node->nodes.items[i];
        if (node->each && !node->condition && strcmp(node->each, wanted->group) == 0)
            return true;
    }
    return false;
}

/* Whether every caution, and every condition of the product that is more than a note, is said. */
static bool says_what_it_must(Layout *layout) {
    bool complete = true;
    const Plan *plan = layout->plan;
    size_t cautions = plan->cautions.count;
    for (size_t i = 0; i < cautions + plan->care.count; i++) {
        bool care = i >= cautions;
        Wanted wanted = {care ? "care" : "caution", (int)(care ? i - cautions : i) + 1};
        if (care && plan->care.items[i - cautions].level == CARE_NOTE)
            continue;
        if (layout_each(layout, says, &wanted))
            continue;
        complete = false;
        report_error(layout->diagnostics, layout->pattern->place,
                     "repeat a text for each=\"caution\" and each=\"care\", and do not drop it",
                     "the %s leaves out what can hurt somebody: %s '%s'", layout->pattern->paper,
                     wanted.group,
                     care ? plan->care.items[i - cautions].key : plan->cautions.items[i].key);
    }
    return complete;
}

bool sheet_fits(Arena *arena, const Pattern *pattern, const Plan *plan, const FieldGroup *fields,
                const Locale *locale, const FaceSet *faces) {
    Diagnostics unsaid = diagnostics_new(arena);
    Document *document = document_new(arena, NULL, NULL);
    document->creator = "burnsheet"; /* a line of the foot, which one it is does not matter */
    Layout layout =
        layout_new(arena, pattern, plan, paper_fields(fields, document), locale, faces, &unsaid);
    Box area = type_area(pattern, paper_size(plan->workshop->paper));
    return layout_build(&layout) && layout_fit(&layout, area, false) <= 0;
}

bool sheet_lay_out(const Pattern *pattern, const Plan *plan, const FieldGroup *fields,
                   const Locale *locale, const FaceSet *faces, Document *document,
                   Diagnostics *diagnostics) {
    Locale here = locale_on_night(*locale, plan->burn.light_at);
    Layout layout = layout_new(document->arena, pattern, plan, paper_fields(fields, document),
                               &here, faces, diagnostics);
    PaperSize paper = paper_size(plan->workshop->paper);
    Box area = type_area(pattern, paper);
    if (!layout_build(&layout))
        return false;
    double over_mm = layout_fit(&layout, area, false);
    if (over_mm > 0) {
        report_overflow(&layout, area, over_mm);
        return false;
    }
    bool must_say = strcmp(pattern->paper, "sheet") == 0;
    if (must_say && !says_what_it_must(&layout))
        return false;
    size_t errors = diagnostics_errors(diagnostics, NULL);
    Page *page = document_page(document, paper.width_mm, paper.height_mm);
    page->bookmark = plan->batch->name;
    layout_draw(&layout, page, area);
    if (diagnostics_errors(diagnostics, NULL) == errors)
        return true;
    document->pages.count--;
    return false;
}
