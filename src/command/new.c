#include "command/file_name.h"
#include "command/new_values.h"
#include "command/output.h"
#include "command/resource.h"
#include "command/run.h"
#include "command/starter.h"

#include "base/file.h"
#include "input/xml.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* What can be begun, in the words of the command line, which are those of the files' roots and of
 * the templates in templates/starter/. */
static const char workshop_word[] = "workshop";
static const char batch_word[] = "batch";
static const char bagging_word[] = "bagging";

/* What was asked for. */
typedef struct Beginning {
    const char *what;
    const char *kind; /* of a batch's product; NULL: no batch */
    const char *name; /* on paper, as given; NULL: a made-up one */
    const char *path;
} Beginning;

/* ---- The command line ---------------------------------------------------------------------- */

static ExitStatus refuse(const char *problem, const char *word, const char *remedy) {
    say_line(stderr, "burnsheet: %s '%s'", problem, word);
    say_line(stderr, "    %s", remedy);
    return STATUS_USAGE;
}

/* A word that is none of those that can stand there. */
static ExitStatus refuse_word(Arena *arena, const char *problem, const char *word,
                              const Names *known) {
    const char *near = nearest_name(word, known);
    const char *list = names_listed(arena, known);
    return refuse(problem, word,
                  near ? arena_format(arena, "did you mean '%s'? there are: %s", near, list)
                       : arena_format(arena, "there are: %s", list));
}

static bool is_known(const Names *names, const char *word) {
    for (size_t i = 0; i < names->count; i++)
        if (!strcmp(names->items[i], word))
            return true;
    return false;
}

