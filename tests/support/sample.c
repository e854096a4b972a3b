#include "support/sample.h"

#include "base/text.h"
#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glob.h>
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *sample_one_blank(Arena *arena, const char *raw) {
    static const char *const spaces[] = {"\u00a0", "\u2009", "\u202f", " ", "\n", "\f", "\r", "\t"};
    Text text = text_new(arena);
    while (*raw) {
        size_t length = 0;
        for (size_t i = 0; i < sizeof spaces / sizeof *spaces && !length; i++)
            if (!strncmp(raw, spaces[i], strlen(spaces[i])))
                length = strlen(spaces[i]);
        if (!length)
            text_add_bytes(&text, raw, 1);
        else if (text.length && text.bytes[text.length - 1] != ' ')
            text_add(&text, " ");
        raw += length ? length : 1;
    }
    return text.bytes;
}

static const char *program(Arena *arena, const char *arguments) {
    int status = -1;
    const char *said = outside_run(arena, &status, "\"$BURNSHEET\" %s", arguments);
    if (status != 0)
        print_error("burnsheet %s:\n%s\n", arguments, said);
    assert_int_equal(status, 0);
    return said;
}

static void read_sample(Sample *sample, Arena *arena, const char *file, const char *folder) {
    const char *name = strrchr(file, '/') + 1;
    sample->arena = arena;
    sample->name = arena_copy(arena, name, strlen(name) - strlen(".xml"));
    sample->fields = program(arena, arena_format(arena, "plan --as fields %s", file));
    sample->csv = program(arena, arena_format(arena, "plan --as csv %s", file));
    const char *xml = program(arena, arena_format(arena, "plan --as xml %s", file));
    sample->plan = xmlReadMemory(xml, (int)strlen(xml), NULL, NULL, XML_PARSE_NONET);
    program(arena, arena_format(arena, "sheet -o %s %s", folder, file));
    int status;
    const char *text =
        outside_run(arena, &status, "pdftotext -raw %s/%s.sheet.pdf -", folder, sample->name);
    sample->sheet = sample_one_blank(arena, text);
    assert_int_equal(status, 0);
}

void samples_read(Samples *samples) {
    setenv("BURNSHEET", ".build/burnsheet", 0);
    *samples = (Samples){.arena = arena_new()};
    const char *folder = outside_folder(samples->arena);
    glob_t files;
    assert_int_equal(glob("samples/*.xml", 0, NULL, &files), 0);
    for (size_t i = 0; i < files.gl_pathc; i++) {
        assert_true(samples->count < sizeof samples->items / sizeof *samples->items);
        bool other = strstr(files.gl_pathv[i], "workshop") || strstr(files.gl_pathv[i], "-us.xml");
        if (!other)
            read_sample(&samples->items[samples->count++], samples->arena, files.gl_pathv[i],
                        folder);
    }
    globfree(&files);
    outside_remove(folder);
    assert_true(samples->count >= 6);
}

void samples_free(Samples *samples) {
    for (size_t i = 0; i < samples->count; i++)
        xmlFreeDoc(samples->items[i].plan);
    xmlCleanupParser();
    arena_free(samples->arena);
}

/* ---- Finding figures ------------------------------------------------------------------------- */

Found sample_find(const Sample *sample, const char *path) {
    Found found = {0};
    xmlXPathContext *context = xmlXPathNewContext(sample->plan);
    const char *whole = arena_format(sample->arena, "/plan/%s", path);
    xmlXPathObject *result = xmlXPathEvalExpression((const xmlChar *)whole, context);
    assert_non_null(result);
    for (int i = 0; result->nodesetval && i < result->nodesetval->nodeNr; i++) {
        assert_true(found.count < sizeof found.nodes / sizeof *found.nodes);
        found.nodes[found.count++] = result->nodesetval->nodeTab[i];
    }
    xmlXPathFreeObject(result);
    xmlXPathFreeContext(context);
    return found;
}

const char *sample_text(const Sample *sample, xmlNode *node, const char *name) {
    xmlChar *raw = xmlGetNoNsProp(node, (const xmlChar *)name);
    const char *text = raw ? arena_string(sample->arena, (const char *)raw) : NULL;
    xmlFree(raw);
    return text;
}

const char *sample_must(const Sample *sample, xmlNode *node, const char *name) {
    const char *text = sample_text(sample, node, name);
    if (!text)
        fail_msg("%s: '%s' has no '%s'", sample->name, (const char *)node->name, name);
    return text;
}

double sample_number(const Sample *sample, xmlNode *node, const char *name) {
    return strtod(sample_must(sample, node, name), NULL);
}

xmlNode *sample_only(const Sample *sample, const char *path) {
    Found found = sample_find(sample, path);
    assert_int_equal(found.count, 1);
    return found.nodes[0];
}
