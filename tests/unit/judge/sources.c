/* What is printed elsewhere of the risks of an inspection, and of how little a series says
 * whose neighbours are alike; and the tails of the distributions, against GSL. Single chances
 * stand in tests/data/checks.tsv. */
#include "physics/physics.h"
#include "test.h"

#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_randist.h>

static void assert_within(double got, double want, double off)
{
    if (!(fabs(got - want) <= off))
        fail_msg("%.12g, not %.12g", got, want);
}

/* To so many digits behind the point, as it is printed. */
static void assert_printed(double got, double want, int places)
{
    assert_within(got, want, 0.5 * pow(10, -places));
}

/* The chance that what is read of a value, with a doubt u, lies within. */
static double within(double value, double u, double low, double high)
{
    return student_above((low - value) / u, INFINITY) -
           student_above((high - value) / u, INFINITY);
}

/* ---- the risks of a whole inspection ---- */

struct inspection {
    double (*made)(double value); /* density of what is made */
    double least, most, u;        /* accepted is what is read within, with this doubt */
};

static double accepted(double value, void *of)
{
    const struct inspection *inspection = of;
    return inspection->made(value) *
           within(value, inspection->u, inspection->least, inspection->most);
}

static double rejected(double value, void *of)
{
    const struct inspection *inspection = of;
    return inspection->made(value) - accepted(value, of);
}

static double integral(double (*height)(double, void *), const struct inspection *of,
                       double from, double to)
{
    gsl_integration_workspace *room = gsl_integration_workspace_alloc(1000);
    struct inspection copy = *of;
    gsl_function function = {height, &copy};
    double sum, off;
    gsl_integration_qag(&function, from, to, 1e-12, 1e-10, 1000, GSL_INTEG_GAUSS31, room, &sum,
                        &off);
    gsl_integration_workspace_free(room);
    return sum;
}

/* Of all that is made, the share outside low..high that is accepted, and inside that is not. */
static double false_accepted(const struct inspection *of, double least, double low, double high,
                             double most)
{
    return integral(accepted, of, least, low) + integral(accepted, of, high, most);
}

static double resistors(double ohm)
{
    return gsl_ran_gaussian_pdf(ohm - 1500, 0.12);
}

static double bearings(double micrometres)
{
    return gsl_ran_gamma_pdf(micrometres, 4, 0.25);
}

/* Resistors of 1500 ohm, standard deviation 0.12, tolerance 0.2, read with u 0.04: inputs as
 * a public script has them that calls them an example of conformity; that they are those of
 * JCGM 106, 9.5 and A, and the results, from memory. */
static void test_resistors(void **state)
{
    (void)state;
    const double low = 1499.8, high = 1500.2, least = 1499, most = 1501;
    const struct inspection guarded = {resistors, 1499.82, 1500.18, 0.04};
    const struct inspection plain = {resistors, low, high, 0.04};
    assert_printed(false_accepted(&guarded, least, low, high, most), 0.01, 2);
    assert_printed(integral(rejected, &guarded, low, high), 0.07, 2);
    /* Worked out apart. */
    assert_printed(false_accepted(&guarded, least, low, high, most), 0.009878, 6);
    assert_within(integral(rejected, &guarded, low, high), 0.069026, 1e-6);
    assert_printed(false_accepted(&plain, least, low, high, most), 0.018942, 6);
    assert_printed(integral(rejected, &plain, low, high), 0.037208, 6);
    assert_printed(1 - within(1500, 0.12, low, high), 0.095581, 6);
}

/* JCGM 106, 9.5.4, as a public notebook quotes it: of ball bearings the radial error motion
 * shall be below 2 micrometres; gamma distributed, read with u 0.25. */
static void test_ball_bearings(void **state)
{
    (void)state;
    const struct inspection plain = {bearings, -INFINITY, 2, 0.25};
    const struct inspection guarded = {bearings, -INFINITY, 1.671829, 0.25};
    assert_printed(gsl_cdf_gamma_Q(2, 4, 0.25), 0.04238, 5);
    assert_printed(integral(accepted, &plain, 2, 10), 0.008019, 6);
    assert_within(integral(accepted, &guarded, 2, 10), 0.001, 1e-8);
}

/* Limits at two standard deviations of what is made; read with a doubt of an eighth of them,
 * or of a quarter with a guard: as printed in the tests of a public program, after a paper of
 * its trade. */
static double standard(double value)
{
    return gsl_ran_gaussian_pdf(value, 1);
}

static void test_ratios(void **state)
{
    (void)state;
    const struct inspection four = {standard, -2, 2, 0.25}, two = {standard, -1.82, 1.82, 0.5};
    assert_within(false_accepted(&four, -9, -2, 2, 9), 0.008, 1e-4);
    assert_within(integral(rejected, &four, -2, 2), 0.015, 5e-4);
    assert_within(false_accepted(&two, -9, -2, 2, 9), 0.008, 5e-4);
    assert_within(integral(rejected, &two, -2, 2), 0.066, 1e-3);
}

/* ---- series whose neighbours are alike ---- */

/* How many pulls without correlation say as much as n that follow each other with r^k over k
 * places: the sum worked out in closed form. */
static double worth(double n, double r)
{
    double factor = (1 + r) / (1 - r) - 2 * r * (1 - pow(r, n)) / (n * (1 - r) * (1 - r));
    return n / factor;
}

static void test_correlated_means(void **state)
{
    (void)state;
    /* Worked out apart; Zhang, Metrologia 43, 2006, and JCGM 100, 4.2.7, warn of it. */
    assert_printed(worth(100, 0.5), 33.78, 2);
    assert_printed(worth(100, 0.9), 5.81, 2);
    /* One correlation alone is thought possible: then the doubt of a mean is that. */
    for (int only = 0; only < CORRELATIONS; only++) {
        struct scatter scatter = scatter_before_any(0.02);
        for (int i = 0; i < CORRELATIONS; i++)
            scatter.evidence[i] = i == only ? 0 : -INFINITY;
        double r = scatter_of_mean(&scatter, 1).correlation;
        for (size_t n = 1; n <= 20; n++) {
            struct scatter_of_mean mean = scatter_of_mean(&scatter, n);
            assert_within(mean.u * mean.u, 0.0004 / worth((double)n, r), 1e-16);
        }
    }
}

/* Far out and for all degrees of freedom, which the sums of logarithms alone do not reach. */
static void test_tails(void **state)
{
    (void)state;
    for (double nu = 1; nu < 1e12; nu *= 1.3)
        for (double t = -40; t <= 40; t += 0.637)
            assert_within(student_above(t, nu), gsl_cdf_tdist_Q(t, nu), 1e-10);
    for (double z = -40; z <= 40; z += 0.137)
        assert_within(student_above(z, INFINITY), gsl_cdf_ugaussian_Q(z), 1e-15);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_resistors), cmocka_unit_test(test_ball_bearings),
    cmocka_unit_test(test_ratios),    cmocka_unit_test(test_correlated_means),
    cmocka_unit_test(test_tails),
};

GROUP(sources, NULL, NULL)
