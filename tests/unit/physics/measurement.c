/* The scatter that is learned, against matrices worked out at length; the tails against GSL;
 * the budget against differences; and whether the chances that are claimed come true. */
#include "physics/physics.h"
#include "test.h"

#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

static void assert_near(double got, double want, double relative)
{
    if (!(fabs(got - want) <= relative * fabs(want) + 1e-14))
        fail_msg("%.17g, not %.17g", got, want);
}

static void test_tails_against_gsl(void **state)
{
    (void)state;
    for (double nu = 1; nu < 500; nu *= 1.7)
        for (double t = -7; t < 7; t += 0.37)
            assert_near(student_above(t, nu), gsl_cdf_tdist_Q(t, nu), 1e-10);
    for (double nu1 = 1; nu1 < 30; nu1 += 3)
        for (double nu2 = 1; nu2 < 90; nu2 *= 2.3)
            for (double ratio = 0.1; ratio < 60; ratio *= 2)
                assert_near(fisher_above(ratio, nu1, nu2), gsl_cdf_fdist_Q(ratio, nu1, nu2),
                            1e-10);
    assert_near(student_above(1.5, INFINITY), gsl_cdf_ugaussian_Q(1.5), 1e-12);
    assert_true(isnan(student_above(1, 0.5)) && isnan(fisher_above(1, 0, 2)));
    assert_true(isnan(student_above(NAN, 5)) && fisher_above(0, 3, 3) == 1);
}

enum { PULLS = 6 };

/* Inverse of the matrix r^|i-k| by elimination, and the logarithm of its determinant. */
static double invert(double r, double inverse[PULLS][PULLS])
{
    double rows[PULLS][2 * PULLS], determinant = 0;
    for (int i = 0; i < PULLS; i++)
        for (int k = 0; k < PULLS; k++) {
            rows[i][k] = pow(r, abs(i - k));
            rows[i][PULLS + k] = i == k;
        }
    for (int i = 0; i < PULLS; i++) {
        double head = rows[i][i];
        determinant += log(head);
        for (int k = 0; k < 2 * PULLS; k++)
            rows[i][k] /= head;
        for (int j = 0; j < PULLS; j++)
            for (int k = 2 * PULLS - 1; j != i && k >= 0; k--)
                rows[j][k] -= rows[j][i] * rows[i][k];
    }
    for (int i = 0; i < PULLS; i++)
        for (int k = 0; k < PULLS; k++)
            inverse[i][k] = rows[i][PULLS + k];
    return determinant;
}

/* Square sum about the weighted mean, and what the series says for r by itself. */
static double squares_at_length(const double *pulls, double r, double *evidence)
{
    double inverse[PULLS][PULLS], one = 0, sum = 0, squares = 0, mean = 0;
    double determinant = invert(r, inverse);
    for (int i = 0; i < PULLS; i++)
        mean += pulls[i] / PULLS;
    for (int i = 0; i < PULLS; i++)
        for (int k = 0; k < PULLS; k++) {
            one += inverse[i][k];
            sum += inverse[i][k] * (pulls[k] / mean - 1);
            squares += inverse[i][k] * (pulls[i] / mean - 1) * (pulls[k] / mean - 1);
        }
    *evidence = -(determinant + log(one)) / 2;
    return squares - sum * sum / one;
}

static const double six[PULLS] = {18.2, 18.35, 18.3, 18.05, 18.1, 18.4};

static void test_scatter_by_matrices(void **state)
{
    (void)state;
    struct scatter before = scatter_before_any(0.02), after = before;
    scatter_learn(&after, six, PULLS, 0);
    assert_near(after.df, before.df + PULLS - 1, 1e-15);
    for (int i = 0; i < CORRELATIONS; i++) {
        double r = 0.95 * (i + 0.5) / CORRELATIONS, evidence;
        double squares = squares_at_length(six, r, &evidence);
        assert_near(after.squares[i] - before.squares[i], squares, 1e-9);
        assert_near(after.evidence[i] - before.evidence[i], evidence, 1e-9);
    }
}

