/* Building: a pattern's nodes become blocks, one for each row, with their words filled and
 * measured. */
#include "base/utf8.h"
#include "layout/attribute.h"
#include "layout/block.h"
#include "layout/phrase.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define NO_BREAK_SPACE "\xC2\xA0"

typedef LIST_OF(const char *) Strings;

/* The phrases of a text, in full and in few words. */
typedef struct Said {
    Strings full;
    Strings brief;
} Said;

Layout layout_new(Arena *arena, const Pattern *pattern, const Plan *plan, const FieldGroup *fields,
                  const Locale *locale, const FaceSet *faces, Diagnostics *diagnostics) {
    return (Layout){.pattern = pattern,
                    .plan = plan,
                    .fields = fields,
                    .locale = locale,
                    .diagnostics = diagnostics,
                    .place = plan->batch->place,
                    .pen = {.arena = arena, .faces = faces, .ink = ink_black()},
                    .sizes_pt = ARENA_ARRAY(arena, pattern->styles.count, double),
                    .scale = 1,
                    .state = 1};
}

/* ---- Conditions ---- */

static bool field_holds(const Field *field) {
    if (!format_shown(field))
        return false;
    bool counts = field->type == FIELD_YES ||
                  (field->type == FIELD_QUANTITY && field->quantity.kind == QUANTITY_COUNT);
    return !counts || field->quantity.value != 0;
}

static bool field_is(const Field *field, const char *value) {
    if (field->type == FIELD_QUANTITY || field->type == FIELD_YES)
        return field->quantity.value == strtod(value, NULL);
    return field->text && strcmp(field->text, value) == 0;
}

/* One of the conditions: "field", "field=word", "*rows", each with "!" before it for not. */
static bool condition_holds(Layout *layout, const Node *node, const FieldGroup *row, char *name) {
    bool wanted = *name != '!';
    name += wanted ? 0 : 1;
    if (*name == '*')
        return (field_row(row, name + 1, 0) != NULL) == wanted;
    char *value = strchr(name, '=');
    if (value)
        *value++ = '\0';
    const Field *field = field_find(row, name);
    if (!field) {
        report_error(layout->diagnostics, node->place,
                     "'burnsheet plan --as fields' lists every field", "no field '%s' here", name);
        return false;
    }
    return (value ? field_is(field, value) : field_holds(field)) == wanted;
}

static bool node_stands(Layout *layout, const Node *node, const FieldGroup *row) {
    /* a night that is over can not be refused any more */
    bool refused = layout->plan->verdict == VERDICT_DO_NOT_LIGHT && !layout->plan->happened.over;
    if (node->when != WHEN_ANY && (node->when == WHEN_NIGHT_REFUSED) != refused)
        return false;
    if (!node->condition)
        return true;
    Names names = names_split(layout->pen.arena, node->condition);
    for (size_t i = 0; i < names.count; i++)
        if (!condition_holds(layout, node, row, arena_string(layout->pen.arena, names.items[i])))
            return false;
    return true;
}

/* ---- Words ---- */

/* The key with the texts of the row's fields in the place of its braces; NULL: nothing to say. */
static const char *filled_key(Layout *layout, const Node *node, const char *pattern,
                              const FieldGroup *row) {
    if (!strchr(pattern, '{'))
        return pattern;
    Text key = text_new(layout->pen.arena);
    while (*pattern) {
        size_t plain = strcspn(pattern, "{");
        text_add_bytes(&key, pattern, plain);
        pattern += plain;
        if (!*pattern)
            break;
        size_t length = strcspn(++pattern, "}");
        const char *path = arena_copy(layout->pen.arena, pattern, length);
        const Field *field = field_find(row, path);
        if (!field) {
            report_error(layout->diagnostics, node->place,
                         "'burnsheet plan --as fields' lists every field", "no field '%s' here",
                         path);
            return NULL;
        }
        if (!field->text)
            return NULL;
        text_add(&key, field->text);
        pattern += length + (pattern[length] == '}');
    }
    return key.bytes;
}

