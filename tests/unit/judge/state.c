/* The five states: ISO 14253-1 / JCGM 106 with a guard band of U, both sides of
 * each boundary; and the worked series of pulls, worked out by hand. */
#include "facts.h"
#include "judge/gauge.h"
#include "judge/series.h"
#include "judge/uncertainty.h"
#include "judge/window.h"
#include "shop_fixture.h"
#include "test.h"

static struct quantity of(const char *text, enum kind kind)
{
    struct quantity quantity;
    struct quantity_fault wrong;
    if (!quantity_parse(text, kind, &quantity, &wrong))
        fail_msg("%s: %s", text, wrong.message);
    return quantity;
}

/* A limit of 0.60 to 2.20 N.m with U = 0.10 N.m proves nothing outside 0.70..2.10
 * and condemns below 0.50 and above 2.30 (ISO 14253-1; arithmetic by hand). */
static enum state state_at(int64_t hundredths)
{
    struct decimal drag = decimal_of(hundredths, -2), u = decimal_of(10, -2);
    struct decimal low = decimal_of(60, -2), high = decimal_of(220, -2);
    return state_of(&drag, &low, &high, &u);
}

static void test_boundaries(void **state)
{
    (void)state;
    assert_int_equal(state_at(49), STATE_CLEARLY_LOW);
    assert_int_equal(state_at(50), STATE_LOW_IN_DOUBT);
    assert_int_equal(state_at(69), STATE_LOW_IN_DOUBT);
    assert_int_equal(state_at(70), STATE_GOOD); /* the limit belongs: y - U >= low */
    assert_int_equal(state_at(210), STATE_GOOD);
    assert_int_equal(state_at(211), STATE_HIGH_IN_DOUBT);
    assert_int_equal(state_at(230), STATE_HIGH_IN_DOUBT);
    assert_int_equal(state_at(231), STATE_CLEARLY_HIGH);
}

/* A window of 1.00 to 1.15 with U = 0.10 has no place where both limits are safe. */
static void test_closed(void **state)
{
    (void)state;
    struct decimal u = decimal_of(10, -2), low = decimal_of(100, -2),
                   high = decimal_of(115, -2);
    for (int64_t at = 80; at < 140; at++) {
        struct decimal drag = decimal_of(at, -2);
        enum state found = state_of(&drag, &low, &high, &u);
        assert_int_not_equal(found, STATE_GOOD);
        assert_int_equal(found == STATE_UNDECIDED, at > 105 && at < 110);
    }
}

