/* Tables of known columns, dates, and the log of known weights. */
#include "shop/logs.h"
#include "reader_fixture.h"

static const struct record_column columns[] = {{.name = "date", .required = true},
                                               {.name = "note"}};

static bool read_records(const char *text, struct records *records)
{
    struct file_text file = {.name = "log.csv", .bytes = text, .length = strlen(text)};
    return records_read(arena, diags, &file, columns, 2, records);
}

static void test_columns_in_any_order(void **state)
{
    (void)state;
    struct records records;
    assert_true(read_records("note,date\nx,2026-01-02\ny,2026-01-03\n", &records));
    assert_true(records_next(&records) && records_next(&records));
    assert_string_equal(records_cell(&records, 0)->text, "2026-01-03");
    assert_string_equal(records_cell(&records, 1)->text, "y");
    assert_false(records_next(&records));
    assert_true(read_records("date\n2026-01-02\n", &records) && records_next(&records));
    assert_null(records_cell(&records, 1)); /* the column may be left out */
}

static void test_columns_that_are_wrong(void **state)
{
    (void)state;
    struct records records;
    assert_false(read_records("", &records));
    assert_true(read_records("date,date,notes\n", &records)); /* the dates can be read */
    assert_string_equal(faults(),
                        "log.csv:1:1: the column 'date' is missing; add it to the first line\n"
                        "log.csv:1:6: the column 'date' stands here a second time; delete one\n"
                        "log.csv:1:11: there is no column 'notes'; write note if that is "
                        "meant; the columns are date, note\n");
}

static bool is_date(const char *text)
{
    struct csv_cell cell = {.text = text, .at = {.file = "log.csv"}};
    return records_date(diags, &cell);
}

/* The Gregorian calendar's own rules. */
static void test_dates(void **state)
{
    (void)state;
    static const char *const good[] = {"2026-03-09", "1900-01-01", "2199-12-31", "2024-02-29",
                                       "2000-02-29", "2026-02-28", "2026-04-30", "2026-01-31"};
    static const char *const bad[] = {"",           "2026-3-9",   "2026-03-090", "2026/03/09",
                                      "2026-03/09", "x026-03-09", "2026-03-0x",  "2026-0:-09",
                                      "2026-00-09", "2026-13-09", "2026-03-00",  "2026-03-32",
                                      "2026-04-31", "2026-02-29", "1900-02-29",  "2100-02-29",
                                      "1899-12-31", "2200-01-01", "09-03-2026",  "2026 03 09"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        if (!is_date(good[i]))
            fail_msg("%s is no date", good[i]);
    assert_int_equal(diags_count(diags), 0);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        if (is_date(bad[i]))
            fail_msg("%s is a date", bad[i]);
    assert_int_equal(diags_count(diags), sizeof bad / sizeof bad[0]);
}

static size_t weighings_of(const char *text)
{
    struct file_text kept;
    struct shop shop = {0};
    const char *name = file_of(text);
    gauge_log_read(arena, diags, name, &kept, &shop);
    unlink(name);
    return shop.weighings.count;
}

/* Who weighed stands in a column that may lack. */
static void test_who_weighed(void **state)
{
    (void)state;
    struct shop shop = {0};
    struct file_text kept;
    const char *name = file_of("by,date,direction,load,reading\n"
                               "Kim,2026-03-01,up,1 kg,9.8 N\n,2026-03-01,up,2 kg,19.6 N\n"
                               "Lee,2026-03-01,up,3 kg,29.4 N\n");
    gauge_log_read(arena, diags, name, &kept, &shop);
    unlink(name);
    assert_int_equal(diags_count(diags), 0);
    assert_string_equal(shop.weighings.items[0].by, "Kim");
    assert_string_equal(shop.weighings.items[1].by, "");
    assert_string_equal(shop.weighings.items[2].by, "Lee");
}

/* Many rows are read, and in a time that grows as they do: each cell is looked at once. */
static void test_many_rows(void **state)
{
    (void)state;
    enum { ROWS = 20000 };
    struct records records;
    struct buffer text = {0};
    buffer_print(&text, "date\n");
    for (int i = 0; i < ROWS; i++)
        buffer_print(&text, "2026-01-02\n");
    assert_true(read_records(text.bytes, &records));
    while (records_next(&records))
        continue;
    assert_int_equal(records.row, ROWS);
    assert_int_equal(diags_count(diags), 0);
    buffer_free(&text);
}

static void test_gauge_log(void **state)
{
    (void)state;
    static const char three[] = "date,direction,load,reading\n2026-03-01,up,1 kg,9.8 N\n"
                                "2026-03-01,down,2 lbf,8.9 N\n2026-03-01,up,0 kg,0 N\n";
    assert_int_equal(weighings_of(three), 3);
    assert_int_equal(diags_count(diags), 0);
    struct shop shop = {0};
    struct file_text kept;
    gauge_log_read(arena, diags, "/tmp/there-is-no-such.csv", &kept, &shop); /* it may lack */
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(kept.length, 0);
    weighings_of("date,direction,load,reading\n2026-03-01,up,1 kg,9\xFFN\n");
    assert_int_equal(diags_count(diags), 1); /* no UTF-8 */
}

/* Every pull has the unit that stands with it: the word behind it, its own, or the one
 * behind the last. Another would be a wrong drag. */
static void test_units_of_pulls(void **state)
{
    (void)state;
    static const struct {
        const char *pulls, *first, *second;
    } rows[] = {{"18.2 18.3 N", "18.2 N", "18.3 N"},    {"18.2N 18.3N", "18.2 N", "18.3 N"},
                {"18.2 N 18.3 N", "18.2 N", "18.3 N"},  {"1.8 kgf 18.3 N", "1.8 kgf", "18.3 N"},
                {"1.8kgf 18.3 N", "1.8 kgf", "18.3 N"}, {"18.2 1.8kgf", "18.2 kgf", "1.8 kgf"},
                {"18.2 N 1.8kgf", "18.2 N", "1.8 kgf"}, {" 4.1  4 lbf ", "4.1 lbf", "4 lbf"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop = {0};
        char *file = file_of(arena_format(arena,
                                          "date,direction,warmth,pulls\n"
                                          "2026-03-09,usual,cold,%s\n",
                                          rows[i].pulls));
        pull_log_read(arena, diags, file, &shop);
        unlink(file);
        assert_string_equal(faults(), "");
        assert_int_equal(shop.readings.items[0].pull_count, 2);
        for (int pull = 0; pull < 2; pull++) {
            const struct quantity *got = &shop.readings.items[0].pulls[pull];
            assert_string_equal(arena_format(arena, "%s %s", got->digits, got->unit->symbol),
                                pull ? rows[i].second : rows[i].first);
        }
    }
}

static const struct CMUnitTest tests[] = {
    TEST(test_columns_in_any_order),
    TEST(test_columns_that_are_wrong),
    TEST(test_dates),
    TEST(test_who_weighed),
    TEST(test_many_rows),
    TEST(test_gauge_log),
    TEST(test_units_of_pulls),
};

GROUP(logs, NULL, NULL)
