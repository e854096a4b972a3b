#include "fuzz/tree.h"

#include "base/diagnostic.h"
#include "input/reader.h"
#include "input/xml.h"

#include <stdlib.h>
#include <string.h>

/* libFuzzer's own change of bytes. */
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most);

enum { NODES_MOST = 4000, VALUE_BYTES_MOST = 4000, CHANGES_MOST = 4 };

typedef struct Value {
    const char *name;
    const char *text;
} Value;

typedef struct Node Node;

struct Node {
    const char *name;
    const char *text;
    const char *tail;
    Node *parent;
    LIST_OF(Value) values;
    LIST_OF(Node *) children;
};

typedef struct Tree {
    Arena *arena;
    uint64_t random;
    Node *root;
    LIST_OF(Node *) all;
} Tree;

/* ---- Reading and writing ---- */

static void write_escaped(Text *text, const char *string) {
    for (const char *at = string; *at; at++)
        switch (*at) {
        case '&': text_add(text, "&amp;"); break;
        case '<': text_add(text, "&lt;"); break;
        case '>': text_add(text, "&gt;"); break;
        case '"': text_add(text, "&quot;"); break;
        default: text_add_bytes(text, at, 1); break;
        }
}

void tree_write(Text *text, const Element *element) {
    text_addf(text, "<%s", element->name);
    for (size_t i = 0; i < element->attributes.count; i++) {
        text_addf(text, " %s=\"", element->attributes.items[i].name);
        write_escaped(text, element->attributes.items[i].value);
        text_add(text, "\"");
    }
    text_add(text, ">");
    write_escaped(text, element->text);
    for (const Element *child = element->first; child; child = child->next) {
        tree_write(text, child);
        write_escaped(text, child->tail);
    }
    text_addf(text, "</%s>", element->name);
}

static void write_node(Text *text, const Node *node) {
    text_addf(text, "<%s", node->name);
    for (size_t i = 0; i < node->values.count; i++) {
        text_addf(text, " %s=\"", node->values.items[i].name);
        write_escaped(text, node->values.items[i].text);
        text_add(text, "\"");
    }
    text_add(text, ">");
    write_escaped(text, node->text);
    for (size_t i = 0; i < node->children.count; i++)
        write_node(text, node->children.items[i]);
    text_addf(text, "</%s>", node->name);
    write_escaped(text, node->tail);
}

static Node *node_of(Arena *arena, const Element *element, Node *parent) {
    Node *node = ARENA_NEW(arena, Node);
    *node = (Node){.name = element->name,
                   .text = element->text,
                   .tail = parent ? element->tail : "",
                   .parent = parent};
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        LIST_ADD(arena, &node->values, ((Value){attribute->name, attribute->value}));
    }
    for (const Element *child = element->first; child; child = child->next)
        LIST_ADD(arena, &node->children, node_of(arena, child, node));
    return node;
}

static void gather(Tree *tree, Node *node) {
    if (tree->all.count < NODES_MOST)
        LIST_ADD(tree->arena, &tree->all, node);
    for (size_t i = 0; i < node->children.count; i++)
        gather(tree, node->children.items[i]);
}

/* ---- Chance: splitmix64 ---- */

static size_t below(Tree *tree, size_t limit) {
    uint64_t mixed = tree->random += 0x9E3779B97F4A7C15u;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9u;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBu;
    return limit ? (size_t)((mixed ^ (mixed >> 31)) % limit) : 0;
}

static bool one_in(Tree *tree, size_t count) {
    return below(tree, count) == 0;
}

static const char *one_of(Tree *tree, const char *const *texts, size_t count) {
    return texts[below(tree, count)];
}
#define ONE_OF(tree, texts) one_of(tree, texts, sizeof(texts) / sizeof *(texts))

static Node *any_node(Tree *tree) {
    return tree->all.items[below(tree, tree->all.count)];
}

/* ---- Values ---- */

static const char *any_text(Tree *tree) {
    static const char *const texts[] = {
        "",
        " ",
        "a",
        "Beech",
        "Łódź – 5 °C & <more>",
        "שלום",
        "{name}",
        "**",
        "beech beech beech",
        "a very long name that goes on and on, over the end of any line that it may stand on",
        "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft"};
    return ONE_OF(tree, texts);
}