/* The variance of a mean of correlated values, summed over all pairs. */
static void test_mean_of_correlated(void **state)
{
    (void)state;
    struct scatter one = {.df = 10};
    for (int i = 0; i < CORRELATIONS; i++) {
        one.squares[i] = 10 * 0.0004;
        one.evidence[i] = i == 3 ? 0 : -INFINITY; /* nothing but one correlation is possible */
    }
    double r = 0.95 * 3.5 / CORRELATIONS, pairs = 0;
    for (int i = 0; i < 7; i++)
        for (int k = 0; k < 7; k++)
            pairs += pow(r, abs(i - k));
    struct scatter_of_mean mean = scatter_of_mean(&one, 7);
    assert_near(mean.u, 0.02 * sqrt(pairs) / 7, 1e-12);
    assert_near(mean.sd, 0.02, 1e-12);
    assert_near(mean.correlation, r, 1e-12);
    assert_near(scatter_of_mean(&one, 1).u, 0.02, 1e-12);
}

/* At equal mean and scatter, up to four times the usual one, U does not grow with the number of
 * pulls; and what is learned
 * fades, so that df stays bounded. */
static void test_scatter_grows_surer(void **state)
{
    (void)state;
    for (double spread = 0; spread < 0.09; spread += 0.01) {
        double last = INFINITY;
        for (size_t count = 2; count <= 20; count++) {
            double pulls[20], half = (double)(count / 2), odd = (double)(count % 2);
            double off = spread * sqrt(((double)count - 1) / (2 * half)); /* sd: spread */
            for (size_t i = 0; i < count; i++)
                pulls[i] = 10 * (odd && i == count - 1 ? 1 : i % 2 ? 1 + off : 1 - off);
            struct scatter scatter = scatter_before_any(0.02);
            scatter_learn(&scatter, pulls, count, 0);
            struct scatter_of_mean mean = scatter_of_mean(&scatter, count);
            double expanded = student_factor(student_coverage, mean.nu) * mean.u;
            if (expanded > last)
                fail_msg("spread %g: U grows at %zu pulls", spread, count);
            last = expanded;
        }
    }
    struct scatter scatter = scatter_before_any(0.02);
    for (int i = 0; i < 1000; i++)
        scatter_learn(&scatter, six, PULLS, 0.05);
    assert_near(scatter.df, 80, 1e-12);
    struct scatter same = scatter;
    scatter_learn(&same, six, 1, 0.05);
    assert_memory_equal(&same, &scatter, sizeof same);
}

static const struct gauge_line straight = {
    .count = 6, .intercept = 0.2, .slope = 0.95, .middle = 20, .sxx = 400, .sd = 0.03, .nu = 8};

static struct measuring example(void)
{
    return (struct measuring){.pulls = {5, 18.3, 0.2},
                              .scatter = scatter_before_any(0.02),
                              .between = between_before_any(),
                              .step = 0.05,
                              .zero = 0.05,
                              .check = &straight,
                              .masses = 0.005,
                              .gravity = 0.0027,
                              .hysteresis = 0.1,
                              .orientation = 0.02,
                              .drum = 0.062,
                              .drum_tolerance = 0.0001,
                              .cord = 0.0008,
                              .cord_tolerance = 0.00005,
                              .skew = 5};
}

static double drag_of(const struct measuring *m)
{
    struct doubt budget[BUDGET_ROWS];
    return measure_drag(m, budget).drag;
}

/* Each row of the budget is what its input's standard uncertainty changes of the drag. */
static void assert_row(enum budget_row row, struct measuring changed)
{
    struct measuring m = example();
    struct doubt budget[BUDGET_ROWS];
    m.pulls.traces = 0.2;
    measure_drag(&m, budget);
    assert_near(fabs(drag_of(&changed) - drag_of(&m)), budget[row].u, 2e-3);
}

