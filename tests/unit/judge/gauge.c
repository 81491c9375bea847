/* The gauge's check by known weights. The line is that of NIST's Norris data set, a
 * calibration of an instrument: known amounts and what was read. */
#include "judge/gauge.h"
#include "facts.h"
#include "judge/uncertainty.h"
#include "report/words.h"
#include "shop_fixture.h"
#include "test.h"

#include <string.h>

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
    struct shop shop = shop_empty();
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
    enum { MOST_WEIGHINGS = 1000 };
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

/* The log goes before the checked error, and that before the data sheet; past the reach of the
 * weights their line still counts. */
static void test_which_error_is_used(void **state)
{
    (void)state;
    struct shop shop = norris_shop();
    shop.gauge.full_scale_error.q = quantity_of("0.5 %", KIND_RATIO);
    assert_int_equal(gauge_source_at(results_for(&shop), 500), GAUGE_WEIGHED);
    assert_int_equal(gauge_source_at(results_for(&shop), 2000), GAUGE_SHEET_OR_CARRIED);
    assert_within(gauge_stated_error(&shop, 2000), 5, 1e-12);
    shop.gauge.checked_error.q = newtons("0.25");
    assert_int_equal(gauge_source_at(results_for(&shop), 2000), GAUGE_CHECKED_OR_CARRIED);
    assert_within(gauge_stated_error(&shop, 2000), 0.25, 0);
    shop.weighings.count = 0;
    assert_int_equal(gauge_source_at(results_for(&shop), 500), GAUGE_CHECKED);
    shop.gauge.checked_error = (struct measure){0};
    assert_int_equal(gauge_source_at(results_for(&shop), 500), GAUGE_DATA_SHEET);
}

/* By hand: NIST's Norris line at 2000 is off by -0.262323 + 0.00211682 * 2000 = 3.971313; its
 * own doubt there is 2.0324 times (34 degrees of freedom, 95.45 %) hypot(0.6, 0.885). */
static void test_how_far_a_reading_may_be_off(void **state)
{
    (void)state;
    struct shop shop = norris_shop();
    struct gauge_check check = gauge_check_of(&shop);
    shop.gauge.full_scale_error.q = quantity_of("0.5 %", KIND_RATIO);
    double line = 3.971313 + gauge_known_within(&check, 2000);
    assert_true(line > 5);
    assert_within(gauge_within_at(results_for(&shop), 2000), line, 1e-6);
    shop.gauge.full_scale_error.q = quantity_of("5 %", KIND_RATIO); /* 50 N */
    assert_within(gauge_within_at(results_for(&shop), 2000), 50, 1e-12);
    assert_within(gauge_within_at(results_for(&shop), 500),
                  0.796085936 + gauge_known_within(&check, 500),
                  1e-8); /* what the weights found goes before it */
    shop.weighings.count = 0;
    assert_within(gauge_within_at(results_for(&shop), 500), 50, 1e-12);
}

/* A gauge that reads 1, 0.5 and 0 N more than 10, 20 and 30 N: the line crosses no error at
 * 30 N, reaches to 37.5 N with -0.375 N, and down to 5 N with 1.25 N. */
static void test_an_error_carried_on(void **state)
{
    (void)state;
    struct weighing three[] = {{.load = newtons("10"), .reading = newtons("11")},
                               {.load = newtons("20"), .reading = newtons("20.5")},
                               {.load = newtons("30"), .reading = newtons("30")}};
    struct shop shop = {.weighings = {three, 3}};
    struct gauge_check check = gauge_check_of(&shop);
    assert_within(gauge_carried_error(&check, 20), 0.5, 1e-12);
    assert_within(gauge_carried_error(&check, 40), 0.5, 1e-12);
    assert_within(gauge_carried_error(&check, 4), 1.3, 1e-12);
    three[0].reading = newtons("9");
    three[1].reading = newtons("19.5"); /* the same with the sign turned: nothing at 30 N */
    shop.weighings.count = 3;
    check = gauge_check_of(&shop);
    assert_within(gauge_carried_error(&check, 30), 0, 1e-12);
    three[0].reading = newtons("10.2");
    three[1].reading = newtons("20.1");
    three[2].reading = newtons("30"); /* 0.3 - 0.01 F: 0.25 at 5 N, -0.075 at 37.5 N */
    check = gauge_check_of(&shop);
    assert_within(gauge_carried_error(&check, 38), 0.08, 1e-12);
    three[0].reading = newtons("10.3");
    three[1].reading = newtons("20.2");
    three[2].reading = newtons("30.1"); /* 0.4 - 0.01 F: nothing at 40 N, 0.025 at 37.5 N */
    check = gauge_check_of(&shop);
    assert_within(gauge_carried_error(&check, 40), 0.025, 1e-12);
}

