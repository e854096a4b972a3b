/* Files: read whole with a cap, written whole or not at all. */
#define _XOPEN_SOURCE 700 /* symlink, mkfifo */
#include "base/file.h"

#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static Arena *arena;
static const char *folder;

static int set_up(void **state) {
    (void)state;
    arena = arena_new();
    folder = outside_folder(arena);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    outside_remove(folder);
    arena_free(arena);
    return 0;
}

static const char *in_folder(const char *name) {
    return arena_format(arena, "%s/%s", folder, name);
}

static void assert_holds(const char *path, const char *contents) {
    Bytes bytes;
    const char *error = NULL;
    if (!file_read(arena, path, 1000, &bytes, &error))
        fail_msg("%s", error);
    assert_int_equal(bytes.length, strlen(contents));
    assert_memory_equal(bytes.data, contents, bytes.length + 1);
}

/* The only file in the folder: nothing half made was left behind. */
static void assert_alone(const char *name) {
    const char *listed = outside_run(arena, NULL, "ls -A '%s'", folder);
    assert_string_equal(listed, arena_format(arena, "%s\n", name));
}

static void assert_told(const char *error, const char *path, const char *reason) {
    assert_non_null(error);
    if (!strstr(error, path) || !strstr(error, reason))
        fail_msg("'%s' does not name '%s' and '%s'", error, path, reason);
}

static void what_was_written_is_read(void **state) {
    (void)state;
    const char *error = NULL;
    assert_true(file_write(arena, in_folder("a"), "one\0two", 7, &error));
    Bytes bytes;
    assert_true(file_read(arena, in_folder("a"), 7, &bytes, &error));
    assert_int_equal(bytes.length, 7);
    assert_memory_equal(bytes.data, "one\0two", 8);
    assert_true(file_write(arena, in_folder("a"), "", 0, &error));
    assert_holds(in_folder("a"), "");
    assert_alone("a");
}

static void long_files_and_pipes_are_read_whole(void **state) {
    (void)state;
    const char *error = NULL;
    size_t length = 300000;
    uint8_t *data = arena_take(arena, length, 1);
    for (size_t i = 0; i < length; i++)
        data[i] = (uint8_t)(i * 31 + i / 256);
    assert_true(file_write(arena, in_folder("a"), data, length, &error));
    assert_int_equal(mkfifo(in_folder("pipe"), 0600), 0);
    outside_run(arena, NULL, "( (cat '%s' > '%s') > /dev/null 2>&1 &)", in_folder("a"),
                in_folder("pipe"));
    const char *paths[] = {in_folder("a"), in_folder("pipe")};
    for (int i = 0; i < 2; i++) {
        Bytes bytes;
        assert_true(file_read(arena, paths[i], length, &bytes, &error));
        assert_int_equal(bytes.length, length);
        assert_memory_equal(bytes.data, data, length);
    }
}

static void reading_fails_distinctly(void **state) {
    (void)state;
    const char *error = NULL;
    Bytes bytes;
    assert_false(file_read(arena, in_folder("none"), 10, &bytes, &error));
    assert_told(error, "cannot open '/tmp", "No such file");
    assert_false(file_read(arena, folder, 10, &bytes, &error));
    assert_told(error, folder, "Is a directory");
    assert_true(file_write(arena, in_folder("a"), "12345678901", 11, &error));
    assert_false(file_read(arena, in_folder("a"), 10, &bytes, &error));
    assert_told(error, in_folder("a"), "larger than the 10 bytes");
    assert_true(file_read(arena, in_folder("a"), 11, &bytes, &error));
}

static void an_endless_file_is_capped(void **state) {
    (void)state;
    const char *error = NULL;
    Bytes bytes;
    assert_false(file_read(arena, "/dev/zero", 100000, &bytes, &error));
    assert_told(error, "/dev/zero", "larger than");
}

static void a_missing_folder_is_told(void **state) {
    (void)state;
    const char *error = NULL;
    assert_false(file_write(arena, in_folder("no/a"), "x", 1, &error));
    assert_told(error, in_folder("no/a"), "No such file");
    assert_false(file_write(arena, folder, "x", 1, &error));
    assert_told(error, folder, "Is a directory");
}

/* A folder that this user may not write in. The administrator may always: then the folder of
 * processes serves, where nobody can make a file. */