/* What traces leave open of the mean is a row of its own, and is in U. */
static void test_traces_in_the_budget(void **state)
{
    (void)state;
    struct measuring m = example(), traced = m;
    struct doubt budget[BUDGET_ROWS];
    traced.pulls.traces = 0.2;
    double before = measure_drag(&m, budget).sureness.standard;
    assert_true(budget[BUDGET_TRACES].u == 0);
    double now = measure_drag(&traced, budget).sureness.standard;
    m.pulls.reading += 0.2;
    assert_row(BUDGET_TRACES, m);
    assert_near(now, hypot(before, budget[BUDGET_TRACES].u), 1e-9);
    assert_true(budget[BUDGET_TRACES].u > 0);
}

static void test_budget_by_differences(void **state)
{
    (void)state;
    struct measuring m = example();
    m.drum += 0.0001 / sqrt(3);
    assert_row(BUDGET_DRUM, m);
    m = example();
    m.cord += 0.00005 / sqrt(3);
    assert_row(BUDGET_CORD, m);
    m = example();
    m.pulls.reading += 0.05 / sqrt(3);
    assert_row(BUDGET_ZERO, m);
    m = example();
    m.pulls.reading += 0.1 / sqrt(3);
    assert_row(BUDGET_HYSTERESIS, m);
    struct gauge_line heavier = straight; /* all masses were heavier than thought */
    heavier.slope /= 1 + 0.005 / sqrt(3);
    m = example();
    m.check = &heavier;
    assert_row(BUDGET_MASSES, m);
}

/* By hand: (18.3 - 0.2) / 0.95 N at 31.4 mm, less half of 1 - cos 5 degrees. */
static void test_drag_by_hand(void **state)
{
    (void)state;
    struct measuring m = example();
    struct doubt budget[BUDGET_ROWS];
    struct drag_measured drag = measure_drag(&m, budget);
    assert_near(drag.drag, 18.1 / 0.95 * 0.0314 * (1 - 0.003805302 / 2), 1e-8);
    assert_near(drag.whole, drag.drag, 1e-15);
    assert_near(drag.askew, 18.1 / 0.95 * 0.0314 * 0.003805302 / 2, 1e-6);
    double squares = 0;
    for (int i = 0; i < BUDGET_ROWS; i++)
        squares += budget[i].u * budget[i].u;
    assert_near(drag.sureness.standard, sqrt(squares), 1e-12);
    m.pulls.range = 0.04; /* one step holds them all: its rounding is not averaged */
    double before = budget[BUDGET_STEP].u;
    measure_drag(&m, budget);
    assert_near(budget[BUDGET_STEP].u, before * sqrt(5), 1e-9);
    m.stated = 5;
    measure_drag(&m, budget);
    assert_near(budget[BUDGET_GAUGE].u, 5 / sqrt(3) * 0.0314 * (1 - 0.003805302 / 2), 1e-8);
}

/* What both series share cancels: the intercept of the line has no part in an increase. */
static void test_increase(void **state)
{
    (void)state;
    struct measuring m = example();
    struct doubt budget[BUDGET_ROWS];
    m.slack = (struct pull_mean){5, 9.5, 0.2, 0};
    struct drag_measured drag = measure_drag(&m, budget);
    double net = (18.3 - 9.5) / 0.95;
    double arm = 0.0314 * (1 - 0.003805302 / 2);
    assert_near(drag.drag, net * arm, 1e-8);
    assert_near(drag.whole, 18.1 / 0.95 * arm, 1e-8);
    assert_near(budget[BUDGET_MASSES].u, net * 0.005 / sqrt(3) * arm, 1e-8);
    assert_near(budget[BUDGET_GAUGE].u, 0.03 / 0.95 * net / 20 * arm, 1e-8);
    assert_true(budget[BUDGET_ORIENTATION].u == 0);
    struct measuring shifted = m;
    struct gauge_line moved = straight;
    moved.intercept = 0.9;
    shifted.check = &moved;
    assert_near(drag_of(&shifted), drag.drag, 1e-12);
    m.slack.reading = 2 * 18.3 - 9.5; /* as much below the slack drag */
    struct drag_measured below = measure_drag(&m, budget);
    assert_near(below.drag, -drag.drag, 1e-12);
    assert_near(below.askew, drag.askew, 1e-12);
}

