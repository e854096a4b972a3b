#include "layout/template.h"

#include "layout/attribute.h"

#include <string.h>

typedef struct Reader {
    Arena *arena;
    const FaceSet *faces;
    Diagnostics *diagnostics;
    Template *template;
} Reader;

static const char *const PANEL_NAMES[PANEL_KINDS] = {
    [PANEL_HEADLINE] = "headline", [PANEL_REMEDIES] = "remedies", [PANEL_WEIGH_OUT] = "weigh-out",
    [PANEL_DRYING] = "drying",     [PANEL_TRAY_MAP] = "tray-map", [PANEL_CURVE] = "curve",
    [PANEL_STEPS] = "steps",       [PANEL_RULES] = "rules",       [PANEL_LOG] = "log",
    [PANEL_RECORD] = "record",     [PANEL_CAUTIONS] = "cautions", [PANEL_CARE] = "care",
    [PANEL_WORDS] = "words",       [PANEL_FOOTER] = "footer"};

static const char *const TEXT_NAMES[TEXT_COUNT] = {
    [TEXT_HEADLINE] = "headline", [TEXT_LEAD] = "lead",     [TEXT_TITLE] = "title",
    [TEXT_STEP] = "step",         [TEXT_FIGURE] = "figure", [TEXT_BODY] = "body",
    [TEXT_NOTE] = "note"};

/* The running text of each kind of panel, where the template does not say. */
static const TextRole USUAL_TEXT[PANEL_KINDS] = {
    [PANEL_HEADLINE] = TEXT_LEAD, [PANEL_REMEDIES] = TEXT_LEAD, [PANEL_WEIGH_OUT] = TEXT_FIGURE,
    [PANEL_DRYING] = TEXT_FIGURE, [PANEL_TRAY_MAP] = TEXT_BODY, [PANEL_CURVE] = TEXT_NOTE,
    [PANEL_STEPS] = TEXT_STEP,    [PANEL_RULES] = TEXT_STEP,    [PANEL_LOG] = TEXT_FIGURE,
    [PANEL_RECORD] = TEXT_BODY,   [PANEL_CAUTIONS] = TEXT_BODY, [PANEL_CARE] = TEXT_BODY,
    [PANEL_WORDS] = TEXT_BODY,    [PANEL_FOOTER] = TEXT_NOTE};

const char *panel_kind_name(PanelKind kind) {
    return PANEL_NAMES[kind];
}

const char *text_role_name(TextRole role) {
    return TEXT_NAMES[role];
}

static Names names_of(Arena *arena, const char *const *names, size_t count) {
    Names list = {0};
    for (size_t i = 0; i < count; i++)
        LIST_ADD(arena, &list, names[i]);
    return list;
}

/* ---- Texts ---- */

/* A type size: points, or the millimetres of its capitals. */
static double read_size_pt(Reader *reader, const Element *element, const char *name, FaceRole face,
                           double usual_pt) {
    const char *value = element_value(element, name);
    if (!value)
        return usual_pt;
    Place place = element_value_place(element, name);
    Length length = {0};
    bool good = length_parse(value, &length) &&
                (length.unit == LENGTH_MM || length.unit == LENGTH_PT);
    if (!good) {
        report_error(reader->diagnostics, place,
                     "a type size like \"11.5 pt\", or the height of its capitals like \"3 mm\"",
                     "'%s' is no type size", value);
        return usual_pt;
    }
    double size_pt = length.value;
    if (length.unit == LENGTH_MM)
        size_pt = face_size_for_cap_height_pt(reader->faces->faces[face], length.value);
    if (size_pt >= LEAST_TYPE_PT - 1e-9 && size_pt <= 200)
        return size_pt;
    report_error(reader->diagnostics, place,
                 arena_format(reader->arena, "from %g pt, below which print is not read, to 200 pt",
                              LEAST_TYPE_PT),
                 "type of '%s' (%.1f pt) cannot be printed", value, size_pt);
    return usual_pt;
}

