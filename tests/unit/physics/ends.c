/* Where the ranges of formulas end, and where one formula takes over from another. */
#include "physics/physics.h"
#include "test.h"

#include <math.h>
#include <stdio.h>

static void assert_near(double value, double wanted, double part)
{
    if (!(fabs(value - wanted) <= part * fabs(wanted)))
        fail_msg("%.12g is not %.12g", value, wanted);
}

/* The source's own formulas, worked out as exact fractions on both sides of each place where
 * the next one takes over: that place itself is still the lower one's. */
static void test_parts_of_the_oil_index(void **state)
{
    (void)state;
    static const struct {
        double hot, zero, hundred;
    } rows[] = {
        {2.0001, 7.993754463, 6.393891838},  {3.8, 23.1286612, 17.972962},
        {3.8001, 23.13617804, 17.97644884},  {4.4, 30.472312, 22.9171056},
        {4.4001, 30.47055859, 22.92152446},  {5, 40.2405, 28.49425},
        {5.0001, 40.2327645, 28.49671598},   {6.4, 65.13196, 42.117176},
        {6.4001, 65.16487514, 42.12596562},  {7, 78.01576, 48.58561},
        {7.0001, 78.04075417, 48.56972347},  {7.7, 93.1936439, 56.2637198},
        {7.7001, 93.1795284, 56.16652339},   {9, 123.26718, 71.09354},
        {9.0001, 123.2876433, 71.10330012},  {12, 201.87416, 108.0056},
        {12.0001, 201.866121, 108.0060483},  {15, 296.398, 149.66125},
        {15.0001, 296.4422005, 149.6832141}, {18, 408.7112, 196.20416},
        {18.0001, 408.6334662, 196.1525837}, {22, 585.23904, 265.02136},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_near(oil_index_zero(rows[i].hot), rows[i].zero, 1e-8);
        assert_near(oil_index_hundred(rows[i].hot), rows[i].hundred, 1e-8);
    }
    assert_true(isnan(oil_index_zero(22.001)));
    assert_true(isnan(oil_index_zero(1.999)));
    assert_true(isnan(oil_index_hundred(22.001)));
    assert_true(isnan(oil_index_hundred(1.999)));
}

/* Indices of 0 and 100 are in; the oil's viscosity at 100 degrees comes back. */
static void test_ends_of_the_oil_index(void **state)
{
    (void)state;
    assert_near(oil_hot_of_index(oil_index_zero(12), 0), 12, 1e-12);
    assert_near(oil_hot_of_index(oil_index_hundred(12), 100), 12, 1e-12);
    assert_near(
        oil_hot_of_index((oil_index_zero(12) + 199 * oil_index_hundred(12)) / 200, 99.5), 12,
        1e-12);
    assert_near(oil_hot_of_index((199 * oil_index_zero(12) + oil_index_hundred(12)) / 200, 0.5),
                12, 1e-12);
    assert_near(oil_hot_of_index(oil_index_zero(2), 0), 2, 1e-12);
    assert_near(oil_hot_of_index(oil_index_zero(22), 0), 22, 1e-12);
    assert_true(isnan(oil_hot_of_index(oil_index_zero(22) + 1, 0)));
    assert_true(isnan(oil_hot_of_index(oil_index_hundred(2) - 1, 100)));
    assert_true(isnan(oil_hot_of_index(50, 100.5)));
    assert_true(isnan(oil_hot_of_index(50, -0.5)));
}

/* WGS 84 with its own constants, by 30 decimals. */
static void test_gravity_at_height(void **state)
{
    (void)state;
    assert_near(gravity_at(45, 10000), 9.775414595540642, 5e-14);
    assert_near(gravity_at(45, -1000), 9.809284041513159, 5e-14);
    assert_true(isnan(gravity_at(45, 10000.5)));
    assert_true(isnan(gravity_at(45, -1000.5)));
    assert_true(isnan(gravity_at(90.5, 0)));
}

