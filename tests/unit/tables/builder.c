/* How a table is made: the first row makes the columns, and what is no number says so. */
#include "reader_fixture.h"
#include "tables/common.h"

#include <math.h>

static void add_row(struct builder *b, const char *name, double value)
{
    next_row(b);
    put_text(b, "name", name);
    bold_head(b, value > 1);
    put_places(b, "size", "mm", value, 1)->strong = true;
    put_word(b, "left", NULL, "yours");
}

static void test_the_first_row_makes_the_columns(void **state)
{
    (void)state;
    struct builder b = {.arena = arena, .table = table_new(arena, "a-table", "A table")};
    add_row(&b, "one", 1.25);
    add_row(&b, "two", NAN);
    add_row(&b, "three", -INFINITY);
    b.none = true;
    add_row(&b, "four", 4);
    const struct table *table = b.table;
    assert_int_equal(table->row_count, 4);
    assert_int_equal(table->column_count, 3);
    assert_string_equal(table_head(arena, &table->columns[1]), "size / mm");
    assert_true(table->columns[1].strong && table->columns[1].kind == COLUMN_NUMBER);
    assert_true(table_cell(table, 0, 0)->strong && !table_cell(table, 1, 0)->strong);
    assert_string_equal(table_cell(table, 0, 1)->shown, "1.3");
    assert_true(table_cell(table, 0, 1)->value == 1.25);
    assert_string_equal(table_cell(table, 0, 2)->shown, "yours");
    for (size_t row = 1; row < 4; row++) {
        assert_string_equal(table_cell(table, row, 1)->shown, "none");
        assert_false(table_cell(table, row, 1)->has_value);
    }
    assert_string_equal(table_cell(table, 2, 0)->shown, "three");
    assert_string_equal(table_cell(table, 3, 0)->shown, "none");
    assert_string_equal(table_cell(table, 3, 2)->shown, "none");
}

static void test_a_whole_row_in_bold(void **state)
{
    (void)state;
    struct builder b = {.arena = arena, .table = table_new(arena, "a-table", "A table")};
    add_row(&b, "one", 1);
    add_row(&b, "two", 1);
    bold_row(&b);
    for (size_t column = 0; column < 3; column++) {
        assert_false(table_cell(b.table, 0, column)->strong);
        assert_true(table_cell(b.table, 1, column)->strong);
    }
}

static const struct CMUnitTest tests[] = {
    TEST(test_the_first_row_makes_the_columns),
    TEST(test_a_whole_row_in_bold),
};

GROUP(builder, NULL, NULL)
