#include "layout/pattern.h"

#include "layout/attribute.h"
#include "layout/drawing.h"
#include "layout/pen.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct Reader {
    Arena *arena;
    const FaceSet *faces;
    Diagnostics *diagnostics;
    Pattern *pattern;
    double least_pt;
} Reader;

/* What may be written on each kind of node, and what may stand in it. */
typedef struct NodeRule {
    const char *element;
    const char *attributes;
    const char *children;
} NodeRule;

#define STANDING "name each if when drop from width grow "
#define SPACED "apart least-apart tighten "
#define BOXED "pad side fill ink frame "
#define ANY_NODE "column row table grid text sign rule space canvas"

static const NodeRule rules[NODE_KINDS] = {
    [NODE_COLUMN] = {"column", STANDING SPACED BOXED "most-apart", ANY_NODE},
    [NODE_ROW] = {"row", STANDING SPACED BOXED "level stack", ANY_NODE},
    [NODE_TABLE] = {"table", STANDING SPACED BOXED "most-apart line", "row"},
    [NODE_GRID] = {"grid", STANDING SPACED "down least", ANY_NODE},
    [NODE_TEXT] = {"text",
                   STANDING SPACED "words brief lead lead-brief shorten strong figures style "
                                   "align joint lines "
                                   "run-in ink",
                   "words"},
    [NODE_WORDS] = {"words", "each if words brief lead lead-brief strong figures", ""},
    [NODE_SIGN] = {"sign", STANDING "kind size style ink", ""},
    [NODE_RULE] = {"rule", STANDING "line upright ink", ""},
    [NODE_SPACE] = {"space", STANDING "height least tighten style", ""},
    [NODE_CANVAS] = {"canvas", STANDING "tighten kind of style least most", ""},
};

/* ---- Small things ---- */

static double read_mm(Reader *reader, const Element *element, const char *name, double most,
                      double usual) {
    return attribute_length(reader->diagnostics, element, name, LENGTH_MM, 0, most, usual);
}

static int use_step(Pattern *pattern, int step) {
    pattern->used[step] = true;
    if (step > pattern->steps)
        pattern->steps = step;
    return step;
}

static int read_step(Reader *reader, const Element *element, const char *name) {
    double most = (double)STEPS_MOST / STEP_TENTHS;
    double value = attribute_length(reader->diagnostics, element, name, LENGTH_NONE, 0.1, most, 0);
    return use_step(reader->pattern, (int)round(value * STEP_TENTHS));
}

static int read_choice(Reader *reader, const Element *element, const char *name, const char *what,
                       const char *choices) {
    if (!element_value(element, name))
        return 0;
    Names names = names_split(reader->arena, choices);
    int choice = attribute_choice(reader->diagnostics, element, name, what, &names, 0);
    return choice < 0 ? 0 : choice;
}

static bool read_yes(Reader *reader, const Element *element, const char *name) {
    return read_choice(reader, element, name, "answer", "no yes") == 1;
}

/* ---- Styles ---- */

static FaceRole read_face(Reader *reader, const Element *element) {
    Names names = {0};
    for (int role = 0; role < FACE_COUNT; role++)
        LIST_ADD(reader->arena, &names, face_role_name((FaceRole)role));
    int role = attribute_choice(reader->diagnostics, element, "face", "face", &names, FACE_REGULAR);
    return role < 0 ? FACE_REGULAR : (FaceRole)role;
}

/* A type size: points, or the millimetres of its capitals; 0, and reported, when it is none. */
static double read_size_pt(Reader *reader, Place place, const char *value, FaceRole face) {
    Length length = {0};
    if (!length_parse(value, &length) || (length.unit != LENGTH_MM && length.unit != LENGTH_PT)) {
        report_error(reader->diagnostics, place,
                     "a type size like \"11.5 pt\", or the height of its capitals like \"3 mm\"",
                     "'%s' is no type size", value);
        return 0;
    }
    double size_pt = length.value;
    if (length.unit == LENGTH_MM)
        size_pt = face_size_for_cap_height_pt(reader->faces->faces[face], length.value);
    if (size_pt >= reader->least_pt - 1e-9 && size_pt <= 200)
        return size_pt;
    report_error(reader->diagnostics, place,
                 arena_format(reader->arena, "from %g pt, below which print is not read, to 200 pt",
                              reader->least_pt),
                 "type of '%s' (%.1f pt) cannot be printed", value, size_pt);
    return 0;
}

