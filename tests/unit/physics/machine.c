/* Nut, gravity, oil, friction, growth, and what turning the spindle asks of the cord, against
 * published values: each has its source beside it. */
#include "facts.h"
#include "physics/physics.h"
#include "test.h"

#include <math.h>

static void test_gravity(void **state)
{
    (void)state;
    struct facts facts = facts_open("gravity.tsv");
    while (facts_next(&facts)) {
        double latitude = fact(&facts, 1), height = fact(&facts, 2);
        /* what the height term leaves off is most at the equator, next to nothing at the pole
         */
        double left_off = 1.2e-10 * fabs(height) * pow(cos(latitude * M_PI / 180), 2);
        double within = height != 0 ? left_off + 1e-9 : 1e-10;
        assert_within(gravity_at(latitude, height), fact(&facts, 3), within);
        assert_within(gravity_at(-latitude, height), fact(&facts, 3), within);
    }
    assert_int_equal(facts.rows, 22);
    assert_true(gravity_at(0, -1000) > gravity_at(0, 10000)); /* the ends of the range */
    assert_within(100 * (gravity_at(0, 0) / standard_gravity - 1), -0.2684, 0.00005);
    assert_within(100 * (gravity_at(90, 0) / standard_gravity - 1), 0.2604, 0.00005);
    assert_true(isnan(gravity_at(90.1, 0)) && isnan(gravity_at(-90.1, 0)) &&
                isnan(gravity_at(0, 10001)) && isnan(gravity_at(0, -1001)) &&
                isnan(gravity_at(NAN, 0)));
}

/* OIML D 28: weights of 8000 kg/m3 in air of 1.2 kg/m3. */
static void test_weight(void **state)
{
    (void)state;
    assert_within(weight_of(1, 10), 10 * 0.99985, 1e-12);
    assert_within(weight_of(0, 10), 0, 0);
    assert_true(isnan(weight_of(-1, 10)) && isnan(weight_of(1, 0)));
}

/* ISO 262 pitches; arithmetic of the lead by hand. */
static void test_nut_travel(void **state)
{
    (void)state;
    struct facts facts = facts_open("thread_pitches.tsv");
    while (facts_next(&facts))
        assert_within(nut_travel(fact(&facts, 1) / 1000, 360), fact(&facts, 1) / 1000, 1e-15);
    assert_int_equal(facts.rows, 10);
    assert_within(nut_travel(0.0015, 10), 0.0416667e-3, 5e-11);
    assert_within(nut_travel(0.002, 15), 0.0833333e-3, 5e-11);
    assert_within(nut_travel(nut_pitch_of_threads(18), 10) / 0.0254, 0.00154321, 5e-9);
    assert_within(nut_travel(nut_pitch_of_threads(20), 5) / 0.0254, 0.000694444, 5e-10);
    assert_within(nut_travel(nut_pitch_of_threads(16), 90) / 0.0254, 0.015625, 1e-12);
    assert_within(nut_rim(0.080, 360), M_PI * 0.080, 1e-15);
    /* common practice, no source: 1 mm of rim on an 80 mm nut of 1.5 mm pitch is 6 um */
    assert_within(nut_travel(0.0015, 360 * 0.001 / nut_rim(0.080, 360)), 6.0e-6, 0.05e-6);
    assert_true(isnan(nut_travel(0, 1)) && isnan(nut_travel(1, INFINITY)) &&
                isnan(nut_pitch_of_threads(0)) && isnan(nut_rim(-1, 1)) &&
                isnan(nut_rim(1, NAN)));
}

/* Limits far off, but for the target; two places, and none of the slack nut. */
static struct nut_bounds bounds_to(double target, double good)
{
    return (struct nut_bounds){.target = target,
                               .good = good,
                               .free = 0.2,
                               .limits = {{.drag = INFINITY}, {.drag = INFINITY}}};
}

static struct nut_move next_of(double a1, double t1, double a2, double t2, double u,
                               const struct nut_bounds *bounds)
{
    struct nut_point points[] = {{a1, t1, 0, u}, {a2, t2, 0, u}};
    return nut_next(&(struct nut_course){points, 2, NAN, 0}, bounds);
}

static struct nut_move next(double a1, double t1, double a2, double t2)
{
    const struct nut_bounds bounds = bounds_to(0.65, 0.02);
    return next_of(a1, t1, a2, t2, 0.001, &bounds);
}