static FaceRole read_face(Reader *reader, const Element *element) {
    Names names = {0};
    for (int role = 0; role < FACE_COUNT; role++)
        LIST_ADD(reader->arena, &names, face_role_name((FaceRole)role));
    int role = attribute_choice(reader->diagnostics, element, "face", "face", &names, FACE_REGULAR);
    return role < 0 ? FACE_REGULAR : (FaceRole)role;
}

static void read_text(Reader *reader, const Element *element) {
    attribute_only(reader->diagnostics, element, "name face size least leading");
    if (!attribute_required(reader->diagnostics, element, "name"))
        return;
    Names names = names_of(reader->arena, TEXT_NAMES, TEXT_COUNT);
    int role = attribute_choice(reader->diagnostics, element, "name", "text", &names, -1);
    if (role < 0)
        return;
    TextRange *range = &reader->template->texts[role];
    if (range->place.line)
        report_error(reader->diagnostics, element->place, "take one of the two away",
                     "text '%s' is described twice", TEXT_NAMES[role]);
    FaceRole face = read_face(reader, element);
    attribute_required(reader->diagnostics, element, "size");
    double size_pt = read_size_pt(reader, element, "size", face, 9);
    double least_pt = read_size_pt(reader, element, "least", face, size_pt);
    if (least_pt > size_pt)
        report_error(reader->diagnostics, element_value_place(element, "least"),
                     "the least size is where the text ends up when the page is full",
                     "the least size of text '%s' is above its size", TEXT_NAMES[role]);
    double leading =
        attribute_length(reader->diagnostics, element, "leading", LENGTH_NONE, 1.18, 2, 1.22);
    *range = (TextRange){element->place, face, size_pt, least_pt, leading};
}

/* ---- Panels ---- */

static void read_item(Reader *reader, const Element *element, Panel *panel) {
    attribute_only(reader->diagnostics, element, "words with");
    const char *words = attribute_required(reader->diagnostics, element, "words");
    PanelItem item = {element_value_place(element, "words"), words, element_value(element, "with")};
    if (words)
        LIST_ADD(reader->arena, &panel->items, item);
}

static void read_items(Reader *reader, const Element *element, Panel *panel) {
    bool takes_items = panel->kind == PANEL_RULES || panel->kind == PANEL_WORDS;
    for (const Element *child = element_child(element, NULL); child;
         child = element_sibling(child, NULL)) {
        if (takes_items && strcmp(child->name, "line") == 0)
            read_item(reader, child, panel);
        else
            element_unknown(reader->diagnostics, child, takes_items ? "line" : "");
    }
    if (panel->kind == PANEL_WORDS && !panel->items.count)
        report_error(reader->diagnostics, element->place,
                     "write <line words=\"KEY\"/> for each of its lines", "panel '%s' has no lines",
                     panel->name);
}

static PanelWhen read_when(Reader *reader, const Element *element) {
    static const char *const names[] = {"always", "lit", "refused"};
    Names known = names_of(reader->arena, names, 3);
    int when = attribute_choice(reader->diagnostics, element, "when", "occasion", &known, 0);
    return when < 0 ? WHEN_ALWAYS : (PanelWhen)when;
}

static TextRole read_panel_text(Reader *reader, const Element *element, PanelKind kind) {
    Names names = names_of(reader->arena, TEXT_NAMES, TEXT_COUNT);
    int role = attribute_choice(reader->diagnostics, element, "text", "text", &names,
                                (int)USUAL_TEXT[kind]);
    return role < 0 ? USUAL_TEXT[kind] : (TextRole)role;
}

static void read_only(Reader *reader, const Element *element, Panel *panel) {
    const char *only = element_value(element, "only");
    if (!only)
        return;
    Names names = names_split(reader->arena, only);
    for (size_t i = 0; i < names.count; i++)
        LIST_ADD(reader->arena, &panel->only, names.items[i]);
    if (panel->kind != PANEL_CAUTIONS)
        report_error(reader->diagnostics, element_value_place(element, "only"),
                     "only a panel of cautions chooses among them",
                     "panel '%s' has nothing to choose from", panel->name);
}

