/* The verdicts by their chances, both sides of each boundary, in the manner of JCGM 106; and
 * the worked series of pulls, worked out by hand. */
#include "facts.h"
#include "judge/gauge.h"
#include "judge/measure.h"
#include "judge/series.h"
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

/* By hand, for a doubt of 0.05 N.m of many degrees of freedom: a chance of 2.5 % is 1.95996 of
 * it, 0.0980 N.m. Limits of 0.60 to 2.20 N.m leave 0.698 to 2.102 as good, and less than 0.502
 * or more than 2.298 as clearly outside. */
static enum verdict verdict_at(int64_t thousandths, double low, double high)
{
    struct measured measured = {.drag = {.drag = (double)thousandths / 1000,
                                         .sureness = {.standard = 0.05, .nu = INFINITY}}};
    return decide(&measured, low, high).verdict;
}

static void test_boundaries(void **state)
{
    (void)state;
    assert_int_equal(verdict_at(502, 0.6, 2.2), VERDICT_LOW);
    assert_int_equal(verdict_at(503, 0.6, 2.2), VERDICT_LOW_IN_DOUBT);
    assert_int_equal(verdict_at(697, 0.6, 2.2), VERDICT_LOW_IN_DOUBT);
    assert_int_equal(verdict_at(698, 0.6, 2.2), VERDICT_GOOD);
    assert_int_equal(verdict_at(2102, 0.6, 2.2), VERDICT_GOOD);
    assert_int_equal(verdict_at(2103, 0.6, 2.2), VERDICT_HIGH_IN_DOUBT);
    assert_int_equal(verdict_at(2297, 0.6, 2.2), VERDICT_HIGH_IN_DOUBT);
    assert_int_equal(verdict_at(2298, 0.6, 2.2), VERDICT_HIGH);
}

/* A window of 1.00 to 1.15 has no place where both limits are safe; no drag is below a low
 * limit of 0. */
static void test_closed(void **state)
{
    (void)state;
    for (int64_t at = 800; at < 1400; at += 10)
        assert_int_not_equal(verdict_at(at, 1, 1.15), VERDICT_GOOD);
    assert_int_equal(verdict_at(1075, 1, 1.15), VERDICT_NONE);
    assert_int_equal(verdict_at(1, 0, 1.15), VERDICT_GOOD);
    struct decision none = decide(
        &(struct measured){.drag = {.drag = 0.001, .sureness = {.standard = 0.05, .nu = 4}}}, 0,
        1);
    assert_true(none.below == 0);
}