static bool is_letter(uint32_t code) {
    return (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z') || code >= 0xC0;
}

/* Keeps a word of one letter, and a number, with the next one. */
static const char *kept_together(Arena *arena, const char *string) {
    Text text = text_new(arena);
    uint32_t before = ' ';
    bool alone = false;
    while (*string) {
        const char *from = string;
        uint32_t code = 0;
        if (!utf8_next(&string, &code))
            code = (unsigned char)*string++;
        if (code == ' ' && alone)
            text_add(&text, NO_BREAK_SPACE);
        else
            text_add_bytes(&text, from, (size_t)(string - from));
        bool starts = before == ' ' || before == 0xA0;
        bool figure = code >= '0' && code <= '9';
        alone = starts ? is_letter(code) || figure : alone && figure && before <= '9';
        before = code;
    }
    return text.bytes;
}

const char *layout_words(Layout *layout, const char *key, const FieldGroup *row) {
    const char *text = phrase_word(layout->pen.arena, layout->locale, layout->pattern->place, key,
                                   row, layout->diagnostics);
    return text ? text : "?";
}

const char *layout_figure(Layout *layout, QuantityKind kind, double value, const char *style) {
    const char *text =
        format_quantity(layout->pen.arena, layout->locale, quantity(kind, value), style);
    return text ? text : "?";
}

const char *layout_time(Layout *layout, Instant at, const char *style) {
    return layout_figure(layout, QUANTITY_INSTANT, at ? (double)at : NOT_STATED, style);
}

double layout_hour_mm(Layout *layout, TextStyle style) {
    return pen_width_mm(&layout->pen, style, format_widest_hour(layout->locale));
}

/* What a node says for a row by one of its keys; NULL: nothing. */
static const char *say(Layout *layout, const Node *node, const char *pattern,
                       const FieldGroup *row) {
    static const char strong[] = {WRAP_STRONG, '\0'};
    static const char plain[] = {WRAP_PLAIN, '\0'};
    const char *key = filled_key(layout, node, pattern, row);
    if (!key)
        return NULL;
    bool figures = node->figures && !node->strong;
    const char *text = phrase_word_marked(layout->pen.arena, layout->locale, node->place, key, row,
                                          figures ? strong : "", figures ? plain : "",
                                          layout->diagnostics);
    if (!text || !*text)
        return NULL;
    text = kept_together(layout->pen.arena, text);
    return node->strong ? arena_format(layout->pen.arena, "%s%s%s", strong, text, plain) : text;
}

/* "WARNING  text", "Grain 310 µm" or the text alone. */
static const char *led(Layout *layout, const Node *node, const char *lead_key, const char *text,
                       const FieldGroup *row) {
    const char *key = lead_key ? filled_key(layout, node, lead_key, row) : NULL;
    const char *lead = key ? phrase_word(layout->pen.arena, layout->locale, node->place, key, row,
                                         layout->diagnostics)
                           : NULL;
    if (!lead)
        return text;
    if (!node->strong_lead)
        return arena_format(layout->pen.arena, "%s" NO_BREAK_SPACE "%s", lead, text);
    return arena_format(layout->pen.arena, "%c%s%c" NO_BREAK_SPACE NO_BREAK_SPACE "%s", WRAP_STRONG,
                        lead, WRAP_PLAIN, text);
}

static void say_node(Layout *layout, const Node *node, const FieldGroup *row, Said *said) {
    const char *full = say(layout, node, node->words, row);
    if (!full)
        return;
    const char *brief = node->brief ? say(layout, node, node->brief, row) : full;
    const char *lead_brief = node->lead_brief ? node->lead_brief : node->lead;
    bool same = brief == full && lead_brief == node->lead;
    full = led(layout, node, node->lead, full, row);
    LIST_ADD(layout->pen.arena, &said->full, full);
    LIST_ADD(layout->pen.arena, &said->brief,
             same ? full : led(layout, node, lead_brief, brief, row));
}

static void say_each(Layout *layout, const Node *node, const FieldGroup *row, Said *said) {
    if (!node->each) {
        if (node_stands(layout, node, row))
            say_node(layout, node, row, said);
        return;
    }
    const FieldGroup *each = NULL;
    for (size_t i = 0; (each = field_row(row, node->each, i)) != NULL; i++)
        if (node_stands(layout, node, each))
            say_node(layout, node, each, said);
}

/* ---- Texts ---- */

static void check_face(Layout *layout, const Face *plain, const Face *strong, const char *string) {
    const Face *face = plain;
    for (const char *at = string; *at;) {
        uint32_t code = 0xFFFD;
        bool valid = utf8_next(&at, &code);
        if (code == (uint32_t)WRAP_STRONG || code == (uint32_t)WRAP_PLAIN)
            face = code == (uint32_t)WRAP_STRONG ? strong : plain;
        else if (!valid || (!face_has(face, code) && code != '\n' && code != 0x200B)) {
            char letter[5] = "";
            utf8_encode(code, letter);
            report_error(layout->diagnostics, layout->place,
                         "write it with Latin, Greek or Cyrillic letters",
                         "the typeface has no character U+%04X, '%s', which '%s' holds",
                         (unsigned)code, letter, excerpt(layout->pen.arena, string));
            return;
        }
    }
}

Leaf block_leaf(Layout *layout, const Node *node, const char *string) {
    TextStyle style = {.face = layout->pattern->styles.items[node->style].face};
    const Face *plain = layout->pen.faces->faces[style.face];
    const Face *strong = layout->pen.faces->faces[style_strong(style).face];
    check_face(layout, plain, strong, string);
    return (Leaf){string, wrap_measure(layout->pen.arena, plain, strong, string)};
}

/* The text with blanks at which no line breaks. */
static const char *unbroken(Arena *arena, const char *string) {
    Text text = text_new(arena);
    for (; *string; string++) {
        if (*string == ' ')
            text_add(&text, NO_BREAK_SPACE);
        else
            text_add_bytes(&text, string, 1);
    }
    return text.bytes;
}

/* Whether a text ends with that character, switches of face left out. */
static bool ends_with(const Text *text, char character) {
    size_t length = text->length;
    while (length &&
           (text->bytes[length - 1] == WRAP_PLAIN || text->bytes[length - 1] == WRAP_STRONG))
        length--;
    return length && text->bytes[length - 1] == character;
}

static const char *joined(Arena *arena, const Node *node, const Strings *strings, bool whole) {
    Text text = text_new(arena);
    for (size_t i = 0; i < strings->count; i++) {
        const char *joint = node->joint ? node->joint : " ";
        if (i && *joint == '.' && ends_with(&text, '.'))
            joint++; /* an abbreviation's own full stop will do */
        text_add(&text, i ? joint : "");
        text_add(&text, whole ? unbroken(arena, strings->items[i]) : strings->items[i]);
    }
    return text.bytes;
}

static Wording wording_of(Layout *layout, const Node *node, const Strings *strings) {
    Arena *arena = layout->pen.arena;
    Wording wording = {0};
    if (!strings->count)
        return wording;
    if (node->lines || strings->count == 1) {
        wording.paragraphs = ARENA_ARRAY(arena, strings->count, Leaf);
        for (size_t i = 0; i < strings->count; i++)
            wording.paragraphs[wording.count++] = block_leaf(layout, node, strings->items[i]);
    }
    if (strings->count > 1 && (!node->lines || node->run_in)) {
        wording.runs = true;
        wording.broken = block_leaf(layout, node, joined(arena, node, strings, false));
        wording.whole = block_leaf(layout, node, joined(arena, node, strings, true));
    }
    return wording;
}

static void fill_text(Layout *layout, Block *block) {
    const Node *node = block->node;
    Said said = {0};
    if (node->words)
        say_node(layout, node, block->row, &said);
    for (size_t i = 0; i < node->nodes.count; i++)
        say_each(layout, node->nodes.items[i], block->row, &said);
    block->full = wording_of(layout, node, &said.full);
    bool same = true;
    for (size_t i = 0; i < said.full.count; i++)
        same = same && said.full.items[i] == said.brief.items[i];
    block->brief = same ? block->full : wording_of(layout, node, &said.brief);
}

/* ---- The tree ---- */

static Block *build(Layout *layout, const Node *node, const FieldGroup *row, const Block *parent);

static void build_nodes(Layout *layout, Block *block) {
    Arena *arena = layout->pen.arena;
    for (size_t i = 0; i < block->node->nodes.count; i++) {
        const Node *node = block->node->nodes.items[i];
        if (!node->each) {
            if (node_stands(layout, node, block->row))
                LIST_ADD(arena, &block->blocks, build(layout, node, block->row, block));
            continue;
        }
        const FieldGroup *row = NULL;
        for (size_t n = 0; (row = field_row(block->row, node->each, n)) != NULL; n++)
            if (node_stands(layout, node, row))
                LIST_ADD(arena, &block->blocks, build(layout, node, row, block));
    }
}

/* A row repeats its nodes side by side: too many would be none at all. */
static void check_cells(Layout *layout, const Block *block) {
    if (block->node->kind == NODE_ROW && block->blocks.count > CELLS_MOST)
        report_error(layout->diagnostics, block->node->place, "use a grid or a column",
                     "a row of %zu nodes, at most %d", block->blocks.count, CELLS_MOST);
}

static Block *build(Layout *layout, const Node *node, const FieldGroup *row, const Block *parent) {
    Block *block = ARENA_NEW(layout->pen.arena, Block);
    block->node = node;
    block->row = row;
    block->parent = parent;
    block->owner = node->name ? node->name : parent ? NULL : layout->pattern->paper;
    if (node->kind == NODE_CANVAS)
        block->drawn = ARENA_NEW(layout->pen.arena, DrawnPicture);
    if (node->kind == NODE_TEXT)
        fill_text(layout, block);
    else
        build_nodes(layout, block);
    check_cells(layout, block);
    return block;
}

bool layout_build(Layout *layout) {
    size_t errors = diagnostics_errors(layout->diagnostics, NULL);
    layout_reset(layout, 1);
    layout->root = build(layout, layout->pattern->root, layout->fields, NULL);
    return diagnostics_errors(layout->diagnostics, NULL) == errors;
}

bool layout_rebuild(Layout *layout, const FieldGroup *fields) {
    Layout before = *layout;
    layout->fields = fields;
    bool good = layout_build(layout);
    layout_reset(layout, before.scale);
    for (int step = 0; step <= layout->pattern->steps; step++)
        layout_give(layout, step, before.given[step]);
    return good;
}
