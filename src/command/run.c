#include "command/run.h"

#include "command/output.h"
#include "command/records.h"
#include "command/resource.h"
#include "command/together.h"
#include "input/xml.h"
#include "model/packing.h"
#include "model/plan.h"
#include "print/pdf.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* A clock that stands before the program was written tells nothing. */
static Instant known_time(Instant printed) {
    const Instant written = 1767225600; /* 2026-01-01 */
    return printed >= written ? printed : 0;
}

ExitStatus run_refuse(const char *command, const char *what) {
    say_line(stderr, "burnsheet: %s", what);
    say_line(stderr, "see 'burnsheet %s --help'", command);
    return STATUS_USAGE;
}

Run run_begin(const Options *options) {
    Arena *arena = arena_new();
    Run run = {.options = options,
               .arena = arena,
               .reader = reader_new(arena),
               .folder = resource_folder(arena),
               .printed = output_date()};
    run.reader.now = known_time(run.printed);
    return run;
}

void run_say(Run *run) {
    if (run->reader.diagnostics.list.count)
        progress_wipe(&run->progress);
    diagnostics_print(&run->reader.diagnostics, stderr);
    diagnostics_clear(&run->reader.diagnostics);
}

ExitStatus run_end(Run *run) {
    run_say(run);
    arena_free(run->arena);
    run->arena = NULL;
    return run->status;
}

ExitStatus run_note(Run *run, ExitStatus status) {
    if (status > run->status)
        run->status = status;
    return status;
}

bool run_data(Run *run) {
    if (access(arena_format(run->arena, "%s/templates", run->folder), R_OK) == 0)
        return true;
    say_line(stderr, "burnsheet: error: no templates in '%s'", run->folder);
    say_line(stderr, "    BURNSHEET_DATA may name the folder that holds templates/ and fonts/");
    run_note(run, STATUS_FILES);
    return false;
}

const FaceSet *run_faces(Run *run) {
    if (run->faces)
        return run->faces;
    const char *error = NULL;
    run->faces = faces_load(run->arena, arena_format(run->arena, "%s/fonts", run->folder), &error);
    if (!run->faces) {
        say_line(stderr, "burnsheet: error: %s", error);
        say_line(stderr,
                 "    the faces belong in '%s/fonts': 'make fonts' makes them in the source tree",
                 run->folder);
    }
    return run->faces;
}

static const char *template_path(const Run *run, const char *name) {
    size_t length = strlen(name);
    bool file = strchr(name, '/') || (length > 4 && !strcmp(name + length - 4, ".xml"));
    return file ? name : arena_format(run->arena, "%s/templates/%s.xml", run->folder, name);
}

/* Whether there is a file of that name in the folder of templates or words; else says which of
 * `names` there are. */
static bool is_there(Run *run, const char *what, const char *folder, const char *name,
                     Names (*names_in)(Run *, const char *, const char *), const char *papers) {
    const char *path = arena_format(run->arena, "%s/%s.xml", folder, name);
    if (access(path, F_OK) == 0)
        return true;
    Names names = names_in(run, folder, papers);
    if (!names.count)
        return true; /* reading it says what is wrong with the folder */
    report_error(&run->reader.diagnostics, (Place){0},
                 arena_format(run->arena, "there are: %s", names_listed(run->arena, &names)),
                 "no %s '%s' (%s)", what, name, path);
    run_say(run);
    run_note(run, STATUS_FILES);
    return false;
}

static Names every_name(Run *run, const char *folder, const char *papers) {
    (void)papers;
    return resource_names(run->arena, folder);
}

/* Whether the name is one of those listed with blanks between. */
static bool is_among(const char *listed, const char *name) {
    size_t length = strlen(name);
    for (const char *at = strstr(listed, name); at; at = strstr(at + 1, name))
        if ((at == listed || at[-1] == ' ') && (at[length] == ' ' || !at[length]))
            return true;
    return false;
}