static void add_size(TypeStyle *style, int step, double size_pt) {
    style->steps[style->count] = step;
    style->sizes_pt[style->count++] = size_pt;
}

/* "2: 12 pt; 6: 3 mm": steps that rise, sizes that fall. */
static void read_then(Reader *reader, const Element *element, TypeStyle *style) {
    const char *value = element_value(element, "then");
    Place place = element_value_place(element, "then");
    while (value && *value && style->count < SIZES_MOST) {
        size_t length = strcspn(value, ";");
        char *part = arena_copy(reader->arena, value, length);
        char *colon = strchr(part, ':');
        double written = colon ? strtod(part, NULL) * STEP_TENTHS : 0;
        int step = written >= 0 && written <= STEPS_MOST ? (int)round(written) : 0;
        if (!colon || step <= style->steps[style->count - 1]) {
            report_error(reader->diagnostics, place, "steps that rise, like \"2: 12 pt; 6: 10 pt\"",
                         "'%s' is no step with a size", part);
            return;
        }
        double size_pt =
            read_size_pt(reader, place, colon + 1 + strspn(colon + 1, " "), style->face);
        if (size_pt > style->sizes_pt[style->count - 1])
            report_error(reader->diagnostics, place, "a text gets smaller when the page is full",
                         "at step %g the text '%s' gets larger", (double)step / STEP_TENTHS,
                         style->name);
        add_size(style, use_step(reader->pattern, step), size_pt);
        value += length + (value[length] == ';');
    }
}

static int style_index(const Pattern *pattern, const char *name) {
    for (size_t i = 0; i < pattern->styles.count; i++)
        if (strcmp(pattern->styles.items[i].name, name) == 0)
            return (int)i;
    return -1;
}

static void read_style(Reader *reader, const Element *element) {
    attribute_only(reader->diagnostics, element,
                   "name face size then leading capitals small-letters");
    TypeStyle style = {.place = element->place};
    style.name = attribute_required(reader->diagnostics, element, "name");
    const char *size = attribute_required(reader->diagnostics, element, "size");
    if (!style.name || !size)
        return;
    if (style_index(reader->pattern, style.name) >= 0)
        report_error(reader->diagnostics, element->place, "take one of the two away",
                     "style '%s' is described twice", style.name);
    style.face = read_face(reader, element);
    style.leading =
        attribute_length(reader->diagnostics, element, "leading", LENGTH_NONE, 0.9, 2, 1.2);
    style.capitals = element_value(element, "capitals");
    style.small_letters = element_value(element, "small-letters");
    add_size(&style, 0,
             read_size_pt(reader, element_value_place(element, "size"), size, style.face));
    read_then(reader, element, &style);
    LIST_ADD(reader->arena, &reader->pattern->styles, style);
}

/* ---- Nodes ---- */

static void read_width(Reader *reader, const Element *element, Node *node) {
    const char *value = element_value(element, "width");
    Length length = {1, LENGTH_NONE};
    node->width = 1;
    if (!value)
        return;
    if (strcmp(value, "fit") == 0) {
        node->width_kind = WIDTH_FIT;
        return;
    }
    if (!length_parse(value, &length) || length.unit == LENGTH_PT || length.value <= 0)
        report_error(reader->diagnostics, element_value_place(element, "width"),
                     "\"fit\", a length like \"20 mm\", a part of the width like \"48 %\", or a "
                     "share of what is left like \"2\"",
                     "'%s' is no width", value);
    node->width_kind = length.unit == LENGTH_MM        ? WIDTH_MM
                       : length.unit == LENGTH_PERCENT ? WIDTH_PART
                                                       : WIDTH_WEIGHT;
    node->width = length.unit == LENGTH_PERCENT ? length.value / 100 : length.value;
}

