/* The gauge's checks by known weights: told apart, complete or not, agreeing or not, which one
 * holds, and what is said where they do not reach. The line is that of NIST's Norris data set,
 * a calibration of an instrument: known amounts and what was read. */
#include "judge/gauge.h"
#include "facts.h"
#include "judge/results.h"
#include "report/words.h"
#include "shop_fixture.h"
#include "test.h"

#include <string.h>

static struct quantity newtons(const char *digits)
{
    char text[64];
    snprintf(text, sizeof text, "%s N", digits);
    return quantity_of(text, KIND_FORCE);
}

enum { MOST_ROWS = 60 };
static struct weighing rows[MOST_ROWS];
static struct shop shop;
static struct arena *arena;

static int begin(void **state)
{
    (void)state;
    shop = shop_of("62 mm", "0.8 mm", "0.05 N");
    shop.weighings = (struct weighings){rows, 0};
    arena = arena_new();
    return 0;
}

static int end(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

static void hang(const char *date, const char *by, bool down, double load, double reading)
{
    char text[64];
    struct weighing *row = &rows[shop.weighings.count++];
    *row = (struct weighing){.date = date, .by = by, .note = "", .down = down};
    snprintf(text, sizeof text, "%g N", load);
    row->load = quantity_of(text, KIND_FORCE);
    snprintf(text, sizeof text, "%g N", reading);
    row->reading = quantity_of(text, KIND_FORCE);
}

/* 10, 20, 30 N up and 20, 10 N down. */
static void hang_all(const char *date, double slope)
{
    for (int i = 1; i <= 3; i++)
        hang(date, "", false, 10 * i, slope * 10 * i);
    for (int i = 2; i >= 1; i--)
        hang(date, "", true, 10 * i, slope * 10 * i + 0.1);
}

static struct gauge_in_force on(const char *date)
{
    static struct gauge_checks checks;
    checks = gauge_checks_of(arena, &shop);
    return gauge_in_force_on(&checks, date_days(date));
}

static void test_checks_apart(void **state)
{
    (void)state;
    hang_all("2026-03-01", 1);
    hang("2026-03-01", "A", false, 10, 10);
    hang("2026-03-01", "A", false, 20, 20.5);
    hang("2025-03-01", "", false, 10, 9);
    struct gauge_checks checks = gauge_checks_of(arena, &shop);
    assert_int_equal(checks.count, 2); /* one load gives no line */
    assert_true(checks.items[0].complete && !checks.items[1].complete);
    assert_within(checks.items[0].least, 10, 1e-12);
    assert_within(checks.items[0].most, 30, 1e-12);
    assert_within(checks.items[0].hysteresis, 0.05, 1e-12);
    assert_true(isnan(checks.items[1].hysteresis));
    assert_within(checks.items[1].line.slope, 1.05, 1e-12);
    assert_string_equal(checks.items[1].by, "A");
    assert_false(checks.items[0].masses);
}

/* Two of three loads are to be hung both ways. */
static void test_complete(void **state)
{
    (void)state;
    for (int i = 1; i <= 3; i++)
        hang("2026-03-01", "", false, 10 * i, 10 * i);
    hang("2026-03-01", "", true, 20, 20.1);
    assert_false(on("2026-03-01").check->complete);
    hang("2026-03-01", "", true, 10, 10.1);
    struct gauge_in_force force = on("2026-03-01");
    assert_true(force.check->complete);
    assert_ptr_equal(force.check->rows[0], &rows[0]); /* those of one load as they were hung */
    assert_ptr_equal(force.check->rows[1], &rows[4]);
    assert_ptr_equal(force.check->rows[4], &rows[2]);
}

/* Where nothing is said of its orientation it is good to half a step. */
static void test_usual_orientation(void **state)
{
    (void)state;
    struct doubt budget[BUDGET_ROWS];
    shop.gauge.zero_error = shop.gauge.orientation_error = (struct measure){0};
    hang_all("2026-03-01", 1);
    const struct results *results = results_of(arena, &shop);
    struct pull_mean pulls = {5, 20, 0.2, 0};
    struct drum_setup setup = shop_drum_setup(&shop);
    struct measured measured = measure_pulls(&results->known, &setup, &pulls, budget);
    double root = sqrt(3) / measured.drag.per_newton;
    assert_within(budget[BUDGET_ORIENTATION].u * root, 0.025, 1e-12);
    assert_within(budget[BUDGET_ZERO].u * root, 0.05, 1e-12);
}

static void test_none_yet(void **state)
{
    (void)state;
    assert_null(on("2026-01-01").check);
    hang_all("2026-03-01", 1);
    assert_null(on("2026-02-28").check);
    assert_non_null(on("2026-03-01").check);
}

static void test_latest_complete(void **state)
{
    (void)state;
    hang("2025-01-01", "", false, 10, 10);
    hang("2025-01-01", "", false, 30, 30);
    assert_within(on("2025-06-01").check->line.slope, 1, 1e-12);
    hang_all("2026-01-01", 0.995);
    hang_all("2027-01-01", 0.997);
    struct gauge_in_force force = on("2026-06-01");
    assert_within(force.check->line.slope, 0.995, 5e-3);
    assert_true(force.check->complete && !force.other);
    assert_string_equal(on("2027-01-01").check->date, "2027-01-01");
}

/* The gauge was dropped: the newest line is 8 % low. */
static void test_disagreement_waits(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    hang_all("2027-01-01", 0.92);
    struct gauge_in_force force = on("2027-02-01");
    assert_string_equal(force.check->date, "2027-01-01");
    assert_string_equal(force.other->date, "2026-01-01");
    hang_all("2027-03-01", 0.922); /* agrees with the new */
    force = on("2027-03-01");
    assert_string_equal(force.check->date, "2027-03-01");
    assert_null(force.other);
    hang_all("2027-04-01", 1); /* and this with none since */
    assert_string_equal(on("2027-04-01").other->date, "2027-03-01");
}

static void test_later_incomplete(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    hang("2026-05-01", "", false, 10, 9.2);
    hang("2026-05-01", "", false, 20, 18.4);
    struct gauge_in_force force = on("2026-06-01");
    assert_string_equal(force.check->date, "2026-01-01");
    assert_string_equal(force.other->date, "2026-05-01");
    hang("2026-07-01", "", false, 10, 10);
    hang("2026-07-01", "", false, 20, 20);
    assert_null(on("2026-07-01").other);
}

static void test_reach(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    const struct gauge_check *check = on("2026-01-01").check;
    assert_true(gauge_check_covers(check, 5) && gauge_check_covers(check, 37.5));
    assert_false(gauge_check_covers(check, 4.99) || gauge_check_covers(check, 37.6));
}

/* NIST's Norris data, with the line that NIST certifies. */
static void test_norris_line(void **state)
{
    (void)state;
    struct facts facts = facts_open("norris.tsv");
    while (facts_next(&facts))
        hang("2026-01-01", "", false, strtod(facts.cells[0], NULL),
             strtod(facts.cells[1], NULL));
    shop.gauge.step.q = newtons("0.0001"); /* the step leaves no doubt of its own */
    const struct gauge_check *check = on("2026-01-01").check;
    assert_int_equal(check->count, 36);
    assert_within(check->line.intercept, -0.262323073774029, 1e-9);
    assert_within(check->line.slope, 1.00211681802045, 1e-11);
    assert_within(check->line.sd * sqrt(38.0 / 34), 0.884796396144373, 1e-8);
    double u = hypot(0, 0.1515021758) * sqrt(34.0 / 38) / 1.00211681802045; /* GSL */
    assert_within(gauge_line_u(&check->line, 500), u, 1e-8);
    assert_within(gauge_line_reading(&check->line, 500) - 500, 0.796085936, 1e-8);
}

/* U of a force: the line, weights and drift within 0.5 % each, hysteresis. */
static void test_known_within(void **state)
{
    (void)state;
    hang_all("2026-03-01", 1);
    const struct gauge_check *check = on("2026-03-01").check;
    double line = gauge_line_u(&check->line, 20), share = 0.005 * 20 / sqrt(3);
    double h = 0.05 / check->line.slope;
    double u = sqrt(line * line + 2 * share * share + h * h / 3);
    double nu = u * u / (line * line / check->line.nu);
    assert_within(gauge_known_within(check, 20), student_factor(student_coverage, nu) * u,
                  1e-12);
    shop.gauge.full_scale_error.q = quantity_of("0.5 %", KIND_RATIO);
    shop.gauge.capacity.q = newtons("50");
    double within = gauge_known_within(check, 20);
    assert_within(gauge_within_at(&shop, check, 20), within, 1e-12);
    assert_within(gauge_within_at(&shop, check, 40), fmax(0.25, gauge_known_within(check, 40)),
                  1e-12);
    assert_within(gauge_within_at(&shop, NULL, 20), 0.25, 1e-12);
}

/* What the gauge drifted from one check to the next counts on, half a percent at least. */
static void test_drift(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    assert_within(on("2026-01-01").check->drift, 0.005, 0);
    hang_all("2027-01-01", 1.001);
    assert_within(on("2027-01-01").check->drift, 0.005, 0);
    hang_all("2028-01-01", 0.981);
    double force = on("2028-01-01").check->line.middle;
    assert_within(on("2028-01-01").check->drift, 0.02 * force / 1.001 / force, 2e-4);
}

/* The log goes before the checked error, and that before the data sheet. */
static void test_which_error_is_used(void **state)
{
    (void)state;
    hang_all("2026-03-01", 1);
    const struct gauge_check *check = on("2026-03-01").check;
    shop.gauge.capacity.q = newtons("1000");
    shop.gauge.full_scale_error.q = quantity_of("0.5 %", KIND_RATIO);
    assert_int_equal(gauge_source_at(&shop, check, 20), GAUGE_WEIGHED);
    assert_int_equal(gauge_source_at(&shop, check, 200), GAUGE_SHEET_OR_CARRIED);
    assert_within(gauge_stated_error(&shop, 200), 5, 1e-12);
    shop.gauge.checked_error.q = newtons("0.25");
    assert_int_equal(gauge_source_at(&shop, check, 200), GAUGE_CHECKED_OR_CARRIED);
    assert_within(gauge_stated_error(&shop, 200), 0.25, 0);
    assert_within(gauge_sheet_error(&shop, 200), 5, 1e-12);
    assert_int_equal(gauge_source_at(&shop, NULL, 20), GAUGE_CHECKED);
    shop.gauge.checked_error = (struct measure){0};
    assert_int_equal(gauge_source_at(&shop, NULL, 20), GAUGE_DATA_SHEET);
}

/* Where the reach is told, and where not. */
static void test_words_where_the_weights_end(void **state)
{
    (void)state;
    hang_all("2026-03-01", 1);
    shop.gauge.step.q = newtons("0.1");
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
}

/* The gauge reads 8 % low, by its last check: a pull of 21 N is 0.717 N.m, above 0.70; by all
 * checks together it would be good. */
static void test_readings_are_corrected(void **state)
{
    (void)state;
    struct band band = band_of("0.45 N.m", "0.70 N.m");
    struct quantity pulls[5];
    for (int i = 0; i < 5; i++)
        pulls[i] = newtons("21");
    for (int year = 2016; year < 2026; year++) {
        static char dates[10][DATE_TEXT];
        snprintf(dates[year - 2016], DATE_TEXT, "%d-01-01", year);
        if (year >= 2024)
            hang_all(dates[year - 2016], 0.92);
        else if (year >= 2020)
            hang_all(dates[year - 2016], 1);
    }
    struct drum_setup setup = shop_drum_setup(&shop);
    struct judgement found = judge_pulls(known_for(&shop), &band, &setup, &as_limits, pulls, 5);
    assert_within(found.drag, 21 / 0.92 * 0.0314, 2e-3);
    assert_int_not_equal(found.state, STATE_GOOD);
    assert_true(found.decision.above > 0.5);
}

/* 1 kg at 45 degrees by GeographicLib, less 150 parts in a million for the air (OIML
 * D 28); 1 kgf is a force and needs no gravity. */
static void test_force_of_a_load(void **state)
{
    (void)state;
    shop = shop_empty();
    struct weighing weighing = {.date = "2026-03-09", .load = quantity_of("1 kg", KIND_MASS)};
    assert_within(weighing_force(&shop, &weighing), 9.80665 * 0.99985, 1e-12);
    shop.site.latitude.q = quantity_of("45 deg", KIND_ANGLE);
    assert_within(weighing_force(&shop, &weighing), 9.8061977694 * 0.99985, 1e-9);
    shop.site.height.q = quantity_of("1000 m", KIND_LENGTH);
    assert_within(weighing_force(&shop, &weighing), 9.8031128969 * 0.99985, 2e-7);
    weighing.load = quantity_of("1 kgf", KIND_FORCE);
    assert_within(weighing_force(&shop, &weighing), 9.80665, 1e-15);
}

/* ISO 7500-1, annex C: 50.5 read at 50 is off by +1.0 %. */
static void test_share(void **state)
{
    (void)state;
    assert_within(gauge_share(50.5 - 50, 50), 1, 1e-12);
    assert_within(gauge_share(-0.2, 40), -0.5, 1e-12);
    assert_true(isnan(gauge_share(1, 0)) && isnan(gauge_share(NAN, 5)));
}

/* Without limits nobody has said in which unit a drag is thought of: the gauge does. */
static void test_drag_unit(void **state)
{
    (void)state;
    struct band band = band_of("0.50 N.m", "0.70 N.m");
    shop = shop_of("50 mm", "0 mm", "0.01 lbf");
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

#define TEST(test) cmocka_unit_test_setup_teardown(test, begin, end)
static const struct CMUnitTest tests[] = {
    TEST(test_checks_apart),
    TEST(test_complete),
    TEST(test_usual_orientation),
    TEST(test_none_yet),
    TEST(test_latest_complete),
    TEST(test_disagreement_waits),
    TEST(test_later_incomplete),
    TEST(test_reach),
    TEST(test_norris_line),
    TEST(test_known_within),
    TEST(test_drift),
    TEST(test_which_error_is_used),
    TEST(test_words_where_the_weights_end),
    TEST(test_readings_are_corrected),
    TEST(test_force_of_a_load),
    TEST(test_share),
    TEST(test_drag_unit),
};
GROUP(gauge, NULL, NULL)
