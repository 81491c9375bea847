/* Every fault so far, a line each, as the program prints them. */
#ifndef TESTS_PRINTED_H
#define TESTS_PRINTED_H

#include "base/diag.h"
#include "test.h"

#include <stdlib.h>

static inline char *printed_faults(struct arena *arena, struct diags *diags)
{
    char *bytes = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&bytes, &length);
    diags_print(diags, out);
    fclose(out);
    char *text = arena_slice(arena, bytes, length);
    free(bytes);
    return text;
}

static inline void assert_printed(struct diags *diags, const char *want)
{
    struct arena *arena = arena_new();
    assert_string_equal(printed_faults(arena, diags), want);
    arena_free(arena);
}

#endif