/* The templates of these papers: only those could be used. */
static Names names_of_papers(Run *run, const char *folder, const char *papers) {
    Names all = resource_names(run->arena, folder), names = {0};
    Diagnostics unsaid = diagnostics_new(run->arena);
    for (size_t i = 0; i < all.count; i++) {
        const char *path = arena_format(run->arena, "%s/%s.xml", folder, all.items[i]);
        const Element *root = xml_read(&unsaid, path, NULL);
        if (root && is_among(papers, root->name))
            LIST_ADD(run->arena, &names, all.items[i]);
    }
    return names;
}

const Element *run_template(Run *run, const char *name, const char *papers) {
    bool could_not_open = false;
    const char *folder = arena_format(run->arena, "%s/templates", run->folder);
    bool own = template_path(run, name) == name;
    if (!own && !is_there(run, "template", folder, name, names_of_papers, papers))
        return NULL;
    Arena *now = reader_use(&run->reader, run->arena);
    const Element *root =
        xml_read(&run->reader.diagnostics, template_path(run, name), &could_not_open);
    run_note(run, could_not_open ? STATUS_FILES : root ? STATUS_DONE : STATUS_FAULTS);
    if (!root)
        run_say(run);
    reader_use(&run->reader, now);
    return root;
}

/* A stock that the command line speaks of has to be there too. */
static bool firsts_are_known(Run *run) {
    FirstLabels firsts = options_firsts(run->options);
    size_t errors = diagnostics_errors(&run->reader.diagnostics, NULL);
    for (size_t i = 0; i < firsts.count; i++)
        if (firsts.items[i].stock)
            stock_asked(run->stocks, firsts.items[i].stock, (Place){0}, firsts.items[i].number,
                        (Place){0}, &run->reader.diagnostics);
    bool good = diagnostics_errors(&run->reader.diagnostics, NULL) == errors;
    run_say(run);
    run_note(run, good ? STATUS_DONE : STATUS_USAGE);
    return good;
}

const StockSet *run_stocks(Run *run) {
    if (run->stocks)
        return run->stocks;
    Arena *own = reader_use(&run->reader, run->arena);
    const Element *root = run_data(run) ? run_template(run, "stock", "stock") : NULL;
    if (root) {
        run->stocks = stock_read(run->arena, root, &run->reader.diagnostics);
        run_say(run);
        run_note(run, run->stocks ? STATUS_DONE : STATUS_FAULTS);
    }
    reader_use(&run->reader, own);
    if (run->stocks && !firsts_are_known(run))
        run->stocks = NULL;
    return run->stocks;
}

const Words *run_words(Run *run, const char *language) {
    for (size_t i = 0; i < run->words.count; i++)
        if (!strcmp(run->words.items[i].language, language))
            return run->words.items[i].words;
    const char *lasting = arena_string(run->arena, language);
    const char *folder = arena_format(run->arena, "%s/templates/words", run->folder);
    bool could_not_open = false;
    if (!is_there(run, "language", folder, language, every_name, NULL)) {
        LIST_ADD(run->arena, &run->words, ((KnownWords){lasting, NULL}));
        return NULL;
    }
    const char *path = arena_format(run->arena, "%s/%s.xml", folder, language);
    Arena *own = reader_use(&run->reader, run->arena);
    const Element *root = xml_read(&run->reader.diagnostics, path, &could_not_open);
    const Words *words = root ? words_read(run->arena, root, &run->reader.diagnostics) : NULL;
    run_say(run);
    reader_use(&run->reader, own);
    run_note(run, could_not_open ? STATUS_FILES : words ? STATUS_DONE : STATUS_FAULTS);
    LIST_ADD(run->arena, &run->words, ((KnownWords){lasting, words}));
    return words;
}

const Workshop *run_workshop(const Run *run, Arena *arena, const Workshop *workshop) {
    const Options *options = run->options;
    Workshop *changed = ARENA_NEW(arena, Workshop);
    *changed = *workshop;
    if (options->language)
        changed->language = options->language;
    if (options->units)
        changed->units = strcmp(options->units, "us") ? UNITS_METRIC : UNITS_US;
    if (options->paper)
        changed->paper = strcmp(options->paper, "Letter") ? PAPER_A4 : PAPER_LETTER;
    return changed;
}