/* Nothing is in doubt: it lies beyond a limit, or it does not. */
static void test_no_doubt(void **state)
{
    (void)state;
    const struct drag_measured sure = {.drag = 0.5, .whole = 0.5, .sureness.nu = INFINITY};
    assert_true(chance_above(&sure, 0.4).least == 1 && chance_above(&sure, 0.6).most == 0);
    assert_true(chance_below(&sure, 0.6).least == 1 && chance_below(&sure, 0.4).most == 0);
}

static void test_line_read_backwards(void **state)
{
    (void)state;
    static const double forces[] = {5, 10, 20, 20, 10, 5};
    static const double readings[] = {5.1, 9.95, 19.5, 19.6, 10, 5.15};
    struct gauge_line line = gauge_line_through(forces, readings, 6, 0.05);
    struct line fitted = line_through(forces, readings, 6);
    assert_near(gauge_line_force(&line, gauge_line_reading(&line, 17)), 17, 1e-13);
    assert_near(gauge_line_reading(&line, 17), line_at(&fitted, 17), 1e-13);
    double usual = 0.05 / sqrt(12);
    assert_near(line.sd * line.sd * 8, fitted.squares + 4 * usual * usual, 1e-12);
    double scale = line.sd / fitted.sd / line.slope; /* the line's own height, taken back */
    assert_near(gauge_line_u(&line, 17), line_se_at(&fitted, 17) * scale, 1e-9);
    struct gauge_line two = gauge_line_through(forces, readings, 2, 0.05);
    assert_near(two.sd, usual, 1e-12);
    assert_near(two.nu, 4, 1e-15);
    assert_true(isnan(gauge_line_through(forces, readings, 1, 0.05).slope));
    assert_true(isnan(gauge_line_through(readings, (double[]){3, 2, 1}, 3, 0.05).slope));
}

static struct oddities odd(const double *pulls, size_t count)
{
    struct scatter before = scatter_before_any(0.02);
    return series_oddities(&before, pulls, count, 0.05);
}

static void test_oddities(void **state)
{
    (void)state;
    static const double rising[] = {20, 20.4, 20.8, 21.2, 21.6};
    static const double falling[] = {21.6, 21.2, 20.8, 20.4, 20};
    static const double restless[] = {20, 20.5, 19.9, 20.6, 20.1, 20.7};
    static const double equal[] = {18.3, 18.3, 18.3, 18.3, 18.3};
    static const double wild[] = {10, 20, 12, 19, 15};
    static const double usual[] = {27.7, 27.95, 27.8, 27.85, 27.75};
    static const double one_off[] = {20, 20.1, 20.05, 23, 20.1, 20, 20.05};
    struct oddities good = odd(usual, 5);
    assert_false(good.scattered || good.trend || good.stuck || good.outlier >= 0);
    assert_true(odd(rising, 5).trend && !odd(usual, 5).trend);
    assert_true(odd(falling, 5).trend && !odd(restless, 6).trend);
    assert_true(odd(equal, 5).stuck && odd(equal, 4).stuck && !odd(equal, 3).stuck);
    assert_false(odd((double[]){2, 2, 2, 2}, 4).stuck); /* they scatter by less than a step */
    assert_int_equal(odd(equal, 5).outlier, -1);
    assert_true(odd(wild, 5).scattered && !odd(rising, 5).scattered);
    assert_int_equal(odd(one_off, 7).outlier, 3);
    struct scatter calm = scatter_before_any(0.001);
    for (int i = 0; i < 10; i++)
        scatter_learn(&calm, usual, 5, 0.05);
    assert_true(series_oddities(&calm, rising, 5, 0.05).scattered);
    assert_false(odd(usual, 1).scattered || odd((double[]){0, 0}, 2).scattered);
}

