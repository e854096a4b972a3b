/* The program with its last step exchanged: where it would write a PDF, it writes the marks of the
 * document as text, for the goldens. It is linked with `--wrap=pdf_write`, so all that comes before
 * is what it is for a user, and the PDF is made too, though not kept.
 *
 * A page is a list of groups, the marks of one owner that follow each other, from top to bottom:
 *
 *     prepare 8.0 71.5 to 77.5 132.5     where it stands, in mm from the top left of the page
 *       0.0 3.0  10.5 condensed "Dry:"   a text: baseline from the corner of the group, points,
 *                                        face, special ink; + where it goes on,
 *                                        | beside short ones of the same look
 *       drawn 0.0 5.0 to 69.0 5.5: 1 line 0.15, 69 mm
 *     label 2 105.5 8.0 to 196.0 76.0 as label 1
 *
 * What is drawn is summed up by the way it is painted: how many, over how many mm, or mm² when
 * filled. Places are rounded to half a millimetre and count from their group, so that a panel that
 * moves is one line that differs. */
#include "base/file.h"
#include "base/text.h"
#include "print/pdf.h"
#include "support/marks.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

bool __real_pdf_write(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
                      const char **error);
bool __wrap_pdf_write(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
                      const char **error);

enum { PAINTS_MOST = 40, SHORT_BYTES = 12 };
#define TOUCHING_MM 0.1

/* The marks of one owner that follow each other. */
typedef struct Group {
    const char *owner;
    const Mark *marks;
    size_t count;
    Box box;
    const char *lines; /* what stands in it, by lines */
} Group;

typedef LIST_OF(Group) Groups;

/* All paths of a group that are painted in one way. */
typedef struct Paint {
    const char *said;
    size_t count;
    double amount; /* mm, or mm² when filled */
} Paint;

static double rounded(double mm) {
    double half = round(mm * 2) / 2;
    return half == 0 ? 0 : half; /* never a zero with a minus */
}

static void add_place(Text *text, double x_mm, double y_mm) {
    text_addf(text, "%.1f %.1f", rounded(x_mm), rounded(y_mm));
}

static void add_box(Text *text, Box box) {
    add_place(text, box.x_mm, box.y_mm);
    text_add(text, " to ");
    add_place(text, box.x_mm + box.width_mm, box.y_mm + box.height_mm);
}

static void add_ink(Text *text, Ink ink) {
    if (ink.grey != 0)
        text_addf(text, " grey %.2f", ink.grey);
}

static Box around(Box one, Box two) {
    double left = fmin(one.x_mm, two.x_mm), top = fmin(one.y_mm, two.y_mm);
    double right = fmax(one.x_mm + one.width_mm, two.x_mm + two.width_mm);
    double bottom = fmax(one.y_mm + one.height_mm, two.y_mm + two.height_mm);
    return (Box){left, top, right - left, bottom - top};
}

/* ---- Texts ----------------------------------------------------------------------------------- */

static int compare_places(double x_one, double y_one, double x_two, double y_two) {
    double down = rounded(y_one) - rounded(y_two), right = rounded(x_one) - rounded(x_two);
    double first = down != 0 ? down : right;
    return (first > 0) - (first < 0);
}

static int compare_texts(const void *one, const void *two) {
    const TextMark *const *first = one, *const *second = two;
    Point a = (*first)->baseline, b = (*second)->baseline;
    int order = compare_places(a.x_mm, a.y_mm, b.x_mm, b.y_mm);
    return order ? order : strcmp((*first)->string, (*second)->string);
}

static void add_way(Text *lines, const TextMark *mark) {
    text_add(lines, face_role_name(mark->face));
    add_ink(lines, mark->ink);
    text_addf(lines, " \"%s\"", mark->string);
}

/* Whether a text goes on where the one before it ends. */
static bool goes_on(const TextMark *before, const TextMark *mark, const FaceSet *faces) {
    double end_mm = before->baseline.x_mm +
                    face_width_mm(faces->faces[before->face], before->string, before->size_pt);
    return before->size_pt == mark->size_pt &&
           fabs(before->baseline.y_mm - mark->baseline.y_mm) < TOUCHING_MM &&
           fabs(end_mm - mark->baseline.x_mm) < TOUCHING_MM;
}

