/* Means, standard deviations and straight lines against NIST's reference data
 * sets (StRD, as printed in the tests of GSL 2.7.1), JCGM 100 H.3 and GSL itself. */
#include "facts.h"
#include "physics/physics.h"
#include "test.h"

#include <math.h>

#include <gsl/gsl_fit.h>

enum { MOST = 1100 };
static double xs[MOST], ys[MOST];

static void assert_near(double got, double want, double relative)
{
    if (!(fabs(got - want) <= relative * fabs(want) + 1e-300))
        fail_msg("%.17g, not %.17g", got, want);
}

static void test_mavro(void **state)
{
    (void)state;
    struct series series = series_of(xs, facts_numbers("mavro.txt", xs));
    assert_int_equal(series.count, 50);
    assert_near(series.mean, 2.00185600000000, 1e-15);
    assert_near(series.sd, 0.000429123454003053, 1e-12);
}

static void test_michelson(void **state)
{
    (void)state;
    struct series series = series_of(xs, facts_numbers("michelson.txt", xs));
    assert_int_equal(series.count, 100);
    assert_near(series.mean, 299.852400000000, 1e-15); /* StRD: Michelson */
    assert_near(series.sd, 0.0790105478190518, 1e-12);
}

/* StRD NumAcc1..4: the last two break a sum of squares without a mean. */
static void test_numacc(void **state)
{
    (void)state;
    struct series one = series_of((double[]){10000001, 10000003, 10000002}, 3);
    assert_near(one.mean, 10000002, 1e-15);
    assert_near(one.sd, 1, 1e-15);
    static const double bases[] = {1.2, 1000000.2, 10000000.2}, slack[] = {1e-13, 1e-9, 1e-8};
    for (int set = 0; set < 3; set++) {
        xs[0] = bases[set];
        for (int i = 1; i < 1001; i++)
            xs[i] = bases[set] + (i % 2 ? -0.1 : 0.1);
        struct series series = series_of(xs, 1001);
        assert_near(series.mean, bases[set], 1e-14);
        assert_near(series.sd, 0.1, slack[set]);
    }
}

static void test_series_of_few(void **state)
{
    (void)state;
    double one = 4;
    assert_true(isnan(series_of(NULL, 0).mean));
    assert_true(isnan(series_of(&one, 1).sd));
    assert_near(series_of(&one, 1).mean, 4, 0);
    struct series endless = series_of((double[]){1, INFINITY}, 2);
    assert_true(isnan(endless.mean) && isnan(endless.sd) && isnan(endless.least) &&
                isnan(endless.most));
    struct series even = series_of((double[]){-1, 1}, 2);
    assert_true(isnan(series_relative_range(&even))); /* a share of nothing */
    struct series two = series_of((double[]){1, 3}, 2);
    assert_near(two.sd, sqrt(2), 1e-15);
    struct series pulls = series_of((double[]){4.62, 4.70, 4.58, 4.66, 4.64}, 5);
    assert_near(pulls.mean, 4.640, 1e-14);
    assert_near(pulls.sd, 0.0447213595, 1e-8); /* by hand: sqrt(0.008 / 4) */
    assert_near(series_relative_range(&pulls), 0.12 / 4.64, 1e-12);
}

static void test_norris(void **state)
{
    (void)state;
    struct line line = line_through(xs, ys, facts_points("norris.tsv", 0, xs, ys));
    assert_int_equal(line.count, 36);
    assert_near(line.intercept, -0.262323073774029, 1e-10);
    assert_near(line.slope, 1.00211681802045, 1e-13);
    assert_near(line.intercept_se, 0.232818234301152, 1e-10);
    assert_near(line.slope_se, 0.000429796848199937, 1e-10);
    assert_near(line.squares, 26.6173985294224, 1e-10);
    assert_near(line.sd, 0.884796396144373, 1e-10);
    assert_near(line_at(&line, 500), 500.796085936, 1e-11); /* gsl_fit_linear_est */
    assert_near(line_se_at(&line, 500), 0.1515021758, 1e-9);
}