/* Series of what the prior is made of: right pulls are called odd as seldom as is said. */
static void test_odd_is_seldom(void **state)
{
    (void)state;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    enum { RUNS = 40000 };
    int scattered = 0, trend = 0, outlier = 0;
    for (int run = 0; run < RUNS; run++) {
        double sd = 0.02 * sqrt(4 / gsl_ran_chisq(rng, 4)), pulls[8];
        for (int i = 0; i < 8; i++)
            pulls[i] = 18 * (1 + gsl_ran_gaussian(rng, sd));
        struct scatter before = scatter_before_any(0.02);
        struct oddities found = series_oddities(&before, pulls, 8, 0.001);
        scattered += found.scattered;
        trend += found.trend;
        outlier += found.outlier >= 0;
    }
    gsl_rng_free(rng); /* four standard deviations of a count of 0.001 or 0.002 each */
    assert_in_range(scattered, 20, 70);
    assert_in_range(trend, 10, 90); /* the slope allows for some correlation */
    assert_in_range(outlier, 40, 120);
}

static void test_between(void **state)
{
    (void)state;
    struct between between = between_before_any();
    assert_near(between.squares / between.df, 0.007 * 0.007, 1e-12);
    between_learn(&between, 0.03, 0.0001, 1); /* half of what the scatter does not explain */
    assert_near(between.squares, 3 * 0.007 * 0.007 + 0.0008 / 2, 1e-12);
    between_learn(&between, NAN, 0.0001, 1);
    assert_near(between.df, 4, 1e-15);
    for (int i = 0; i < 500; i++)
        between_learn(&between, 0, 0, 3);
    assert_near(between.df, 80, 1e-12);
}

/* A true drag just at the limit, all else drawn as the prior says: called within no more often
 * than is claimed; and U covers. */
static void test_chances_come_true(void **state)
{
    (void)state;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    enum { RUNS = 20000, COUNT = 5 };
    int called_within = 0, covered = 0;
    for (int run = 0; run < RUNS; run++) {
        struct measuring m = example();
        double sd = 0.02 * sqrt(4 / gsl_ran_chisq(rng, 4)), pulls[COUNT];
        double between = 0.007 * sqrt(3 / gsl_ran_chisq(rng, 3));
        double force = 20 * (1 + gsl_ran_gaussian(rng, between));
        for (int i = 0; i < COUNT; i++)
            pulls[i] = 0.2 + 0.95 * force * (1 + gsl_ran_gaussian(rng, sd));
        struct series series = series_of(pulls, COUNT);
        struct doubt budget[BUDGET_ROWS];
        scatter_learn(&m.scatter, pulls, COUNT, 0.05);
        m.pulls = (struct pull_mean){COUNT, series.mean, series.most - series.least, 0};
        struct drag_measured drag = measure_drag(&m, budget);
        double truth = 20 * 0.0314 * (1 - 0.003805302 / 2);
        called_within += chance_above(&drag, truth).most <= 0.025;
        drag_expand(&drag);
        covered += fabs(drag.drag - truth) <= drag.sureness.expanded;
        struct chance above = chance_above(&drag, truth), below = chance_below(&drag, truth);
        assert_near(above.most + below.least, 1, 1e-9);
        assert_near(above.least + below.most, 1, 1e-9);
    }
    gsl_rng_free(rng);
    assert_true(called_within < 0.03 * RUNS);
    assert_true(covered > 0.945 * RUNS);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_tails_against_gsl),
    cmocka_unit_test(test_scatter_by_matrices),
    cmocka_unit_test(test_mean_of_correlated),
    cmocka_unit_test(test_scatter_grows_surer),
    cmocka_unit_test(test_traces_in_the_budget),
    cmocka_unit_test(test_budget_by_differences),
    cmocka_unit_test(test_drag_by_hand),
    cmocka_unit_test(test_increase),
    cmocka_unit_test(test_no_doubt),
    cmocka_unit_test(test_line_read_backwards),
    cmocka_unit_test(test_oddities),
    cmocka_unit_test(test_odd_is_seldom),
    cmocka_unit_test(test_between),
    cmocka_unit_test(test_chances_come_true),
};
GROUP(measurement, NULL, NULL)
