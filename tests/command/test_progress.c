/* Progress: what is said of many files, and that nothing is said where nobody sits. */
#include "command/progress.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <unistd.h>

/* Ten done in ten seconds: each of the 390 others takes as long. */
static void time_left_goes_by_what_was_done(void **state) {
    (void)state;
    static const struct {
        size_t done, total;
        int64_t spent_ms;
        const char *said;
    } cases[] = {
        {0, 400, 5000, "0 of 400"},
        {3, 400, 900, "3 of 400"}, /* too early to tell */
        {10, 400, 10000, "10 of 400, about 7 min left"},
        {100, 400, 10000, "100 of 400, about 30 s left"},
        {399, 400, 100000, "399 of 400, about 1 s left"},
        {40, 400, 13000, "40 of 400, about 117 s left"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[80];
        progress_text(text, sizeof text, cases[i].done, cases[i].total, cases[i].spent_ms);
        assert_string_equal(text, cases[i].said);
    }
}

static void few_files_and_pipes_are_told_nothing(void **state) {
    (void)state;
    assert_false(progress_begin(PROGRESS_LEAST - 1).told);
    if (!isatty(STDERR_FILENO))
        assert_false(progress_begin(400).told);
    Progress silent = progress_begin(2);
    progress_step(&silent, 1);
    assert_false(silent.on_screen);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(time_left_goes_by_what_was_done),
        cmocka_unit_test(few_files_and_pipes_are_told_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