static double u_at(const struct shop *shop, double pull)
{
    struct drum_setup setup = shop_drum_setup(shop);
    return pull_uncertainty(results_for(shop), &setup, pull, NULL, NULL).expanded;
}

static double even_at(const struct shop *shop, double pull)
{
    struct drum_setup setup = shop_drum_setup(shop);
    return pull_uncertainty_even(results_for(shop), &setup, pull, NULL).expanded;
}

static void assert_no_fall(const struct shop *shop, double (*u)(const struct shop *, double))
{
    struct gauge_check check = gauge_check_of(shop);
    double to = gauge_check_to(&check), from = gauge_check_from(&check);
    assert_true(u(shop, from * (1 - 1e-9)) >= u(shop, from) * (1 - 1e-6));
    for (double pull = to, last = 0; pull < 3 * to; pull += to / 200) {
        assert_true(u(shop, pull) >= last * (1 - 1e-9));
        last = u(shop, pull);
    }
}

/* The even factor is 2; a known error is no chance and is added whole. */
static void test_the_even_doubt(void **state)
{
    (void)state;
    struct shop shop = shop_of("62 mm", "0.8 mm", "0.05 N");
    struct drum_setup setup = shop_drum_setup(&shop);
    struct weighing three[3];
    static const char *const readings[] = {"9.3 N", "18.6 N", "27.9 N"};
    for (int i = 0; i < 3; i++)
        three[i] = (struct weighing){.load = newtons(i == 0   ? "10"
                                                     : i == 1 ? "20"
                                                              : "30"),
                                     .reading = quantity_of(readings[i], KIND_FORCE)};
    shop.gauge.capacity = measure_of("50 N", KIND_FORCE);
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0.05 mm", KIND_LENGTH);
    struct uncertainty sum = pull_uncertainty_even(results_for(&shop), &setup, 20, NULL);
    assert_within(sum.factor, 2, 0);
    assert_within(sum.bias, 0, 0);
    assert_within(sum.expanded, 2 * sum.standard, 1e-15);
    shop.weighings = (struct weighings){three, 3};
    sum = pull_uncertainty_even(results_for(&shop), &setup, 20, NULL);
    assert_within(sum.bias, 1.4 * 0.0314, 1e-9); /* 7 % of 20 N, at 31.4 mm */
    assert_within(sum.expanded, 2 * sum.standard + 1.4 * 0.0314, 1e-9);
}

/* A gauge that reads 6 % low, checked with 1, 2 and 3 lb, of a data sheet that says 1 % of 5
 * lb: past 60 ozf the data sheet alone would make U less than a third. */
static void test_u_does_not_fall_where_the_weights_end(void **state)
{
    (void)state;
    struct shop shop = shop_of("4 in", "1/16 in", "1 ozf");
    struct weighing three[3];
    static const char *const rows[][2] = {
        {"1 lb", "15 ozf"}, {"2 lb", "30 ozf"}, {"3 lb", "45 ozf"}};
    for (int i = 0; i < 3; i++)
        three[i] = (struct weighing){.load = quantity_of(rows[i][0], KIND_MASS),
                                     .reading = quantity_of(rows[i][1], KIND_FORCE)};
    shop.weighings = (struct weighings){three, 3};
    shop.gauge.capacity = measure_of("80 ozf", KIND_FORCE);
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0.05 mm", KIND_LENGTH);
    static const char *const sheets[] = {"0.1 %", "1 %", "5 %", "20 %"};
    for (size_t i = 0; i < sizeof sheets / sizeof sheets[0]; i++) {
        shop.gauge.full_scale_error = measure_of(sheets[i], KIND_RATIO);
        assert_no_fall(&shop, u_at);
        assert_no_fall(&shop, even_at);
    }
    shop.gauge.full_scale_error = measure_of("1 %", KIND_RATIO);
    double ozf = quantity_of("1 ozf", KIND_FORCE).base, inch = 0.0254;
    double at_61 = u_at(&shop, 61 * ozf) / (16 * ozf * inch);
    assert_true(at_61 > 61 * (64.0 / 60 - 1) * 2.03125 / 16); /* covers the true drag */
    shop.gauge.full_scale_error =
        measure_of("20 %", KIND_RATIO); /* 16 ozf: more than the line */
    double stated = u_at(&shop, 61 * ozf), reached = u_at(&shop, 59 * ozf);
    assert_true(2 * reached < stated); /* where the weights reach they alone count */
    shop.weighings.count = 0;
    assert_within(stated, u_at(&shop, 61 * ozf), 1e-12);
}

