/* What the gauge may read: inward rounding against vectors worked by hand. */
#include "judge/window.h"
#include "facts.h"
#include "judge/drums.h"
#include "shop_fixture.h"
#include "window_sample.h"

static const double lbf = 4.4482216152605;

/* A public maintenance manual of an earth-moving machine (TM 5-3805-257-14P): 15 to
 * 20 lbf.ft for new bearings and 6 to 12 for used ones, and for a hub of 8 5/16 in
 * radius a pull of 21 to 28 lbf, 9 to 17 for used ones. Its 21 is outside: exactly
 * it is 21.65 to 28.87. */
static void test_published_hub(void **state)
{
    (void)state;
    struct shop shop = shop_of("16 5/8 in", "0 in", "1 lbf");
    struct band new_ones = band_of("15 lbf.ft", "20 lbf.ft");
    struct band used = band_of("6 lbf.ft", "12 lbf.ft");
    struct quantity arm = quantity_of("8 5/16 in", KIND_LENGTH);
    struct pull_window window = pull_window_on(known_for(&shop), &new_ones, arm.base);
    assert_within(window.low / lbf, 21.65, 0.005);
    assert_within(window.high / lbf, 28.87, 0.005);
    assert_int_equal(window.low_steps, 22);
    assert_int_equal(window.high_steps, 28);
    assert_int_equal(window.aim_steps, 25); /* 25.26 */
    assert_sides(&shop, &new_ones, 22, 28);
    assert_int_equal(side(&shop, &new_ones, 21), -1); /* as published */
    window = pull_window_on(known_for(&shop), &used, arm.base);
    assert_within(window.low / lbf, 8.66, 0.005);
    assert_within(window.high / lbf, 17.32, 0.005);
    assert_int_equal(window.low_steps, 9);
    assert_int_equal(window.high_steps, 17);
    assert_sides(&shop, &used, 9, 17);
}

/* 8 to 12 lbf.in, D = 101.6 mm, d = 1.0 mm: exactly 3.96101 to 5.94152 lbf, 17.6195
 * to 26.4292 N, 1.79669 to 2.69503 kgf. Worked by hand; units by GNU units. */
static void test_gauge_steps(void **state)
{
    (void)state;
    static const struct {
        const char *step, *low, *high;
    } rows[] = {
        {"0.01 lbf", "3.97", "5.94"},
        {"0.02 lbf", "3.98", "5.94"},
        {"0.1 N", "17.7", "26.4"},
        {"0.5 N", "18.0", "26.0"},
        {"1 N", "18", "26"},
        {"0.01 N", "17.62", "26.42"},
        {"0.005 kgf", "1.800", "2.695"},
        {"0.01 kgf", "1.80", "2.69"},
        {"1 ozf", "64", "95"},
        {"10 gf", "1800", "2690"},
    };
    struct band band = band_of("8 lbf.in", "12 lbf.in");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop = shop_of("101.6 mm", "1.0 mm", rows[i].step);
        struct pull_window window = window_of(&shop, &band);
        const struct decimal *step = &shop.gauge.step.q.typed;
        assert_false(window.closed);
        assert_string_equal(show_steps(window.low_steps, step).text, rows[i].low);
        assert_string_equal(show_steps(window.high_steps, step).text, rows[i].high);
        assert_sides(&shop, &band, window.low_steps, window.high_steps);
        assert_within(window.low, 17.6195, 0.00005);
        assert_within(window.high, 26.4292, 0.00005);
        assert_true(isnan(window.never));
    }
}