static void test_nut_moves(void **state)
{
    (void)state;
    struct nut_move move = next(0, 0.30, 3, 0.45);
    assert_int_equal(move.advice, NUT_TURN);
    assert_true(move.angle > 2.5 && move.angle < 4); /* a straight line would go 4 */
    assert_false(move.capped || move.risky);
    move = next(0, 0.30, 2, 0.32);
    assert_within(move.angle, 4, 1e-12); /* no more than twice the last */
    assert_true(move.capped);
    move = next(0, 0.30, 3, 0.32);
    assert_within(move.angle, 5, 0); /* never more than 5 degrees at once */
    assert_true(move.capped);
    assert_int_equal(next(0, 0.3, 3, 0.66).advice, NUT_GOOD);
    assert_int_equal(next(0, 0.3, 3, 0.635).advice, NUT_GOOD);
    assert_int_equal(next(0, 0.3, 3, 0.68).advice, NUT_UNLOAD);
    assert_int_equal(next(0, 0.3, 3, 0.3).advice, NUT_NO_SLOPE);
    assert_int_equal(next(0, 0.3, 3, 0.2).advice, NUT_FREE);
    assert_int_equal(next(3, 0.3, 3, 0.4).advice, NUT_NO_SLOPE);
    assert_int_equal(next(5, 0.45, 2, 0.30).advice, NUT_BACKED);
    assert_int_equal(next(5, 0.45, 4.9, 0.30).advice, NUT_BACKED);
    const struct nut_move still[] = {next(0, 0.3, 3, 0.66), next(0, 0.3, 3, 0.68),
                                     next(0, 0.3, 3, 0.3), next(5, 0.45, 2, 0.30)};
    for (int i = 0; i < 4; i++)
        assert_true(still[i].angle == 0 && !still[i].capped);
}

/* Doubts of 0.015 and 0.02 make one of 0.025: a rise up to twice that is none. */
static void test_nut_rise_in_doubt(void **state)
{
    (void)state;
    const struct nut_bounds bounds = bounds_to(0.65, 0.02);
    struct nut_point points[] = {{0, 0.25, 0, 0.015}, {2, 0.299, 0, 0.02}};
    const struct nut_course course = {points, 2, NAN, 0};
    assert_int_equal(nut_next(&course, &bounds).advice, NUT_NO_SLOPE);
    points[1].drag = 0.301;
    assert_int_equal(nut_next(&course, &bounds).advice, NUT_TURN);
    points[1].drag = 0.64; /* what is there, is there */
    assert_int_equal(nut_next(&course, &bounds).advice, NUT_GOOD);
}

/* With the drag of the slack nut, the drag is over it or still that. */
static void test_nut_still_slack(void **state)
{
    (void)state;
    const struct nut_bounds bounds = bounds_to(0.65, 0.02);
    struct nut_point points[] = {{0, 0.25, 0, 0.01}, {2, 0.27, 0, 0.01}};
    struct nut_course course = {points, 2, 0.25, 0.01};
    assert_int_equal(nut_next(&course, &bounds).advice, NUT_FREE);
    course.slack = 0.2;
    assert_int_equal(nut_next(&course, &bounds).advice, NUT_TURN);
    points[1].drag = 0.22; /* less than before */
    course.slack = 0.15;
    assert_int_equal(nut_next(&course, &bounds).advice, NUT_NO_SLOPE);
}

/* Exactly on the edge: the edge belongs. */
static void test_nut_edges(void **state)
{
    (void)state;
    struct nut_bounds bounds = bounds_to(0.75, 0.25);
    assert_int_equal(next_of(0, 0.25, 2, 0.5, 0.001, &bounds).advice, NUT_GOOD);
    bounds.target = 0.25;
    assert_int_equal(next_of(0, 0.25, 2, 0.5, 0.001, &bounds).advice, NUT_GOOD);
}

/* Three places on T = 0.1 + 0.005 a^1.5 and the slack drag: the curve goes on as it does, and
 * says how sure that is; a lower limit allows less. */