static void check_name(Reader *reader, const Panel *panel) {
    for (size_t i = 0; i < reader->template->panels.count; i++)
        if (strcmp(reader->template->panels.items[i]->name, panel->name) == 0)
            report_error(reader->diagnostics, panel->place,
                         "give this one a name of its own: name=\"…\"",
                         "two panels are called '%s'", panel->name);
}

/* Index of the panel before this one that an attribute names; -1 when it names none. */
static int read_other(Reader *reader, const Element *element, const char *attribute) {
    if (!element_value(element, attribute))
        return -1;
    Names names = {0};
    for (size_t i = 0; i < reader->template->panels.count; i++)
        LIST_ADD(reader->arena, &names, reader->template->panels.items[i]->name);
    return attribute_choice(reader->diagnostics, element, attribute, "panel", &names, -1);
}

static void read_panel(Reader *reader, const Element *element, Block *block) {
    attribute_only(reader->diagnostics, element,
                   "kind name title when with without grow text only width");
    if (!attribute_required(reader->diagnostics, element, "kind"))
        return;
    Names names = names_of(reader->arena, PANEL_NAMES, PANEL_KINDS);
    int kind = attribute_choice(reader->diagnostics, element, "kind", "panel", &names, -1);
    if (kind < 0)
        return;
    Panel *panel = &block->panel;
    panel->place = element->place;
    panel->kind = (PanelKind)kind;
    panel->name = element_value(element, "name");
    if (!panel->name)
        panel->name = PANEL_NAMES[kind];
    panel->title = element_value(element, "title");
    panel->when = read_when(reader, element);
    panel->with = read_other(reader, element, "with");
    panel->without = read_other(reader, element, "without");
    panel->grow = attribute_length(reader->diagnostics, element, "grow", LENGTH_NONE, 0, 100, 0);
    panel->text = read_panel_text(reader, element, panel->kind);
    panel->index = (int)reader->template->panels.count;
    read_only(reader, element, panel);
    read_items(reader, element, panel);
    check_name(reader, panel);
    LIST_ADD(reader->arena, &reader->template->panels, panel);
}

/* ---- Arrangement ---- */

static Block *read_block(Reader *reader, const Element *element, BlockKind kind);

static void read_loose(Reader *reader, const Element *element, Block *row) {
    attribute_only(reader->diagnostics, element, "");
    for (const Element *child = element_child(element, NULL); child;
         child = element_sibling(child, NULL)) {
        if (strcmp(child->name, "panel") == 0)
            LIST_ADD(reader->arena, &row->loose, read_block(reader, child, BLOCK_PANEL));
        else
            element_unknown(reader->diagnostics, child, "panel");
    }
}

static void read_blocks(Reader *reader, const Element *element, Block *block) {
    bool row = block->kind == BLOCK_ROW;
    for (const Element *child = element_child(element, NULL); child;
         child = element_sibling(child, NULL)) {
        if (strcmp(child->name, "panel") == 0)
            LIST_ADD(reader->arena, &block->blocks, read_block(reader, child, BLOCK_PANEL));
        else if (row && strcmp(child->name, "column") == 0)
            LIST_ADD(reader->arena, &block->blocks, read_block(reader, child, BLOCK_COLUMN));
        else if (row && strcmp(child->name, "loose") == 0)
            read_loose(reader, child, block);
        else if (!row && strcmp(child->name, "row") == 0)
            LIST_ADD(reader->arena, &block->blocks, read_block(reader, child, BLOCK_ROW));
        else
            element_unknown(reader->diagnostics, child, row ? "column loose panel" : "panel row");
    }
    if (!block->blocks.count)
        report_error(reader->diagnostics, element->place, "put a panel into it or take it away",
                     "'%s' is empty", element->name);
}

