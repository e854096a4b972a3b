#include "command/run.h"

static ExitStatus check(const Options *options) {
    Run run = run_begin(options);
    for (size_t i = 0; i < options->file_count; i++) {
        if (!check_file(&run.reader, options->files[i]))
            run_note(&run, run.reader.could_not_open ? STATUS_FILES : STATUS_FAULTS);
        run_say(&run);
    }
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