/* Rounded up to two digits: the size of the doubt is never shown smaller. */
static void test_sureness(void **state)
{
    (void)state;
    static const struct {
        double base;
        const char *shown;
    } rows[] = {{0.02345, "0.024"}, {0.1, "0.10"}, {0.0999, "0.10"}, {0.011000001, "0.012"},
                {250, "250"},       {251, "260"},  {9.91, "10"},     {0, "0"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[DECIMAL_TEXT];
        struct shown_uncertainty sureness =
            uncertainty_shown_in(rows[i].base, unit_find("N.m", 3));
        decimal_print(&sureness.typed, sureness.places, text);
        assert_string_equal(text, rows[i].shown);
    }
}

static struct band band;

static struct shop example_shop(void)
{
    struct shop shop = shop_empty();
    band.from.q = of("0 r/min", KIND_SPEED);
    band.to.q = of("800 r/min", KIND_SPEED);
    band.low.q = of("8 lbf.in", KIND_TORQUE);
    band.high.q = of("12 lbf.in", KIND_TORQUE);
    shop.limits.bands = &band;
    shop.limits.band_count = 1;
    shop.drum.diameter.q = of("101.6 mm", KIND_LENGTH);
    shop.drum.tolerance.q = of("0.2 mm", KIND_LENGTH);
    shop.cord.diameter.q = of("1.0 mm", KIND_LENGTH);
    shop.cord.tolerance.q = of("0.1 mm", KIND_LENGTH);
    shop.gauge.capacity.q = of("500 N", KIND_FORCE);
    shop.gauge.step.q = of("0.02 lbf", KIND_FORCE);
    shop.pulls.skew.q = of("0 deg", KIND_ANGLE);
    return shop;
}

static struct judgement judge(const struct shop *shop)
{
    static const char *const texts[] = {"4.62 lbf", "4.70 lbf", "4.58 lbf", "4.66 lbf",
                                        "4.64 lbf"};
    struct quantity pulls[5];
    struct drum_setup setup = shop_drum_setup(shop);
    for (int i = 0; i < 5; i++)
        pulls[i] = of(texts[i], KIND_FORCE);
    return judge_pulls(results_for(shop), &band, &setup, &as_limits, pulls, 5);
}

/* Mean 4.640 lbf, s 0.0447 lbf; with a gauge good to 0.03 lbf the drag of 9.371
 * lbf.in is sure to 0.12: good. By hand, with u = hypot of 0.0404 (s / sqrt 5),
 * 0.0350 (gauge), 0.0165 (steps), 0.0118 (radius) lbf.in and so on. */
static void test_checked_gauge(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct judgement found = judge(&shop);
    const struct unit *unit = band.high.q.unit;
    assert_within(unit_from_base(found.drag, unit), 9.371, 0.0005);
    double repeat = 0.0447214 / sqrt(5) * 2.019685, gauge = 0.03 / sqrt(3) * 2.019685;
    double steps = 0.02 / sqrt(12) * sqrt(2) * 2.019685;
    double radius = 4.64 / 2 * hypot(0.2, 0.1) / sqrt(3) / 25.4;
    double want = sqrt(repeat * repeat + gauge * gauge + steps * steps + radius * radius);
    assert_within(unit_from_base(found.uncertainty.standard, unit), want, 1e-5);
    assert_int_equal(found.state, STATE_GOOD);
}

/* The data sheet's 0.5 % of 500 N alone: U about 1.3 lbf.in eats two thirds of the
 * window. Common practice, no source: check the gauge at the reading. */
static void test_data_sheet_gauge(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.full_scale_error.q = of("0.5 %", KIND_RATIO);
    struct judgement found = judge(&shop);
    double u = unit_from_base(found.uncertainty.expanded, band.high.q.unit);
    assert_within(u, 1.31, 0.02);
    /* shown and used as 1.4: 9.371 - 1.4 is below 8 */
    assert_int_equal(found.state, STATE_LOW_IN_DOUBT);
    shop.gauge.full_scale_error.q = of("0.45 %", KIND_RATIO);
    assert_int_equal(judge(&shop).state, STATE_GOOD); /* 9.371 - 1.2 is above it */
    shop.gauge.full_scale_error.q = of("0.6 %", KIND_RATIO);
    assert_int_equal(judge(&shop).state, STATE_LOW_IN_DOUBT);
    shop.gauge.full_scale_error.q = of("1.2 %", KIND_RATIO);
    assert_int_equal(judge(&shop).state, STATE_UNDECIDED);
}

static void test_gauge_errors_add_up(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.full_scale_error.q = of("0.5 %", KIND_RATIO);
    shop.gauge.reading_error.q = of("2 %", KIND_RATIO);
    assert_within(gauge_stated_error(&shop, 20), 2.5 + 0.4, 1e-12);
    shop.gauge.checked_error.q = of("0.1 N", KIND_FORCE);
    assert_within(gauge_stated_error(&shop, 20), 0.1, 1e-15);
}

static void test_never_exceed(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    shop.limits.never_exceed.q = of("12 lbf.in", KIND_TORQUE);
    assert_false(judge(&shop).over_never);
    shop.limits.never_exceed.q = of("9.4 lbf.in", KIND_TORQUE);
    assert_true(judge(&shop).over_never); /* 9.37 is below, but not with its U */
}

/* One pull says nothing of the scatter: the shop's usual one stands in. */
static void test_one_pull(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct doubt doubts[DOUBT_SOURCES];
    struct series one = {.count = 1, .mean = 20};
    pull_uncertainty(results_for(&shop), &setup, 20, &one, doubts);
    assert_within(doubts[DOUBT_REPEAT].u, 0.02 * 20 * 0.0513, 1e-12);
    struct series six = {.count = 6, .mean = 20, .sd = 0.3};
    pull_uncertainty(results_for(&shop), &setup, 20, &six, doubts);
    assert_within(doubts[DOUBT_REPEAT].nu, 5, 0); /* its own, not the shop's usual 4 */
    assert_within(doubts[DOUBT_REPEAT].u, 0.3 / sqrt(6) * 0.0513, 1e-12);
    pull_uncertainty(results_for(&shop), &setup, 20, NULL, doubts);
    assert_within(doubts[DOUBT_REPEAT].u, 0.02 * 20 / sqrt(5) * 0.0513, 1e-12);
    assert_within(doubts[DOUBT_REPEAT].nu, 4, 0);
    struct series three = {.count = 3, .mean = 20, .sd = 0.5};
    pull_uncertainty(results_for(&shop), &setup, 20, &three, doubts);
    assert_within(doubts[DOUBT_REPEAT].u, 0.5 / sqrt(3) * 0.0513, 1e-12);
    assert_within(doubts[DOUBT_REPEAT].nu, 2, 0); /* n - 1 */
}

/* Fewer pulls than planned are never taken for steadier than planned; as many are. */
static void test_few_pulls(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct doubt doubts[DOUBT_SOURCES];
    for (size_t count = 2; count < 5; count++) {
        struct series few = {.count = count, .mean = 20, .sd = 0.01};
        pull_uncertainty(results_for(&shop), &setup, 20, &few, doubts);
        assert_within(doubts[DOUBT_REPEAT].u, 0.02 * 20 / sqrt((double)count) * 0.0513, 1e-12);
        assert_within(doubts[DOUBT_REPEAT].nu, 4, 0);
    }
    struct series five = {.count = 5, .mean = 20, .sd = 0.01};
    pull_uncertainty(results_for(&shop), &setup, 20, &five, doubts);
    assert_within(doubts[DOUBT_REPEAT].u, 0.01 / sqrt(5) * 0.0513, 1e-12);
    shop.pulls.count.number = 6;
    shop.pulls.scatter = (struct measure){.q = of("3 %", KIND_RATIO)};
    pull_uncertainty(results_for(&shop), &setup, 20, &five, doubts);
    assert_within(doubts[DOUBT_REPEAT].u, 0.03 * 20 / sqrt(5) * 0.0513, 1e-12);
    assert_within(doubts[DOUBT_REPEAT].nu, 5, 0);
}

static struct judgement judge_two(const struct shop *shop, const char *one, const char *two)
{
    const struct quantity pulls[] = {of(one, KIND_FORCE), of(two, KIND_FORCE)};
    struct drum_setup setup = shop_drum_setup(shop);
    return judge_pulls(results_for(shop), &band, &setup, &as_limits, pulls, 2);
}

/* Who is at fault where nothing can be decided. s of two pulls is their distance over
 * root 2: 0.2 lbf of 4.95 lbf is a sd of the mean of 0.1, with t(1) = 13.97 a U of 2.8
 * lbf.in about 10: the pulls. With an error of 5 % of 500 N, 14 lbf, it is the gauge. */
static void test_who_cannot_decide(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    assert_int_equal(judge_two(&shop, "4.85 lbf", "5.05 lbf").state, STATE_SCATTERED);
    shop.gauge.checked_error.q = of("25 N", KIND_FORCE);
    assert_int_equal(judge_two(&shop, "4.85 lbf", "5.05 lbf").state, STATE_UNDECIDED);
    struct weighing two_more[3]; /* weights find 2 lbf too much: known, and no scatter */
    static const char *const found[][2] = {
        {"2 lbf", "4 lbf"}, {"5 lbf", "7 lbf"}, {"8 lbf", "10 lbf"}};
    for (int i = 0; i < 3; i++)
        two_more[i] = (struct weighing){.load = of(found[i][0], KIND_FORCE),
                                        .reading = of(found[i][1], KIND_FORCE)};
    shop.weighings = (struct weighings){two_more, 3};
    assert_int_equal(judge_two(&shop, "4.85 lbf", "5.05 lbf").state, STATE_UNDECIDED);
}

/* What is rejected is not judged at all, but for the alarms; nor is nothing. */
static void test_not_judged(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    shop.limits.never_exceed.q = of("12 lbf.in", KIND_TORQUE);
    assert_true(judge_two(&shop, "19 lbf", "20 lbf").over_never);
    struct judgement wide = judge_two(&shop, "18 lbf", "20 lbf");
    assert_int_equal(wide.state, STATE_REJECTED);
    assert_true(wide.over_never && wide.high); /* the alarms stay */
    assert_true(wide.drag > 0);
    struct judgement none = judge_two(&shop, "0 lbf", "0 lbf");
    assert_int_equal(none.state, STATE_NO_PULL);
    assert_int_equal(judge_two(&shop, "0 lbf", "0.06 lbf").state, STATE_REJECTED);
}

/* Over a tenth of the mean, and over two steps of 0.02 lbf: each bound belongs to what is
 * kept. */
static void test_too_wide(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    static const struct {
        const char *least, *most;
        bool wide;
    } rows[] = {
        {"9.5 lbf", "10.5 lbf", false},                                 /* a tenth of 10 */
        {"9.5 lbf", "10.51 lbf", true}, {"0.1 lbf", "0.14 lbf", false}, /* two steps */
        {"0.1 lbf", "0.141 lbf", true}, {"0 lbf", "0.02 lbf", false},   {"5 N", "5.6 N", true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct quantity pulls[] = {of(rows[i].most, KIND_FORCE), of(rows[i].least, KIND_FORCE),
                                   of(rows[i].least, KIND_FORCE), of(rows[i].most, KIND_FORCE)};
        assert_int_equal(pulls_too_wide(&shop, pulls, 4), rows[i].wide);
        assert_int_equal(pulls_too_wide(&shop, pulls + 2, 2), rows[i].wide);
        assert_false(pulls_too_wide(&shop, pulls, 1));
    }
}

/* Guarded windows: limits of 8 and 12 lbf.in with a U that is worked out beside them,
 * in steps of 0.02 lbf; every step inside is good and the next one out is not. */
static void test_guarded_window(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct guarded_window window = guarded_window_on(results_for(&shop), &band, &setup);
    double step = 0.02, radius = 2.0196850393700787; /* in */
    double low_expanded = decimal_to_double(&window.low_u.typed);
    double high_expanded = decimal_to_double(&window.high_u.typed);
    assert_false(window.closed);
    assert_true((double)window.low_steps * step * radius >= 8 + low_expanded);
    assert_true((double)(window.low_steps - 1) * step * radius < 8 + low_expanded);
    assert_true((double)window.high_steps * step * radius <= 12 - high_expanded);
    assert_true((double)(window.high_steps + 1) * step * radius > 12 - high_expanded);
    assert_true(window.low_steps > window.plain.low_steps);
    assert_true(window.high_steps < window.plain.high_steps);
    shop.gauge.checked_error.q = of("2 lbf", KIND_FORCE);
    assert_true(guarded_window_on(results_for(&shop), &band, &setup).closed);
}

/* A window that a single step just fills is open. */
static void test_window_of_one_step(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0 lbf", KIND_FORCE);
    shop.pulls.scatter.q = of("0 %", KIND_RATIO);
    shop.drum.tolerance.q = shop.cord.tolerance.q = of("0 mm", KIND_LENGTH);
    shop.gauge.step.q = of("0.001 lbf", KIND_FORCE);
    struct drum_setup setup = shop_drum_setup(&shop);
    bool seen = false;
    for (int i = 0; i < 400 && !seen; i++) {
        char text[32];
        snprintf(text, sizeof text, "8.%04d lbf.in", i);
        band.high.q = of(text, KIND_TORQUE);
        struct guarded_window window = guarded_window_on(results_for(&shop), &band, &setup);
        seen = window.low_steps == window.high_steps;
        assert_int_equal(window.closed, window.low_steps > window.high_steps);
    }
    assert_true(seen);
}

/* The slack drag counts where the limits are an increase over it. */
static void test_increase(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    shop.limits.basis = BASIS_INCREASE;
    shop.limits.slack_drag.q = of("2 lbf.in", KIND_TORQUE);
    assert_int_equal(judge(&shop).state, STATE_CLEARLY_LOW); /* 9.37 against 10..14 */
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_boundaries),         cmocka_unit_test(test_closed),
    cmocka_unit_test(test_sureness),           cmocka_unit_test(test_checked_gauge),
    cmocka_unit_test(test_data_sheet_gauge),   cmocka_unit_test(test_gauge_errors_add_up),
    cmocka_unit_test(test_never_exceed),       cmocka_unit_test(test_one_pull),
    cmocka_unit_test(test_who_cannot_decide),  cmocka_unit_test(test_not_judged),
    cmocka_unit_test(test_too_wide),           cmocka_unit_test(test_few_pulls),
    cmocka_unit_test(test_increase),           cmocka_unit_test(test_guarded_window),
    cmocka_unit_test(test_window_of_one_step),
};

GROUP(state, NULL, NULL)