/* By the tangents of 0.5, 89.5 and 45 degrees. */
static void test_steep_and_flat_bearings(void **state)
{
    (void)state;
    assert_near(friction_bearing_load(10, 0.5), 8 / 0.00872686779075879, 1e-12);
    assert_near(friction_bearing_load(10, 89.5), 8 / 114.588650129309, 1e-11);
    struct bearing_pair pair = {.cup1 = 0.1, .angle1 = 89.5, .cup2 = 0.1, .angle2 = 45};
    assert_near(growth_end_play_lost(&pair, 1e-5, 10), 1e-4 * (0.05 / 114.588650129309 + 0.05),
                1e-11);
}

static void test_least_and_most(void **state)
{
    (void)state;
    assert_near(drum_land_diameter(0.03, 0.04), 0.02,
                1e-12); /* a cord thicker than the radius */
    assert_true(isnan(drum_land_diameter(INFINITY, 0.001)));
    assert_true(isnan(nut_rim(0.08, INFINITY)));
    assert_near(tape_vernier_space(0.01, 2), 0.0157079632679490, 1e-12);
    assert_near(sight_height(1, 179.5 * 60), 2 * 114.588650129309 * 2, 0.5);
    assert_true(sight_height(1, 180 * 60 - 1) > 0);
    assert_true(isnan(sight_height(1, 180 * 60)));
}

/* A nut that has moved by half a degree has moved. */
static void test_half_a_degree(void **state)
{
    (void)state;
    struct nut_point points[] = {{10, 0.3, 0.01, 0.005}, {10.5, 0.4, 0.01, 0.005}};
    const struct nut_bounds bounds = {
        .target = 0.6, .good = 0.01, .limits = {{.drag = INFINITY}, {.drag = INFINITY}}};
    struct nut_move move = nut_next(&(struct nut_course){points, 2, NAN, 0}, &bounds);
    assert_int_equal(move.advice, NUT_TURN);
    assert_true(move.angle > 0.1 && move.angle <= 1);
}

/* Two pulls each way tell a difference; one does not. */
static void test_two_pulls_each_way(void **state)
{
    (void)state;
    struct series one = {.count = 1, .mean = 10, .least = 10, .most = 10};
    struct series usual = {.count = 2, .mean = 10, .least = 9.9, .most = 10.1};
    struct series other = {.count = 2, .mean = 11, .least = 10.5, .most = 11.4};
    assert_true(directions_differ(&usual, &other, 0.1));
    assert_true(directions_differ(&other, &usual, 0.1));
    assert_false(directions_differ(&one, &other, 0.1));
    assert_false(directions_differ(&usual, &one, 0.1));
    assert_false(directions_differ(&usual, &other, 1)); /* a step apart is not more */
    other.least = 10;
    assert_false(directions_differ(&usual, &other, 0.1));
}

/* No line goes through one place, whichever way it is asked for. */
static void test_no_line(void **state)
{
    (void)state;
    static const double nothing[] = {0, 0, 0}, y[] = {1, 2, 3};
    assert_int_equal(line_through(nothing, y, 3).count, 0);
    assert_int_equal(line_through_origin(nothing, y, 3).count, 0);
}

/* Below zero as above. */
static void test_least_of_negatives(void **state)
{
    (void)state;
    static const double values[] = {-3, -1, -2};
    struct series series = series_of(values, 3);
    assert_near(series.least, -3, 0);
    assert_near(series.most, -1, 0);
    assert_near(series_of(values, 1).most, -3, 0);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_parts_of_the_oil_index),
    cmocka_unit_test(test_ends_of_the_oil_index),
    cmocka_unit_test(test_gravity_at_height),
    cmocka_unit_test(test_steep_and_flat_bearings),
    cmocka_unit_test(test_least_and_most),
    cmocka_unit_test(test_half_a_degree),
    cmocka_unit_test(test_two_pulls_each_way),
    cmocka_unit_test(test_no_line),
    cmocka_unit_test(test_least_of_negatives),
};

GROUP(ends, NULL, NULL)
