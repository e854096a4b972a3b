#include "support/arena_case.h"

#include "base/arena.h"

int arena_case_set_up(void **state) {
    *state = arena_new();
    return 0;
}

int arena_case_tear_down(void **state) {
    arena_free(*state);
    return 0;
}
