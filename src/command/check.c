#include "command/run.h"
#include "input/xml.h"
#include "layout/label_template.h"
#include "layout/stock.h"
#include "layout/template.h"
#include "layout/words.h"

#include <string.h>

/* A page template is measured with the faces it names. */
static bool check_sheet_template(Run *run, const Element *root) {
    const FaceSet *faces = run_faces(run);
    if (!faces)
        run_note(run, STATUS_FILES);
    return faces && template_read(run->arena, root, faces, &run->reader.diagnostics);
}

static bool check_root(Run *run, const char *file, const Element *root) {
    Diagnostics *diagnostics = &run->reader.diagnostics;
    if (!strcmp(root->name, "sheet"))
        return check_sheet_template(run, root);
    if (!strcmp(root->name, "label"))
        return label_template_read(run->arena, root, diagnostics) != NULL;
    if (!strcmp(root->name, "stock"))
        return stock_read(run->arena, root, diagnostics) != NULL;
    if (!strcmp(root->name, "words"))
        return words_read(run->arena, root, diagnostics) != NULL;
    bool good = check_tree(&run->reader, file, root);
    if (run->reader.could_not_open)
        run_note(run, STATUS_FILES);
    return good;
}

static void check_one(Run *run, const char *file) {
    bool could_not_open = false;
    const Element *root = xml_read(&run->reader.diagnostics, file, &could_not_open);
    if (!root)
        run_note(run, could_not_open ? STATUS_FILES : STATUS_FAULTS);
    else if (!check_root(run, file, root))
        run_note(run, STATUS_FAULTS);
    run_say(run);
}

static ExitStatus check(const Options *options) {
    Run run = run_begin(options);
    for (size_t i = 0; i < options->file_count; i++)
        check_one(&run, options->files[i]);
    ExitStatus status = run.status;
    run_end(&run);
    return status;
}

const Command command_check = {
    .name = "check",
    .arguments = "FILE...",
    .summary = "only read the files and report their faults",
    .options = "",
    .run = check,
};