static void test_nut_curve(void **state)
{
    (void)state;
    struct nut_point points[] = {
        {6, 0.17348, 0, 0.001}, {9, 0.235, 0, 0.001}, {12, 0.30785, 0, 0.001}};
    const struct nut_course course = {points, 3, 0.1, 0.001};
    struct nut_curve curve = nut_curve_of(&course);
    double weights = 0;
    for (int i = 0; i < NUT_MODELS; i++)
        weights += curve.models[i].weight;
    assert_within(weights, 1, 1e-12);
    assert_within(nut_curve_drag(&curve, 12), 0.30785, 0.003);
    assert_within(nut_curve_drag(&curve, 16), 0.42, 0.01);
    struct nut_limit limit = {0.42, 0.0, INFINITY, 0.1};
    assert_within(nut_curve_above(&curve, 16, &limit), 0.5, 0.25);
    limit.drag = 0.5;
    assert_true(nut_curve_above(&curve, 16, &limit) < 0.01);
    limit.u = 0.1;
    assert_true(nut_curve_above(&curve, 16, &limit) > 0.1);
    struct nut_bounds bounds = bounds_to(0.42, 0.01);
    double free = nut_next(&course, &bounds).angle;
    assert_within(free, 4, 0.5);
    bounds.limits[0] = (struct nut_limit){0.42, 0.02, INFINITY, 0.1};
    struct nut_move move = nut_next(&course, &bounds);
    assert_true(move.risky && move.angle < free - 0.3);
    bounds.limits[0].risk = 0.025;
    assert_true(nut_next(&course, &bounds).angle < move.angle);
}

/* A published worked sheet of ASTM D341 with T = t + 273: A 9.5259, B 3.7449 and
 * 8.5 mm2/s at 80 degrees; with 273.15 the values below, worked out apart. */
static void test_oil(void **state)
{
    (void)state;
    struct oil oil = oil_from_points(40, 32, 100, 5.4);
    assert_within(oil.a, 9.530815, 5e-7);
    assert_within(oil.b, 3.746578, 5e-7);
    static const double points[][2] = {{20, 86.27785738},
                                       {30, 50.63000741},
                                       {50, 21.49630910},
                                       {60, 15.18589283},
                                       {80, 8.53321469}};
    for (int i = 0; i < 5; i++)
        assert_within(oil_viscosity(oil, points[i][0]), points[i][1], 1e-7);
    struct oil shifted = oil_from_points(39.85, 32, 99.85, 5.4); /* T = t + 273 */
    assert_within(shifted.a, 9.5259, 0.00005);
    assert_within(shifted.b, 3.7449, 0.00005);
    assert_within(oil_viscosity(shifted, 79.85), 8.5, 0.05);
    assert_within(oil_viscosity(oil_from_points(100, 5.4, 40, 32), 40), 32, 1e-9);
    assert_true(isnan(oil_viscosity(oil_from_points(40, 2, 100, 5), 40)));
    assert_true(isnan(oil_from_points(40, 2, 100, 5).a));
    assert_within(oil_viscosity(oil_from_points(40, 2.5, 20, 4), 40), 2.5, 1e-12);
    assert_true(isnan(oil_viscosity(oil_from_points(40, 9, 40, 5), 40)));
    assert_true(isnan(oil_from_points(40, 9, 40, 5).b));
    assert_true(oil_viscosity(oil, -30) > 1000); /* the ends belong */
    assert_true(oil_viscosity(oil_from_points(40, 320, 100, 24), 150) > 5);
    assert_true(isnan(oil_viscosity(oil, 151)) && isnan(oil_viscosity(oil, -31)));
    assert_true(isnan(oil_viscosity(oil_from_points(40, 3, 60, 2.1), 150)));
}

