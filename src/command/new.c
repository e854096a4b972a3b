#include "command/file_name.h"
#include "command/folder.h"
#include "command/follow.h"
#include "command/new_values.h"
#include "command/output.h"
#include "command/resource.h"
#include "command/run.h"
#include "command/starter.h"

#include "base/file.h"
#include "base/file_path.h"
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
    const char *last = file_path_last(given);
    if (folder_there(given) || (!*last && last != given))
        beginning->path =
            arena_format(arena, "%s%s%s", given, ends_in(given, "/") ? "" : "/", usual);
    else if (ends_in(given, ".xml"))
        beginning->path = given;
    else
        return take_paper_name(arena, file_path_folder(arena, given), last, beginning);
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

static ExitStatus refuse_second(const char *word) {
    return refuse("one name too many:", word,
                  "put a name of several words between quotation marks");
}

/* Behind --after no kind is wanted, and the file goes where the last one lies: what that one names
 * is looked for from there. */
static ExitStatus take_after(Arena *arena, const Options *options, Beginning *beginning) {
    const ElementRule *product = element_rule(file_roots, "product", NULL);
    Names kinds = rule_words(arena, attribute_rule(product, "kind"));
    const char *given = options->file_count > 1 ? options->files[1] : NULL;
    if (beginning->what != batch_word)
        return refuse("--after is for a batch, not for a", beginning->what,
                      "burnsheet new batch --after monday.xml");
    if (given && is_known(&kinds, given))
        return refuse("the kind is that of the last one, not", given,
                      "take it out, or leave --after out");
    if (options->file_count > 2)
        return refuse_second(options->files[2]);
    ExitStatus status = given ? take_name(arena, given, beginning) : STATUS_DONE;
    const char *folder = file_path_folder(arena, options->after);
    if (status != STATUS_DONE || !given)
        return status;
    if (!strchr(beginning->path, '/'))
        beginning->path = arena_format(arena, "%s%s", folder, beginning->path);
    else if (strncmp(beginning->path, folder, strlen(folder)) != 0 || !*folder ||
             strchr(beginning->path + strlen(folder), '/'))
        return refuse("it has to go beside the last one, not to", beginning->path,
                      "give a name without a folder");
    return STATUS_DONE;
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
    if (options->after)
        return take_after(arena, options, beginning);
    bool batch = beginning->what == batch_word;
    ExitStatus status = batch ? take_kind(arena, options, beginning) : STATUS_DONE;
    size_t used = batch ? 2 : 1;
    if (status != STATUS_DONE)
        return status;
    if (options->file_count > used + 1)
        return refuse_second(options->files[used + 1]);
    return take_name(arena, options->file_count > used ? options->files[used] : NULL, beginning);
}

/* ---- The file ------------------------------------------------------------------------------ */

static bool is_there(const char *path) {
    struct stat status;
    return lstat(path, &status) == 0;
}

static ExitStatus say_taken(const Run *run, const Beginning *beginning) {
    const char *after = run->options->after, *kind = beginning->kind;
    const char *words = after  ? arena_format(run->arena, " --after %s", after)
                        : kind ? arena_format(run->arena, " %s", kind)
                               : "";
    bool shop = beginning->what == workshop_word;
    say_line(stderr, "burnsheet: error: '%s' is there already and is left as it is",
             beginning->path);
    say_line(stderr, "    give another name: burnsheet new %s%s %s", beginning->what, words,
             shop ? "other.xml" : "'Another name'");
    return STATUS_FILES;
}

/* The workshop beside the file; NULL after saying what is wrong with it. */
static const Workshop *workshop_beside(Run *run, const char *path) {
    const char *folder = file_path_folder(run->arena, path);
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

static void say_next(const Beginning *beginning, bool after) {
    const char *path = beginning->path;
    if (after)
        printf(
            "%s is written: the hours are the next ones, the weather is what is usual, and what "
            "was of\n"
            "that night alone is left out: record, lot, whether it was cured, salted and frozen.\n",
            path);
    else
        printf("%s is written: look through it, above all at CHANGE and DEFAULT.\n", path);
    if (beginning->what == workshop_word)
        printf("then: burnsheet new batch cheese%s%.*s\n", file_path_folder_length(path) ? " " : "",
               (int)file_path_folder_length(path), path);
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
        say_next(beginning, run->options->after != NULL);
        return STATUS_DONE;
    }
    if (taken)
        return run_note(run, say_taken(run, beginning));
    say_line(stderr, "burnsheet: error: %s", error);
    return run_note(run, STATUS_FILES);
}

