/* Traces as instruments and spreadsheets write them: separators, decimal commas, heads, units,
 * remarks; and every fault at its sign. */
#include "shop/trace_text.h"
#include "reader_fixture.h"

#include <string.h>

static struct trace_text trace;
static struct trace_facts said;

/* Read as said; and forgotten. */
static bool read_text(const char *text)
{
    struct file_text file = {"t.csv", text, strlen(text)};
    trace_text_free(&trace);
    bool good = trace_text_read(arena, diags, &file, &said, unit_find("N", 1), &trace);
    said = (struct trace_facts){.unit = NULL};
    return good;
}

static void say(enum trace_fact fact, const char *text)
{
    struct quantity_fault wrong;
    assert_true(trace_fact_read(fact, text, &said, &wrong));
}

static void assert_reading(size_t at, double time, double force)
{
    assert_true(at < trace.count);
    assert_float_equal(trace.times[at], time, 1e-12);
    assert_float_equal(trace.forces[at], force, 1e-12);
}

static void test_separators(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "0.05,12.5\n0.1,-12.25\n",      "0.05, 12.5\r\n0.1, -12.25\r\n",
        "0,05;12,5\n0,1;-12,25",        "0.05\t12.5\n0.1\t-12.25\n",
        "0,05\t12,5\n0,1\t-12,25\n",    "  0.05   12.5\n  0.1  -12.25\n",
        "0,05 12,5\n0,1 -12,25\n",      "\n0.05;12.5;\n\n0.1;\u221212.25;\n",
        "5e-2 1.25e1\n1e-1 -1225E-2\n", ".05 +12.5\r0.1 -12.25\r"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_true(read_text(texts[i]));
        assert_int_equal(trace.count, 2);
        assert_reading(0, 0.05, 12.5);
        assert_reading(1, 0.1, -12.25);
        assert_false(trace.unit_said);
        assert_string_equal(trace.facts.unit->symbol, "N");
    }
    assert_string_equal(faults(), "");
}

static void test_one_column(void **state)
{
    (void)state;
    say(TRACE_INTERVAL, "0.5 s");
    assert_true(read_text("12,5\n13\n"));
    assert_reading(0, 0, 12.5);
    assert_reading(1, 0.5, 13);
    assert_true(read_text("# interval: 0.25s\nForce/N\n12.5\n13\n"));
    assert_reading(1, 0.25, 13);
    assert_true(trace.unit_said);
}

static void test_heads_and_units(void **state)
{
    (void)state;
    assert_true(read_text("time / min; force [lbf]\n0,5;1\n"));
    assert_reading(0, 30, 4.4482216152605);
    assert_true(read_text("\"Time (s)\",\"Force (kgf)\"\n1,2\n"));
    assert_reading(0, 1, 19.6133);
    assert_true(read_text("1 s, 2 kgf\n2 s, 3 kgf\n"));
    assert_reading(1, 2, 29.41995);
    assert_true(read_text("1;2;N\n2;3;N\n"));
    assert_reading(1, 2, 3);
    assert_true(read_text("# unit: gf\n# made on a Monday\n1 1000\n"));
    assert_reading(0, 1, 9.80665);
    say(TRACE_UNIT, "lbf"); /* what is said at the terminal counts */
    assert_true(read_text("# unit: gf\n1 1\n"));
    assert_reading(0, 1, 4.4482216152605);
    assert_string_equal(faults(), "");
}

static void test_speeds(void **state)
{
    (void)state;
    assert_true(read_text("# speed: 12 r/min\n1 2\n"));
    assert_float_equal(trace.facts.speed.base, 12, 1e-12);
    assert_true(read_text("# speed 2.4 m/min\n1 2\n"));
    assert_null(trace.facts.speed.unit);
    assert_float_equal(trace.facts.cord_speed.base, 0.04, 1e-12);
    say(TRACE_SPEED, "40 mm/s");
    assert_true(read_text("# speed: 12 r/min\n1 2\n"));
    assert_null(trace.facts.speed.unit);
    assert_float_equal(trace.facts.cord_speed.base, 0.04, 1e-12);
}

