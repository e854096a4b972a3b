/* The arena: pieces are zeroed, stay where they are, and go back to a mark. */
#include "base/arena.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

static void assert_zeroed(const unsigned char *bytes, size_t count) {
    for (size_t i = 0; i < count; i++)
        assert_int_equal(bytes[i], 0);
}

/* Pieces of all sizes after a mark, some larger than a block: what was there before it stays, and
 * what is taken again is zeroed. */
static void trials_are_given_back(void **state) {
    (void)state;
    static const size_t sizes[] = {1, 40, 1000, 60000, 200000, 7};
    enum { SIZES = sizeof sizes / sizeof *sizes };
    for (int before = 0; before < 2; before++) {
        Arena *arena = arena_new();
        char *kept = before ? arena_string(arena, "kept") : NULL;
        for (int turn = 0; turn < 3; turn++) {
            ArenaMark mark = arena_mark(arena);
            for (size_t i = 0; i < SIZES; i++) {
                unsigned char *piece = arena_take(arena, sizes[i], 1);
                assert_zeroed(piece, sizes[i]);
                memset(piece, 0xa5, sizes[i]);
            }
            arena_back_to(arena, mark);
            assert_true(!kept || strcmp(kept, "kept") == 0);
        }
        unsigned char *after = arena_take(arena, 3000, 1);
        assert_zeroed(after, 3000);
        arena_free(arena);
    }
}

static void marks_lie_within_each_other(void **state) {
    (void)state;
    Arena *arena = arena_new();
    ArenaMark outer = arena_mark(arena);
    char *first = arena_string(arena, "first");
    ArenaMark inner = arena_mark(arena);
    const char *second = arena_string(arena, "second");
    arena_back_to(arena, inner);
    assert_string_equal(first, "first");
    assert_ptr_equal(arena_string(arena, "third"), second);
    arena_back_to(arena, outer);
    assert_zeroed(arena_take(arena, 64, 1), 64);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(trials_are_given_back),
        cmocka_unit_test(marks_lie_within_each_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
