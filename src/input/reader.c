#include "input/reader.h"

#include "base/file_path.h"
#include "input/date_check.h"
#include "input/logo_reader.h"
#include "input/readers.h"
#include "input/xml.h"

#include <string.h>

const ElementRule *const file_roots[] = {&workshop_rule, &batch_rule, &bagging_rule, NULL};

Reader reader_new(Arena *arena) {
    return (Reader){.arena = arena, .lasting = arena, .diagnostics = diagnostics_new(arena)};
}

Diagnostics reader_enter(Reader *reader, Arena *own) {
    Diagnostics before = reader->diagnostics;
    reader->arena = own;
    reader->diagnostics = diagnostics_new(own);
    for (size_t i = 0; i < before.sources.count; i++)
        LIST_ADD(own, &reader->diagnostics.sources, before.sources.items[i]);
    return before;
}

/* The texts of workshops read since then are known from now on. */
void reader_leave(Reader *reader, const Diagnostics *before) {
    reader->arena = reader->lasting;
    reader->diagnostics = *before;
    for (size_t i = 0; i < reader->workshops.count; i++) {
        KnownWorkshop *known = &reader->workshops.items[i];
        for (size_t j = 0; j < known->sources.count; j++)
            diagnostics_source(&reader->diagnostics, known->sources.items[j].file,
                               known->sources.items[j].text);
        known->sources.count = 0;
    }
}

static Form form_of(Reader *reader, BatchContext *context) {
    const Workshop *workshop = context ? context->workshop : NULL;
    return (Form){.arena = reader->arena,
                  .diagnostics = &reader->diagnostics,
                  .roots = file_roots,
                  .languages = reader->languages.count ? &reader->languages : NULL,
                  .zone = workshop ? workshop->zone : NULL,
                  .context = context};
}

static bool is_root(const char *name) {
    for (Roots root = file_roots; *root; root++)
        if (!strcmp((*root)->name, name))
            return true;
    return false;
}

/* A root element of another name than wanted; NULL wants any. */
static bool check_root(Reader *reader, const Element *root, const char *wanted) {
    bool known = is_root(root->name);
    if (known && (!wanted || !strcmp(root->name, wanted)))
        return true;
    if (known)
        report_error(&reader->diagnostics, root->place,
                     arena_format(reader->arena, "it is a %s file", root->name), "not a %s file",
                     wanted);
    else
        report_error(&reader->diagnostics, root->place,
                     wanted
                         ? arena_format(reader->arena, "a %s file starts with <%s>", wanted, wanted)
                         : "a file starts with <batch>, <bagging> or <workshop>",
                     "'%s' at the start of the file", root->name);
    return false;
}

static const Element *read_root(Reader *reader, const char *path, Place named_at,
                                const char *wanted) {
    bool could_not_open = false;
    const char *remedy =
        named_at.file ? "workshop=\"FILE\" names it; left out, it is workshop.xml beside the batch"
                      : NULL;
    const Element *root =
        xml_read_at(&reader->diagnostics, path, named_at, remedy, &could_not_open);
    reader->could_not_open = reader->could_not_open || could_not_open;
    return root && check_root(reader, root, wanted) ? root : NULL;
}

/* ---- Workshop ------------------------------------------------------------------------------ */

static void load_logo(Reader *reader, const Element *root, Maker *maker) {
    const char *name = maker->logo_file;
    if (!name)
        return;
    maker->logo.blank = !strcmp(name, "blank");
    if (maker->logo.blank)
        return;
    const char *path =
        path_beside(reader->arena, file_path_folder(reader->arena, root->place.file), name);
    bool could_not_open = false;
    read_logo(&reader->diagnostics, path, element_value_place(element_child(root, "maker"), "logo"),
              &maker->logo, &could_not_open);
    reader->could_not_open = reader->could_not_open || could_not_open;
}

static const Workshop *make_workshop(Reader *reader, const Element *root) {
    Form form = form_of(reader, NULL);
    Workshop *workshop = ARENA_NEW(reader->arena, Workshop);
    form_check(&form, &workshop_rule, root);
    form_read(&form, &workshop_rule, root, workshop);
    load_logo(reader, root, &workshop->maker);
    return workshop;
}

static const KnownWorkshop *known_workshop(const Reader *reader, const char *path) {
    for (size_t i = 0; i < reader->workshops.count; i++)
        if (!strcmp(reader->workshops.items[i].path, path))
            return &reader->workshops.items[i];
    return NULL;
}

/* Reads a workshop that is not yet known. `root` is NULL when its file could not be read;
 * `errors` there were before that. */
static KnownWorkshop add_workshop(Reader *reader, const char *path, const Element *root,
                                  size_t errors) {
    KnownWorkshop known = {.path = arena_string(reader->arena, path),
                           .could_not_open = reader->could_not_open};
    known.workshop = root ? make_workshop(reader, root) : NULL;
    known.errors = diagnostics_errors(&reader->diagnostics, NULL) - errors;
    LIST_ADD(reader->arena, &reader->workshops, known);
    return known;
}

Arena *reader_use(Reader *reader, Arena *arena) {
    Arena *before = reader->arena;
    reader->arena = arena;
    reader->diagnostics.arena = arena;
    return before;
}

