#include "layout/label_template.h"

#include "layout/attribute.h"

#include <string.h>

typedef struct Reader {
    Arena *arena;
    Diagnostics *diagnostics;
    LabelTemplate *template;
} Reader;

/* What may be written in each kind of item, and what it is set in unless that is written. */
typedef struct ItemRule {
    const char *element;
    const char *attributes;
    const char *children; /* "": none */
    LabelText text;
} ItemRule;

static const ItemRule rules[ITEM_KINDS] = {
    [ITEM_WORDS] = {"words", "name words brief title text if is strong", "", LABEL_FACT},
    [ITEM_PARTS] = {"parts", "name text", "", LABEL_PARTS},
    [ITEM_FACT] = {"fact", "name words brief title if is", "", LABEL_FACT},
    [ITEM_FACTS] = {"facts", "name apart", "fact", LABEL_FACT},
    [ITEM_CAUTIONS] = {"cautions", "name", "words", LABEL_CAUTION},
    [ITEM_RUN] = {"run", "name text", "words", LABEL_MAKER},
    [ITEM_NET] = {"net", "name", "", LABEL_NET},
    [ITEM_RULE] = {"rule", "name line", "", LABEL_FACT},
    [ITEM_SPACE] = {"space", "name height least grow", "", LABEL_FACT},
    [ITEM_ROW] = {"row", "name apart least", "words parts facts run net", LABEL_FACT},
};

static const char top_items[] = "words parts facts cautions run net rule space row";

/* Words that law, or the safety of whoever opens the bag, wants on every bag. */
static const char *const must_have[] = {
    "label.name",         "label.lot_mark",    "label.packed_on", "label.maker",
    "label.address",      "label.contact",     "label.use",       "label.monoxide",
    "label.fine_dust",    "label.keep",        "label.untreated", "label.grain_range",
    "label.moisture_dry", "label.moisture_wet"};

const char *label_text_name(LabelText text) {
    static const char *const names[LABEL_TEXTS] = {"name", "kind",    "parts", "title",
                                                   "fact", "caution", "net",   "maker"};
    return text < LABEL_TEXTS ? names[text] : "";
}

static Names text_names(Arena *arena) {
    Names names = {0};
    for (int i = 0; i < LABEL_TEXTS; i++)
        LIST_ADD(arena, &names, label_text_name((LabelText)i));
    return names;
}

static Names face_names(Arena *arena) {
    Names names = {0};
    for (int i = 0; i < FACE_COUNT; i++)
        LIST_ADD(arena, &names, face_role_name((FaceRole)i));
    return names;
}

static void read_text(Reader *reader, const Element *element) {
    attribute_only(reader->diagnostics, element, "name face size least leading");
    Names texts = text_names(reader->arena);
    Names faces = face_names(reader->arena);
    if (!attribute_required(reader->diagnostics, element, "name"))
        return;
    int text = attribute_choice(reader->diagnostics, element, "name", "text", &texts, -1);
    int face = attribute_choice(reader->diagnostics, element, "face", "face", &faces, 0);
    if (text < 0 || face < 0)
        return;
    LabelSize size = {.face = (FaceRole)face};
    size.size_pt = attribute_length(reader->diagnostics, element, "size", LENGTH_PT, LABEL_LEAST_PT,
                                    200, LABEL_LEAST_PT);
    size.least_pt = attribute_length(reader->diagnostics, element, "least", LENGTH_PT,
                                     LABEL_LEAST_PT, size.size_pt, size.size_pt);
    size.leading =
        attribute_length(reader->diagnostics, element, "leading", LENGTH_NONE, 0.9, 2, 1.2);
    reader->template->texts[text] = size;
}

static bool among(const char *name, const char *list, Arena *arena) {
    Names names = names_split(arena, list);
    for (size_t i = 0; i < names.count; i++)
        if (strcmp(names.items[i], name) == 0)
            return true;
    return false;
}

static LabelItem *read_item(Reader *reader, const Element *element, const char *may_be);

static void read_items(Reader *reader, const Element *element, LabelItem *item) {
    const char *children = rules[item->kind].children;
    for (const Element *child = element->first; child; child = child->next) {
        LabelItem *inner = read_item(reader, child, children);
        if (inner)
            LIST_ADD(reader->arena, &item->items, inner);
    }
    if (item->kind == ITEM_ROW && item->items.count != 2)
        report_error(reader->diagnostics, element->place, NULL, "a row holds two items, not %zu",
                     item->items.count);
    else if (*children && item->items.count == 0)
        report_error(reader->diagnostics, element->place, NULL, "'%s' is empty", element->name);
}

