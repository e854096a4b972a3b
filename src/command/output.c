#include "command/output.h"

#include "base/diagnostic.h"
#include "base/file.h"
#include "base/file_path.h"
#include "command/folder.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { FOLDER_MODE = 0777 };

bool output_is_file(const char *path) {
    struct stat status;
    if (stat(path, &status) == 0)
        return !S_ISDIR(status.st_mode);
    size_t length = strlen(path);
    return length > 4 && !strcmp(path + length - 4, ".pdf");
}

bool output_together(const Options *options) {
    return options->output && output_is_file(options->output);
}

const char *output_path(Arena *arena, const char *folder, const char *batch_path,
                        const char *kind) {
    const char *to = folder ? folder : OUTPUT_FOLDER;
    return arena_format(arena, "%s%s.%s.pdf", folder_path(arena, to),
                        file_path_stem(arena, batch_path), kind);
}

bool output_make_folder(Arena *arena, const char *path) {
    size_t length = file_path_folder_length(path);
    if (length < 2)
        return true;
    const char *folder = arena_copy(arena, path, length - 1);
    if (folder_there(folder) || mkdir(folder, FOLDER_MODE) == 0 || errno == EEXIST)
        return true;
    say_line(stderr, "burnsheet: error: can not make the folder '%s': %s", folder, strerror(errno));
    return false;
}

/* Whether the file begins as a PDF does (PDF 32000-1, 7.5.2). */
static bool is_pdf(const char *path) {
    static const char start[] = "%PDF-";
    char bytes[sizeof start - 1];
    int file = open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return false;
    ssize_t count = read(file, bytes, sizeof bytes);
    close(file);
    return count == (ssize_t)sizeof bytes && !memcmp(bytes, start, sizeof bytes);
}

static bool is_read(const Options *options, const struct stat *status) {
    for (size_t i = 0; i < options->file_count; i++) {
        struct stat read;
        if (stat(options->files[i], &read) == 0 && read.st_dev == status->st_dev &&
            read.st_ino == status->st_ino)
            return true;
    }
    return false;
}

/* Why a page must not go there, as the end of a sentence; NULL: it may. */
static const char *objection(const Options *options, const char *path) {
    struct stat status;
    if (stat(path, &status) != 0)
        return lstat(path, &status) == 0 ? "is a link that leads nowhere" : NULL;
    if (!S_ISREG(status.st_mode))
        return NULL;
    if (is_read(options, &status))
        return "is read in this run and not written over";
    if (status.st_size > 0 && !is_pdf(path))
        return "is there and is no PDF: it is left as it is";
    return NULL;
}

bool output_write(Arena *arena, const Options *options, const char *path, const uint8_t *bytes,
                  size_t length) {
    const char *error = objection(options, path);
    if (error)
        say_line(stderr, "burnsheet: error: '%s' %s", path, error);
    if (error || !output_make_folder(arena, path))
        return false;
    if (file_write(arena, path, bytes, length, &error))
        return true;
    say_line(stderr, "burnsheet: error: %s", error);
    return false;
}

int64_t output_date(void) {
    const char *pinned = getenv("SOURCE_DATE_EPOCH");
    char *end = NULL;
    if (pinned && *pinned) {
        errno = 0;
        long long seconds = strtoll(pinned, &end, 10);
        if (!*end && errno == 0 && seconds >= 0)
            return seconds;
    }
    return (int64_t)time(NULL);
}
