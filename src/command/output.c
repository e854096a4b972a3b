#include "command/output.h"

#include "base/file.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

enum { FOLDER_MODE = 0777 };

const char *output_name(Arena *arena, const char *batch_path) {
    const char *slash = strrchr(batch_path, '/');
    const char *name = slash ? slash + 1 : batch_path;
    const char *dot = strrchr(name, '.');
    return dot && dot != name ? arena_copy(arena, name, (size_t)(dot - name)) : name;
}

static bool is_folder(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

bool output_is_file(const char *path) {
    size_t length = strlen(path);
    return length > 4 && !strcmp(path + length - 4, ".pdf") && !is_folder(path);
}

const char *output_path(Arena *arena, const char *folder, const char *batch_path,
                        const char *kind) {
    const char *to = folder ? folder : OUTPUT_FOLDER;
    const char *joint = to[strlen(to) - 1] == '/' ? "" : "/";
    return arena_format(arena, "%s%s%s.%s.pdf", to, joint, output_name(arena, batch_path), kind);
}

/* Makes the folder of the path, one level. */
static bool make_folder(Arena *arena, const char *path) {
    const char *slash = strrchr(path, '/');
    if (!slash || slash == path)
        return true;
    const char *folder = arena_copy(arena, path, (size_t)(slash - path));
    if (is_folder(folder) || mkdir(folder, FOLDER_MODE) == 0 || errno == EEXIST)
        return true;
    fprintf(stderr, "burnsheet: error: can not make the folder '%s': %s\n", folder,
            strerror(errno));
    return false;
}

bool output_write(Arena *arena, const char *path, const uint8_t *bytes, size_t length) {
    const char *error = NULL;
    if (!make_folder(arena, path))
        return false;
    if (file_write(arena, path, bytes, length, &error))
        return true;
    fprintf(stderr, "burnsheet: error: %s\n", error);
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
