/* The sizes of a drum to make, worked out by hand; strips of paper around it and the size of
 * signs to an eye, against figures worked out apart, and the vernier against what a tape around
 * a drum must show. */
#include "facts.h"
#include "physics/physics.h"
#include "test.h"

#include <math.h>
#include <stdio.h>

static void test_the_land_leaves_room_for_the_cord(void **state)
{
    (void)state;
    assert_number(drum_land_diameter(0.032, 0.0008), 0.0632);
    assert_number(drum_land_diameter(0.0508, 0.001), 0.1006);
    assert_number(drum_land_diameter(0.05, 0), 0.1);
    for (double cord = 0; cord < 0.02; cord += 0.0031) /* there and back */
        assert_number(drag_radius(drum_land_diameter(0.0313, cord), cord), 0.0313);
    assert_true(isnan(drum_land_diameter(0.001, 0.002)));
    assert_true(isnan(drum_land_diameter(0, 0)));
    assert_true(isnan(drum_land_diameter(NAN, 0.001)));
    assert_true(isnan(drum_land_diameter(0.03, -0.001)));
}

static void test_the_land_is_wide_enough(void **state)
{
    (void)state;
    assert_number(drum_land_width(4, 0.0008, 0.003), 0.0074); /* 3 + 5 x 0.88 mm */
    assert_number(drum_land_width(1, 0.001, 0), 0.0022);
    assert_number(drum_land_width(100, 0.001, 0.002), 0.1131);
    assert_true(isnan(drum_land_width(0, 0.001, 0.002)));
    assert_true(isnan(drum_land_width(101, 0.001, 0.002)));
    assert_true(isnan(drum_land_width(3, -0.001, 0.002)));
    assert_true(isnan(drum_land_width(3, 0.001, INFINITY)));
}

/* 3 mm, or three cords and two. */
static void test_flanges_and_peg_grow_with_the_cord(void **state)
{
    (void)state;
    assert_number(drum_flange_height(0.0008), 0.003);
    assert_number(drum_flange_height(0.001), 0.003);
    assert_number(drum_flange_height(0.002), 0.006);
    assert_number(drum_peg(0.0008), 0.003);
    assert_number(drum_peg(0.002), 0.004);
    assert_number(drum_notch(0.004, 0.002), 0.012);
    assert_number(drum_flange_thickness(0.001), 0.003);
    assert_number(drum_flange_thickness(0.002), 0.0035);
    assert_true(isnan(drum_flange_height(-1)) && isnan(drum_peg(NAN)) &&
                isnan(drum_notch(0, 0.001)));
}

/* 30 N on a peg of 3 mm across 4.5 mm: by hand, 6 x 30 x 3 / (4.5 x 9) = 13.3333 and
 * 30 / 13.5 = 2.2222 N/mm2. */
static void test_stress_of_a_peg(void **state)
{
    (void)state;
    assert_within(drum_peg_stress(30, 0.003, 0.003, 0.0045), 13.8778e6, 100);
    assert_number(drum_peg_stress(0, 0.003, 0.003, 0.0045), 0.0);
    assert_true(isnan(drum_peg_stress(-1, 1, 1, 1)) && isnan(drum_peg_stress(1, 0, 1, 1)));
    assert_true(isnan(drum_peg_stress(1, 1, 0, 1)) && isnan(drum_peg_stress(1, 1, 1, NAN)));
}

/* ---- tapes and signs ---- */

/* 62.1 pi, by bc(1). Paper of 0.1 mm moves a mark by 0.314 mm. */
static void test_marks_of_a_tape(void **state)
{
    (void)state;
    assert_within(tape_position(0.062, 0.0001), 0.195092903788, 5e-13);
    assert_within(tape_position(0.062, 0.0001) - tape_position(0.062, 0), 0.000314159265,
                  5e-13);
    assert_within(tape_arc(0.065, 0.0001, 360), tape_position(0.065, 0.0001), 1e-15);
    assert_within(tape_arc(0.065, 0.0001, 10), 0.0651 * 3.14159265358979 / 36, 1e-15);
    assert_within(tape_arc(0.065, 0, 0), 0, 0);
}

