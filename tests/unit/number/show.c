/* How numbers are printed: to nearest, up, in steps; signs; nothing finite. */
#include "number/show.h"
#include "facts.h"
#include "test.h"

#define MINUS "\xE2\x88\x92"

struct row {
    double value;
    int digits;
    const char *text;
};

static void assert_rows(struct shown (*show)(double, int), const struct row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct shown shown = show(rows[i].value, rows[i].digits);
        if (strcmp(shown.text, rows[i].text) != 0)
            fail_msg("%.17g with %d: %s, not %s", rows[i].value, rows[i].digits, shown.text,
                     rows[i].text);
    }
}

#define COUNT(rows) (sizeof(rows) / sizeof((rows)[0]))

static void test_places(void **state)
{
    (void)state;
    static const struct row rows[] = {
        {0, 0, "0"},
        {0, 2, "0.00"},
        /* a half goes away from zero, */
        {1.25, 1, "1.3"},
        {1.35, 1, "1.4"},
        {0.125, 2, "0.13"},
        {-0.125, 2, MINUS "0.13"},
        {0.1875, 3, "0.188"},
        {2.5, 0, "3"},
        /* and where the double lies below it: */
        {1.005, 2, "1.01"},
        {3.175, 2, "3.18"},
        {9.525, 2, "9.53"},
        {0.15 * 0.1, 2, "0.02"},
        {100000.005, 2, "100000.01"},
        /* but what is no half stays */
        {1.00499999, 2, "1.00"},
        {0.1249999, 2, "0.12"},
        {0.375, 2, "0.38"},
        {4503599627370497, 0, "4503599627370497"},
        {9.996, 2, "10.00"},
        {-9.996, 2, MINUS "10.00"},
        {-0.5, 1, MINUS "0.5"},
        {-0.001, 2, "0.00"}, /* a number that rounds to nothing has no sign */
        {-0.0, 1, "0.0"},
        {-0.0, 0, "0"},
        {-0.006, 2, MINUS "0.01"},
        {1234567.891, 1, "1234567.9"},
        {1e15, 0, "1000000000000000"},
        {1e-300, 3, "0.000"},
        {-1e-300, 3, "0.000"},
        {1e60, 0, "999999999999999949387135297074018866963645011013410073083904"},
        {1e61, 0, "none"},
        {NAN, 2, "none"},
        {INFINITY, 2, "none"},
        {-INFINITY, 2, "none"},
    };
    assert_rows(show_places, rows, COUNT(rows));
}

/* 12.346, 12.35, 1230: values to the place of their doubt (JCGM 100 7.2.6). */
static void test_significant(void **state)
{
    (void)state;
    static const struct row rows[] = {
        {12.34567, 5, "12.346"},
        {12.34567, 4, "12.35"},
        {1.53125, 5, "1.5313"}, /* inches of one drum after the other */
        {2.03125, 5, "2.0313"},
        {9.9975, 4, "9.998"},
        {9.9995, 4, "10.00"},
        {-9.9995, 4, MINUS "10.00"},
        {1234, 3, "1230"},
        {0.1129848290276167, 7, "0.1129848"}, /* NIST SP 811 B.8, from memory */
        {1.3558179483314004, 7, "1.355818"},
        {0.00706155181422604, 7, "0.007061552"},
        {10.9728, 3, "11.0"}, /* 36 ft: NIST SP 811 B.7.2 */
        {10.9728, 2, "11"},
        {9.996, 3, "10.0"}, /* still three */
        {9.994, 3, "9.99"},
        {99.96, 3, "100"},
        {999.6, 3, "1000"},
        {0.9996, 3, "1.00"},
        {0.00099996, 4, "0.001000"},
        {16, 4, "16.00"},
        {100, 1, "100"},
        {149, 1, "100"},
        {151, 1, "200"},
        {98765, 2, "99000"},
        {-98765, 2, MINUS "99000"},
        {-0.00012345, 2, MINUS "0.00012"},
        {0, 3, "0.00"},
        {-0.0, 3, "0.00"},
        {1e-12, 2, "0.0000000000010"},
        {NAN, 3, "none"},
        {INFINITY, 3, "none"},
    };
    assert_rows(show_significant, rows, COUNT(rows));
}

static void test_up(void **state)
{
    (void)state;
    static const struct row rows[] = {
        {0.984, 1, "1.0"},
        {0.0984, 2, "0.10"},
        {0.1, 1, "0.1"},
        {0.3, 1, "0.3"}, /* 0.1 + 0.2 is not rounded up either: */
        {0.1 + 0.2, 1, "0.3"},
        {1.1 * 3, 1, "3.3"},
        {0.30000001, 1, "0.4"},
        {2, 0, "2"},
        {2.0001, 0, "3"},
        {-0.381, 2, MINUS "0.39"}, /* away from zero */
        {-0.38, 2, MINUS "0.38"},
        {0.001, 2, "0.01"},
        {-0.001, 2, MINUS "0.01"},
        {1e-20, 2, "0.00"}, /* noise */
        {0, 2, "0.00"},
        {-0.0, 2, "0.00"},
        {123.451, 2, "123.46"},
        {NAN, 1, "none"},
        {INFINITY, 1, "none"},
        {-INFINITY, 1, "none"},
    };
    assert_rows(show_up, rows, COUNT(rows));
}

/* Never below the value, never a whole place above it. */
static void test_up_is_up(void **state)
{
    (void)state;
    for (int i = 1; i < 50000; i++) {
        double value = i * 0.000737;
        double shown = strtod(show_up(value, 2).text, NULL);
        assert_true(shown >= value - 1e-12 && shown < value + 0.01 + 1e-12);
    }
}

static void test_steps(void **state)
{
    (void)state;
    static const struct {
        int64_t count, step;
        int exponent;
        const char *text;
    } rows[] = {
        {397, 1, -2, "3.97"},
        {199, 2, -2, "3.98"},
        {360, 5, -3, "1.800"},
        {36, 5, -1, "18.0"},
        {36, 50, -2, "18.0"}, /* 0.50 needs one digit */
        {64, 1, 0, "64"},
        {18, 10, 0, "180"},
        {18, 1, 1, "180"},
        {0, 1, -2, "0.00"},
        {-5, 1, -1, MINUS "0.5"},
        {1, 25, -2, "0.25"},
        {4, 25, -2, "1.00"},
        {3, 1, -9, "0.000000003"},
        {999999999999999, 1, -3, "999999999999.999"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct decimal step = decimal_of(rows[i].step, rows[i].exponent);
        assert_string_equal(show_steps(rows[i].count, &step).text, rows[i].text);
    }
}

static void test_step_of_digits(void **state)
{
    (void)state;
    for (int power = -15; power <= 15; power++) {
        char text[40];
        for (int lead = 1; lead <= 9; lead++) { /* exact powers of ten among them */
            snprintf(text, sizeof text, "%d.%se%d", lead, lead == 9 ? "999" : "000", power);
            struct decimal step = step_of_digits(strtod(text, NULL), 4);
            struct decimal want = decimal_of(1, power - 3);
            if (decimal_compare(&step, &want) != 0)
                fail_msg("the step of %s is wrong", text);
        }
    }
    struct decimal minus = step_of_digits(-12.5, 2), one = decimal_of(1, 0);
    assert_int_equal(decimal_compare(&minus, &one), 0);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_places), cmocka_unit_test(test_significant),
    cmocka_unit_test(test_up),     cmocka_unit_test(test_up_is_up),
    cmocka_unit_test(test_steps),  cmocka_unit_test(test_step_of_digits),
};

GROUP(show, NULL, NULL)