static const Element *starter_template(Run *run, const char *what) {
    return run_template(
        run, arena_format(run->arena, "%s/templates/starter/%s.xml", run->folder, what), "starter");
}

/* monday.xml and monday-2026-12-01.xml are followed by monday-2026-12-08.xml. */
static const char *dated_path(Arena *arena, const char *last, Date date) {
    char day[DATE_TEXT_SIZE];
    Date earlier;
    date_format(date, day);
    size_t length = strlen(last) - (ends_in(last, ".xml") ? strlen(".xml") : 0);
    const char *stem = arena_copy(arena, last, length);
    if (length > DATE_TEXT_SIZE && stem[length - DATE_TEXT_SIZE] == '-' &&
        date_parse(stem + length - (DATE_TEXT_SIZE - 1), &earlier))
        stem = arena_copy(arena, stem, length - DATE_TEXT_SIZE);
    return arena_format(arena, "%s-%s.xml", stem, day);
}

static ExitStatus begin_after(Run *run, Beginning *beginning) {
    Bytes bytes;
    const char *last = run->options->after, *error = NULL;
    const Batch *batch = read_batch(&run->reader, last);
    const Element *template = batch ? starter_template(run, batch_word) : NULL;
    if (!batch)
        run_note(run, run->reader.could_not_open ? STATUS_FILES : STATUS_FAULTS);
    if (!template) {
        run_say(run);
        return run->status;
    }
    diagnostics_clear(&run->reader.diagnostics); /* remarks on the last one help nobody now */
    if (!file_read(run->arena, last, XML_BYTES_MAX, &bytes, &error)) {
        say_line(stderr, "burnsheet: error: %s", error);
        return run_note(run, STATUS_FILES);
    }
    Starter starter = {.arena = run->arena, .template = template};
    Following next = {.arena = run->arena, .batch = batch, .name = beginning->name};
    next.bytes = (const char *)bytes.data;
    next.length = bytes.length;
    next.days = follow_days(batch, run->printed);
    int64_t day = date_to_days(zone_civil(batch->workshop->zone, batch->timing.at).date);
    Date date = date_from_days(day + next.days);
    next.weather = new_usual_weather(&starter, run->options, batch->workshop, date);
    if (!beginning->path)
        beginning->path = dated_path(run->arena, last, date);
    if (is_there(beginning->path))
        return run_note(run, say_taken(run, beginning));
    Text text = follow_text(&next);
    return write_new(run, beginning, &text);
}

static ExitStatus begin(Run *run, const Beginning *beginning) {
    bool shop = beginning->what == workshop_word;
    if (is_there(beginning->path))
        return run_note(run, say_taken(run, beginning));
    const Workshop *workshop = shop ? NULL : workshop_beside(run, beginning->path);
    if (!shop && !workshop)
        return run->status;
    const char *asked = run->options->language;
    const Words *words = run_words(run, asked ? asked : workshop ? workshop->language : "en");
    const Element *template = starter_template(run, beginning->what);
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
    if (status == STATUS_DONE && !run_data(&run))
        status = STATUS_FILES;
    else if (status == STATUS_DONE)
        status = options->after ? begin_after(&run, &beginning) : begin(&run, &beginning);
    run_end(&run);
    return status;
}

const Command command_new = {
    .name = "new",
    .arguments = "WHAT [NAME]",
    .summary = "a file to begin from: workshop, batch KIND or bagging",
    .missing = "what shall be new? workshop, batch or bagging",
    .options = "lupn",
    .run = new_file,
};
