#include "command/resource.h"

#include "base/memory.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#ifndef BURNSHEET_DATA_DIR
#define BURNSHEET_DATA_DIR "."
#endif

enum { PATH_BYTES = 4096 };

/* PREFIX/share/burnsheet for a program in PREFIX/bin; NULL when there is none. */
static const char *installed_folder(Arena *arena) {
    char path[PATH_BYTES];
    ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    if (length <= 0)
        return NULL;
    path[length] = '\0';
    for (int up = 0; up < 2; up++) {
        char *slash = strrchr(path, '/');
        if (!slash)
            return NULL;
        *slash = '\0';
    }
    const char *folder = arena_format(arena, "%s/share/burnsheet", path);
    return access(arena_format(arena, "%s/templates", folder), R_OK) == 0 ? folder : NULL;
}

const char *resource_folder(Arena *arena) {
    const char *named = getenv("BURNSHEET_DATA");
    if (named && *named)
        return arena_string(arena, named);
    const char *installed = installed_folder(arena);
    return installed ? installed : BURNSHEET_DATA_DIR;
}

Names resource_names(Arena *arena, const char *folder) {
    struct dirent **entries = NULL;
    Names names = {0};
    errno = 0;
    int count = scandir(folder, &entries, NULL, alphasort);
    if (count < 0 && errno == ENOMEM)
        memory_none_left();
    for (int i = 0; i < count; i++) {
        const char *dot = strrchr(entries[i]->d_name, '.');
        int length = dot && strcmp(dot, ".xml") == 0 ? (int)(dot - entries[i]->d_name) : 0;
        const char *name = arena_format(arena, "%.*s", length, entries[i]->d_name);
        if (length > 0)
            LIST_ADD(arena, &names, name);
        free(entries[i]);
    }
    free(entries);
    return names;
}