static void read_standing(Reader *reader, const Element *element, Node *node) {
    node->name = element_value(element, "name");
    node->each = element_value(element, "each");
    node->condition = element_value(element, "if");
    node->when = (NodeWhen)read_choice(reader, element, "when", "occasion", "always lit refused");
    node->drop = read_step(reader, element, "drop");
    node->from = read_step(reader, element, "from");
    node->grow = attribute_length(reader->diagnostics, element, "grow", LENGTH_NONE, 0, 100, 0);
    read_width(reader, element, node);
}

/* Names a style, or takes that of what the node stands in. */
static int read_node_style(Reader *reader, const Element *element, const Node *node) {
    Names names = {0};
    for (size_t i = 0; i < reader->pattern->styles.count; i++)
        LIST_ADD(reader->arena, &names, reader->pattern->styles.items[i].name);
    int style = attribute_choice(reader->diagnostics, element, "style", "style", &names, -1);
    bool needs = node->kind == NODE_TEXT || node->kind == NODE_CANVAS;
    if (needs && !element_value(element, "style"))
        attribute_required(reader->diagnostics, element, "style");
    return style;
}

static void read_spacing(Reader *reader, const Element *element, Node *node) {
    bool space = node->kind == NODE_SPACE;
    node->apart_mm = read_mm(reader, element, space ? "height" : "apart", 60, space ? 1 : 0);
    node->least_apart_mm = attribute_length(reader->diagnostics, element,
                                            space ? "least" : "least-apart", LENGTH_MM, 0,
                                            node->apart_mm, node->apart_mm);
    node->most_apart_mm = attribute_length(reader->diagnostics, element, "most-apart", LENGTH_MM,
                                           node->apart_mm, 60, node->apart_mm);
    node->tighten = read_step(reader, element, "tighten");
    node->pad_mm = read_mm(reader, element, "pad", 30, 0);
    node->side_mm = read_mm(reader, element, "side", 30, 0);
    node->stack_mm = read_mm(reader, element, "stack", 200, 0);
    if (node->kind == NODE_GRID) {
        node->down_mm = read_mm(reader, element, "down", 30, node->apart_mm);
        node->least_mm = read_mm(reader, element, "least", 200, 0);
    }
}

static void read_look_in(Reader *reader, const Element *element, Node *node) {
    const char *line = node->kind == NODE_RULE || node->kind == NODE_TABLE ? "line" : "frame";
    node->line_mm = read_mm(reader, element, line, 5, node->kind == NODE_RULE ? 0.2 : 0);
    node->fill = attribute_length(reader->diagnostics, element, "fill", LENGTH_NONE, 0, 1, NAN);
    node->white = read_choice(reader, element, "ink", "ink", "black white") == 1;
    node->upright = read_yes(reader, element, "upright");
    node->level = (RowAlign)read_choice(reader, element, "level", "level", "top middle base foot");
}

static void read_words(Reader *reader, const Element *element, Node *node) {
    node->words = element_value(element, "words");
    node->brief = element_value(element, "brief");
    node->shorten = read_step(reader, element, "shorten");
    node->run_in = read_step(reader, element, "run-in");
    node->lead = element_value(element, "lead");
    node->lead_brief = element_value(element, "lead-brief");
    int strong = read_choice(reader, element, "strong", "answer", "no yes lead");
    node->strong = strong == 1;
    node->strong_lead = strong == 2;
    node->figures = read_yes(reader, element, "figures");
    node->lines = read_yes(reader, element, "lines");
    node->joint = element_value(element, "joint");
    node->align = read_choice(reader, element, "align", "side", "left right centre");
    bool has_children = element_count(element, NULL) > 0;
    if (node->kind == NODE_WORDS || !has_children)
        attribute_required(reader->diagnostics, element, "words");
    else if (node->words)
        report_error(reader->diagnostics, element_value_place(element, "words"),
                     "put it into a <words> of its own",
                     "a text of several <words> has none itself");
}

