/* What the tests of the readers share: an arena and faults for each test, and files
 * of a moment. */
#ifndef TESTS_READER_FIXTURE_H
#define TESTS_READER_FIXTURE_H

#include "base/diag.h"
#include "printed.h"
#include "test.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct arena *arena;
static struct diags *diags;

static inline int setup(void **state)
{
    (void)state;
    arena = arena_new();
    diags = diags_new(arena);
    return 0;
}

static inline int teardown(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static inline char *faults(void)
{
    return printed_faults(arena, diags);
}

/* There is one fault, at this place, that says this. */
static inline void assert_fault(const char *place, const char *part)
{
    const char *said = faults();
    if (diags_count(diags) != 1 || !strstr(said, place) || !strstr(said, part))
        fail_msg("not '%s ... %s' but: %s", place, part, said);
}

/* A file with this text; the caller removes it. */
static inline char *file_of(const char *text)
{
    char *name = arena_text(arena, "/tmp/test_read_XXXXXX");
    int handle = mkstemp(name);
    assert_true(handle >= 0);
    assert_int_equal(write(handle, text, strlen(text)), strlen(text));
    close(handle);
    return name;
}

#endif
