/* CSV against the examples of RFC 4180; and columns of a text as an editor counts them, looked
 * for in any order. */
#include "base/csv.h"
#include "doc/markdown.h"
#include "reader_fixture.h"

static struct csv read_csv(const char *text)
{
    struct csv csv;
    csv_read(arena, diags, text, (struct place){"log.csv", 1, 1}, &csv);
    return csv;
}

static const char *cell(const struct csv *csv, size_t row, size_t column)
{
    return csv->cells[row * csv->column_count + column].text;
}

/* RFC 4180 section 2, items 1 to 7. */
static void test_csv_of_the_rfc(void **state)
{
    (void)state;
    struct csv csv = read_csv("aaa,\"b \r\nbb\",ccc\r\n\"z\"\"y\",,\"x,w\"");
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(csv.row_count, 2);
    assert_int_equal(csv.column_count, 3);
    assert_string_equal(cell(&csv, 0, 1), "b \r\nbb");
    assert_string_equal(cell(&csv, 1, 0), "z\"y");
    assert_string_equal(cell(&csv, 1, 1), "");
    assert_string_equal(cell(&csv, 1, 2), "x,w");
}

static void test_csv_line_ends(void **state)
{
    (void)state;
    struct csv csv = read_csv("a,b\rc,d\n\n\r\ne,f\r\n");
    assert_int_equal(csv.row_count, 3);
    assert_int_equal(csv.cells[2].at.line, 2);
    assert_int_equal(csv.cells[4].at.line, 5);
    assert_int_equal(csv.cells[5].at.column, 3);
}

static void test_csv_columns_count_code_points(void **state)
{
    (void)state;
    struct csv csv = read_csv("µµ,\"½\",x\n");
    assert_int_equal(csv.cells[1].at.column, 4);
    assert_int_equal(csv.cells[2].at.column, 8);
}

static void test_csv_open_quote_is_told_where_it_opens(void **state)
{
    (void)state;
    read_csv("a,b\n1,\"2\n3,4\n");
    assert_string_equal(faults(),
                        "log.csv:2:3: the quote opened here is never closed; close it\n");
}

static void test_csv_ragged_rows(void **state)
{
    (void)state;
    struct csv csv = read_csv("a,b\n1\n2,3\n4,5,6\n");
    assert_int_equal(csv.row_count, 2);
    assert_int_equal(diags_count(diags), 2);
    assert_non_null(strstr(faults(), "log.csv:4:1: this row has 3 cells"));
}

static void test_csv_large_cell(void **state)
{
    (void)state;
    size_t size = 1 << 20;
    char *text = arena_get(arena, size + 8);
    memset(text, 'x', size);
    memcpy(text + size, ",y\n", 3);
    struct csv csv = read_csv(text);
    assert_int_equal(strlen(cell(&csv, 0, 0)), size);
    assert_string_equal(cell(&csv, 0, 1), "y");
}

/* Behind a closing quote only a comma or the line's end may stand: told once a cell,
 * and the next cell is read again. */
static void test_csv_junk(void **state)
{
    (void)state;
    struct csv csv = read_csv("\"a\"x y,b\n\"c\" \n");
    assert_string_equal(cell(&csv, 0, 1), "b");
    assert_non_null(strstr(faults(), "log.csv:1:4: text stands behind the closing quote"));
    assert_non_null(strstr(faults(), "log.csv:2:4: text stands behind the closing quote"));
}

/* ---- columns ---- */

static const char text[] = "\xC3\xA4"
                           "bc\r\n > d\xC2\xB5"
                           "e\r\rlast";

static void test_columns(void **state)
{
    (void)state;
    /* line, byte, column */
    static const int rows[][3] = {{1, 1, 1}, {1, 3, 2}, {1, 4, 3}, {2, 7, 6},  {2, 4, 4},
                                  {2, 1, 1}, {4, 4, 4}, {3, 1, 1}, {2, 5, 5},  {1, 4, 3},
                                  {1, 3, 2}, {4, 9, 5}, {9, 2, 2}, {1, -3, 1}, {4, 1, 1}};
    struct source source;
    source_begin(&source, text);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(source_column(&source, rows[i][0], rows[i][1]), rows[i][2]);
}

static void test_lead(void **state)
{
    (void)state;
    struct source source;
    source_begin(&source, text);
    assert_int_equal(source_lead(&source, 2), 3);
    assert_int_equal(source_lead(&source, 4), 0);
    assert_int_equal(source_lead(&source, 1), 0);
    assert_int_equal(source_lead(&source, 2), 3);
}

static const struct CMUnitTest tests[] = {
    TEST(test_csv_of_the_rfc),
    TEST(test_csv_line_ends),
    TEST(test_csv_columns_count_code_points),
    TEST(test_csv_open_quote_is_told_where_it_opens),
    TEST(test_csv_ragged_rows),
    TEST(test_csv_large_cell),
    TEST(test_csv_junk),
    cmocka_unit_test(test_columns),
    cmocka_unit_test(test_lead),
};

GROUP(csv, NULL, NULL)