/* Whether two short texts stand in a row and look the same, as the hours of an axis do. */
static bool in_a_row(const TextMark *before, const TextMark *mark) {
    return before->size_pt == mark->size_pt && before->face == mark->face &&
           before->ink.grey == mark->ink.grey &&
           fabs(before->baseline.y_mm - mark->baseline.y_mm) < TOUCHING_MM &&
           strlen(before->string) <= SHORT_BYTES && strlen(mark->string) <= SHORT_BYTES;
}

static void add_text(Text *lines, const TextMark *before, const TextMark *mark, Box from,
                     const FaceSet *faces) {
    double x_mm = rounded(mark->baseline.x_mm - from.x_mm);
    if (before && goes_on(before, mark, faces)) {
        text_add(lines, " + ");
        add_way(lines, mark);
    } else if (before && in_a_row(before, mark)) {
        text_addf(lines, " | %.1f \"%s\"", x_mm, mark->string);
    } else {
        text_addf(lines, "%s%.1f %.1f  %g ", before ? "\n  " : "  ", x_mm,
                  rounded(mark->baseline.y_mm - from.y_mm), round(mark->size_pt * 10) / 10);
        add_way(lines, mark);
    }
}

static void add_texts(Text *lines, const Group *group, const FaceSet *faces, Arena *arena) {
    const TextMark **texts = ARENA_ARRAY(arena, group->count, const TextMark *);
    size_t count = 0;
    for (size_t i = 0; i < group->count; i++)
        if (group->marks[i].kind == MARK_TEXT)
            texts[count++] = &group->marks[i].as.text;
    qsort(texts, count, sizeof *texts, compare_texts);
    for (size_t i = 0; i < count; i++)
        add_text(lines, i ? texts[i - 1] : NULL, texts[i], group->box, faces);
    text_add(lines, count ? "\n" : "");
}

/* ---- What is drawn --------------------------------------------------------------------------- */

static const char *way_of(const Style *style, Arena *arena) {
    Text way = text_new(arena);
    if (style->filled) {
        text_add(&way, "filled");
        add_ink(&way, style->fill);
    }
    if (style->line_mm > 0) {
        text_addf(&way, "%s %.2f", style->filled ? " with line" : "line", style->line_mm);
        add_ink(&way, style->line);
        if (style->dash_mm > 0)
            text_addf(&way, " dashed %.1f %.1f", style->dash_mm, style->gap_mm);
    }
    return way.length ? way.bytes : "not painted";
}

/* The length of a path, curves by their chords; or the sum of the areas of its parts. */
static double amount_of(const PathMark *path) {
    double length = 0, all = 0, part = 0;
    Point start = {0}, at = {0};
    for (size_t i = 0; i < path->steps.count; i++) {
        const Step *step = &path->steps.items[i];
        Point to = step->kind == STEP_CLOSE ? start : step->to;
        if (step->kind == STEP_MOVE) {
            all += fabs(part) / 2;
            part = 0;
            start = to;
        } else {
            length += hypot(to.x_mm - at.x_mm, to.y_mm - at.y_mm);
            part += at.x_mm * to.y_mm - to.x_mm * at.y_mm;
        }
        at = to;
    }
    return path->style.filled ? all + fabs(part) / 2 : length;
}

static void add_to_paints(Paint *paints, size_t *count, const PathMark *path, Arena *arena) {
    const char *way = way_of(&path->style, arena);
    size_t at = 0;
    while (at < *count && strcmp(paints[at].said, way) != 0)
        at++;
    if (at == *count && at + 1 < PAINTS_MOST)
        paints[(*count)++] = (Paint){.said = way};
    paints[at].count++;
    paints[at].amount += amount_of(path);
}

static int compare_paints(const void *one, const void *two) {
    const Paint *first = one, *second = two;
    return strcmp(first->said, second->said);
}

static void add_mark_to_paints(Paint *paints, size_t *count, const Mark *mark, Arena *arena) {
    if (mark->kind == MARK_PATH)
        add_to_paints(paints, count, &mark->as.path, arena);
    for (size_t i = 0; mark->kind == MARK_PICTURE && i < mark->as.picture.picture->paths.count; i++)
        add_to_paints(paints, count, &mark->as.picture.picture->paths.items[i], arena);
}