static const char *any_instant(Tree *tree) {
    static const char *const days[] = {"2026-12-04", "2026-12-05", "2026-12-06", "2026-12-07",
                                       "2026-03-29", "2026-10-25", "2024-02-29", "1970-01-01",
                                       "2099-12-31", "2026-02-30"};
    static const char *const hours[] = {"T00:00", "T02:30", "T06:15", "T12:00",
                                        "T21:30", "T23:59", "T24:00"};
    return arena_format(tree->arena, "%s%s", ONE_OF(tree, days), ONE_OF(tree, hours));
}

/* A value of the same attribute elsewhere, or of one that names what others refer to. */
static const char *known_value(Tree *tree, const char *name) {
    LIST_OF(const char *) found = {0};
    for (size_t i = 0; i < tree->all.count; i++)
        for (size_t k = 0; k < tree->all.items[i]->values.count; k++) {
            const Value *value = &tree->all.items[i]->values.items[k];
            if (!strcmp(value->name, name) || !strcmp(value->name, "id"))
                LIST_ADD(tree->arena, &found, value->text);
        }
    return found.count ? found.items[below(tree, found.count)] : "beech";
}

/* Between the ends of a rule, with the unit of one of them. */
static const char *any_number(Tree *tree, const AttributeRule *rule) {
    static const char *const shares[] = {"12 g", "30 %", "0 %", "100 %", "0 g", "5 kg"};
    if (!rule->least || !rule->most)
        return ONE_OF(tree, shares);
    if (one_in(tree, 6))
        return one_in(tree, 2) ? rule->least : rule->most;
    char *unit = NULL;
    char *other = NULL;
    double least = strtod(rule->least, &unit);
    double most = strtod(rule->most, &other);
    if (strcmp(unit, other) != 0)
        most = least * (double)(2 + below(tree, 1000));
    double part = (double)below(tree, 1001) / 1000;
    part = one_in(tree, 2) ? part : part * part * part;
    return arena_format(tree->arena, "%.*f%s", rule->kind == VALUE_COUNT ? 0 : 3,
                        least + part * (most - least), unit);
}

static const char *value_by_rule(Tree *tree, const AttributeRule *rule) {
    Names words = rule_words(tree->arena, rule);
    if (words.count && (rule->kind == VALUE_WORD || one_in(tree, 3)))
        return words.items[below(tree, words.count)];
    switch (rule->kind) {
    case VALUE_TEXT: return one_in(tree, 3) ? known_value(tree, rule->name) : any_text(tree);
    case VALUE_ID: return known_value(tree, rule->name);
    case VALUE_INSTANT: return any_instant(tree);
    case VALUE_DATE: return arena_copy(tree->arena, any_instant(tree), strlen("2026-12-04"));
    default: return any_number(tree, rule);
    }
}

/* ---- Changes of one node ---- */

static void set_value(Tree *tree, Node *node, const char *name, const char *text) {
    for (size_t i = 0; i < node->values.count; i++)
        if (!strcmp(node->values.items[i].name, name)) {
            node->values.items[i].text = text;
            return;
        }
    LIST_ADD(tree->arena, &node->values, ((Value){name, text}));
}

static void value_from_rule(Tree *tree, Node *node) {
    const ElementRule *element = element_rule(file_roots, node->name, NULL);
    if (!element || !element->attribute_count)
        return;
    const AttributeRule *rule = &element->attributes[below(tree, element->attribute_count)];
    set_value(tree, node, rule->name, value_by_rule(tree, rule));
}

static Value *any_value(Tree *tree, Node *node) {
    return node->values.count ? &node->values.items[below(tree, node->values.count)] : NULL;
}

static void value_from_elsewhere(Tree *tree, Node *node) {
    Value *value = any_value(tree, node);
    if (value)
        value->text = known_value(tree, value->name);
}

static void value_away(Tree *tree, Node *node) {
    if (node->values.count) {
        size_t gone = below(tree, node->values.count);
        node->values.items[gone] = node->values.items[--node->values.count];
    }
}

static void value_in_bytes(Tree *tree, Node *node) {
    Value *value = any_value(tree, node);
    if (!value || strlen(value->text) > VALUE_BYTES_MOST / 2)
        return;
    char *bytes = arena_take(tree->arena, VALUE_BYTES_MOST + 1, 1);
    size_t length = strlen(value->text);
    memcpy(bytes, value->text, length);
    length = LLVMFuzzerMutate((uint8_t *)bytes, length, VALUE_BYTES_MOST);
    bytes[length] = 0;
    value->text = bytes;
}

