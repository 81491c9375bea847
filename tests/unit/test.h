/* What every file of tests includes: cmocka with the headers that it asks for, and how a
 * file makes its group known to cli/main.c. */
#ifndef TESTS_TEST_H
#define TESTS_TEST_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* The tests of one file, under the file's name. */
struct group {
    const char *name;
    int (*run)(void); /* how many failed */
    struct group *next;
};

/* Called before main(), so that a file is run by being there, and none can be forgotten. */
void group_add(struct group *group);

/* At the end of a file, behind its array "tests"; set-up and take-down are those of the whole
 * group, or NULL. */
#define GROUP(name, set_up, take_down)                                                         \
    static int run_group_##name(void)                                                          \
    {                                                                                          \
        return cmocka_run_group_tests_name(#name, tests, set_up, take_down);                   \
    }                                                                                          \
                                                                                               \
    __attribute__((constructor)) static void add_group_##name(void)                            \
    {                                                                                          \
        static struct group group = {#name, run_group_##name, NULL};                           \
        group_add(&group);                                                                     \
    }

#endif
