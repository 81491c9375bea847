/* The sizes of a drum to make, worked out by hand. */
#include "drag/drum.h"
#include "drag/drag.h"
#include "test.h"

#include <math.h>
#include <stdio.h>

static void assert_near(double got, double want)
{
    if (!(fabs(got - want) <= 1e-12 * fmax(1, fabs(want))))
        fail_msg("%.15g, not %.15g", got, want);
}

static void test_the_land_leaves_room_for_the_cord(void **state)
{
    (void)state;
    assert_near(drum_land_diameter(0.032, 0.0008), 0.0632);
    assert_near(drum_land_diameter(0.0508, 0.001), 0.1006);
    assert_near(drum_land_diameter(0.05, 0), 0.1);
    for (double cord = 0; cord < 0.02; cord += 0.0031) /* there and back */
        assert_near(drag_radius(drum_land_diameter(0.0313, cord), cord), 0.0313);
    assert_true(isnan(drum_land_diameter(0.001, 0.002)));
    assert_true(isnan(drum_land_diameter(0, 0)));
    assert_true(isnan(drum_land_diameter(NAN, 0.001)));
    assert_true(isnan(drum_land_diameter(0.03, -0.001)));
}

static void test_the_land_is_wide_enough(void **state)
{
    (void)state;
    assert_near(drum_land_width(4, 0.0008, 0.003), 0.0074); /* 3 + 5 x 0.88 mm */
    assert_near(drum_land_width(1, 0.001, 0), 0.0022);
    assert_near(drum_land_width(100, 0.001, 0.002), 0.1131);
    assert_true(isnan(drum_land_width(0, 0.001, 0.002)));
    assert_true(isnan(drum_land_width(101, 0.001, 0.002)));
    assert_true(isnan(drum_land_width(3, -0.001, 0.002)));
    assert_true(isnan(drum_land_width(3, 0.001, INFINITY)));
}

/* 3 mm, or three cords and two. */
static void test_flanges_and_peg_grow_with_the_cord(void **state)
{
    (void)state;
    assert_near(drum_flange_height(0.0008), 0.003);
    assert_near(drum_flange_height(0.001), 0.003);
    assert_near(drum_flange_height(0.002), 0.006);
    assert_near(drum_peg(0.0008), 0.003);
    assert_near(drum_peg(0.002), 0.004);
    assert_near(drum_notch(0.004), 0.012);
    assert_near(drum_flange_thickness, 0.003);
    assert_true(isnan(drum_flange_height(-1)) && isnan(drum_peg(NAN)) && isnan(drum_notch(0)));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_the_land_leaves_room_for_the_cord),
    cmocka_unit_test(test_the_land_is_wide_enough),
    cmocka_unit_test(test_flanges_and_peg_grow_with_the_cord),
};

GROUP(drum, NULL, NULL)
