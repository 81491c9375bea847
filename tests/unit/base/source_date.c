/* The date that outputs may bear: which texts are one. */
#include "base/source_date.h"
#include "test.h"

#include <stdlib.h>

/* The day of a date that is let through; "" for one that is a fault. */
static const char *day_of(struct arena *arena, const char *text)
{
    struct diags *diags = diags_new(arena);
    setenv("SOURCE_DATE_EPOCH", text, 1);
    source_date_check(diags);
    const char *day = source_date_day(arena);
    unsetenv("SOURCE_DATE_EPOCH");
    assert_int_equal(day != NULL, diags_count(diags) == 0);
    return day ? day : "";
}

/* Days by `date -u -d @SECONDS +%F` of GNU coreutils. */
static void test_source_date(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"0", "1970-01-01"},
        {"86399", "1970-01-01"},
        {"951782400", "2000-02-29"},
        {"253402300799", "9999-12-31"},
        {"253402300800", ""},
        {"99999999999999999999999", ""},
        {"-1", ""},
        {"+1", ""},
        {" 1", ""},
        {"1 ", ""},
        {"1.5", ""},
        {"1e9", ""},
        {"0x10", ""},
        {"yesterday", ""},
        {"nan", ""},
        {"", ""},
    };
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct tm utc;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(day_of(arena, rows[i][0]), rows[i][1]);
    unsetenv("SOURCE_DATE_EPOCH");
    source_date_check(diags);
    assert_int_equal(diags_count(diags), 0);
    assert_false(source_date(&utc));
    arena_free(arena);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_source_date),
};

GROUP(source_date, NULL, NULL)
