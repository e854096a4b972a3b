#include "schema/rule.h"

#include "base/text.h"

#include <string.h>

static const ElementRule *find(const ElementRule *in, const char *name, const ElementRule **outer) {
    for (size_t i = 0; i < in->child_count; i++) {
        const ElementRule *child = in->children[i].rule;
        *outer = in;
        const ElementRule *found = strcmp(child->name, name) ? find(child, name, outer) : child;
        if (found)
            return found;
    }
    return NULL;
}

const ElementRule *element_rule(Roots roots, const char *name, const ElementRule **outer) {
    const ElementRule *in = NULL;
    const ElementRule *found = NULL;
    for (; *roots && !found; roots++) {
        in = NULL;
        found = strcmp((*roots)->name, name) ? find(*roots, name, &in) : *roots;
    }
    if (outer)
        *outer = found ? in : NULL;
    return found;
}

const AttributeRule *attribute_rule(const ElementRule *element, const char *name) {
    for (size_t i = 0; i < element->attribute_count; i++)
        if (!strcmp(element->attributes[i].name, name))
            return &element->attributes[i];
    return NULL;
}

const ChildRule *child_rule(const ElementRule *element, const char *name) {
    for (size_t i = 0; i < element->child_count; i++)
        if (!strcmp(element->children[i].rule->name, name))
            return &element->children[i];
    return NULL;
}

static bool is_among(const ElementRules *rules, const ElementRule *rule) {
    for (size_t i = 0; i < rules->count; i++)
        if (rules->items[i] == rule)
            return true;
    return false;
}

static void add_element(Arena *arena, ElementRules *rules, const ElementRule *rule) {
    if (is_among(rules, rule))
        return;
    LIST_ADD(arena, rules, rule);
    for (size_t i = 0; i < rule->child_count; i++)
        add_element(arena, rules, rule->children[i].rule);
}

ElementRules element_rules(Arena *arena, const ElementRule *root) {
    ElementRules rules = {0};
    add_element(arena, &rules, root);
    return rules;
}

Names child_names(Arena *arena, const ElementRule *element) {
    Names names = {0};
    for (size_t i = 0; i < element->child_count; i++)
        LIST_ADD(arena, &names, element->children[i].rule->name);
    return names;
}

Names attribute_names(Arena *arena, const ElementRule *element) {
    Names names = {0};
    for (size_t i = 0; i < element->attribute_count; i++)
        LIST_ADD(arena, &names, element->attributes[i].name);
    return names;
}

Names rule_words(Arena *arena, const AttributeRule *rule) {
    Names names = {0};
    for (const char *at = rule->words; at && *at;) {
        size_t length = strcspn(at, " ");
        LIST_ADD(arena, &names, arena_copy(arena, at, length));
        at += length + (at[length] == ' ');
    }
    return names;
}

int rule_word(const AttributeRule *rule, const char *word) {
    size_t length = strlen(word);
    int number = 0;
    for (const char *at = rule->words; at && *at && length; number++) {
        size_t here = strcspn(at, " ");
        if (here == length && !strncmp(at, word, length))
            return number;
        at += here + (at[here] == ' ');
    }
    return -1;
}

bool rule_left_open(const AttributeRule *rule, const char *written) {
    return rule->open && written[0] == '?' && (!written[1] || rule->kind != VALUE_TEXT);
}

char *rule_note(Arena *arena, const AttributeRule *rule) {
    Text note = text_new(arena);
    text_add(&note, rule->help);
    if (rule->usual && !rule->required)
        text_addf(&note, "; %s when not written", rule->usual);
    if (rule->least)
        text_addf(&note, "; from %s to %s", rule->least, rule->most);
    return note.bytes;
}
