/* The gauge's check by known weights. The line is that of NIST's Norris data set, a
 * calibration of an instrument: known amounts and what was read. */
#include "facts.h"
#include "shop_fixture.h"
#include "verdict/gauge.h"
#include "verdict/sure.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

enum { NORRIS = 36 };
static struct weighing items[NORRIS];

static struct quantity newtons(const char *digits)
{
    char text[64];
    snprintf(text, sizeof text, "%s N", digits);
    return quantity_of(text, KIND_FORCE);
}

/* A shop whose gauge read Norris' y when x newtons hung on it. */
static struct shop norris_shop(void)
{
    struct shop shop = {0};
    struct facts facts = facts_open("norris.tsv");
    while (facts_next(&facts))
        items[facts.rows - 1] = (struct weighing){.load = newtons(facts.cells[0]),
                                                  .reading = newtons(facts.cells[1])};
    shop.weighings = (struct weighings){items, (size_t)facts.rows};
    shop.gauge.capacity.q = newtons("1000");
    shop.gauge.step.q = newtons("0.1");
    return shop;
}

static void test_norris_check(void **state)
{
    (void)state;
    struct shop shop = norris_shop();
    struct gauge_check check = gauge_check_of(&shop);
    assert_true(check.known);
    assert_within(check.line.intercept, -0.262323073774029, 1e-10);
    assert_within(check.line.slope, 1.00211681802045, 1e-12);
    assert_within(gauge_check_error(&check, 500), 0.796085936, 1e-8); /* gsl_fit_linear_est */
    assert_within(gauge_check_u(&check, 500), hypot(0.1515021758, 0.884796396144373), 1e-9);
}

static void test_what_the_check_covers(void **state)
{
    (void)state;
    struct shop shop = norris_shop();
    struct gauge_check check = gauge_check_of(&shop);
    assert_within(check.least, 0.2, 0);
    assert_within(check.most, 999, 0);
    assert_true(gauge_check_covers(&check, 0.1));
    assert_false(gauge_check_covers(&check, 0.0999));
    assert_true(gauge_check_covers(&check, 999 * 1.25));
    assert_false(gauge_check_covers(&check, 999 * 1.25 + 0.001));
    shop.weighings.count = 2;
    check = gauge_check_of(&shop);
    assert_false(check.known || gauge_check_covers(&check, 100));
}

/* The last of the longest log counts as the first: without it the error would be 1. */
static void test_long_log(void **state)
{
    (void)state;
    static struct weighing many[MOST_WEIGHINGS];
    for (int i = 0; i < MOST_WEIGHINGS; i++)
        many[i] = (struct weighing){.load = newtons(i % 2 ? "10" : "20"),
                                    .reading = newtons(i % 2 ? "11" : "21")};
    many[MOST_WEIGHINGS - 1] =
        (struct weighing){.load = newtons("40"), .reading = newtons("50")};
    struct shop shop = {.weighings = {many, MOST_WEIGHINGS}};
    struct gauge_check check = gauge_check_of(&shop);
    assert_int_equal(check.line.count, MOST_WEIGHINGS);
    assert_within(check.most, 40, 0);
    assert_true(gauge_check_error(&check, 40) > 1.2);
}

/* Three weights say little of the gauge: the factor is that of one degree of freedom,
 * 13.97 (NIST TN 1297 table B.1, 95.45 %). */
static void test_known_within(void **state)
{
    (void)state;
    struct weighing three[] = {{.load = newtons("10"), .reading = newtons("10.1")},
                               {.load = newtons("20"), .reading = newtons("20")},
                               {.load = newtons("30"), .reading = newtons("30.1")}};
    struct shop shop = {.weighings = {three, 3}};
    struct gauge_check check = gauge_check_of(&shop);
    assert_within(gauge_known_within(&check, 20) / gauge_check_u(&check, 20), 13.97, 0.005);
}

