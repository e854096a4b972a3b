#include "command/folder.h"

#include "base/memory.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

bool folder_there(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

const char *folder_path(Arena *arena, const char *folder) {
    size_t length = strlen(folder);
    return length && folder[length - 1] == '/' ? folder : arena_format(arena, "%s/", folder);
}

static int is_xml(const struct dirent *entry) {
    size_t length = strlen(entry->d_name);
    return length > 4 && !strcmp(entry->d_name + length - 4, ".xml");
}

/* Byte order, whatever the locale. */
static int by_name(const struct dirent **a, const struct dirent **b) {
    return strcmp((*a)->d_name, (*b)->d_name);
}

bool folder_files(Arena *arena, const char *folder, Names *files) {
    struct dirent **entries = NULL;
    errno = 0;
    int count = scandir(*folder ? folder : ".", &entries, is_xml, by_name);
    if (count < 0 && errno == ENOMEM)
        memory_none_left();
    for (int i = 0; i < count; i++) {
        LIST_ADD(arena, files, arena_format(arena, "%s%s", folder, entries[i]->d_name));
        free(entries[i]);
    }
    free(entries);
    return count >= 0;
}