/* A comma with three digits behind it is a point where another number shows it. */
static void test_doubtful_commas(void **state)
{
    (void)state;
    assert_true(read_text("0,050;12,345\n0,100;12,346\n"));
    assert_reading(0, 0.05, 12.345);
    assert_false(read_text("1;1,234\n2;1,235\n"));
    assert_string_equal(
        faults(), "t.csv:1:3: a comma with three digits behind it may part the thousands, "
                  "and no other number shows which it is; write a point\n");
}

static void test_faults(void **state)
{
    (void)state;
    static const char *const texts[][2] = {
        {"1,2\nx,3\n", "t.csv:2:1: a time belongs here, as a number; not 'x,3'\n"},
        {"1,2\n2,x\n", "t.csv:2:3: a force belongs here, as a number; not 'x'\n"},
        {"1,2,3\n",
         "t.csv:1:5: '3' stands behind the reading; a line holds a time and a force, or "
         "with an interval a force alone\n"},
        {"12\n",
         "t.csv:1:3: there is one number and no force behind the time; where all are "
         "forces, say the interval: --interval 0.05s, or in the file # interval: 0.05 s\n"},
        {"1,2 mm\n",
         "t.csv:1:5: 'mm' is no unit of a force; write one as in 50 N or 2.5 lbf\n"},
        {"1,2 N\n2,3 lbf\n", "t.csv:2:5: this reading has another unit than the first\n"},
        {"time/ms,N\n1,2\n",
         "t.csv:1:6: 'ms' is no unit that is known here; times may be in s, "
         "min or h, forces as in 12 N\n"},
        {"1,2\n2,10000.1\n",
         "t.csv:2:1: a force must lie between -10000 N and 10000 N, with its unit\n"},
        {"1,-1e308\n",
         "t.csv:1:1: a force must lie between -10000 N and 10000 N, with its unit\n"},
        {"1,2\n86402,3\n",
         "t.csv:2:1: this reading is more than a day away from the first; keep one pull in a "
         "file, with the times in s or their unit\n"},
        {"1e999,2\n", "t.csv:1:1: this reading is more than a day away from the first"},
        {"# speed: fast\n", "t.csv:1:10: "},
        {"# interval: 0 s\n1\n", "t.csv:1:13: this must be more than 0\n"},
        {"# unit: mm\n1\n",
         "t.csv:1:9: 'mm' is no unit of a force; write N, kgf, lbf or another\n"},
        {"", "t.csv: there are no readings; a line holds a time and a force\n"},
        {"time;force\n", "t.csv: there are no readings; a line holds a time and a force\n"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_false(read_text(texts[i][0]));
        const char *told = faults();
        if (strncmp(told, texts[i][1], strlen(texts[i][1])) != 0)
            fail_msg("%s", told);
        teardown(NULL);
        setup(NULL);
    }
}

static void test_place_of_a_reading(void **state)
{
    (void)state;
    struct file_text file = {"t.csv", "# a\r\ntime force\r\n\r\n1 2\r\n2 3\r\n", 31};
    assert_true(read_text(file.bytes));
    assert_int_equal(trace_text_place(&file, &trace, 0).line, 4);
    assert_int_equal(trace_text_place(&file, &trace, 1).line, 5);
}

static int end(void **state)
{
    trace_text_free(&trace);
    trace = (struct trace_text){.count = 0};
    return teardown(state);
}

#define READS(name) cmocka_unit_test_setup_teardown(name, setup, end)

static const struct CMUnitTest tests[] = {
    READS(test_separators),         READS(test_one_column),
    READS(test_heads_and_units),    READS(test_speeds),
    READS(test_doubtful_commas),    READS(test_faults),
    READS(test_place_of_a_reading),
};

GROUP(trace_text, NULL, NULL)
