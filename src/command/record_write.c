#include "command/record_write.h"

#include "input/append.h"
#include "input/xml.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static ExitStatus fail(ExitStatus status, const char *path, const char *what) {
    say_line(stderr, "burnsheet: error: '%s' %s", path, what);
    return status;
}

/* A file that somebody made read-only is not replaced by one that is the same but for its text. */
static const char *objection(const char *path) {
    struct stat status;
    if (stat(path, &status) == 0 && !S_ISREG(status.st_mode))
        return "is no plain file: paste the record by hand";
    return access(path, W_OK) == 0 ? NULL : "may not be written";
}

static bool is_batch(const Element *root) {
    return root && !strcmp(root->name, "batch");
}

/* Whether the bytes are a batch that can get a record; reports if not. */
static bool takes_record(Run *run, const char *path, const Bytes *bytes) {
    const Element *root =
        xml_parse(&run->reader.diagnostics, path, (const char *)bytes->data, bytes->length);
    const Element *record = is_batch(root) ? element_child(root, "record") : NULL;
    if (record)
        report_error(&run->reader.diagnostics, record->place, "write into it what happened",
                     "there is a record already");
    return is_batch(root) && !record;
}

/* Whether what would be written is read without a fault. */
static bool reads_well(Run *run, const char *path, const Bytes *bytes) {
    const Element *root =
        bytes->data && bytes->length <= XML_BYTES_MAX
            ? xml_parse(&run->reader.diagnostics, path, (const char *)bytes->data, bytes->length)
            : NULL;
    return is_batch(root) && check_tree(&run->reader, path, root);
}

ExitStatus record_write(Run *run, const Job *job, const char *element) {
    const char *path = job->file;
    const char *error = objection(path);
    Bytes before;
    if (error)
        return fail(STATUS_FILES, path, error);
    if (!file_read(job->arena, path, XML_BYTES_MAX, &before, &error)) {
        say_line(stderr, "burnsheet: error: %s", error);
        return STATUS_FILES;
    }
    if (!takes_record(run, path, &before))
        return STATUS_FAULTS;
    Bytes after = xml_append(job->arena, before, element);
    if (!reads_well(run, path, &after))
        return fail(STATUS_FAULTS, path, "would not be read with it: paste the record by hand");
    if (!file_write(job->arena, path, after.data, after.length, &error)) {
        say_line(stderr, "burnsheet: error: %s", error);
        return STATUS_FILES;
    }
    printf("%s has a record to fill in: write what happened in place of each question mark, and "
           "leave\n"
           "those that nobody can answer.\n"
           "then: burnsheet check %s\n",
           path, path);
    return STATUS_DONE;
}