/* The log goes before the checked error, and that before the data sheet. */
static void test_which_error_is_used(void **state)
{
    (void)state;
    struct shop shop = norris_shop();
    shop.gauge.full_scale_error.q = quantity_of("0.5 %", KIND_RATIO);
    assert_int_equal(gauge_source_at(&shop, 500), GAUGE_WEIGHED);
    assert_within(gauge_error_at(&shop, 500), 0.796085936, 1e-8);
    assert_int_equal(gauge_source_at(&shop, 2000), GAUGE_DATA_SHEET);
    assert_within(gauge_error_at(&shop, 2000), 5, 1e-12);
    shop.gauge.checked_error.q = newtons("0.25");
    assert_int_equal(gauge_source_at(&shop, 2000), GAUGE_CHECKED);
    assert_within(gauge_error_at(&shop, 2000), 0.25, 0);
    shop.weighings.count = 0;
    assert_int_equal(gauge_source_at(&shop, 500), GAUGE_CHECKED);
}

/* A known error counts whatever its sign. */
static void test_error_below_nothing(void **state)
{
    (void)state;
    struct shop shop = {0};
    static const char *const rows[][2] = {{"5", "4.9"}, {"10", "9.8"}, {"20", "19.6"}};
    for (int i = 0; i < 3; i++)
        items[i] =
            (struct weighing){.load = newtons(rows[i][0]), .reading = newtons(rows[i][1])};
    shop.weighings = (struct weighings){items, 3};
    struct gauge_check check = gauge_check_of(&shop);
    assert_within(gauge_check_error(&check, 15), -0.3, 1e-12);
    assert_within(gauge_error_at(&shop, 15), 0.3, 1e-12);
    assert_within(gauge_check_u(&check, 15), 0, 1e-7);
    shop.gauge.step.q = newtons("0.1"); /* readings that agree agree only within the step */
    check = gauge_check_of(&shop);
    assert_within(gauge_check_u(&check, 15), 0.1 / sqrt(12), 1e-12);
}

/* 1 kg at 45 degrees by GeographicLib, less 150 parts in a million for the air (OIML
 * D 28); 1 kgf is a force and needs no gravity. */
static void test_force_of_a_load(void **state)
{
    (void)state;
    struct shop shop = {0};
    struct weighing weighing = {.load = quantity_of("1 kg", KIND_MASS)};
    assert_within(weighing_force(&shop, &weighing), 9.80665 * 0.99985, 1e-12);
    shop.site.latitude.q = quantity_of("45 deg", KIND_ANGLE);
    assert_within(weighing_force(&shop, &weighing), 9.8061977694 * 0.99985, 1e-9);
    shop.site.height.q = quantity_of("1000 m", KIND_LENGTH);
    assert_within(weighing_force(&shop, &weighing), 9.8031128969 * 0.99985, 2e-7);
    weighing.load = quantity_of("1 kgf", KIND_FORCE);
    assert_within(weighing_force(&shop, &weighing), 9.80665, 1e-15);
}

/* Three weighings about a true line leave one degree of freedom, and the doubt that is
 * theirs: residuals of +1, -2 and +1 tenths, so s = sqrt(0.06). */
static void test_degrees_of_freedom_of_the_check(void **state)
{
    (void)state;
    struct shop shop = {0};
    static const char *const rows[][2] = {{"10", "10.1"}, {"20", "19.8"}, {"30", "30.1"}};
    for (int i = 0; i < 3; i++)
        items[i] =
            (struct weighing){.load = newtons(rows[i][0]), .reading = newtons(rows[i][1])};
    shop.weighings = (struct weighings){items, 3};
    shop.gauge.step.q = newtons("0.1");
    shop.drum.diameter.q = quantity_of("100 mm", KIND_LENGTH);
    shop.drum.tolerance.q = shop.cord.diameter.q = shop.cord.tolerance.q =
        quantity_of("0 mm", KIND_LENGTH);
    struct rig rig = shop_rig(&shop);
    struct doubt doubts[DOUBT_SOURCES];
    sure_of_pull(&shop, &rig, 20, NULL, doubts);
    assert_within(doubts[DOUBT_GAUGE].nu, 1, 1e-6);
    assert_within(doubts[DOUBT_GAUGE].u, 0.05 * sqrt(0.06 * (1 + 1 / 3.0)), 1e-9);
}