static void test_line_against_gsl(void **state)
{
    (void)state;
    size_t count = facts_points("norris.tsv", 0, xs, ys);
    for (size_t n = 3; n <= count; n++) {
        double c0, c1, v00, v01, v11, squares;
        gsl_fit_linear(xs, 1, ys, 1, n, &c0, &c1, &v00, &v01, &v11, &squares);
        struct line line = line_through(xs, ys, n);
        assert_near(line.intercept, c0, 1e-8);
        assert_near(line.slope, c1, 1e-12);
        assert_near(line.covariance, v01, 1e-8);
        assert_near(line.intercept_se, sqrt(v00), 1e-8);
    }
}

static void test_through_origin(void **state)
{
    (void)state;
    struct line line = line_through_origin(xs, ys, facts_points("noint1.tsv", 0, xs, ys));
    assert_near(line.slope, 2.07438016528926, 1e-13);
    assert_near(line.slope_se, 0.0165289256198347, 1e-12);
    assert_near(line.squares, 127.272727272727, 1e-12);
    line = line_through_origin(xs, ys, facts_points("noint2.tsv", 0, xs, ys));
    assert_near(line.slope, 0.727272727272727, 1e-13);
    assert_near(line.slope_se, 0.0420827318078432, 1e-12);
    assert_near(line.squares, 0.272727272727273, 1e-12);
}

/* The correction of a thermometer: the same arithmetic as a gauge's. */
static void test_gum_h3(void **state)
{
    (void)state;
    size_t count = facts_points("gum_h3.tsv", 0, xs, ys);
    for (size_t i = 0; i < count; i++)
        xs[i] -= 20;
    struct line line = line_through(xs, ys, count);
    assert_int_equal(count, 11);
    assert_within(line.intercept, -0.1712, 0.00005);
    assert_within(line.slope, 0.00218, 0.000005);
    assert_within(line.intercept_se, 0.0029, 0.00005);
    assert_within(line.slope_se, 0.00067, 0.000005);
    assert_within(line.covariance / line.intercept_se / line.slope_se, -0.930, 0.0005);
    assert_within(line.sd, 0.0035, 0.00005);
    assert_within(line_at(&line, 10), -0.1494, 0.00005);
    assert_within(line_se_at(&line, 10), 0.0041, 0.00005);
}

static void test_no_line(void **state)
{
    (void)state;
    double same[] = {2, 2, 2}, two[] = {1, 2, 3}, zero[] = {0, 0, 0};
    assert_true(isnan(line_through(same, two, 3).slope));
    assert_near(line_through(two, same, 2).slope, 0, 0);
    assert_true(isnan(line_through(two, same, 2).slope_se));
    assert_true(isnan(line_through(two, same, 1).slope));
    assert_true(isnan(line_through_origin(zero, two, 3).slope));
    assert_true(isnan(line_through_origin(two, two, 1).slope));
    assert_int_equal(line_through(same, two, 3).count, 0);
    assert_near(line_through(two, same, 3).slope_se, 0, 0);
}

/* Few points near each other: 0.1 to 0.3 against 1, 2, 4, sums by hand. */
static void test_close_points(void **state)
{
    (void)state;
    double close[] = {0.1, 0.2, 0.3}, up[] = {1, 2, 4};
    assert_near(line_through(close, up, 3).slope, 15, 1e-14);
    assert_near(line_through(close, up, 3).squares, 1.0 / 6, 1e-13);
    assert_near(line_through_origin(close, up, 2).slope, 10, 1e-14);
    assert_near(line_through_origin(close, up, 3).slope, 1.7 / 0.14, 1e-14);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_mavro),          cmocka_unit_test(test_michelson),
    cmocka_unit_test(test_numacc),         cmocka_unit_test(test_series_of_few),
    cmocka_unit_test(test_norris),         cmocka_unit_test(test_line_against_gsl),
    cmocka_unit_test(test_through_origin), cmocka_unit_test(test_gum_h3),
    cmocka_unit_test(test_no_line),        cmocka_unit_test(test_close_points),
};

GROUP(statistics, NULL, NULL)