/* A limit that falls on a step stays there, on both sides. */
static void test_exact_hits(void **state)
{
    (void)state;
    static const struct {
        const char *drum, *cord, *step, *low, *high;
        int64_t low_steps, high_steps;
    } rows[] = {
        {"100 mm", "0 mm", "0.1 N", "0.885 N.m", "0.885 N.m", 177, 177},
        {"99 mm", "1 mm", "0.1 N", "0.885 N.m", "1.32 N.m", 177, 264},
        {"49.8 mm", "1 mm", "0.1 lbf", "1.7 lbf.in", "2.9 lbf.in", 17, 29}, /* 2 in */
        {"49.8 mm", "1 mm", "0.1 ozf", "1.7 ozf.in", "2.9 ozf.in", 17, 29},
        {"1 15/16 in", "1/16 in", "0.7 lbf", "4.9 lbf.in", "6.3 lbf.in", 7, 9},
        {"609.6 mm", "0 mm", "0.01 lbf", "3.07 lbf.ft", "7.91 lbf.ft", 307, 791}, /* 2 ft */
        {"10 cm", "0 in", "0.001 kgf", "0.3 kgf.cm", "1.235 kgf.cm", 60, 247},
        {"100 mm", "0 mm", "1 gf", "35 gf.cm", "0.7 kgf.cm", 7, 140},
        {"0.06 m", "0 um", "0.3 N", "9 N.mm", "27 mN.m", 1, 3},
        {"50.8 mm", "0 mm", "1 ozf", "1 lbf.in", "2 lbf.in", 16, 32},
        /* 9.80665 N of step times 0.2 m: metric limits that hit a kilogram-force */
        {"400 mm", "0 mm", "1 kgf", "1.96133 N.m", "5.88399 N.m", 1, 3},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop = shop_of(rows[i].drum, rows[i].cord, rows[i].step);
        struct band band = band_of(rows[i].low, rows[i].high);
        struct pull_window window = window_of(&shop, &band);
        if (window.low_steps != rows[i].low_steps || window.high_steps != rows[i].high_steps)
            fail_msg("%s to %s on %s: %d to %d", rows[i].low, rows[i].high, rows[i].drum,
                     (int)window.low_steps, (int)window.high_steps);
        assert_sides(&shop, &band, rows[i].low_steps, rows[i].high_steps);
    }
}

/* A little beside a step: what is a hundred-millionth off it decides; less may be a double's
 * rounding. */
static void test_near_misses(void **state)
{
    (void)state;
    struct shop shop = shop_of("100 mm", "0 mm", "0.1 N");
    struct band band = band_of("0.88500001 N.m", "1.31999999 N.m");
    struct pull_window window = window_of(&shop, &band);
    assert_int_equal(window.low_steps, 178);
    assert_int_equal(window.high_steps, 263);
    band = band_of("0.88499999 N.m", "1.32000001 N.m");
    window = window_of(&shop, &band);
    assert_int_equal(window.low_steps, 177);
    assert_int_equal(window.high_steps, 264);
}

static void test_closed(void **state)
{
    (void)state;
    struct shop shop = shop_of("100 mm", "0 mm", "1 N");
    struct band band = band_of("0.51 N.m", "0.54 N.m"); /* 10.2 to 10.8 N */
    struct pull_window window = window_of(&shop, &band);
    assert_true(window.closed);
    assert_int_equal(window.low_steps, 11);
    assert_int_equal(window.high_steps, 10);
    assert_int_equal(side(&shop, &band, 10), -1);
    assert_int_equal(side(&shop, &band, 11), 1);
    band = band_of("0.5 N.m", "0.5 N.m"); /* one step is enough to be open */
    window = window_of(&shop, &band);
    assert_false(window.closed);
    assert_int_equal(window.low_steps, 10);
    assert_int_equal(window.aim_steps, 10);
    assert_int_equal(window.high_steps, 10);
}

