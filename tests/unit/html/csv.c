/* CSV tables, against RFC 4180. */
#include "html/csv.h"
#include "test.h"

static struct table *new_table(struct arena *arena)
{
    return table_new(arena, "a-table", "A table");
}

static void check(const struct table *table, const char *wanted)
{
    struct buffer out = {0};
    csv_paint(&out, table);
    assert_string_equal(out.bytes, wanted);
    buffer_free(&out);
}

static void test_heads_and_shown_values(void **state)
{
    struct table *table = new_table(*state);
    table_column(table, COLUMN_TEXT, "speed band", NULL);
    table_column(table, COLUMN_NUMBER, "low pull", "N");
    struct cell *cell = table_row(table);
    cell[0].shown = "0–1000\u00a0rpm";
    cell[1] = (struct cell){.shown = "19.4", .value = 19.35483870967742, .has_value = true};
    cell = table_row(table);
    cell[0].shown = "a band";
    cell[1].shown = "none";
    check(table, "speed band,low pull / N\r\n0–1000\u00a0rpm,19.4\r\na band,none\r\n");
}

/* What a spreadsheet would run gets an apostrophe in front and stays text; the signs are
 * those that OWASP's page on CSV injection names
 * (https://owasp.org/www-community/attacks/CSV_Injection). Numbers stay numbers. */
static void test_formulas(void **state)
{
    static const struct {
        const char *shown, *field;
    } cases[] = {
        {"=1+1", "\"'=1+1\""},
        {"@SUM(A1)", "\"'@SUM(A1)\""},
        {"+1+cmd|' /C x'!A0", "\"'+1+cmd|' /C x'!A0\""},
        {"-1-1", "\"'-1-1\""},
        {" =1", "\"' =1\""},
        {"\t=1", "\"'\t'=1\""}, /* where a tab parts a row, a cell of its own */
        {"a;=1", "\"a;'=1\""},
        {"a;1", "\"a;1\""},
        {"\r@x", "\"'\r@x\""},
        {"=\"a\"", "\"'=\"\"a\"\"\""},
        {"-", "\"'-\""},
        {"+.", "\"'+.\""},
        {"-0.5", "-0.5"},
        {"+12", "+12"},
        {"-.5", "-.5"},
        {"1=1", "1=1"},
        {"−1−1", "−1−1"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct table *table = new_table(*state);
        table_column(table, COLUMN_TEXT, "x", NULL);
        table_row(table)[0].shown = cases[i].shown;
        check(table, arena_format(*state, "x\r\n%s\r\n", cases[i].field));
    }
}

/* RFC 4180, rules 5 to 7. */
static void test_quotes(void **state)
{
    static const struct {
        const char *shown, *field;
    } cases[] = {
        {"plain", "plain"},       {"", ""},
        {"a,b", "\"a,b\""},       {"2 1/2\"", "\"2 1/2\"\"\""},
        {"\"\"", "\"\"\"\"\"\""}, {"a\nb", "\"a\nb\""},
        {"a\rb", "\"a\rb\""},     {" a", "\" a\""},
        {"a ", "\"a \""},         {"a b", "a b"},
        {"−0.5", "−0.5"},         {"it's <b>&", "it's <b>&"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct table *table = new_table(*state);
        table_column(table, COLUMN_TEXT, "x", NULL);
        table_column(table, COLUMN_TEXT, "y", NULL);
        struct cell *row = table_row(table);
        row[0].shown = cases[i].shown;
        row[1].shown = "z";
        check(table, arena_format(*state, "x,y\r\n%s,z\r\n", cases[i].field));
    }
}

static void test_heads_are_quoted_too(void **state)
{
    struct table *table = new_table(*state);
    table_column(table, COLUMN_NUMBER, "drag, 60 mm drum", "N·m");
    table_column(table, COLUMN_NUMBER, "so-called \"aim\"", NULL);
    check(table, "\"drag, 60 mm drum / N·m\",\"so-called \"\"aim\"\"\"\r\n");
}

static int open_arena(void **state)
{
    *state = arena_new();
    return 0;
}

static int close_arena(void **state)
{
    arena_free(*state);
    return 0;
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown(test_heads_and_shown_values, open_arena, close_arena),
    cmocka_unit_test_setup_teardown(test_formulas, open_arena, close_arena),
    cmocka_unit_test_setup_teardown(test_quotes, open_arena, close_arena),
    cmocka_unit_test_setup_teardown(test_heads_are_quoted_too, open_arena, close_arena),
};

GROUP(csv, NULL, NULL)