static bool is_folder(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

static bool ends_in(const char *text, const char *end) {
    size_t length = strlen(text), wanted = strlen(end);
    return length >= wanted && !strcmp(text + length - wanted, end);
}

/* A name on paper, in a folder ("" or with its slash); a workshop's file is always called so. */
static ExitStatus take_paper_name(Arena *arena, const char *folder, const char *name,
                                  Beginning *beginning) {
    const char *file = file_name_of(arena, name);
    if (!file || strpbrk(name, "\t\r\n\v\f\033"))
        return refuse("no file can be called", name,
                      "give a name with letters or digits, or a file that ends in .xml");
    bool shop = beginning->what == workshop_word;
    beginning->name = name;
    beginning->path = arena_format(arena, "%s%s.xml", folder, shop ? workshop_word : file);
    return STATUS_DONE;
}

/* The file, and the name on paper, of what was given behind the kind (NULL: nothing). */
static ExitStatus take_name(Arena *arena, const char *given, Beginning *beginning) {
    const char *usual =
        arena_format(arena, "%s.xml", beginning->kind ? beginning->kind : beginning->what);
    beginning->path = usual;
    if (!given)
        return STATUS_DONE;
    const char *slash = strrchr(given, '/');
    if (is_folder(given) || (slash && !slash[1]))
        beginning->path =
            arena_format(arena, "%s%s%s", given, ends_in(given, "/") ? "" : "/", usual);
    else if (ends_in(given, ".xml"))
        beginning->path = given;
    else
        return take_paper_name(arena,
                               slash ? arena_copy(arena, given, (size_t)(slash + 1 - given)) : "",
                               slash ? slash + 1 : given, beginning);
    return STATUS_DONE;
}

static ExitStatus take_kind(Arena *arena, const Options *options, Beginning *beginning) {
    const ElementRule *product = element_rule(file_roots, "product", NULL);
    Names kinds = rule_words(arena, attribute_rule(product, "kind"));
    if (options->file_count < 2)
        return refuse("of what kind is the", batch_word,
                      arena_format(arena, "write burnsheet new batch KIND; there are: %s",
                                   names_listed(arena, &kinds)));
    beginning->kind = options->files[1];
    return is_known(&kinds, beginning->kind)
               ? STATUS_DONE
               : refuse_word(arena, "unknown kind of product", beginning->kind, &kinds);
}

static ExitStatus take_words(Arena *arena, const Options *options, Beginning *beginning) {
    Names roots = {0};
    LIST_ADD(arena, &roots, workshop_word);
    LIST_ADD(arena, &roots, batch_word);
    LIST_ADD(arena, &roots, bagging_word);
    for (size_t i = 0; i < roots.count; i++)
        if (!strcmp(roots.items[i], options->files[0]))
            beginning->what = roots.items[i];
    if (!beginning->what)
        return refuse_word(arena, "can not begin", options->files[0], &roots);
    bool batch = beginning->what == batch_word;
    ExitStatus status = batch ? take_kind(arena, options, beginning) : STATUS_DONE;
    size_t used = batch ? 2 : 1;
    if (status != STATUS_DONE)
        return status;
    if (options->file_count > used + 1)
        return refuse("one name too many:", options->files[used + 1],
                      "put a name of several words between quotation marks");
    return take_name(arena, options->file_count > used ? options->files[used] : NULL, beginning);
}

/* ---- The file ------------------------------------------------------------------------------ */

static bool is_there(const char *path) {
    struct stat status;
    return lstat(path, &status) == 0;
}

static ExitStatus say_taken(const Beginning *beginning) {
    say_line(stderr, "burnsheet: error: '%s' is there already and is left as it is",
             beginning->path);
    say_line(stderr, "    give another name: burnsheet new %s%s%s %s", beginning->what,
             beginning->kind ? " " : "", beginning->kind ? beginning->kind : "",
             beginning->what == workshop_word ? "other.xml" : "'Another name'");
    return STATUS_FILES;
}

/* The workshop beside the file; NULL after saying what is wrong with it. */
static const Workshop *workshop_beside(Run *run, const char *path) {
    const char *slash = strrchr(path, '/');
    const char *folder = slash ? arena_copy(run->arena, path, (size_t)(slash + 1 - path)) : "";
    const char *file = arena_format(run->arena, "%sworkshop.xml", folder);
    if (!is_there(file)) {
        say_line(stderr, "burnsheet: error: there is no '%s'", file);
        say_line(stderr,
                 "    it says what the smokehouse owns; begin with: burnsheet new workshop%s%s",
                 *folder ? " " : "", folder);
        run_note(run, STATUS_FILES);
        return NULL;
    }
    const Workshop *workshop = read_workshop(&run->reader, file);
    if (!workshop)
        run_note(run, run->reader.could_not_open ? STATUS_FILES : STATUS_FAULTS);
    run_say(run);
    return workshop;
}

/* What is written is held to what is read: a name may be too long, or hold what XML can not. */
static bool is_good(Run *run, const char *path, const Text *text) {
    const Element *root = xml_parse(&run->reader.diagnostics, path, text->bytes, text->length);
    bool good = root && check_tree(&run->reader, path, root);
    run_say(run);
    if (!good)
        run_note(run, STATUS_FAULTS);
    return good;
}

static void say_next(const Beginning *beginning) {
    const char *path = beginning->path;
    printf("%s is written: look through it, above all at CHANGE and DEFAULT.\n", path);
    if (beginning->what == workshop_word)
        puts("then: burnsheet new batch cheese");
    else
        printf("then: burnsheet %s %s\n", beginning->what == batch_word ? "sheet" : "slip", path);
}

static ExitStatus write_new(Run *run, const Beginning *beginning, const Text *text) {
    bool taken = false;
    const char *error = NULL;
    if (!is_good(run, beginning->path, text))
        return run->status;
    if (!output_make_folder(run->arena, beginning->path))
        return run_note(run, STATUS_FILES);
    if (file_create(run->arena, beginning->path, text->bytes, text->length, &taken, &error)) {
        say_next(beginning);
        return STATUS_DONE;
    }
    if (taken)
        return run_note(run, say_taken(beginning));
    say_line(stderr, "burnsheet: error: %s", error);
    return run_note(run, STATUS_FILES);
}

static ExitStatus begin(Run *run, const Beginning *beginning) {
    bool shop = beginning->what == workshop_word;
    if (is_there(beginning->path))
        return run_note(run, say_taken(beginning));
    const Workshop *workshop = shop ? NULL : workshop_beside(run, beginning->path);
    if (!shop && !workshop)
        return run->status;
    const char *asked = run->options->language;
    const Words *words = run_words(run, asked ? asked : workshop ? workshop->language : "en");
    const char *file =
        arena_format(run->arena, "%s/templates/starter/%s.xml", run->folder, beginning->what);
    const Element *template = run_template(run, file, "starter");
    if (!words || !template)
        return run->status;
    Starter starter = {.arena = run->arena, .template = template, .words = words};
    NewAsked new = {.kind = beginning->kind,
                    .name = beginning->name,
                    .now = run->printed,
                    .options = run->options};
    if (shop)
        new_workshop_values(&starter, &new);
    else
        new_night_values(&starter, &new, workshop);
    Text text = starter_text(&starter);
    return write_new(run, beginning, &text);
}

static ExitStatus new_file(const Options *options) {
    Run run = run_begin(options);
    Beginning beginning = {0};
    ExitStatus status = take_words(run.arena, options, &beginning);
    if (status == STATUS_DONE)
        status = run_data(&run) ? begin(&run, &beginning) : STATUS_FILES;
    run_end(&run);
    return status;
}

const Command command_new = {
    .name = "new",
    .arguments = "WHAT [NAME]",
    .summary = "a file to begin from: workshop, batch KIND or bagging",
    .missing = "what shall be new? workshop, batch or bagging",
    .options = "lup",
    .run = new_file,
};
