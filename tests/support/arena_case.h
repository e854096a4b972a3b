/* A test case that gets a fresh arena as its state and gives it back afterwards. */
#ifndef SUPPORT_ARENA_CASE_H
#define SUPPORT_ARENA_CASE_H

int arena_case_set_up(void **state);
int arena_case_tear_down(void **state);

#define CASE(name) cmocka_unit_test_setup_teardown(name, arena_case_set_up, arena_case_tear_down)

#endif
