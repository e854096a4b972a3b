/* Memory: what can not be had ends the program with status 3 and a word, and is never returned as
 * nothing. Where in a run it can happen is tried by tests/fault. */
#include "base/memory.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* More than any machine of 64 bits addresses (4-level paging: 2^47 bytes). */
static volatile size_t too_much = SIZE_MAX / 4;

static void take_too_much(void) {
    free(memory_take(too_much));
}

static void retake_too_much(void) {
    free(memory_retake(memory_take(1), too_much));
}

/* The wait status of a process of its own that does so, and what it wrote to standard error. */
static int ended_of(void (*act)(void), char *said, size_t room) {
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        dup2(ends[1], STDERR_FILENO);
        close(ends[0]);
        act();
        _exit(0);
    }
    close(ends[1]);
    size_t length = 0;
    for (ssize_t got = 1; got > 0 && length + 1 < room; length += got > 0 ? (size_t)got : 0)
        got = read(ends[0], said + length, room - 1 - length);
    said[length] = '\0';
    close(ends[0]);
    int status = -1;
    assert_int_equal(waitpid(child, &status, 0), child);
    return status;
}

static void what_can_not_be_had_ends_the_program(void **state) {
    (void)state;
#ifdef __SANITIZE_ADDRESS__
    skip(); /* its own malloc ends the program first */
#endif
    if (getenv("TEST_WRAPPER"))
        skip(); /* valgrind can not be given so little memory */
    void (*const acts[])(void) = {take_too_much, retake_too_much, memory_none_left};
    for (size_t i = 0; i < sizeof acts / sizeof *acts; i++) {
        char said[1000];
        int status = ended_of(acts[i], said, sizeof said);
        assert_true(WIFEXITED(status));
        assert_int_equal(WEXITSTATUS(status), 3);
        assert_non_null(strstr(said, "no memory left"));
    }
}

static void of_nothing_there_is_a_piece(void **state) {
    (void)state;
    void *piece = memory_take(0);
    assert_non_null(piece);
    piece = memory_retake(piece, 0);
    assert_non_null(piece);
    free(piece);
}

static void a_copy_is_the_same_and_another(void **state) {
    (void)state;
    char text[] = "oak";
    char *copy = memory_copy(text);
    text[0] = 'O';
    assert_string_equal(copy, "oak");
    copy = memory_retake(copy, 4000);
    assert_string_equal(copy, "oak");
    free(copy);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_can_not_be_had_ends_the_program),
        cmocka_unit_test(of_nothing_there_is_a_piece),
        cmocka_unit_test(a_copy_is_the_same_and_another),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
