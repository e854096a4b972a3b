#include "support/outside.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

const char *outside_folder(Arena *arena) {
    char *name = arena_string(arena, "/tmp/burnsheet-test-XXXXXX");
    if (!mkdtemp(name)) {
        perror("cannot make a folder for the test");
        exit(1);
    }
    return name;
}

void outside_remove(const char *folder) {
    Arena *arena = arena_new();
    outside_run(arena, NULL, "rm -rf '%s'", folder);
    arena_free(arena);
}

const char *outside_run(Arena *arena, int *status, const char *format, ...) {
    char command[2000];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(command, sizeof command, format, arguments);
    va_end(arguments);
    FILE *pipe = popen(arena_format(arena, "{ %s ; } 2>&1", command), "r");
    Text output = text_new(arena);
    char part[4096];
    size_t count;
    while (pipe && (count = fread(part, 1, sizeof part, pipe)) > 0)
        text_add_bytes(&output, part, count);
    int ended = pipe ? pclose(pipe) : -1;
    if (status)
        *status = ended != -1 && WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    return output.bytes;
}