/* Ten spaces over nine divisions of 1 mm: 28.27 mm; over nine of 0.05 in: 1.414 in. */
static void test_vernier_spaces(void **state)
{
    (void)state;
    assert_within(10 * tape_vernier_space(0.001, 10), 0.0282743338823, 5e-14);
    assert_within(10 * tape_vernier_space(0.05, 10), 1.41371669412, 5e-12);
}

/* A drum of m + j/10 mm: where the tape's ends meet, the vernier line that is numbered j
 * (the (10 - j)th before the index line) runs into a line of the scale, and no other but
 * for 0 and 10, which do so together. */
static void test_the_vernier_reads_tenths(void **state)
{
    (void)state;
    const double t = 0.0001, space = tape_vernier_space(0.001, 10);
    for (int tenths = 400; tenths < 1600; tenths++)
        for (int number = 0; number <= 10; number++) {
            double met = tape_position(tenths / 10000.0, t) - (10 - number) * space;
            double millimetres = 1000 * (met / 3.14159265358979323846 - t);
            double off = fabs(millimetres - round(millimetres));
            if (number % 10 == tenths % 10)
                assert_true(off < 1e-9);
            else
                assert_true(off > 0.0999);
        }
}

static void test_a_tape_out_of_range(void **state)
{
    (void)state;
    assert_true(isnan(tape_position(0, 0.0001)) && isnan(tape_position(-1, 0.0001)));
    assert_true(isnan(tape_position(0.06, -0.0001)) && isnan(tape_position(NAN, 0)));
    assert_true(isnan(tape_position(INFINITY, 0)) && isnan(tape_position(1, NAN)));
    assert_true(isnan(tape_vernier_space(0, 10)) && isnan(tape_vernier_space(0.001, 1)));
    assert_true(isnan(tape_arc(0.06, 0, -1)) && isnan(tape_arc(0, 0, 10)));
    assert_true(isnan(tape_arc(0.06, 0, INFINITY)));
}

/* Shares of the distance for 15, 16 and 20 minutes of arc: 2 tan(angle / 2). The rules
 * of thumb of NUREG-0700 11.4.1.5-1 are 0.004 for 15 and 0.006 for 20. */
static void test_signs_to_the_eye(void **state)
{
    (void)state;
    assert_within(sight_height(1, 15), 0.004363, 5e-7);
    assert_within(sight_height(1, 16), 0.004654, 5e-7);
    assert_within(sight_height(1, 20), 0.005818, 5e-7);
    assert_within(sight_height(0.7, SIGHT_LEAST), 0.00305, 5e-6);
    assert_within(sight_height(0.7, SIGHT_PREFERRED), 0.00407, 5e-6);
    assert_within(sight_height(1, 90 * 60), 2, 1e-12);
    for (int minutes = 1; minutes < 60; minutes++)
        assert_within(sight_minutes(sight_height(0.45, minutes), 0.45), minutes, 1e-9);
}

static void test_sight_out_of_range(void **state)
{
    (void)state;
    assert_true(isnan(sight_height(0, 15)) && isnan(sight_height(1, 0)));
    assert_true(isnan(sight_height(1, 180 * 60)) && isnan(sight_height(NAN, 15)));
    assert_true(isnan(sight_minutes(0, 1)) && isnan(sight_minutes(0.004, 0)));
    assert_true(isnan(sight_minutes(INFINITY, 1)) && isnan(sight_minutes(0.004, -1)));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_the_land_leaves_room_for_the_cord),
    cmocka_unit_test(test_the_land_is_wide_enough),
    cmocka_unit_test(test_flanges_and_peg_grow_with_the_cord),
    cmocka_unit_test(test_stress_of_a_peg),
    cmocka_unit_test(test_marks_of_a_tape),
    cmocka_unit_test(test_vernier_spaces),
    cmocka_unit_test(test_the_vernier_reads_tenths),
    cmocka_unit_test(test_a_tape_out_of_range),
    cmocka_unit_test(test_signs_to_the_eye),
    cmocka_unit_test(test_sight_out_of_range),
};

GROUP(drum, NULL, NULL)