static KnownWorkshop load_workshop(Reader *reader, const char *path, Place named_at) {
    const KnownWorkshop *known = known_workshop(reader, path);
    reader->could_not_open = known && known->could_not_open;
    if (known)
        return *known;
    Arena *own = reader_use(reader, reader->lasting);
    size_t errors = diagnostics_errors(&reader->diagnostics, NULL);
    size_t sources = reader->diagnostics.sources.count;
    const Element *root = read_root(reader, path, named_at, "workshop");
    KnownWorkshop added = add_workshop(reader, path, root, errors);
    KnownWorkshop *kept = &reader->workshops.items[reader->workshops.count - 1];
    for (size_t i = sources; i < reader->diagnostics.sources.count; i++)
        LIST_ADD(reader->arena, &kept->sources, reader->diagnostics.sources.items[i]);
    reader_use(reader, own);
    return added;
}

const Workshop *read_workshop(Reader *reader, const char *path) {
    KnownWorkshop known = load_workshop(reader, path, (Place){0});
    return known.errors ? NULL : known.workshop;
}

/* ---- Batch --------------------------------------------------------------------------------- */

static const Workshop *workshop_of(Reader *reader, const Element *root, const char *folder) {
    Form form = form_of(reader, NULL);
    const char *name = form_text(&form, root, "workshop");
    if (!name && element_attribute(root, "workshop"))
        return NULL;
    const char *path = path_beside(reader->arena, folder, name ? name : "workshop.xml");
    Place named_at = element_value_place(root, "workshop");
    bool told_now = !known_workshop(reader, path);
    KnownWorkshop known = load_workshop(reader, path, named_at);
    if (known.errors && !(told_now && known.could_not_open))
        report_error(&reader->diagnostics, named_at, "mend the workshop first",
                     known.could_not_open ? "no workshop '%s'" : "the workshop '%s' has faults",
                     path);
    return known.workshop;
}

/* Reads a root that names a workshop; what it has in common with others of its kind. */
static void read_with_workshop(Reader *reader, const Element *root, const char *path,
                               const ElementRule *rule, void *into) {
    const char *folder = file_path_folder(reader->arena, path);
    BatchContext context = {.workshop = workshop_of(reader, root, folder), .folder = folder};
    Form form = form_of(reader, &context);
    form_check(&form, rule, root);
    form_read(&form, rule, root, into);
    reader->could_not_open = reader->could_not_open || context.could_not_open;
}

static const Batch *make_batch(Reader *reader, const Element *root, const char *path) {
    Batch *batch = ARENA_NEW(reader->arena, Batch);
    read_with_workshop(reader, root, path, &batch_rule, batch);
    date_check(&reader->diagnostics, batch, reader->now);
    return batch;
}

static const Bagging *make_bagging(Reader *reader, const Element *root, const char *path) {
    Bagging *bagging = ARENA_NEW(reader->arena, Bagging);
    read_with_workshop(reader, root, path, &bagging_rule, bagging);
    date_check_bagging(&reader->diagnostics, bagging, reader->now);
    return bagging;
}

const Batch *read_batch(Reader *reader, const char *path) {
    size_t before = diagnostics_errors(&reader->diagnostics, NULL);
    reader->could_not_open = false;
    const Element *root = read_root(reader, path, (Place){0}, batch_rule.name);
    const Batch *batch = root ? make_batch(reader, root, path) : NULL;
    return diagnostics_errors(&reader->diagnostics, NULL) == before ? batch : NULL;
}

const Bagging *read_bagging(Reader *reader, const char *path) {
    size_t before = diagnostics_errors(&reader->diagnostics, NULL);
    reader->could_not_open = false;
    const Element *root = read_root(reader, path, (Place){0}, bagging_rule.name);
    const Bagging *bagging = root ? make_bagging(reader, root, path) : NULL;
    return diagnostics_errors(&reader->diagnostics, NULL) == before ? bagging : NULL;
}

ReadFile read_any(Reader *reader, const char *path) {
    size_t before = diagnostics_errors(&reader->diagnostics, NULL);
    bool could_not_open = false;
    const Element *root = xml_read(&reader->diagnostics, path, &could_not_open);
    reader->could_not_open = could_not_open;
    ReadFile file = {.kind = root ? root->name : NULL};
    if (!root || !is_root(root->name))
        return file;
    if (!strcmp(root->name, batch_rule.name))
        file.batch = make_batch(reader, root, path);
    else if (!strcmp(root->name, bagging_rule.name))
        file.bagging = make_bagging(reader, root, path);
    else if (known_workshop(reader, path))
        file.workshop = read_workshop(reader, path);
    else
        file.workshop = add_workshop(reader, path, root, before).workshop;
    bool good = diagnostics_errors(&reader->diagnostics, NULL) == before;
    return good ? file : (ReadFile){.kind = file.kind};
}

const char *read_kind(Reader *reader, const char *path) {
    reader->could_not_open = false;
    const Element *root = read_root(reader, path, (Place){0}, NULL);
    return root ? root->name : NULL;
}

TreeRead read_tree(Reader *reader, const char *path, const Element *root) {
    size_t before = diagnostics_errors(&reader->diagnostics, NULL);
    TreeRead read = {0};
    reader->could_not_open = false;
    if (known_workshop(reader, path))
        return (TreeRead){.good = read_workshop(reader, path) != NULL};
    if (!check_root(reader, root, NULL))
        return read;
    if (!strcmp(root->name, batch_rule.name))
        read.batch = make_batch(reader, root, path);
    else if (!strcmp(root->name, bagging_rule.name))
        read.bagging = make_bagging(reader, root, path);
    else
        add_workshop(reader, path, root, before);
    read.good = diagnostics_errors(&reader->diagnostics, NULL) == before;
    return read.good ? read : (TreeRead){0};
}

bool check_tree(Reader *reader, const char *path, const Element *root) {
    return read_tree(reader, path, root).good;
}