static void read_drawing(Reader *reader, const Element *element, Node *node) {
    bool sign = node->kind == NODE_SIGN;
    Names names = {0};
    for (int i = 0; sign && i < SIGN_COUNT; i++)
        LIST_ADD(reader->arena, &names, sign_name((SignKind)i));
    for (int i = 0; !sign && i < DRAWING_KINDS; i++)
        LIST_ADD(reader->arena, &names, drawing_name(i));
    if (attribute_required(reader->diagnostics, element, "kind"))
        node->drawing = attribute_choice(reader->diagnostics, element, "kind",
                                         sign ? "sign" : "canvas", &names, 0);
    node->of = element_value(element, "of");
    if (sign) {
        Length length = {3, LENGTH_MM};
        const char *size = element_value(element, "size");
        if (size && (!length_parse(size, &length) || length.value <= 0))
            report_error(reader->diagnostics, element_value_place(element, "size"),
                         "a length like \"4 mm\", or with a style a part of its line like \"0.8\"",
                         "'%s' is no size of a sign", size);
        node->size = length.value;
        node->upright = length.unit == LENGTH_NONE; /* parts of a line */
        node->width_kind = element_value(element, "width") ? node->width_kind : WIDTH_FIT;
        return;
    }
    node->least_mm = read_mm(reader, element, "least", 300, 0);
    node->most_mm = read_mm(reader, element, "most", 300, 300);
}

static bool among(Arena *arena, const char *name, const char *list) {
    Names names = names_split(arena, list);
    for (size_t i = 0; i < names.count; i++)
        if (strcmp(names.items[i], name) == 0)
            return true;
    return false;
}

static Node *read_node(Reader *reader, const Element *element, const Node *parent,
                       const char *may_be);

static void read_nodes(Reader *reader, const Element *element, Node *node) {
    const char *may_be = rules[node->kind].children;
    for (const Element *child = element->first; child; child = child->next) {
        Node *inner = read_node(reader, child, node, may_be);
        if (inner)
            LIST_ADD(reader->arena, &node->nodes, inner);
    }
    bool holds = node->kind <= NODE_GRID;
    if (holds && node->nodes.count == 0)
        report_error(reader->diagnostics, element->place, "put a node into it or take it away",
                     "'%s' is empty", element->name);
    bool cells = node->kind == NODE_ROW || node->kind == NODE_TABLE;
    if (cells && node->kind == NODE_ROW && node->nodes.count > CELLS_MOST)
        report_error(reader->diagnostics, element->place, NULL, "a row holds at most %d nodes",
                     CELLS_MOST);
}

static void read_parts(Reader *reader, const Element *element, Node *node) {
    read_standing(reader, element, node);
    read_spacing(reader, element, node);
    read_look_in(reader, element, node);
    node->style = -1;
    if (strstr(rules[node->kind].attributes, " style"))
        node->style = read_node_style(reader, element, node);
    if (node->kind == NODE_TEXT || node->kind == NODE_WORDS)
        read_words(reader, element, node);
    if (node->kind == NODE_SIGN || node->kind == NODE_CANVAS)
        read_drawing(reader, element, node);
    if (node->kind == NODE_RULE && node->upright && !element_value(element, "width"))
        node->width_kind = WIDTH_FIT;
    if (node->kind == NODE_SPACE && node->width_kind == WIDTH_WEIGHT)
        node->width = element_value(element, "width") ? node->width : 0;
}