/* ISO 7500-1, annex C: 50.5 read at 50 is off by +1.0 %. */
static void test_share(void **state)
{
    (void)state;
    assert_within(gauge_share(50.5 - 50, 50), 1, 1e-12);
    assert_within(gauge_share(-0.2, 40), -0.5, 1e-12);
    assert_true(isnan(gauge_share(1, 0)) && isnan(gauge_share(NAN, 5)));
}

/* The few degrees of freedom of a short check reach the drag's own. */
static void test_few_weighings_widen_u(void **state)
{
    (void)state;
    struct pull_doubts pull = {
        .pull = 20, .gauge_u = 0.1, .gauge_nu = 2, .drum = 0.06, .cord = 0};
    struct doubt doubts[DOUBT_SOURCES];
    struct uncertainty found = drag_uncertainty(&pull, doubts);
    assert_within(found.standard, 0.1 * 0.03, 1e-15);
    assert_within(found.nu, 2, 1e-9);
    assert_within(found.factor, 4.53, 0.005); /* NIST TN 1297 table B.1, 95.45 %, 2 */
    pull.gauge_half_width = 0.1 * sqrt(3);
    found = drag_uncertainty(&pull, doubts);
    assert_within(found.nu, 8, 1e-9); /* by hand: (2 u^2)^2 / (u^4 / 2) */
}

/* A known error that is left in the readings widens U by its whole size. */
static void test_a_known_error_is_no_chance(void **state)
{
    (void)state;
    struct pull_doubts pull = {.pull = 20, .gauge_u = 0.1, .gauge_nu = 2, .drum = 0.06};
    struct doubt doubts[DOUBT_SOURCES];
    double without = drag_uncertainty(&pull, doubts).expanded;
    pull.gauge_bias = 0.2;
    struct uncertainty found = drag_uncertainty(&pull, doubts);
    assert_within(found.standard, 0.1 * 0.03, 1e-15);
    assert_within(found.bias, 0.2 * 0.03, 1e-15);
    assert_within(found.expanded, without + 0.2 * 0.03, 1e-15);
}

/* Without limits nobody has said in which unit a drag is thought of: the gauge does. */
static void test_drag_unit(void **state)
{
    (void)state;
    struct band band = band_of("0.50 N.m", "0.70 N.m");
    struct shop shop = shop_of("50 mm", "0 mm", "0.01 lbf");
    shop.lathe.top_speed = measure_of("800 r/min", KIND_SPEED);
    shop.limits.bands = &band;
    shop.limits.band_count = 1;
    assert_string_equal(shop_drag_unit(&shop)->symbol, "N.m");
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    assert_null(shop_own_band(&shop));
    assert_string_equal(shop_drag_unit(&shop)->symbol, "lbf.in");
    shop.gauge.step = measure_of("0.01 kgf", KIND_FORCE);
    assert_string_equal(shop_drag_unit(&shop)->symbol, "N.m");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_norris_check),
        cmocka_unit_test(test_what_the_check_covers),
        cmocka_unit_test(test_long_log),
        cmocka_unit_test(test_known_within),
        cmocka_unit_test(test_a_known_error_is_no_chance),
        cmocka_unit_test(test_which_error_is_used),
        cmocka_unit_test(test_error_below_nothing),
        cmocka_unit_test(test_force_of_a_load),
        cmocka_unit_test(test_degrees_of_freedom_of_the_check),
        cmocka_unit_test(test_share),
        cmocka_unit_test(test_few_weighings_widen_u),
        cmocka_unit_test(test_drag_unit),
    };
    return cmocka_run_group_tests_name("gauge", tests, NULL, NULL);
}