static Block *read_block(Reader *reader, const Element *element, BlockKind kind) {
    Block *block = ARENA_NEW(reader->arena, Block);
    block->kind = kind;
    block->place = element->place;
    block->share =
        attribute_length(reader->diagnostics, element, "width", LENGTH_PERCENT, 5, 100, 50);
    if (kind == BLOCK_PANEL) {
        read_panel(reader, element, block);
        return block;
    }
    attribute_only(reader->diagnostics, element, kind == BLOCK_COLUMN ? "width" : "");
    read_blocks(reader, element, block);
    return block;
}

static void read_page(Reader *reader, const Element *element) {
    Template *template = reader->template;
    Diagnostics *diagnostics = reader->diagnostics;
    attribute_only(diagnostics, element, "margin columns-apart rows-apart least-apart");
    template->margin_mm = attribute_length(diagnostics, element, "margin", LENGTH_MM, 5, 40, 10);
    template->columns_apart_mm =
        attribute_length(diagnostics, element, "columns-apart", LENGTH_MM, 1, 30, 6);
    template->rows_apart_mm =
        attribute_length(diagnostics, element, "rows-apart", LENGTH_MM, 1, 30, 4);
    template->least_apart_mm = attribute_length(diagnostics, element, "least-apart", LENGTH_MM, 1,
                                                template->rows_apart_mm, 2);
}

/* ---- Giving way ---- */

static bool is_essential(PanelKind kind) {
    return kind == PANEL_HEADLINE || kind == PANEL_CAUTIONS || kind == PANEL_FOOTER;
}

static void read_drop(Reader *reader, const Element *element, GiveWay *give) {
    attribute_only(reader->diagnostics, element, "panel");
    if (!attribute_required(reader->diagnostics, element, "panel"))
        return;
    give->panel = read_other(reader, element, "panel");
    if (give->panel >= 0 && is_essential(reader->template->panels.items[give->panel]->kind))
        report_error(reader->diagnostics, element_value_place(element, "panel"),
                     "headline, cautions and footer stand on every sheet",
                     "panel '%s' cannot be dropped", element_value(element, "panel"));
}

static void read_shrink(Reader *reader, const Element *element, GiveWay *give) {
    attribute_only(reader->diagnostics, element, "texts");
    const char *texts = attribute_required(reader->diagnostics, element, "texts");
    Names wanted = names_split(reader->arena, texts ? texts : "");
    Names known = names_of(reader->arena, TEXT_NAMES, TEXT_COUNT);
    for (size_t i = 0; i < wanted.count; i++) {
        bool found = false;
        for (int role = 0; role < TEXT_COUNT; role++) {
            if (strcmp(wanted.items[i], TEXT_NAMES[role]) == 0)
                found = give->texts[role] = true;
        }
        if (!found)
            report_error(
                reader->diagnostics, element_value_place(element, "texts"),
                arena_format(reader->arena, "there are %s", names_listed(reader->arena, &known)),
                "unknown text '%s'", wanted.items[i]);
    }
}

static void read_give_way(Reader *reader, const Element *element) {
    attribute_only(reader->diagnostics, element, "");
    for (const Element *child = element_child(element, NULL); child;
         child = element_sibling(child, NULL)) {
        GiveWay give = {.place = child->place, .kind = GIVE_TIGHTEN, .panel = -1};
        if (strcmp(child->name, "shrink") == 0) {
            give.kind = GIVE_SHRINK;
            read_shrink(reader, child, &give);
        } else if (strcmp(child->name, "drop") == 0) {
            give.kind = GIVE_DROP;
            read_drop(reader, child, &give);
        } else if (strcmp(child->name, "tighten") == 0) {
            attribute_only(reader->diagnostics, child, "");
        } else {
            element_unknown(reader->diagnostics, child, "shrink drop tighten");
            continue;
        }
        LIST_ADD(reader->arena, &reader->template->give_way, give);
    }
}

/* ---- The whole ---- */