static Node *read_node(Reader *reader, const Element *element, const Node *parent,
                       const char *may_be) {
    int kind = 0;
    while (kind < NODE_KINDS && strcmp(rules[kind].element, element->name) != 0)
        kind++;
    if (kind == NODE_KINDS || !among(reader->arena, element->name, may_be)) {
        element_unknown(reader->diagnostics, element, *may_be ? may_be : "nothing");
        return NULL;
    }
    attribute_only(reader->diagnostics, element, rules[kind].attributes);
    Node *node = ARENA_NEW(reader->arena, Node);
    node->place = element->place;
    node->kind = (NodeKind)kind;
    node->parent = parent;
    node->index = (int)reader->pattern->nodes.count;
    LIST_ADD(reader->arena, &reader->pattern->nodes, node);
    read_parts(reader, element, node);
    read_nodes(reader, element, node);
    return node;
}

/* ---- The whole ---- */

/* A label, or either of a pair. */
static bool is_label(const Element *root) {
    return strncmp(root->name, "label", strlen("label")) == 0;
}

static void read_root(Reader *reader, const Element *root) {
    Pattern *pattern = reader->pattern;
    Diagnostics *diagnostics = reader->diagnostics;
    bool label = is_label(root);
    attribute_only(diagnostics, root,
                   label ? "margin least-margin made-for-width made-for-height largest" : "margin");
    pattern->margin_mm =
        attribute_length(diagnostics, root, "margin", LENGTH_MM, label ? 1 : 5, 40, label ? 4 : 10);
    pattern->least_margin_mm = attribute_length(diagnostics, root, "least-margin", LENGTH_MM, 1,
                                                pattern->margin_mm, pattern->margin_mm);
    pattern->made_for_width_mm =
        attribute_length(diagnostics, root, "made-for-width", LENGTH_MM, 20, 400, 99.1);
    pattern->made_for_height_mm =
        attribute_length(diagnostics, root, "made-for-height", LENGTH_MM, 20, 400, 67.7);
    pattern->largest = attribute_length(diagnostics, root, "largest", LENGTH_NONE, 1, 5, 1);
}

static void read_children(Reader *reader, const Element *root) {
    for (const Element *child = root->first; child; child = child->next)
        if (strcmp(child->name, "style") == 0)
            read_style(reader, child);
    for (const Element *child = root->first; child; child = child->next) {
        bool column = strcmp(child->name, "column") == 0;
        if (column && !reader->pattern->root)
            reader->pattern->root = read_node(reader, child, NULL, "column");
        else if (column)
            report_error(reader->diagnostics, child->place, "put both into one column",
                         "a paper is one column");
        else if (strcmp(child->name, "style") != 0)
            element_unknown(reader->diagnostics, child, "style column");
    }
    if (!reader->pattern->root)
        report_error(reader->diagnostics, root->place, "write a <column>", "'%s' holds no column",
                     root->name);
}

const Pattern *pattern_read(Arena *arena, const Element *root, const char *papers,
                            const FaceSet *faces, Diagnostics *diagnostics) {
    size_t before = diagnostics_errors(diagnostics, NULL);
    Pattern *pattern = ARENA_NEW(arena, Pattern);
    *pattern = (Pattern){.place = root->place, .file = root->place.file, .paper = root->name};
    Reader reader = {arena, faces, diagnostics, pattern, LEAST_TYPE_PT};
    const char *wanted = papers ? papers : PATTERN_PAPERS;
    if (!among(arena, root->name, wanted)) {
        report_error(diagnostics, root->place,
                     arena_format(arena, "here may stand a template of: %s", wanted),
                     "'%s' is no template of such a paper", root->name);
        return NULL;
    }
    if (is_label(root))
        reader.least_pt = strcmp(root->name, "label_second") ? LABEL_LEAST_PT
                                                             : LABEL_SECOND_LEAST_PT;
    read_root(&reader, root);
    read_children(&reader, root);
    if (diagnostics_errors(diagnostics, NULL) == before)
        pattern_check(pattern, diagnostics);
    return diagnostics_errors(diagnostics, NULL) == before ? pattern : NULL;
}
