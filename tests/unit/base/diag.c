/* Faults: in order, plain, and not without end. */
#include "base/diag.h"
#include "printed.h"
#include "test.h"

#include <stdlib.h>
#include <string.h>

/* What a message repeats of a file must not reach the terminal as a command, nor break
 * the line, nor turn it (U+202E). */
static void test_diags_are_plain(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    fault(diags, (struct place){"a\x1B[2J.md", 1, 1}, "'%s'", "x\ny\x1B[31m\x7F\t");
    fault(diags, (struct place){"b.md", 1, 1}, "'%s'",
          "\xC2\x9B \xE2\x80\xAE 2\xC2\xA0mm \xC2\xB5");
    fault(diags, (struct place){"c.md", 1, 1}, "'%s'", "\xFF\xC3(\xE2\x82\xF0\x9F\x94");
    assert_printed(diags, "a?[2J.md:1:1: 'x?y?[31m?\?'\n"
                          "b.md:1:1: '? ? 2\xC2\xA0mm \xC2\xB5'\n"
                          "c.md:1:1: '?\?(?\?\?\?\?'\n");
    arena_free(arena);
}

static void test_diags_in_order(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    char name[] = "b.md";
    assert_printed(diags, "");
    fault(diags, (struct place){name, 10, 2}, "ten");
    fault(diags, (struct place){"a.yaml", 3, 0}, "no column; %d%%", 5);
    fault(diags, (struct place){"b.md", 9, 30}, "nine");
    fault(diags, (struct place){"b.md", 10, 1}, "before ten");
    fault(diags, (struct place){"b.md", 10, 2}, "also ten");
    fault(diags, (struct place){"a.yaml", 0, 0}, "the whole file");
    fault(diags, (struct place){"a.yaml", 0, 7}, "a column without a line is none");
    name[0] = 'z'; /* the name is kept, not the address */
    static const char want[] = "b.md:9:30: nine\n"
                               "b.md:10:1: before ten\n"
                               "b.md:10:2: ten\n"
                               "b.md:10:2: also ten\n"
                               "a.yaml: the whole file\n"
                               "a.yaml: a column without a line is none\n"
                               "a.yaml:3: no column; 5%\n";
    assert_int_equal(diags_count(diags), 7);
    assert_printed(diags, want);
    assert_printed(diags, want); /* printing changes nothing */
    arena_free(arena);
}

/* A thousand of each file; that there are more is said behind them. */
static void test_diags_without_end(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    for (int line = 1; line <= 1002; line++) {
        fault(diags, (struct place){"a.md", line, 1}, "a");
        fault(diags, (struct place){"b.md", line, 1}, "b");
        if (line <= 1000)
            fault(diags, (struct place){"c.md", line, 1}, "c");
    }
    assert_int_equal(diags_count(diags), 3004);
    const char *said = printed_faults(arena, diags);
    assert_non_null(strstr(said, "a.md:1000:1: a\na.md: 2 more faults were found in this file; "
                                 "mend these first\nb.md:1:1: b\n"));
    assert_non_null(strstr(said, "c.md:1000:1: c\n"));
    assert_null(strstr(said, "c.md: "));
    arena_free(arena);
}

/* A file that was named early is told of early, however late its fault is found. */
static void test_diags_of_named_files(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    fault(diags, (struct place){"first.yaml", 1, 1}, "one");
    diags_name(diags, "a.md");
    diags_name(diags, "b\x1B.md");
    diags_name(diags, "c.md");
    fault(diags, (struct place){"z.css", 1, 1}, "five");
    fault(diags, (struct place){"c.md", 1, 1}, "four");
    fault(diags, (struct place){"b\x1B.md", 2, 1}, "three");
    fault(diags, (struct place){"b\x1B.md", 1, 1}, "two");
    assert_printed(diags, "first.yaml:1:1: one\n"
                          "b?.md:1:1: two\n"
                          "b?.md:2:1: three\n"
                          "c.md:1:1: four\n"
                          "z.css:1:1: five\n");
    arena_free(arena);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_diags_in_order),
    cmocka_unit_test(test_diags_are_plain),
    cmocka_unit_test(test_diags_without_end),
    cmocka_unit_test(test_diags_of_named_files),
};

GROUP(diag, NULL, NULL)
