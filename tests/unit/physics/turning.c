/* Speed of the cord and what speeding up costs, against values from elsewhere: each has
 * its source beside it. */
#include "drag/turning.h"
#include "facts.h"
#include "test.h"

#include <math.h>

/* GNU units: 1 r/min is 0.10471975511966 rad/s; 12 r/min on a drum of 4 in is 2.513 in of
 * cord a second, pi times 4 in in 5 s. */
static void test_cord_speed(void **state)
{
    (void)state;
    assert_within(turning_speed(5), 12, 0);
    assert_within(turning_speed(1), 60, 0);
    assert_within(turning_cord_speed(1, 1), 0.10471975511966, 5e-15);
    assert_within(turning_cord_speed(2 * 0.0254, 12) / 0.0254, 2.513274, 5e-7);
    assert_within(turning_cord_speed(0.0314, 0), 0, 0);
    assert_true(isnan(turning_speed(0)) && isnan(turning_speed(-1)) &&
                isnan(turning_cord_speed(0, 1)) && isnan(turning_cord_speed(1, -1)));
}

/* A mechanics text's exercises: a disc of 10 kg and radius 0.2 m has 0.2 kg m2, and
 * coming to 15 m/s at its rim within 300 s takes 0.05 N.m; a cube metre of water's
 * weight of 1000 kg for the mass. */
static void test_inertia(void **state)
{
    (void)state;
    double density = 10 / (M_PI * 0.2 * 0.2 * 0.1);
    assert_within(turning_mass(density, 0.4, 0.1), 10, 1e-12);
    assert_within(turning_inertia(density, 0.4, 0.1), 0.2, 1e-14);
    double rim = 15 / 0.2 / (2 * M_PI) * 60; /* r/min */
    assert_within(turning_drag_of_change(0.2, rim, 300), 0.05, 1e-15);
    assert_within(turning_drag_of_change(0.2, -rim, 300), -0.05, 1e-15);
    assert_within(turning_mass(1000, 2 / sqrt(M_PI), 1), 1000, 1e-10);
}

/* Worked out apart, with two digits: cylinders of 7850 kg/m3, in mm. */
static void test_steel_cylinders(void **state)
{
    (void)state;
    static const double bodies[][3] = {
        {60, 500, 0.0050}, {200, 25, 0.0308}, {160, 65, 0.0328}, {200, 80, 0.0986}};
    for (int i = 0; i < 4; i++)
        assert_within(turning_inertia(7850, bodies[i][0] / 1000, bodies[i][1] / 1000),
                      bodies[i][2], 0.00005);
}

static void test_ranges(void **state)
{
    (void)state;
    assert_true(isnan(turning_mass(0, 1, 1)) && isnan(turning_mass(1, 0, 1)) &&
                isnan(turning_mass(1, 1, -1)) && isnan(turning_inertia(1, 1, 0)) &&
                isnan(turning_drag_of_change(-1, 1, 1)) &&
                isnan(turning_drag_of_change(1, INFINITY, 1)) &&
                isnan(turning_drag_of_change(1, 1, 0)));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_cord_speed),
    cmocka_unit_test(test_inertia),
    cmocka_unit_test(test_steel_cylinders),
    cmocka_unit_test(test_ranges),
};

GROUP(turning, NULL, NULL)