/* Where the reach is told, and where not. */
static void test_words_where_the_weights_end(void **state)
{
    (void)state;
    struct weighing three[] = {{.load = newtons("10"), .reading = newtons("10.1")},
                               {.load = newtons("20"), .reading = newtons("20")},
                               {.load = newtons("30"), .reading = newtons("30.1")}};
    struct shop shop = {.weighings = {three, 3}};
    shop.gauge.step.q = newtons("0.1");
    struct arena *arena = arena_new();
    assert_string_equal(gauge_reach_words(arena, results_for(&shop), 5, 37.5), "");
    assert_string_not_equal(gauge_reach_words(arena, results_for(&shop), 4.9, 37.5), "");
    const char *words = gauge_reach_words(arena, results_for(&shop), 5, 37.6);
    assert_non_null(strstr(words, "(they speak for 5.00 to 37.50 N)"));
    assert_non_null(strstr(words, "the larger of the data sheet and"));
    shop.gauge.checked_error.q = newtons("0.2");
    words = gauge_reach_words(arena, results_for(&shop), 38, 38);
    assert_non_null(strstr(words, "the larger of the checked error and"));
    shop.weighings.count = 0;
    assert_string_equal(gauge_reach_words(arena, results_for(&shop), 38, 38), "");
    arena_free(arena);
}

/* A known error counts whatever its sign. */
static void test_error_below_nothing(void **state)
{
    (void)state;
    struct shop shop = shop_empty();
    static const char *const rows[][2] = {{"5", "4.9"}, {"10", "9.8"}, {"20", "19.6"}};
    for (int i = 0; i < 3; i++)
        items[i] =
            (struct weighing){.load = newtons(rows[i][0]), .reading = newtons(rows[i][1])};
    shop.weighings = (struct weighings){items, 3};
    struct gauge_check check = gauge_check_of(&shop);
    assert_within(gauge_check_error(&check, 15), -0.3, 1e-12);
    assert_within(gauge_carried_error(&check, 15), 0.3, 1e-12);
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
    struct shop shop = shop_empty();
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
    struct shop shop = shop_empty();
    static const char *const rows[][2] = {{"10", "10.1"}, {"20", "19.8"}, {"30", "30.1"}};
    for (int i = 0; i < 3; i++)
        items[i] =
            (struct weighing){.load = newtons(rows[i][0]), .reading = newtons(rows[i][1])};
    shop.weighings = (struct weighings){items, 3};
    shop.gauge.step.q = newtons("0.1");
    shop.drum.diameter.q = quantity_of("100 mm", KIND_LENGTH);
    shop.drum.tolerance.q = shop.cord.diameter.q = shop.cord.tolerance.q =
        quantity_of("0 mm", KIND_LENGTH);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct doubt doubts[DOUBT_SOURCES];
    pull_uncertainty(results_for(&shop), &setup, 20, NULL, doubts);
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

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_norris_check),
    cmocka_unit_test(test_what_the_check_covers),
    cmocka_unit_test(test_long_log),
    cmocka_unit_test(test_known_within),
    cmocka_unit_test(test_a_known_error_is_no_chance),
    cmocka_unit_test(test_which_error_is_used),
    cmocka_unit_test(test_how_far_a_reading_may_be_off),
    cmocka_unit_test(test_an_error_carried_on),
    cmocka_unit_test(test_the_even_doubt),
    cmocka_unit_test(test_u_does_not_fall_where_the_weights_end),
    cmocka_unit_test(test_words_where_the_weights_end),
    cmocka_unit_test(test_error_below_nothing),
    cmocka_unit_test(test_force_of_a_load),
    cmocka_unit_test(test_degrees_of_freedom_of_the_check),
    cmocka_unit_test(test_share),
    cmocka_unit_test(test_few_weighings_widen_u),
    cmocka_unit_test(test_drag_unit),
};

GROUP(gauge, NULL, NULL)