static void read_measures(Reader *reader, const Element *element, LabelItem *item) {
    Diagnostics *diagnostics = reader->diagnostics;
    if (item->kind == ITEM_RULE)
        item->height_mm = attribute_length(diagnostics, element, "line", LENGTH_MM, 0.1, 2, 0.2);
    if (item->kind == ITEM_SPACE) {
        item->height_mm = attribute_length(diagnostics, element, "height", LENGTH_MM, 0, 50, 1);
        item->least_mm = attribute_length(diagnostics, element, "least", LENGTH_MM, 0,
                                          item->height_mm, item->height_mm);
        item->grow = attribute_length(diagnostics, element, "grow", LENGTH_NONE, 0, 100, 0);
    }
    if (item->kind == ITEM_ROW)
        item->least_mm = attribute_length(diagnostics, element, "least", LENGTH_MM, 5, 200, 25);
    if (item->kind == ITEM_ROW || item->kind == ITEM_FACTS)
        item->apart_mm = attribute_length(diagnostics, element, "apart", LENGTH_MM, 0, 50, 4);
}

static void read_keys(Reader *reader, const Element *element, LabelItem *item) {
    bool spoken = item->kind == ITEM_WORDS || item->kind == ITEM_FACT;
    item->name = element_value(element, "name");
    item->words = spoken ? attribute_required(reader->diagnostics, element, "words") : NULL;
    item->title = item->kind == ITEM_FACT
                      ? attribute_required(reader->diagnostics, element, "title")
                      : element_value(element, "title");
    item->brief = element_value(element, "brief");
    item->field = element_value(element, "if");
    item->is = element_value(element, "is");
    Names answers = names_split(reader->arena, "no yes");
    item->strong =
        attribute_choice(reader->diagnostics, element, "strong", "answer", &answers, 0) == 1;
    Names texts = text_names(reader->arena);
    int text = attribute_choice(reader->diagnostics, element, "text", "text", &texts,
                                (int)rules[item->kind].text);
    item->text = text < 0 ? rules[item->kind].text : (LabelText)text;
}

static LabelItem *read_item(Reader *reader, const Element *element, const char *may_be) {
    int kind = 0;
    while (kind < ITEM_KINDS && strcmp(rules[kind].element, element->name) != 0)
        kind++;
    if (kind == ITEM_KINDS || !among(element->name, may_be, reader->arena)) {
        element_unknown(reader->diagnostics, element, may_be);
        return NULL;
    }
    attribute_only(reader->diagnostics, element, rules[kind].attributes);
    LabelItem *item = ARENA_NEW(reader->arena, LabelItem);
    item->place = element->place;
    item->kind = (LabelItemKind)kind;
    item->index = (int)reader->template->items.count;
    LIST_ADD(reader->arena, &reader->template->items, item);
    read_keys(reader, element, item);
    read_measures(reader, element, item);
    read_items(reader, element, item);
    return item;
}

static void read_arrange(Reader *reader, const Element *element) {
    for (const Element *child = element->first; child; child = child->next) {
        LabelItem *item = read_item(reader, child, top_items);
        if (item)
            LIST_ADD(reader->arena, &reader->template->arrange, item);
    }
}

static void read_shrink(Reader *reader, const Element *element, LabelGive *give) {
    attribute_only(reader->diagnostics, element, "texts to");
    const char *written = attribute_required(reader->diagnostics, element, "texts");
    Names texts = names_split(reader->arena, written ? written : "");
    for (size_t i = 0; i < texts.count; i++) {
        int text = 0;
        while (text < LABEL_TEXTS && strcmp(label_text_name((LabelText)text), texts.items[i]) != 0)
            text++;
        if (text == LABEL_TEXTS)
            report_error(reader->diagnostics, element_value_place(element, "texts"), NULL,
                         "unknown text '%s'", texts.items[i]);
        else
            give->texts[text] = true;
    }
    give->to_pt =
        attribute_length(reader->diagnostics, element, "to", LENGTH_PT, LABEL_LEAST_PT, 200, 0);
}

static bool is_must(const LabelItem *item) {
    if (item->kind == ITEM_NET || item->kind == ITEM_PARTS)
        return true;
    for (size_t i = 0; item->words && i < sizeof must_have / sizeof *must_have; i++)
        if (strcmp(item->words, must_have[i]) == 0)
            return true;
    for (size_t i = 0; i < item->items.count; i++)
        if (is_must(item->items.items[i]))
            return true;
    return false;
}