/* Two checks that do not agree: the worse counts, and good is withheld. */
static void test_worse_of_two(void **state)
{
    (void)state;
    static const struct {
        double one, other;
        enum verdict verdict;
    } rows[] = {{1.5, 1.6, VERDICT_NONE},          {1.5, 2.4, VERDICT_HIGH},
                {1.5, 2.2, VERDICT_HIGH_IN_DOUBT}, {0.4, 1.5, VERDICT_NONE},
                {0.4, 0.65, VERDICT_LOW_IN_DOUBT}, {0.4, 0.3, VERDICT_LOW},
                {0.65, 2.2, VERDICT_NONE},         {0.4, 2.4, VERDICT_HIGH}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (int turned = 0; turned < 2; turned++) {
            struct uncertainty u = {.standard = 0.05, .nu = INFINITY};
            struct measured measured = {
                .drag = {.drag = turned ? rows[i].other : rows[i].one, .sureness = u},
                .other = {.drag = turned ? rows[i].one : rows[i].other, .sureness = u},
                .two = true};
            struct decision found = decide(&measured, 0.6, 2.2);
            assert_int_equal(found.verdict, rows[i].verdict);
            assert_int_equal(found.withheld == WITHHELD_CHECKS_DIFFER,
                             rows[i].one == 1.5 || rows[i].other == 1.5);
        }
    struct measured far = {.drag = {.drag = 1.5, .sureness = {.standard = 0.05, .nu = 9}},
                           .far = 0.21};
    assert_int_equal(decide(&far, 0.6, 2.2).withheld, WITHHELD_FAR_OFF);
    far.far = 0.2;
    assert_int_equal(decide(&far, 0.6, 2.2).verdict, VERDICT_GOOD);
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
    return judge_pulls(known_for(shop), &band, &setup, &as_limits, pulls, 5);
}

/* Mean 4.640 lbf on a radius of 2.019685 in: 9.371 lbf.in. By hand, in lbf.in: the gauge 0.03 /
 * root 3 of the radius, 0.0350; a step's rounding in each of five pulls 0.0052; the zero within
 * a step 0.0233; drum and cord 0.0118. */
static void test_checked_gauge(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct judgement found = judge(&shop);
    const struct unit *unit = band.high.q.unit;
    double radius = 2.019685;
    assert_within(unit_from_base(found.drag, unit), 9.371, 0.0005);
    assert_within(unit_from_base(found.budget[BUDGET_GAUGE].u, unit), 0.03 / sqrt(3) * radius,
                  1e-6);
    assert_within(unit_from_base(found.budget[BUDGET_STEP].u, unit),
                  0.02 / sqrt(12) / sqrt(5) * radius, 1e-6);
    assert_within(unit_from_base(found.budget[BUDGET_ZERO].u, unit), 0.02 / sqrt(3) * radius,
                  1e-6);
    double of_radius = 4.64 / 2 / sqrt(3) / 25.4;
    assert_within(unit_from_base(found.budget[BUDGET_DRUM].u, unit), of_radius * 0.2, 1e-5);
    assert_within(unit_from_base(found.budget[BUDGET_CORD].u, unit), of_radius * 0.1, 1e-5);
    assert_int_equal(found.state, STATE_GOOD);
    assert_true(found.decision.below + found.decision.above < 0.025);
    shop.gauge.zero_error.q = of("0.1 lbf", KIND_FORCE);
    assert_within(unit_from_base(judge(&shop).budget[BUDGET_ZERO].u, unit),
                  0.1 / sqrt(3) * radius, 1e-6);
}

/* The data sheet's 0.5 % of 500 N alone: about 1.3 lbf.in either way eat two thirds of the
 * window. Common practice, no source: check the gauge at the reading. */
static void test_data_sheet_gauge(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    static const struct {
        const char *error;
        enum state state;
    } rows[] = {
        {"0.1 %", STATE_GOOD}, {"0.6 %", STATE_LOW_IN_DOUBT}, {"1.6 %", STATE_UNDECIDED}};
    for (size_t i = 0; i < 3; i++) {
        shop.gauge.full_scale_error.q = of(rows[i].error, KIND_RATIO);
        assert_int_equal(judge(&shop).state, rows[i].state);
    }
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

/* Before any pull, and with one, the scatter is the stated one: 2 %, worth 4 degrees of
 * freedom; each pull more adds one. */
static void test_scatter_learned(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct quantity same[5];
    for (int i = 0; i < 5; i++)
        same[i] = of("4.64 lbf", KIND_FORCE);
    struct judgement one = judge_pulls(known_for(&shop), &band, &setup, &as_limits, same, 1);
    assert_within(one.budget[BUDGET_SCATTER].u, 0.02 * one.drag, 1e-9);
    assert_within(one.budget[BUDGET_SCATTER].nu, 4, 0);
    struct judgement five = judge_pulls(known_for(&shop), &band, &setup, &as_limits, same, 5);
    assert_within(five.budget[BUDGET_SCATTER].nu, 8, 0);
    assert_true(five.budget[BUDGET_SCATTER].u < one.budget[BUDGET_SCATTER].u / sqrt(5));
    assert_true(five.odd.stuck && !one.odd.stuck);
    shop.pulls.scatter = (struct measure){.q = of("3 %", KIND_RATIO)};
    one = judge_pulls(known_for(&shop), &band, &setup, &as_limits, same, 1);
    assert_within(one.budget[BUDGET_SCATTER].u, 0.03 * one.drag, 1e-9);
}

static struct judgement judge_two(const struct shop *shop, const char *one, const char *two)
{
    const struct quantity pulls[] = {of(one, KIND_FORCE), of(two, KIND_FORCE)};
    struct drum_setup setup = shop_drum_setup(shop);
    return judge_pulls(known_for(shop), &band, &setup, &as_limits, pulls, 2);
}

/* Who is at fault where nothing can be decided: a window of 5 % to either side of the mean,
 * 4.95 lbf; pulls 8 % apart, or a gauge that is only known to more than all of it. */
static void test_who_cannot_decide(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    band.low.q = of("9.5 lbf.in", KIND_TORQUE);
    band.high.q = of("10.5 lbf.in", KIND_TORQUE);
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct judgement found = judge_two(&shop, "4.75 lbf", "5.15 lbf");
    assert_int_equal(found.state, STATE_SCATTERED);
    assert_true(found.decision.below > risk_taken && found.decision.above > risk_taken);
    shop.gauge.checked_error.q = of("25 N", KIND_FORCE);
    assert_int_equal(judge_two(&shop, "4.75 lbf", "5.15 lbf").state, STATE_UNDECIDED);
}

/* A rejected series has no state, but every alarm; nothing pulled has neither. */
static void test_not_judged(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    shop.limits.never_exceed.q = of("12 lbf.in", KIND_TORQUE);
    shop.pulls.scatter.q = of("0.1 %", KIND_RATIO);
    assert_true(judge_two(&shop, "19.9 lbf", "20 lbf").over_never);
    struct judgement wide = judge_two(&shop, "10 lbf", "20 lbf");
    assert_int_equal(wide.state, STATE_REJECTED);
    assert_true(wide.over_never && wide.high);
    assert_true(wide.drag > 0);
    struct judgement none = judge_two(&shop, "0 lbf", "0 lbf");
    assert_int_equal(none.state, STATE_NO_PULL);
    assert_false(none.over_never || none.high);
}

/* Pulls that rise steadily: their mean may be good, and is not called so; high is. */
static void test_trend(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    static const char *const texts[] = {"4.3 lbf", "4.5 lbf", "4.7 lbf", "4.9 lbf", "5.1 lbf"};
    struct quantity pulls[5];
    struct drum_setup setup = shop_drum_setup(&shop);
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    for (int i = 0; i < 5; i++)
        pulls[i] = of(texts[i], KIND_FORCE);
    struct judgement found = judge_pulls(known_for(&shop), &band, &setup, &as_limits, pulls, 5);
    assert_true(found.odd.trend);
    assert_int_equal(found.state, STATE_SCATTERED);
    assert_int_equal(found.decision.withheld, WITHHELD_TREND);
    struct band low = band_of("1 lbf.in", "2 lbf.in");
    found = judge_pulls(known_for(&shop), &low, &setup, &as_limits, pulls, 5);
    assert_int_equal(found.state, STATE_CLEARLY_HIGH);
}

/* What the usual pulls must read to be good: a step inside is, and the next one out is not. */
static void test_guarded_window(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct drum_setup setup = shop_drum_setup(&shop);
    const struct known *known = known_for(&shop);
    struct guarded_window window = guarded_window_on(known, &band, &setup);
    const int64_t steps[] = {window.low_steps, window.high_steps, window.low_steps - 1,
                             window.high_steps + 1};
    assert_false(window.closed);
    for (int i = 0; i < 4; i++) {
        double reading = (double)steps[i] * shop.gauge.step.q.base;
        struct pull_mean pulls = usual_pulls(known, reading);
        struct measured measured = measure_pulls(known, &setup, &pulls, NULL);
        assert_int_equal(decide(&measured, band.low.q.base, band.high.q.base).verdict ==
                             VERDICT_GOOD,
                         i < 2);
    }
    assert_true(window.low_steps > window.plain.low_steps);
    assert_true(window.high_steps < window.plain.high_steps);
    shop.gauge.checked_error.q = of("2 lbf", KIND_FORCE);
    assert_true(guarded_window_on(known_for(&shop), &band, &setup).closed);
}

/* The drags that would be good with the doubt of one: by hand, as in test_boundaries(). */
static void test_good_drags(void **state)
{
    (void)state;
    struct measured measured = {
        .drag = {.drag = 1, .sureness = {.standard = 0.05, .nu = INFINITY}}};
    double least, most;
    assert_true(good_drags(&measured, 0.6, 2.2, &least, &most));
    assert_within(least, 0.697998, 2e-5);
    assert_within(most, 2.102002, 2e-5);
    assert_false(good_drags(&measured, 1, 1.15, &least, &most));
    assert_true(good_drags(&measured, 0, 2.2, &least, &most));
    assert_within(least, 0, 0);
}

/* The slack drag counts where the limits are an increase over it; and what it is read with. */
static void test_increase(void **state)
{
    (void)state;
    struct shop shop = example_shop();
    shop.gauge.checked_error.q = of("0.03 lbf", KIND_FORCE);
    struct judgement plain = judge(&shop);
    shop.limits.basis = BASIS_INCREASE;
    shop.limits.slack_drag.q = of("2 lbf.in", KIND_TORQUE);
    struct judgement found = judge(&shop);
    const struct unit *unit = band.high.q.unit;
    assert_int_equal(found.state, STATE_CLEARLY_LOW); /* 7.37 against 8 to 12 */
    assert_within(unit_from_base(found.drag, unit), 9.371, 0.0005);
    assert_within(unit_from_base(found.measured.drag.drag, unit), 7.371, 0.0005);
    assert_true(found.budget[BUDGET_SCATTER].u > plain.budget[BUDGET_SCATTER].u);
    assert_true(found.budget[BUDGET_DRUM].u < plain.budget[BUDGET_DRUM].u);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_boundaries),
    cmocka_unit_test(test_closed),
    cmocka_unit_test(test_worse_of_two),
    cmocka_unit_test(test_good_drags),
    cmocka_unit_test(test_sureness),
    cmocka_unit_test(test_checked_gauge),
    cmocka_unit_test(test_data_sheet_gauge),
    cmocka_unit_test(test_gauge_errors_add_up),
    cmocka_unit_test(test_never_exceed),
    cmocka_unit_test(test_scatter_learned),
    cmocka_unit_test(test_who_cannot_decide),
    cmocka_unit_test(test_not_judged),
    cmocka_unit_test(test_trend),
    cmocka_unit_test(test_increase),
    cmocka_unit_test(test_guarded_window),
};

GROUP(state, NULL, NULL)