static void test_friction(void **state)
{
    (void)state;
    struct facts facts = facts_open("friction.tsv");
    while (facts_next(&facts)) {
        double pitch = fact(&facts, 5) / 1000;
        assert_within(
            1000 * friction_of_oil(fact(&facts, 1), fact(&facts, 3), fact(&facts, 4), pitch),
            fact(&facts, 7), 0.00005);
        assert_within(1000 * friction_of_load(fact(&facts, 2), fact(&facts, 6), pitch),
                      fact(&facts, 8), 0.00005);
    }
    assert_int_equal(facts.rows, 7);
    double below = friction_of_oil(6, 32, 62.499, 0.075),
           at = friction_of_oil(6, 32, 62.5, 0.075);
    assert_within(at / below - 1, -0.0079, 0.0001); /* the model's own step */
    assert_true(isnan(friction_of_oil(0, 1, 1, 1)) && isnan(friction_of_oil(1, 0, 1, 1)) &&
                isnan(friction_of_oil(1, 1, -1, 1)) && isnan(friction_of_oil(1, 1, 1, 0)) &&
                isnan(friction_of_load(0, 1, 1)) && isnan(friction_of_load(1, -1, 1)) &&
                isnan(friction_of_load(1, 1, 0)));
    assert_within(friction_bearing_load(1000, 45), 800, 1e-9);
    assert_within(friction_bearing_load(500, 15), 400 * (2 + sqrt(3)), 1e-9); /* cot 15 */
    assert_true(isnan(friction_bearing_load(-1, 15)) && isnan(friction_bearing_load(1, 0)) &&
                isnan(friction_bearing_load(1, 90)));
}

/* Coefficients from tables: steel 12e-6, cast iron 10e-6; sums by hand. */
static void test_growth(void **state)
{
    (void)state;
    assert_within(growth_of_length(12e-6, 0.3, 20), 0.072e-3, 1e-12);
    assert_within(growth_difference(12e-6, 30, 10e-6, 30, 0.3), 0.018e-3, 1e-12);
}

/* The makers' form of the same, from memory: 0.5 alpha dT [K1 D1 / 0.39 + K2 D2 /
 * 0.39 -+ L / 0.5] with K = 0.39 cot a; and nothing is lost or gained in the O
 * arrangement where the cups' apexes meet. */
static void test_end_play(void **state)
{
    (void)state;
    struct bearing_pair pair = {false, 0.09, 0.08, 15, 14, 0.25};
    double k1 = 0.39 / tan(15 * M_PI / 180), k2 = 0.39 / tan(14 * M_PI / 180);
    double radial = k1 * 0.09 / 0.39 + k2 * 0.08 / 0.39;
    assert_within(growth_end_play_lost(&pair, 12e-6, 10), 0.5 * 12e-5 * (radial - 0.25 / 0.5),
                  1e-15);
    pair.face_to_face = true;
    assert_within(growth_end_play_lost(&pair, 12e-6, 10), 0.5 * 12e-5 * (radial + 0.25 / 0.5),
                  1e-15);
    pair.face_to_face = false;
    pair.spread = radial / 2;
    assert_within(growth_end_play_lost(&pair, 12e-6, 10), 0, 1e-15);
    pair.angle1 = 0.5;
    assert_true(isfinite(growth_end_play_lost(&pair, 12e-6, 10)));
    pair.angle1 = 0;
    assert_true(isnan(growth_end_play_lost(&pair, 12e-6, 10)));
    pair.angle1 = 90;
    assert_true(isnan(growth_end_play_lost(&pair, 12e-6, 10)));
    pair.angle1 = 15, pair.cup2 = 0;
    assert_true(isnan(growth_end_play_lost(&pair, 12e-6, 10)));
}

/* ---- speed of the cord, and what speeding up costs ---- */

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

static void test_turning_out_of_range(void **state)
{
    (void)state;
    assert_true(isnan(turning_mass(0, 1, 1)) && isnan(turning_mass(1, 0, 1)) &&
                isnan(turning_mass(1, 1, -1)) && isnan(turning_inertia(1, 1, 0)) &&
                isnan(turning_drag_of_change(-1, 1, 1)) &&
                isnan(turning_drag_of_change(1, INFINITY, 1)) &&
                isnan(turning_drag_of_change(1, 1, 0)));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_gravity),
    cmocka_unit_test(test_weight),
    cmocka_unit_test(test_nut_travel),
    cmocka_unit_test(test_nut_moves),
    cmocka_unit_test(test_nut_edges),
    cmocka_unit_test(test_nut_still_slack),
    cmocka_unit_test(test_nut_curve),
    cmocka_unit_test(test_nut_rise_in_doubt),
    cmocka_unit_test(test_oil),
    cmocka_unit_test(test_friction),
    cmocka_unit_test(test_growth),
    cmocka_unit_test(test_end_play),
    cmocka_unit_test(test_cord_speed),
    cmocka_unit_test(test_inertia),
    cmocka_unit_test(test_steel_cylinders),
    cmocka_unit_test(test_turning_out_of_range),
};

GROUP(machine, NULL, NULL)
