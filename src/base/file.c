/* realpath is an X/Open extension. */
#define _XOPEN_SOURCE 700

#include "base/file.h"

#include "base/file_path.h"
#include "base/memory.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FIRST_BUFFER = 16 * 1024, MOST_NAMES = 100 };

static bool fail(Arena *arena, const char **error, const char *doing, const char *path) {
    *error = arena_format(arena, "cannot %s '%s': %s", doing, path, strerror(errno));
    return false;
}

/* read(2) until `wanted` bytes are there or the file ends. */
static ssize_t read_some(int file, uint8_t *at, size_t wanted) {
    size_t got = 0;
    while (got < wanted) {
        ssize_t count = read(file, at + got, wanted - got);
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0)
            return -1;
        if (count == 0)
            break;
        got += (size_t)count;
    }
    return (ssize_t)got;
}

/* The size to begin with: the file's own and a byte to see its end, when it is known and small. */
static size_t first_capacity(int file, size_t most) {
    struct stat status;
    bool known = fstat(file, &status) == 0 && S_ISREG(status.st_mode) && status.st_size >= 0;
    if (known && (size_t)status.st_size <= most)
        return (size_t)status.st_size + 2;
    return FIRST_BUFFER;
}

static bool read_all(Arena *arena, int file, size_t most, Bytes *bytes) {
    size_t capacity = first_capacity(file, most);
    uint8_t *data = arena_take(arena, capacity, 1);
    size_t length = 0;
    for (;;) {
        ssize_t count = read_some(file, data + length, capacity - 1 - length);
        if (count < 0)
            return false;
        length += (size_t)count;
        if (length < capacity - 1 || length > most)
            break;
        uint8_t *moved = arena_take(arena, capacity * 2, 1);
        memcpy(moved, data, length);
        data = moved;
        capacity *= 2;
    }
    data[length] = 0;
    *bytes = (Bytes){data, length};
    return true;
}

bool file_read(Arena *arena, const char *path, size_t most, Bytes *bytes, const char **error) {
    int file = open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return fail(arena, error, "open", path);
    Bytes whole = {0};
    bool read_well = read_all(arena, file, most, &whole);
    int reason = errno;
    close(file);
    errno = reason;
    if (!read_well)
        return fail(arena, error, "read", path);
    if (whole.length > most) {
        *error = arena_format(arena, "'%s' is larger than the %zu bytes allowed", path, most);
        return false;
    }
    *bytes = whole;
    return true;
}

static bool write_all(int file, const uint8_t *data, size_t length) {
    while (length > 0) {
        ssize_t count = write(file, data, length);
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0)
            return false;
        data += count;
        length -= (size_t)count;
    }
    return true;
}

/* Pipes and devices cannot be renamed over. */
static bool write_straight(const char *path, const void *data, size_t length) {
    int file = open(path, O_WRONLY | O_CLOEXEC);
    if (file < 0)
        return false;
    bool written = write_all(file, data, length);
    int reason = errno;
    bool closed = close(file) == 0;
    if (!written)
        errno = reason;
    return written && closed;
}

/* Creates a new file beside `path`; its name goes to *name. */
static int open_beside(Arena *arena, const char *path, const char **name) {
    size_t folder = file_path_folder_length(path);
    for (int i = 0; i < MOST_NAMES; i++) {
        *name = arena_format(arena, "%.*s.%s.%ld-%d.part", (int)folder, path, path + folder,
                             (long)getpid(), i);
        int file = open(*name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST)
            return file;
    }
    return -1;
}

/* Makes a new name last. A file system that cannot flush a folder is left to its own ways. */
static void flush_folder(const char *folder) {
    int file = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0)
        return;
    fsync(file);
    close(file);
}

/* Whether all of it is on the disk and the file closed; always closes it. `like` lends its rights,
 * when it is there. */
static bool fill(int file, const void *data, size_t length, const struct stat *like) {
    bool whole = write_all(file, data, length) && fsync(file) == 0 &&
                 (!like || fchmod(file, like->st_mode & 07777) == 0);
    int reason = errno;
    bool closed = close(file) == 0;
    if (!whole)
        errno = reason;
    return whole && closed;
}

typedef bool (*GiveName)(const char *name, const char *path);

static bool give_over(const char *name, const char *path) {
    return rename(name, path) == 0;
}

/* A second name never replaces what is there. */
static bool give_new(const char *name, const char *path) {
    if (link(name, path) == 0) {
        unlink(name);
        return true;
    }
    if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS)
        return false;
    /* File systems without second names: the name is claimed with an empty file. */
    int claim = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (claim < 0)
        return false;
    close(claim);
    if (rename(name, path) == 0)
        return true;
    int reason = errno;
    unlink(path);
    errno = reason;
    return false;
}

/* Writes it under a name of its own, which is given the path's name once all is on the disk. */
static bool write_beside(Arena *arena, const char *path, const void *data, size_t length,
                         const struct stat *earlier, GiveName give) {
    const char *name;
    size_t length_of_folder = file_path_folder_length(path);
    const char *folder = length_of_folder ? arena_copy(arena, path, length_of_folder) : ".";
    int file = open_beside(arena, path, &name);
    if (file < 0)
        return false;
    if (fill(file, data, length, earlier) && give(name, path)) {
        flush_folder(folder);
        return true;
    }
    int reason = errno;
    unlink(name);
    errno = reason;
    return false;
}

/* Where a symbolic link leads, so that the link stays; the path itself when it is none. */
static const char *behind_link(Arena *arena, const char *path) {
    struct stat status;
    if (lstat(path, &status) != 0 || !S_ISLNK(status.st_mode))
        return path;
    char *real = realpath(path, NULL);
    if (!real && errno == ENOMEM)
        memory_none_left();
    const char *kept = real ? arena_string(arena, real) : path;
    free(real);
    return kept;
}

bool file_write(Arena *arena, const char *path, const void *data, size_t length,
                const char **error) {
    struct stat status;
    const char *target = behind_link(arena, path);
    bool exists = stat(target, &status) == 0;
    if (exists && S_ISDIR(status.st_mode)) {
        errno = EISDIR;
        return fail(arena, error, "write", path);
    }
    bool written =
        exists && !S_ISREG(status.st_mode)
            ? write_straight(target, data, length)
            : write_beside(arena, target, data, length, exists ? &status : NULL, give_over);
    return written ? true : fail(arena, error, "write", path);
}

static bool create_whole(Arena *arena, const char *path, const void *data, size_t length) {
    struct stat status;
    if (lstat(path, &status) == 0) {
        errno = EEXIST;
        return false;
    }
    return write_beside(arena, path, data, length, NULL, give_new);
}

bool file_create(Arena *arena, const char *path, const void *data, size_t length, bool *taken,
                 const char **error) {
    bool created = create_whole(arena, path, data, length);
    *taken = !created && errno == EEXIST;
    return created ? true : fail(arena, error, "write", path);
}