static void add_drawn(Text *lines, const Group *group, const FaceSet *faces, Arena *arena) {
    Paint paints[PAINTS_MOST] = {0};
    size_t count = 0;
    Box box = {0};
    for (size_t i = 0; i < group->count; i++)
        if (group->marks[i].kind != MARK_TEXT) {
            Box own = mark_box(&group->marks[i], faces);
            box = count ? around(box, own) : own;
            add_mark_to_paints(paints, &count, &group->marks[i], arena);
        }
    if (!count)
        return;
    qsort(paints, count, sizeof *paints, compare_paints);
    if (lines->length) { /* else it is the whole group */
        text_add(lines, "  drawn ");
        box.x_mm -= group->box.x_mm;
        box.y_mm -= group->box.y_mm;
        add_box(lines, box);
    }
    for (size_t i = 0; i < count; i++)
        text_addf(lines, "%s %zu %s, %.0f mm%s", i ? ";" : ":", paints[i].count, paints[i].said,
                  paints[i].amount, strncmp(paints[i].said, "filled", 6) ? "" : "\u00b2");
    text_add(lines, "\n");
}

/* ---- Groups and pages ------------------------------------------------------------------------ */

static const char *owner_of(const Mark *mark) {
    return mark->owner ? mark->owner : "-";
}

static Group group_at(const Page *page, size_t first, const FaceSet *faces, Arena *arena) {
    Group group = {.owner = owner_of(&page->marks.items[first]),
                   .marks = &page->marks.items[first],
                   .box = mark_box(&page->marks.items[first], faces)};
    while (first + group.count < page->marks.count &&
           !strcmp(owner_of(&group.marks[group.count]), group.owner))
        group.box = around(group.box, mark_box(&group.marks[group.count++], faces));
    Text lines = text_new(arena);
    add_texts(&lines, &group, faces, arena);
    add_drawn(&lines, &group, faces, arena);
    group.lines = lines.bytes;
    return group;
}

static int compare_groups(const void *one, const void *two) {
    const Group *first = one, *second = two;
    int order =
        compare_places(first->box.x_mm, first->box.y_mm, second->box.x_mm, second->box.y_mm);
    if (!order)
        order = strcmp(first->owner, second->owner);
    return order ? order : strcmp(first->lines, second->lines);
}

/* A group of another owner before this one that holds the same; NULL: none does. */
static const Group *twin_of(const Groups *groups, size_t at) {
    const Group *group = &groups->items[at];
    for (size_t i = 0; i < at; i++)
        if (!strcmp(groups->items[i].lines, group->lines) &&
            strcmp(groups->items[i].owner, group->owner) != 0)
            return &groups->items[i];
    return NULL;
}

static void add_group(Text *text, const Groups *groups, size_t at) {
    const Group *group = &groups->items[at], *twin = twin_of(groups, at);
    text_addf(text, "%s ", group->owner);
    add_box(text, group->box);
    if (twin)
        text_addf(text, " as %s\n", twin->owner);
    else
        text_addf(text, "%s%s", group->lines[0] == ':' ? "" : "\n", group->lines);
}

static void add_page(Text *text, const Page *page, const FaceSet *faces, Arena *arena) {
    Groups groups = {0};
    for (size_t first = 0; first < page->marks.count;) {
        Group group = group_at(page, first, faces, arena);
        LIST_ADD(arena, &groups, group);
        first += group.count;
    }
    if (groups.count)
        qsort(groups.items, groups.count, sizeof *groups.items, compare_groups);
    for (size_t i = 0; i < groups.count; i++)
        add_group(text, &groups, i);
}

bool __wrap_pdf_write(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
                      const char **error) {
    if (!__real_pdf_write(document, faces, arena, bytes, error))
        return false;
    Text text = text_new(arena);
    text_addf(&text, "\"%s\" in %s%s\n", document->title, document->language,
              document->exact_size ? ", not scaled" : "");
    for (size_t i = 0; i < document->pages.count; i++) {
        const Page *page = document->pages.items[i];
        text_addf(&text, "\npage %zu, %.1f x %.1f mm", i + 1, page->width_mm, page->height_mm);
        text_addf(&text, "%s%s\n", page->bookmark ? ", " : "",
                  page->bookmark ? page->bookmark : "");
        add_page(&text, page, faces, arena);
    }
    *bytes = (Bytes){.data = (uint8_t *)text.bytes, .length = text.length};
    return true;
}
