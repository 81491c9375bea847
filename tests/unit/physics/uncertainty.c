/* Student's t against NIST TN 1297 and GSL; the combination of doubts against JCGM 100 H.1. */
#include "facts.h"
#include "physics/physics.h"
#include "test.h"

#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>

/* "95.45" and its like stand for whole standard deviations in the table. */
static double share_of(double percent)
{
    if (percent == 68.27)
        return erf(1 / sqrt(2));
    if (percent == 95.45)
        return erf(2 / sqrt(2));
    return percent == 99.73 ? erf(3 / sqrt(2)) : percent / 100;
}

static void test_student_table(void **state)
{
    (void)state;
    struct facts facts = facts_open("student.tsv");
    while (facts_next(&facts)) {
        double nu = strcmp(facts.cells[1], "inf") == 0 ? INFINITY : fact(&facts, 1);
        double got = student_factor(share_of(fact(&facts, 2)), nu);
        if (!(fabs(got - fact(&facts, 3)) <= half_last_digit(facts.cells[3])))
            fail_msg("%s (%s): %.6f, not %s", facts.cells[0], facts.cells[4], got,
                     facts.cells[3]);
    }
    assert_int_equal(facts.rows, 47);
}

static void test_student_against_gsl(void **state)
{
    (void)state;
    static const double shares[] = {0.5, 0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973};
    for (double nu = 1; nu < 5000; nu *= 1.37)
        for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++) {
            double want = gsl_cdf_tdist_Pinv(0.5 + shares[i] / 2, nu);
            assert_true(fabs(student_factor(shares[i], nu) - want) <= 1e-9 * want);
        }
}

static void test_student_range(void **state)
{
    (void)state;
    assert_true(isnan(student_factor(0, 3)) && isnan(student_factor(1, 3)));
    assert_true(isnan(student_factor(0.9, 0.5)) && isnan(student_factor(0.9, NAN)));
    assert_within(student_factor(student_coverage, INFINITY), 2, 1e-12);
    double last = student_factor(student_coverage, 1e6); /* the two ways meet */
    double next = student_factor(student_coverage, 1e6 + 1);
    assert_within(last, 2 + 2.5e-6, 1e-8);
    assert_within(next, last, 1e-9);
    assert_within(student_factor(student_coverage, 1e12), 2, 1e-11);
    double least = student_factor(1e-20, 5); /* 1 - p is 1 in a double: still an end */
    assert_true(least >= 0 && least < 1e-10);
}

/* JCGM 100 H.1 (end gauge): 25 nm with 18 degrees of freedom and so on give 32 nm,
 * 16 degrees after truncation. From memory; the sums were worked out anew. */
static void test_gum_h1(void **state)
{
    (void)state;
    const struct doubt doubts[] = {{25, 18}, {9.7, 25.6}, {2.9, 50}, {16.6, 2}};
    struct uncertainty sum = uncertainty_of(doubts, 4);
    assert_within(sum.standard, 32, 0.5);
    assert_within(floor(sum.nu), 16, 0);
    assert_within(32 * student_factor(0.99, floor(sum.nu)), 93, 0.5);
    assert_within(sum.factor, student_factor(student_coverage, 16), 0); /* never rounded up */
    assert_within(sum.expanded, sum.factor * sum.standard, 0);
    const struct doubt parts[] = {{5.8, 24}, {3.9, 5}, {6.7, 8}};
    assert_within(uncertainty_of(parts, 3).nu, 25.6, 0.2); /* H.1.6, from 9.7 rounded */
    assert_within(uncertainty_of(parts, 3).standard, 9.7, 0.05);
}

/* GUM 4.3.7 and F.2.2.1. */
static void test_ranges(void **state)
{
    (void)state;
    assert_within(doubt_rectangular(1), 0.577350269, 1e-9);
    assert_within(doubt_of_step(0.1), 0.0288675, 1e-7);
    struct uncertainty none = uncertainty_of(NULL, 0);
    assert_true(none.standard == 0 && isinf(none.nu) && none.factor > 1.99);
}

/* JCGM 101 9.2.2: four standard normal distributions reach 3.92 at 95 %. */
static void test_four_normals(void **state)
{
    (void)state;
    const struct doubt four[] = {{1, INFINITY}, {1, INFINITY}, {1, INFINITY}, {1, INFINITY}};
    struct uncertainty sum = uncertainty_of(four, 4);
    assert_within(sum.standard * student_factor(0.95, sum.nu), 3.92, 0.005);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_student_table), cmocka_unit_test(test_student_against_gsl),
    cmocka_unit_test(test_student_range), cmocka_unit_test(test_gum_h1),
    cmocka_unit_test(test_ranges),        cmocka_unit_test(test_four_normals),
};

GROUP(uncertainty, NULL, NULL)
