#include "report/plan_xml.h"

#include "report/figure.h"

static void add_escaped(Text *text, const char *raw) {
    for (; *raw; raw++) {
        switch (*raw) {
        case '&': text_add(text, "&amp;"); break;
        case '<': text_add(text, "&lt;"); break;
        case '>': text_add(text, "&gt;"); break;
        case '"': text_add(text, "&quot;"); break;
        case '\t': text_add(text, "&#9;"); break;
        case '\n': text_add(text, "&#10;"); break;
        case '\r': text_add(text, "&#13;"); break;
        default: text_add_bytes(text, raw, 1);
        }
    }
}

static void add_attribute(Text *text, const Field *field, const Zone *zone) {
    Text value = text_new(text->arena);
    if (!figure_add(&value, field, zone))
        return;
    text_addf(text, " %s=\"", field->name);
    add_escaped(text, value.bytes);
    text_add(text, "\"");
}

static void add_group(Text *text, const FieldGroup *group, const Zone *zone, int depth) {
    text_addf(text, "%*s<%s", 2 * depth, "", group->name);
    for (size_t i = 0; i < group->fields.count; i++)
        add_attribute(text, &group->fields.items[i], zone);
    if (!group->groups.count) {
        text_add(text, "/>\n");
        return;
    }
    text_add(text, ">\n");
    for (size_t i = 0; i < group->groups.count; i++)
        add_group(text, group->groups.items[i], zone, depth + 1);
    text_addf(text, "%*s</%s>\n", 2 * depth, "", group->name);
}

void plan_xml(Text *text, const Plan *plan, const FieldGroup *fields, const char *version) {
    text_add(text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    text_addf(text,
              "<!-- burnsheet %s: figures in SI units, moisture on dry basis, shares as "
              "fractions of 1 -->\n",
              version);
    add_group(text, fields, plan->workshop->zone, 0);
}
