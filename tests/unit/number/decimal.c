/* Exact decimals: identities in whole numbers of 128 bits, edges, and print. */
#include "number/decimal.h"
#include "facts.h"
#include "test.h"

__extension__ typedef __int128 wide;

static uint64_t seed = 4711;

/* Xorshift, Marsaglia (2003). */
static uint64_t draw(void)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed;
}

/* Of any length up to 59 bits, either sign, now and then 0. */
static int64_t draw_integer(void)
{
    int64_t value = (int64_t)(draw() >> (5 + draw() % 59));
    return draw() % 2 ? -value : value;
}

static wide power(int exponent)
{
    wide value = 1;
    while (exponent-- > 0)
        value *= 10;
    return value;
}

/* A 128-bit whole number times 10^exponent as a decimal, by way of its parts. */
static struct decimal of_wide(wide value, int exponent)
{
    wide size = value < 0 ? -value : value;
    struct decimal high = decimal_of((int64_t)(size / power(18)), exponent + 18);
    struct decimal low = decimal_of((int64_t)(size % power(18)), exponent), zero = {0};
    struct decimal sum = decimal_add(&high, &low);
    return value < 0 ? decimal_subtract(&zero, &sum) : sum;
}

static bool same(struct decimal a, struct decimal b)
{
    return decimal_compare(&a, &b) == 0;
}

static int order_of(wide a, wide b)
{
    return (a > b) - (a < b);
}

static void test_against_whole_numbers(void **state)
{
    (void)state;
    for (int i = 0; i < 100000; i++) {
        int64_t m = draw_integer(), n = draw_integer();
        int e = (int)(draw() % 40) - 20, shift = (int)(draw() % 19);
        struct decimal a = decimal_of(m, e), b = decimal_of(n, e + shift);
        wide right = (wide)n * power(shift);
        assert_true(same(decimal_add(&a, &b), of_wide(m + right, e)));
        assert_true(same(decimal_subtract(&a, &b), of_wide(m - right, e)));
        assert_true(same(decimal_multiply(&a, &b), of_wide((wide)m * n, 2 * e + shift)));
        assert_int_equal(decimal_compare(&a, &b), order_of(m, right));
        assert_int_equal(decimal_compare(&b, &a), order_of(right, m));
    }
}

static void test_edges(void **state)
{
    (void)state;
    struct decimal zero = decimal_of(0, 7), one = decimal_of(1, 0), least;
    assert_true(same(zero, decimal_of(0, -30)));
    assert_true(same(decimal_subtract(&one, &one), zero));
    assert_true(same(decimal_multiply(&one, &zero), zero));
    struct decimal minus = decimal_of(-1, 0), product = decimal_multiply(&minus, &zero);
    assert_false(product.negative); /* there is no minus nothing */
    product = decimal_subtract(&zero, &zero);
    assert_false(product.negative);
    least = decimal_of(INT64_MIN, 0); /* its size is no int64_t */
    struct decimal most = decimal_of(INT64_MAX, 0);
    most = decimal_add(&most, &one);
    assert_true(same(decimal_add(&least, &most), zero));
    assert_true(same(decimal_of(1, 3), decimal_of(1000, 0)));
    assert_true(same(decimal_of(-25, -1), decimal_of(-2500, -3)));
}

/* Carries through every limb: 10^n - 1 + 1, and its square. */
static void test_carries(void **state)
{
    (void)state;
    for (int n = 1; n <= 50; n++) {
        struct decimal power_n = decimal_of(1, n), one = decimal_of(1, 0);
        struct decimal nines = decimal_subtract(&power_n, &one);
        struct decimal carried = decimal_add(&nines, &one);
        char got[DECIMAL_TEXT], want_text[DECIMAL_TEXT];
        decimal_print(&carried, 0, got); /* every limb is put in order, not only equal */
        decimal_print(&power_n, 0, want_text);
        assert_string_equal(got, want_text);
        struct decimal square = decimal_multiply(&nines, &nines), want = decimal_of(1, 2 * n);
        struct decimal twice = decimal_of(2, n); /* (a - 1)^2 = a^2 - 2 a + 1 */
        want = decimal_subtract(&want, &twice);
        want = decimal_add(&want, &one);
        assert_true(same(square, want));
    }
}

/* As long as the header promises: two of the longest quantities with the longest factor, and a
 * count of steps. */
static void test_room(void **state)
{
    (void)state;
    struct decimal typed = decimal_of(INT64_C(9999999999999999), -15);
    struct decimal factor = decimal_of(INT64_C(999999999999999999), -20);
    struct decimal product = decimal_of(INT64_C(999999999999999), 0);
    for (int i = 0; i < 2; i++) {
        struct decimal exact = decimal_multiply(&typed, &factor);
        product = decimal_multiply(&product, &exact);
    }
    char text[DECIMAL_TEXT];
    decimal_print(&product, 70, text);
    assert_int_equal(strlen(text), 84);
    assert_true(strncmp(text, "9999999999999", 13) == 0);
}