/* The aim is the step nearest to the middle, and never outside. */
static void test_aim(void **state)
{
    (void)state;
    static const struct {
        const char *step, *low, *high;
        int64_t aim;
    } rows[] = {
        {"1 N", "0.5 N.m", "0.7 N.m", 12},    {"1 N", "0.5 N.m", "0.715 N.m", 12},
        {"1 N", "0.52 N.m", "0.715 N.m", 12}, {"1 N", "0.545 N.m", "0.735 N.m", 13},
        {"10 N", "0.51 N.m", "1.04 N.m", 2}, /* middle 15.5, low step 20 */
        {"10 N", "0.2 N.m", "0.79 N.m", 1},  /* middle 9.9 */
        {"10 N", "0.96 N.m", "1.49 N.m", 2}, /* middle 24.5, high step 20 */
        {"10 N", "0.98 N.m", "1.54 N.m", 3}, /* middle 25.2, high step 30 */
        {"4 N", "0.5 N.m", "0.6 N.m", 3},     {"5 N", "0.4 N.m", "0.6 N.m", 2},
        {"10 N", "0.97 N.m", "1.49 N.m", 2}, /* middle 24.6 */
        {"10 N", "0 N.m", "0.1 N.m", 0},      {"10 N", "0.01 N.m", "0.55 N.m", 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct shop shop = shop_of("100 mm", "0 mm", rows[i].step);
        struct band band = band_of(rows[i].low, rows[i].high);
        struct pull_window window = window_of(&shop, &band);
        assert_false(window.closed);
        assert_within(window.aim, (window.low + window.high) / 2, 1e-12);
        if (window.aim_steps != rows[i].aim)
            fail_msg("%s to %s in steps of %s: aim %d", rows[i].low, rows[i].high, rows[i].step,
                     (int)window.aim_steps);
    }
}

/* A window from a hair beside one step to a hair beside the next holds one step; its
 * middle, as a double, lies between the two, and rounding it may go outside. */
static void test_aim_beside_a_tie(void **state)
{
    (void)state;
    static const char *const hairs[] = {"0.0000001 lbf.in", "-0.0000001 lbf.in"};
    struct shop shop = shop_of("2 in", "0 in", "1 lbf");
    shop.limits.basis = BASIS_INCREASE;
    for (int i = 0; i < 4000; i++) {
        char low[40], high[40];
        snprintf(low, sizeof low, "%d lbf.in", 1 + i / 2);
        snprintf(high, sizeof high, "%d lbf.in", 2 + i / 2);
        struct band band = band_of(low, high);
        shop.limits.slack_drag = measure_of(hairs[i % 2], KIND_TORQUE);
        struct pull_window window = window_of(&shop, &band);
        assert_int_equal(window.low_steps, window.high_steps);
        assert_int_equal(window.aim_steps, window.low_steps);
    }
}

/* An increase is pulled together with the slack drag; a limit as assembled is not. */
static void test_increase(void **state)
{
    (void)state;
    struct shop shop = shop_of("100 mm", "0 mm", "0.1 N");
    struct band band = band_of("0.4 N.m", "0.6 N.m");
    shop.limits.never_exceed = measure_of("0.75 N.m", KIND_TORQUE);
    shop.limits.slack_drag = measure_of("0.11 N.m", KIND_TORQUE);
    struct pull_window window = window_of(&shop, &band);
    assert_int_equal(window.low_steps, 80);
    assert_int_equal(window.high_steps, 120);
    assert_int_equal(window.never_steps, 150);
    assert_within(window.never, 15, 1e-12);
    shop.limits.basis = BASIS_INCREASE;
    window = window_of(&shop, &band);
    assert_int_equal(window.low_steps, 102);
    assert_int_equal(window.high_steps, 142);
    assert_int_equal(window.aim_steps, 122);
    assert_int_equal(window.never_steps, 172);
    assert_within(window.low, 10.2, 1e-12);
    assert_within(window.high, 14.2, 1e-12);
    assert_within(window.never, 17.2, 1e-12);
    assert_sides(&shop, &band, 102, 142);
}

/* Never-exceed is an upper limit: down to a step, and on a step it stays. */
static void test_never_exceed(void **state)
{
    (void)state;
    static const struct {
        const char *never;
        int64_t steps;
    } rows[] = {{"0.75 N.m", 150},      {"0.7549 N.m", 150}, {"0.755 N.m", 151},
                {"0.7549999 N.m", 150}, {"0.7501 N.m", 150}, {"0.7499 N.m", 149}};
    struct shop shop = shop_of("100 mm", "0 mm", "0.1 N");
    struct band band = band_of("0.4 N.m", "0.6 N.m");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        shop.limits.never_exceed = measure_of(rows[i].never, KIND_TORQUE);
        assert_int_equal(window_of(&shop, &band).never_steps, rows[i].steps);
    }
}

