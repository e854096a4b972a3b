/* Every file of tests/broken against the exact messages it gets, tests/broken/NAME.expected.
 * UPDATE_GOLDENS=1 in the environment writes these anew: look at the difference afterwards. */
#include "input/reader.h"
#include "support/accepted.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FILES_MAX = 300, TEXT_MAX = 100000 };

static const char *messages(Arena *arena, const char *path) {
    Reader reader = reader_new(arena);
    static const char *const languages[] = {"de", "en", "pl"};
    for (size_t i = 0; i < sizeof languages / sizeof *languages; i++)
        LIST_ADD(arena, &reader.languages, languages[i]);
    bool accepted = file_accepted(&reader, path);
    Text text = text_new(arena);
    diagnostics_add_to(&reader.diagnostics, &text);
    text_addf(&text, "%s\n",
              accepted                ? "accepted"
              : reader.could_not_open ? "refused: could not open"
                                      : "refused");
    return text.bytes;
}

static const char *expected_path(Arena *arena, const char *path) {
    return arena_format(arena, "%.*s.expected", (int)(strlen(path) - strlen(".xml")), path);
}

static const char *accepted_messages(Arena *arena, const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file)
        return "";
    char *text = ARENA_ARRAY(arena, TEXT_MAX, char);
    size_t length = fread(text, 1, TEXT_MAX - 1, file);
    text[length] = '\0';
    fclose(file);
    return text;
}

static void write_messages(const char *path, const char *text) {
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_not_equal(fputs(text, file), EOF);
    assert_int_equal(fclose(file), 0);
}

static void gets_its_messages(void **state) {
    const char *path = *state;
    Arena *arena = arena_new();
    const char *got = messages(arena, path);
    const char *update = getenv("UPDATE_GOLDENS");
    if (update && !strcmp(update, "1"))
        write_messages(expected_path(arena, path), got);
    assert_string_equal(got, accepted_messages(arena, expected_path(arena, path)));
    arena_free(arena);
}

int main(void) {
    glob_t files;
    if (glob("tests/broken/*.xml", 0, NULL, &files) != 0 || files.gl_pathc > FILES_MAX)
        return 1;
    static struct CMUnitTest tests[FILES_MAX];
    for (size_t i = 0; i < files.gl_pathc; i++)
        tests[i] = (struct CMUnitTest){.name = files.gl_pathv[i],
                                       .test_func = gets_its_messages,
                                       .initial_state = files.gl_pathv[i]};
    int failed = _cmocka_run_group_tests("broken files", tests, files.gl_pathc, NULL, NULL);
    globfree(&files);
    return failed;
}