static void read_drop(Reader *reader, const Element *element, LabelGive *give) {
    attribute_only(reader->diagnostics, element, "item");
    give->item = -1;
    const char *name = attribute_required(reader->diagnostics, element, "item");
    for (size_t i = 0; name && i < reader->template->items.count; i++) {
        const LabelItem *item = reader->template->items.items[i];
        if (item->name && strcmp(item->name, name) == 0)
            give->item = item->index;
    }
    if (name && give->item < 0)
        report_error(reader->diagnostics, element_value_place(element, "item"), NULL,
                     "no item of the label is named '%s'", name);
    else if (name && is_must(reader->template->items.items[give->item]))
        report_error(reader->diagnostics, element_value_place(element, "item"),
                     "give way elsewhere, or use larger stock",
                     "'%s' has to be on every bag and cannot be dropped", name);
}

static bool give_kind_find(const char *name, LabelGiveKind *kind) {
    static const char *const names[] = {"shrink", "tighten", "run-in", "shorten", "drop"};
    for (int i = 0; i <= LABEL_DROP; i++) {
        if (strcmp(name, names[i]) == 0) {
            *kind = (LabelGiveKind)i;
            return true;
        }
    }
    return false;
}

static void read_give_way(Reader *reader, const Element *element) {
    for (const Element *child = element->first; child; child = child->next) {
        LabelGive give = {.item = -1};
        if (!give_kind_find(child->name, &give.kind)) {
            element_unknown(reader->diagnostics, child, "shrink tighten run-in shorten drop");
            continue;
        }
        if (give.kind == LABEL_SHRINK)
            read_shrink(reader, child, &give);
        else if (give.kind == LABEL_DROP)
            read_drop(reader, child, &give);
        else
            attribute_only(reader->diagnostics, child, "");
        LIST_ADD(reader->arena, &reader->template->give_way, give);
    }
}

static bool has_words(const LabelTemplate *template, const char *key) {
    for (size_t i = 0; i < template->items.count; i++) {
        const char *words = template->items.items[i]->words;
        if (words && strcmp(words, key) == 0)
            return true;
    }
    return false;
}

static bool has_kind(const LabelTemplate *template, LabelItemKind kind) {
    for (size_t i = 0; i < template->items.count; i++)
        if (template->items.items[i]->kind == kind)
            return true;
    return false;
}

static void check_whole(Reader *reader, const Element *root) {
    const LabelTemplate *template = reader->template;
    for (int i = 0; i < LABEL_TEXTS; i++)
        if (template->texts[i].size_pt == 0)
            report_error(reader->diagnostics, root->place, NULL, "no <text name=\"%s\">",
                         label_text_name((LabelText)i));
    for (size_t i = 0; i < sizeof must_have / sizeof *must_have; i++)
        if (!has_words(template, must_have[i]))
            report_error(reader->diagnostics, root->place, NULL,
                         "the words '%s' have to be on every bag", must_have[i]);
    if (!has_kind(template, ITEM_NET) || !has_kind(template, ITEM_PARTS))
        report_error(reader->diagnostics, root->place, NULL,
                     "<net/> and <parts/> have to be on every bag");
}

static void read_children(Reader *reader, const Element *root) {
    for (const Element *child = root->first; child; child = child->next) {
        if (strcmp(child->name, "text") == 0)
            read_text(reader, child);
        else if (strcmp(child->name, "arrange") == 0)
            read_arrange(reader, child);
        else if (strcmp(child->name, "give-way") == 0)
            read_give_way(reader, child);
        else
            element_unknown(reader->diagnostics, child, "text arrange give-way");
    }
}

const LabelTemplate *label_template_read(Arena *arena, const Element *root,
                                         Diagnostics *diagnostics) {
    size_t before = diagnostics_errors(diagnostics, NULL);
    LabelTemplate *template = ARENA_NEW(arena, LabelTemplate);
    Reader reader = {arena, diagnostics, template};
    template->place = root->place;
    if (strcmp(root->name, "label") != 0) {
        element_unknown(diagnostics, root, "label");
        return NULL;
    }
    attribute_only(diagnostics, root, "margin least-margin made-for-width made-for-height largest");
    template->margin_mm = attribute_length(diagnostics, root, "margin", LENGTH_MM, 1, 20, 4);
    template->least_margin_mm = attribute_length(diagnostics, root, "least-margin", LENGTH_MM, 1,
                                                 template->margin_mm, template->margin_mm);
    template->made_for_width_mm =
        attribute_length(diagnostics, root, "made-for-width", LENGTH_MM, 20, 400, 99.1);
    template->made_for_height_mm =
        attribute_length(diagnostics, root, "made-for-height", LENGTH_MM, 20, 400, 67.7);
    template->largest = attribute_length(diagnostics, root, "largest", LENGTH_NONE, 1, 5, 2);
    read_children(&reader, root);
    check_whole(&reader, root);
    return diagnostics_errors(diagnostics, NULL) == before ? template : NULL;
}