static void test_arm_is_a_radius(void **state)
{
    (void)state;
    struct shop shop = shop_of("100 mm", "2 mm", "0.1 N");
    struct band band = band_of("0.51 N.m", "1.02 N.m");
    struct quantity arm = quantity_of("51 mm", KIND_LENGTH);
    struct pull_window at_arm = pull_window_on(known_for(&shop), &band, arm.base);
    struct pull_window on_drum = window_of(&shop, &band);
    assert_int_equal(at_arm.low_steps, 100);
    assert_int_equal(at_arm.high_steps, 200);
    assert_int_equal(on_drum.low_steps, 100);
    assert_int_equal(on_drum.high_steps, 200);
    assert_within(at_arm.low, on_drum.low, 1e-12);
    assert_within(effective_radius(&shop.drum.diameter.q, &shop.cord.diameter.q), 0.051, 1e-16);
}

/* Published pairs rounded inward, after the rule of IEEE/ASTM SI 10 for absolute
 * limits: low up, high down, here at four digits. */
static void test_limits_in_other_units(void **state)
{
    (void)state;
    static const struct {
        const char *limit, *unit;
        enum limit_end side;
        const char *shown;
    } rows[] = {
        {"5 lbf.in", "N.m", LIMIT_LOW, "0.5650"},     /* 0.564924 */
        {"20 lbf.in", "N.m", LIMIT_HIGH, "2.259"},    /* 2.259697 */
        {"0.6 N.m", "lbf.in", LIMIT_LOW, "5.311"},    /* 5.310447 */
        {"2.2 N.m", "lbf.in", LIMIT_HIGH, "19.47"},   /* 19.471641 */
        {"8 lbf.in", "N.m", LIMIT_LOW, "0.9039"},     /* 0.9038786 */
        {"12 lbf.in", "N.m", LIMIT_HIGH, "1.355"},    /* 1.3558179 */
        {"12 lbf.in", "lbf.ft", LIMIT_LOW, "1.000"},  /* exactly */
        {"12 lbf.in", "lbf.ft", LIMIT_HIGH, "1.000"}, /* exactly */
        {"1 lbf.ft", "lbf.in", LIMIT_HIGH, "12.00"},
        {"1 lbf.ft", "lbf.in", LIMIT_LOW, "12.00"},
        {"0.1 N.m", "N.mm", LIMIT_LOW, "100.0"},
        {"0.1 N.m", "N.mm", LIMIT_HIGH, "100.0"},
        {"12345 N.mm", "N.mm", LIMIT_LOW, "12350"},
        {"12345 N.mm", "N.mm", LIMIT_HIGH, "12340"},
        {"0 lbf.in", "N.m", LIMIT_LOW, "0"},
        {"0.00012345 N.m", "N.m", LIMIT_HIGH, "0.0001234"},
        {"1 kgf.cm", "N.m", LIMIT_HIGH, "0.09806"},
        {"1 kgf.cm", "N.m", LIMIT_LOW, "0.09807"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct quantity limit = quantity_of(rows[i].limit, KIND_TORQUE);
        const struct unit *unit = unit_find(rows[i].unit, strlen(rows[i].unit));
        struct shown shown = show_limit_in(&limit, unit, rows[i].side);
        if (strcmp(shown.text, rows[i].shown) != 0)
            fail_msg("%s in %s: %s, not %s", rows[i].limit, rows[i].unit, shown.text,
                     rows[i].shown);
    }
}

/* T07, T08: the same published pairs at the decimals that they were given with: 5 to
 * 20 lbf.in are 0.57 to 2.25 N.m, 0.6 to 2.2 N.m are 5.4 to 19.4 lbf.in. A drum of
 * twice the unit of length makes the pull in force units the drag. */
static void test_limits_at_given_decimals(void **state)
{
    (void)state;
    struct shop metric = shop_of("2 m", "0 m", "0.01 N");
    struct band imperial_limits = band_of("5 lbf.in", "20 lbf.in");
    struct pull_window window = window_of(&metric, &imperial_limits);
    assert_int_equal(window.low_steps, 57);
    assert_int_equal(window.high_steps, 225);
    assert_within(window.low, 0.564924145, 5e-10);
    assert_within(window.high, 2.259696581, 5e-10);
    struct shop imperial = shop_of("2 in", "0 in", "0.1 lbf");
    struct band metric_limits = band_of("0.6 N.m", "2.2 N.m");
    window = window_of(&imperial, &metric_limits);
    assert_int_equal(window.low_steps, 54);
    assert_int_equal(window.high_steps, 194);
    assert_within(window.low / lbf, 5.310447, 5e-7);
    assert_within(window.high / lbf, 19.471641, 5e-7);
    /* T04: 10.7 and 11.3 mm are 0.421259 and 0.444881 in; at 0.001 0.422 and 0.444 */

    struct shop short_arm = shop_of("2 in", "0 in", "0.001 N");
    struct band limits = band_of("10.7 N.mm", "11.3 N.mm");
    window = window_of(&short_arm, &limits);
    assert_within(window.low, 10.7 / 25.4, 1e-15);
    assert_within(window.high, 11.3 / 25.4, 1e-15);
    assert_int_equal(window.low_steps, 422);
    assert_int_equal(window.high_steps, 444);
}

/* The fitted drum stands once among the common sizes, in its order. */
static void test_fitted_drum_among_sizes(void **state)
{
    (void)state;
    struct shop shop = shop_of("60 mm", "1 mm", "0.05 N");
    struct band band = band_of("0.3 N.m", "0.9 N.m");
    struct measure sizes[] = {measure_of("50 mm", KIND_LENGTH),
                              measure_of("60 mm", KIND_LENGTH),
                              measure_of("70 mm", KIND_LENGTH)};
    static struct drum_ratings ratings;
    shop.gauge.capacity = measure_of("100 N", KIND_FORCE);
    shop.gauge.checked_error = measure_of("0.1 N", KIND_FORCE);
    shop.limits.bands = &band, shop.limits.band_count = 1;
    shop.drum_sizes = (struct measures){sizes, 3};
    rate_drums(results_for(&shop), &band, &ratings);
    assert_int_equal(ratings.count, 3);
    assert_true(ratings.items[1].fitted && !ratings.items[2].fitted);
    sizes[1] = measure_of("55 mm", KIND_LENGTH);
    rate_drums(results_for(&shop), &band, &ratings);
    assert_int_equal(ratings.count, 4);
    assert_true(ratings.items[2].fitted && !ratings.items[3].fitted);
    shop.drum_sizes.count = 2;
    rate_drums(results_for(&shop), &band, &ratings);
    assert_int_equal(ratings.count, 3);
    assert_true(ratings.items[2].fitted);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_fitted_drum_among_sizes),
    cmocka_unit_test(test_published_hub),
    cmocka_unit_test(test_gauge_steps),
    cmocka_unit_test(test_exact_hits),
    cmocka_unit_test(test_near_misses),
    cmocka_unit_test(test_closed),
    cmocka_unit_test(test_aim),
    cmocka_unit_test(test_aim_beside_a_tie),
    cmocka_unit_test(test_increase),
    cmocka_unit_test(test_never_exceed),
    cmocka_unit_test(test_arm_is_a_radius),
    cmocka_unit_test(test_limits_in_other_units),
    cmocka_unit_test(test_limits_at_given_decimals),
};

GROUP(window, NULL, NULL)