static void test_to_double(void **state)
{
    (void)state;
    static const struct {
        int64_t integer;
        int exponent;
        double value;
    } rows[] = {
        {1, -1, 0.1},
        {3, -1, 0.3},
        {123456789, -4, 12345.6789},
        {44482216152605, -13, 4.4482216152605},
        {706155181422604375, -20, 0.00706155181422604375},
        {9007199254740993, 0, 9007199254740992.0}, /* 2^53 + 1: to even */
        {9007199254740993, -30, 9007199254740993e-30},
        {-5, -1, -0.5},
        {1, 22, 1e22},
        {1, 23, 1e23},
        {0, 5, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct decimal a = decimal_of(rows[i].integer, rows[i].exponent);
        assert_true(decimal_to_double(&a) == rows[i].value);
    }
}

static void test_places_and_print(void **state)
{
    (void)state;
    static const struct {
        int64_t integer;
        int exponent, needs, places;
        const char *text;
    } rows[] = {
        {50, -2, 1, 1, "0.5"},
        {50, -2, 1, 3, "0.500"},
        {5, 0, 0, 0, "5"},
        {5, 0, 0, 2, "5.00"},
        {5, 3, 0, 0, "5000"},
        {5, 3, 0, 1, "5000.0"},
        {-12345, -2, 2, 2, "-123.45"},
        {1, -5, 5, 5, "0.00001"},
        {-1, -1, 1, 1, "-0.1"},
        {0, 0, 0, 0, "0"},
        {0, -4, 0, 2, "0.00"},
        {1000, -3, 0, 0, "1"},
        {1000000000, -9, 0, 4, "1.0000"},
        {INT64_MAX, -18, 18, 18, "9.223372036854775807"},
        {100, -1, 0, 0, "10"},
        {1200000, -5, 0, 0, "12"},
        {999999999, 1, 0, 0, "9999999990"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[DECIMAL_TEXT];
        struct decimal a = decimal_of(rows[i].integer, rows[i].exponent);
        assert_int_equal(decimal_places(&a), rows[i].needs);
        decimal_print(&a, rows[i].places, text);
        assert_string_equal(text, rows[i].text);
    }
}

static wide down(wide a, wide b)
{
    return a / b - (a % b < 0);
}

static void test_steps(void **state)
{
    (void)state;
    for (int i = 0; i < 50000; i++) {
        int64_t step_size = 1 + (int64_t)(draw() % 1000000), count = draw_integer() % 1000000;
        int64_t amount_size =
            draw() % 2 ? count * step_size : count * step_size + (int64_t)(draw() % 3) - 1;
        int e = (int)(draw() % 30) - 25;
        struct decimal amount = decimal_of(amount_size, e), step = decimal_of(step_size, e);
        assert_int_equal(decimal_steps_not_above(&amount, &step),
                         (int64_t)down(amount_size, step_size));
        assert_int_equal(decimal_steps_not_below(&amount, &step),
                         (int64_t)-down(-amount_size, step_size));
    }
    struct decimal zero = {0}, tenth = decimal_of(1, -1);
    assert_int_equal(decimal_steps_not_above(&zero, &tenth), 0);
    assert_int_equal(decimal_steps_not_below(&zero, &tenth), 0);
}

/* Where a double is blind: one part in 10^30 beside a step. */
static void test_steps_finer_than_doubles(void **state)
{
    (void)state;
    struct decimal tenth = decimal_of(1, -1), hair = decimal_of(1, -30);
    for (int64_t count = -1000; count <= 1000; count++) {
        struct decimal many = decimal_of(count, -1);
        struct decimal above = decimal_add(&many, &hair),
                       below = decimal_subtract(&many, &hair);
        assert_int_equal(decimal_steps_not_below(&many, &tenth), count);
        assert_int_equal(decimal_steps_not_above(&many, &tenth), count);
        assert_int_equal(decimal_steps_not_below(&above, &tenth), count + 1);
        assert_int_equal(decimal_steps_not_above(&above, &tenth), count);
        assert_int_equal(decimal_steps_not_below(&below, &tenth), count);
        assert_int_equal(decimal_steps_not_above(&below, &tenth), count - 1);
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_against_whole_numbers),
    cmocka_unit_test(test_edges),
    cmocka_unit_test(test_carries),
    cmocka_unit_test(test_room),
    cmocka_unit_test(test_to_double),
    cmocka_unit_test(test_places_and_print),
    cmocka_unit_test(test_steps),
    cmocka_unit_test(test_steps_finer_than_doubles),
};

GROUP(decimal, NULL, NULL)
