/* Columns of a text as an editor counts them, looked for in any order. */
#include "read/source.h"
#include "test.h"

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

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_columns),
                                          cmocka_unit_test(test_lead)};

GROUP(source, NULL, NULL)