static void an_unwritable_folder_is_told(void **state) {
    (void)state;
    const char *error = NULL;
    assert_int_equal(chmod(folder, 0500), 0);
    const char *path = geteuid() == 0 ? "/proc/burnsheet-test" : in_folder("a");
    assert_false(file_write(arena, path, "x", 1, &error));
    assert_told(error, path, geteuid() == 0 ? "No such file" : "Permission denied");
    assert_int_equal(chmod(folder, 0700), 0);
}

/* The system refuses to let any file grow beyond 4096 bytes, as a full disk would. */
static void a_full_disk_leaves_the_earlier_file(void **state) {
    (void)state;
    const char *error = NULL;
    assert_true(file_write(arena, in_folder("a"), "earlier", 7, &error));
    struct rlimit before;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    struct rlimit small = {.rlim_cur = 4096, .rlim_max = before.rlim_max};
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    char *data = arena_take(arena, 10000, 1);
    bool written = file_write(arena, in_folder("a"), data, 10000, &error);
    setrlimit(RLIMIT_FSIZE, &before);
    signal(SIGXFSZ, handler);
    assert_false(written);
    assert_told(error, in_folder("a"), "File too large");
    assert_alone("a");
    assert_holds(in_folder("a"), "earlier");
}

static void a_full_device_is_told(void **state) {
    (void)state;
    const char *error = NULL;
    assert_false(file_write(arena, "/dev/full", "x", 1, &error));
    assert_told(error, "/dev/full", "No space left");
    assert_true(file_write(arena, "/dev/null", "x", 1, &error));
    struct stat status;
    assert_int_equal(stat("/dev/null", &status), 0);
    assert_true(S_ISCHR(status.st_mode));
}

static void links_and_rights_are_kept(void **state) {
    (void)state;
    const char *error = NULL;
    assert_true(file_write(arena, in_folder("real"), "1", 1, &error));
    assert_int_equal(chmod(in_folder("real"), 0640), 0);
    assert_int_equal(symlink("real", in_folder("link")), 0);
    assert_true(file_write(arena, in_folder("link"), "22", 2, &error));
    struct stat status;
    assert_int_equal(lstat(in_folder("link"), &status), 0);
    assert_true(S_ISLNK(status.st_mode));
    assert_int_equal(stat(in_folder("real"), &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    assert_holds(in_folder("real"), "22");
}

static void a_new_file_never_replaces_one(void **state) {
    (void)state;
    const char *path = in_folder("new.xml");
    const char *error = NULL;
    bool taken = true;
    assert_true(file_create(arena, path, "first", 5, &taken, &error));
    assert_false(taken);
    assert_alone("new.xml");
    assert_false(file_create(arena, path, "second", 6, &taken, &error));
    assert_true(taken);
    assert_told(error, path, "File exists");
    assert_holds(path, "first");
    assert_alone("new.xml");
    assert_int_equal(unlink(path), 0);
    assert_int_equal(symlink("nowhere", path), 0);
    assert_false(file_create(arena, path, "third", 5, &taken, &error));
    assert_true(taken);
    assert_alone("new.xml");
    const char *lost = in_folder("none/new.xml");
    assert_false(file_create(arena, lost, "fourth", 6, &taken, &error));
    assert_false(taken);
    assert_told(error, lost, "No such file");
}

static void a_name_without_folder_is_written_here(void **state) {
    (void)state;
    const char *error = NULL;
    char *here = realpath(".", NULL);
    assert_non_null(here);
    assert_int_equal(chdir(folder), 0);
    bool written = file_write(arena, "plain", "x", 1, &error);
    assert_int_equal(chdir(here), 0);
    free(here);
    assert_true(written);
    assert_alone("plain");
}

int main(void) {
#define CASE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        CASE(what_was_written_is_read),
        CASE(long_files_and_pipes_are_read_whole),
        CASE(reading_fails_distinctly),
        CASE(an_endless_file_is_capped),
        CASE(a_missing_folder_is_told),
        CASE(an_unwritable_folder_is_told),
        CASE(a_full_disk_leaves_the_earlier_file),
        CASE(a_full_device_is_told),
        CASE(links_and_rights_are_kept),
        CASE(a_new_file_never_replaces_one),
        CASE(a_name_without_folder_is_written_here),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
