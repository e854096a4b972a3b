#include "base/file_path.h"

#include <string.h>

size_t file_path_folder_length(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path) + 1 : 0;
}

const char *file_path_folder(Arena *arena, const char *path) {
    return arena_copy(arena, path, file_path_folder_length(path));
}

const char *file_path_last(const char *path) {
    return path + file_path_folder_length(path);
}

const char *file_path_stem(Arena *arena, const char *path) {
    const char *name = file_path_last(path);
    const char *dot = strrchr(name, '.');
    size_t length = dot && dot != name ? (size_t)(dot - name) : strlen(name);
    return arena_copy(arena, name, length);
}