/* Each part stands once; `known` are its allowed names. */
static const Element *only_child(Reader *reader, const Element *root, const char *name) {
    const Element *child = element_child(root, name);
    if (!child)
        report_error(reader->diagnostics, root->place,
                     arena_format(reader->arena, "write <%s>", name), "the template has no '%s'",
                     name);
    else if (element_sibling(child, name))
        report_error(reader->diagnostics, element_sibling(child, name)->place,
                     "one of them is enough", "the template has two '%s'", name);
    return child;
}

static void read_texts(Reader *reader, const Element *root) {
    for (const Element *text = element_child(root, "text"); text;
         text = element_sibling(text, "text"))
        read_text(reader, text);
    for (int role = 0; role < TEXT_COUNT; role++)
        if (!reader->template->texts[role].place.line)
            report_error(reader->diagnostics, root->place,
                         arena_format(reader->arena,
                                      "write <text name=\"%s\" face=\"condensed\" size=\"9 pt\"/>",
                                      TEXT_NAMES[role]),
                         "the template does not say how text '%s' looks", TEXT_NAMES[role]);
}

/* Whether a panel of that kind, open to all that it can show, stands on the plans of that sort. */
static bool stands_on(const Template *template, PanelKind kind, PanelWhen when) {
    for (size_t i = 0; i < template->panels.count; i++) {
        const Panel *panel = template->panels.items[i];
        if (panel->kind == kind && !panel->only.count && panel->with < 0 && panel->without < 0 &&
            (panel->when == WHEN_ALWAYS || panel->when == when))
            return true;
    }
    return false;
}

/* What has to be there on every plan, good or refused. */
static void check_essentials(Reader *reader, const Element *root) {
    static const PanelKind kinds[] = {PANEL_HEADLINE, PANEL_CAUTIONS, PANEL_CARE, PANEL_FOOTER};
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        if (stands_on(reader->template, kinds[k], WHEN_LIT) &&
            stands_on(reader->template, kinds[k], WHEN_REFUSED))
            continue;
        report_error(reader->diagnostics, root->place,
                     arena_format(reader->arena, "write <panel kind=\"%s\"/> in 'arrange'",
                                  PANEL_NAMES[kinds[k]]),
                     "the sheet lacks the panel '%s', which stands on every sheet",
                     PANEL_NAMES[kinds[k]]);
    }
}

static void check_children(Reader *reader, const Element *root) {
    Names known = names_split(reader->arena, "page text arrange give-way");
    for (const Element *child = element_child(root, NULL); child;
         child = element_sibling(child, NULL)) {
        bool found = false;
        for (size_t i = 0; i < known.count; i++)
            found = found || strcmp(child->name, known.items[i]) == 0;
        if (!found)
            element_unknown(reader->diagnostics, child, "page text arrange give-way");
    }
}

const Template *template_read(Arena *arena, const Element *root, const FaceSet *faces,
                              Diagnostics *diagnostics) {
    size_t errors = diagnostics_errors(diagnostics, NULL);
    Reader reader = {arena, faces, diagnostics, ARENA_NEW(arena, Template)};
    if (strcmp(root->name, "sheet") != 0) {
        report_error(diagnostics, root->place, "a sheet template starts with <sheet>",
                     "'%s' is no sheet template", root->name);
        return NULL;
    }
    reader.template->place = root->place;
    reader.template->file = root->place.file;
    attribute_only(diagnostics, root, "");
    check_children(&reader, root);
    read_texts(&reader, root);
    const Element *page = only_child(&reader, root, "page");
    if (page)
        read_page(&reader, page);
    const Element *arrange = only_child(&reader, root, "arrange");
    if (arrange) {
        attribute_only(diagnostics, arrange, "");
        reader.template->arrange = read_block(&reader, arrange, BLOCK_COLUMN);
        check_essentials(&reader, root);
    }
    const Element *give_way = element_child(root, "give-way");
    if (give_way)
        read_give_way(&reader, give_way);
    return diagnostics_errors(diagnostics, NULL) == errors ? reader.template : NULL;
}
