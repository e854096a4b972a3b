/* A library that is loaded before the program (LD_PRELOAD) and makes its n-th call of one kind
 * fail: FAULT_CALL names the kind, FAULT_AT is n, from 1. FAULT_COUNT names a file that is told how
 * many there were. The program itself knows nothing of all this. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

/* The C library's own (glibc), so that no search for them has to allocate. */
extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *piece, size_t size);

static const char *watched = "";
static long failing;
static long calls;
static int ready;

__attribute__((constructor)) static void begin(void) {
    const char *kind = getenv("FAULT_CALL");
    const char *at = getenv("FAULT_AT");
    watched = kind ? kind : "";
    failing = at ? strtol(at, NULL, 10) : 0;
    ready = 1;
}

__attribute__((destructor)) static void tell(void) {
    const char *path = getenv("FAULT_COUNT");
    char text[32];
    ready = 0;
    int file = path ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0666) : -1;
    if (file < 0)
        return;
    int length = snprintf(text, sizeof text, "%ld\n", calls);
    if (write(file, text, (size_t)length) != length)
        abort();
    close(file);
}

static int fails(const char *kind, int reason) {
    if (!ready || strcmp(kind, watched) != 0 || ++calls != failing)
        return 0;
    errno = reason;
    return 1;
}

void *malloc(size_t size) {
    return fails("memory", ENOMEM) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size) {
    return fails("memory", ENOMEM) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *piece, size_t size) {
    return fails("memory", ENOMEM) ? NULL : __libc_realloc(piece, size);
}

ssize_t write(int file, const void *bytes, size_t length) {
    static ssize_t (*real)(int, const void *, size_t);
    if (fails("write", ENOSPC))
        return -1;
    if (!real)
        real = (ssize_t(*)(int, const void *, size_t))dlsym(RTLD_NEXT, "write");
    return real(file, bytes, length);
}

int fsync(int file) {
    static int (*real)(int);
    if (fails("fsync", EIO))
        return -1;
    if (!real)
        real = (int (*)(int))dlsym(RTLD_NEXT, "fsync");
    return real(file);
}

int rename(const char *from, const char *to) {
    static int (*real)(const char *, const char *);
    if (fails("rename", EIO))
        return -1;
    if (!real)
        real = (int (*)(const char *, const char *))dlsym(RTLD_NEXT, "rename");
    return real(from, to);
}

int link(const char *from, const char *to) {
    static int (*real)(const char *, const char *);
    if (fails("link", EIO))
        return -1;
    if (fails("no-links", EPERM))
        return -1;
    if (!real)
        real = (int (*)(const char *, const char *))dlsym(RTLD_NEXT, "link");
    return real(from, to);
}