/* Another number in the place of the first one that a value holds. */
static void number_in_value(Tree *tree, Node *node) {
    static const char *const numbers[] = {"0",    "1",     "2",    "0.001", "99.9", "100",
                                          "1000", "99999", "0.33", "12.5",  "-1",   "7"};
    Value *value = any_value(tree, node);
    if (!value)
        return;
    size_t before = strcspn(value->text, "0123456789");
    size_t digits = strspn(value->text + before, "0123456789.");
    if (digits)
        value->text = arena_format(tree->arena, "%.*s%s%s", (int)before, value->text,
                                   ONE_OF(tree, numbers), value->text + before + digits);
}

static void text_of_node(Tree *tree, Node *node) {
    node->text = any_text(tree);
}

static size_t place_in_parent(const Node *node) {
    for (size_t i = 0; i < node->parent->children.count; i++)
        if (node->parent->children.items[i] == node)
            return i;
    return 0;
}

static void node_away(Tree *tree, Node *node) {
    (void)tree;
    if (!node->parent)
        return;
    Node **siblings = node->parent->children.items;
    for (size_t i = place_in_parent(node); i + 1 < node->parent->children.count; i++)
        siblings[i] = siblings[i + 1];
    node->parent->children.count--;
}

static void node_twice(Tree *tree, Node *node) {
    if (!node->parent || tree->all.count >= NODES_MOST / 2)
        return;
    Node *copy = ARENA_NEW(tree->arena, Node);
    *copy = *node;
    copy->values.items = ARENA_ARRAY(tree->arena, node->values.count, Value);
    copy->values.capacity = node->values.count;
    if (node->values.count)
        memcpy(copy->values.items, node->values.items, node->values.count * sizeof(Value));
    LIST_ADD(tree->arena, &node->parent->children, copy);
}

static void node_elsewhere(Tree *tree, Node *node) {
    if (!node->parent)
        return;
    Node **siblings = node->parent->children.items;
    size_t at = place_in_parent(node);
    size_t other = below(tree, node->parent->children.count);
    Node *moved = siblings[other];
    siblings[other] = siblings[at];
    siblings[at] = moved;
}

/* A child by the rules, with what it must say. */
static void child_by_rule(Tree *tree, Node *node) {
    const ElementRule *element = element_rule(file_roots, node->name, NULL);
    if (!element || !element->child_count)
        return;
    const ElementRule *inner = element->children[below(tree, element->child_count)].rule;
    Node *child = ARENA_NEW(tree->arena, Node);
    *child = (Node){.name = inner->name, .text = "", .tail = "", .parent = node};
    for (size_t i = 0; i < inner->attribute_count; i++) {
        const AttributeRule *rule = &inner->attributes[i];
        if (rule->required || one_in(tree, 3))
            set_value(tree, child, rule->name, value_by_rule(tree, rule));
    }
    LIST_ADD(tree->arena, &node->children, child);
}

/* Those that keep a file good stand more than once. */
static void change(Tree *tree) {
    static void (*const changes[])(Tree *, Node *) = {
        value_from_rule,      value_from_rule, value_from_rule, value_from_rule, child_by_rule,
        value_from_elsewhere, value_away,      value_in_bytes,  number_in_value, number_in_value,
        text_of_node,         node_away,       node_twice,      node_elsewhere};
    changes[below(tree, sizeof changes / sizeof *changes)](tree, any_node(tree));
}

static size_t changed(Tree *tree, uint8_t *bytes, size_t size, size_t most) {
    Diagnostics diagnostics = diagnostics_new(tree->arena);
    const Element *root = xml_parse(&diagnostics, "fuzz.xml", (const char *)bytes, size);
    if (!root || one_in(tree, 10))
        return LLVMFuzzerMutate(bytes, size, most);
    tree->root = node_of(tree->arena, root, NULL);
    for (size_t turns = 1 + below(tree, CHANGES_MOST); turns > 0; turns--) {
        tree->all.count = 0;
        gather(tree, tree->root);
        change(tree);
    }
    Text text = text_new(tree->arena);
    write_node(&text, tree->root);
    if (text.length > most)
        return LLVMFuzzerMutate(bytes, size, most);
    memcpy(bytes, text.bytes, text.length);
    return text.length;
}

size_t tree_mutate(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    Tree tree = {.arena = arena_new(), .random = seed};
    size_t length = changed(&tree, bytes, size, most);
    arena_free(tree.arena);
    return length;
}