const Workshop *job_workshop(const Job *job) {
    return job->workshop ? job->workshop
           : job->batch  ? job->batch->workshop
                         : job->bagging->workshop;
}

const char *job_name(const Job *job) {
    return job->workshop ? job->workshop->name : job->batch ? job->batch->name : job->bagging->name;
}

static const char *trays_take(Arena *arena, const PackingStock *stock) {
    return stock->tonight_kg > 0
               ? arena_format(arena, "the trays %.0f g, ", stock->tonight_kg * 1000)
               : "";
}

/* More bags than the shelf can fill: nothing is printed that can not be packed. */
bool run_shelf_suffices(Run *run, const PackingPlan *packing) {
    bool enough = true;
    for (size_t i = 0; i < packing->stocks.count; i++) {
        const PackingStock *stock = &packing->stocks.items[i];
        if (!(stock->missing_kg > 0))
            continue;
        enough = false;
        report_error(&run->reader.diagnostics, packing->bagging->place,
                     "fill fewer bags, or write how much there is as 'stock' of the dust",
                     "'%s' is %.0f g short: the bags take %.0f g, %sand %.0f g are there",
                     stock->name, ceil(stock->missing_kg * 1000), stock->taken_kg * 1000,
                     trays_take(run->arena, stock), stock->before_kg * 1000);
    }
    return enough;
}

static bool stocks_are_known(Run *run, const PackingPlan *packing) {
    bool good = true;
    for (size_t i = 0; i < packing->blends.count; i++)
        for (size_t k = 0; k < packing->blends.items[i].bags.count; k++) {
            const BagOrder *order = packing->blends.items[i].bags.items[k].bag.order;
            good = stock_asked(run->stocks, order->stock, order->place, order->first, order->place,
                               &run->reader.diagnostics) &&
                   good;
        }
    return good;
}

/* Counts the labels of the bags as printing them would; the sheets go on over all files of a run
 * where those go into one document. */
static bool count_labels(Run *run, const Job *job, PackingPlan *packing) {
    if (run->looks_back)
        return true;
    if (!run_stocks(run) || !stocks_are_known(run, packing))
        return false;
    bool together = output_together(run->options);
    if (!together)
        run->sheets = (LabelSheets){0};
    FirstLabels firsts = options_firsts(run->options);
    packing_count_labels(together ? run->arena : job->arena, packing, run->stocks, firsts,
                         &run->sheets);
    return true;
}

bool run_pack(Run *run, Job *job) {
    PackingPlan *packing = job->batch ? packing_plan_of_night(job->arena, job->plan)
                                      : packing_plan(job->arena, job->bagging);
    bool good = count_labels(run, job, packing);
    job->packing = packing;
    job->fields = packing_fields(job->arena, packing);
    return good && (run->looks_back || run_shelf_suffices(run, packing));
}

void run_count(size_t done, size_t total, const char *what) {
    if (done < total && total > 1)
        fprintf(stderr, "burnsheet: %zu of %zu %s done\n", done, total, what);
}

Document *run_document(Run *run, Arena *arena, const Workshop *workshop, const char *title) {
    Document *document = document_new(arena, title, workshop->language);
    document->author = workshop->maker.name;
    document->creator = "burnsheet " BURNSHEET_VERSION;
    document->dated = true;
    document->created = run->printed;
    return document;
}

ExitStatus run_write(Run *run, Arena *arena, const Document *document, const char *path) {
    const FaceSet *faces = run_faces(run);
    Bytes bytes;
    const char *error = NULL;
    if (!faces)
        return STATUS_FILES;
    if (!pdf_write(document, faces, arena, &bytes, &error)) {
        say_line(stderr, "burnsheet: error: no pages for '%s': %s", path, error);
        return STATUS_FAULTS;
    }
    return output_write(arena, run->options, path, bytes.data, bytes.length) ? STATUS_DONE
                                                                             : STATUS_FILES;
}
