/* What must hold whatever the settings: thousands of made-up shops, drags, limits and
 * amounts from a fixed seed. */
#include "properties.h"
#include "judge/series.h"
#include "judge/uncertainty.h"
#include "judge/window.h"
#include "physics/physics.h"

#include <math.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

/* A made-up shop: limits of the size that its gauge reads well or badly. */
static struct shop made_shop(struct band *band)
{
    static const char *const steps[] = {"0.01 N",  "0.05 N", "1 N",      "0.02 lbf",
                                        "0.5 ozf", "0.1 gf", "0.005 kgf"};
    struct shop shop = {0};
    shop.drum.diameter.q = made_quantity(&lengths[draw(2)], 99999, KIND_LENGTH);
    shop.drum.tolerance.q = made_quantity(&lengths[0], 500, KIND_LENGTH);
    shop.cord.diameter.q = made_quantity(&lengths[0], 4000, KIND_LENGTH);
    shop.cord.tolerance.q = made_quantity(&lengths[0], 300, KIND_LENGTH);
    shop.gauge.capacity = measure_of("10000 N", KIND_FORCE);
    shop.gauge.step = measure_of(steps[draw(7)], KIND_FORCE);
    shop.gauge.checked_error.q = made_quantity(&forces[0], draw(2) ? 100 : 5000, KIND_FORCE);
    uint64_t low = 1 + draw(99999);
    const struct made_unit *unit = &torques[draw(5)];
    *band = band_of(make(unit, low).text, make(unit, low + draw(99999)).text);
    if (draw(3) == 0) {
        shop.limits.basis = BASIS_INCREASE;
        shop.limits.slack_drag.q = made_quantity(unit, 20000, KIND_TORQUE);
    }
    shop.limits.bands = band;
    shop.limits.band_count = 1;
    return shop;
}

/* Exactly: steps (D + d) against twice a limit with so much added. */
static int compare_steps(const struct shop *shop, int64_t steps, const struct decimal *limit,
                         const struct decimal *more)
{
    struct decimal span = double_radius(&shop->drum.diameter.q, &shop->cord.diameter.q);
    struct decimal count = decimal_of(steps, 0), drag;
    drag = decimal_multiply(&shop->gauge.step.q.exact, &span);
    drag = decimal_multiply(&drag, &count);
    struct decimal wanted = decimal_add(limit, more);
    wanted = decimal_add(&wanted, &wanted);
    return decimal_compare(&drag, &wanted);
}

/* The guarded window lies within the plain one, and both within the limits. */
static void check_nesting(void)
{
    struct band band;
    struct shop shop = made_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct guarded_window window = guarded_window_on(results_for(&shop), &band, &setup);
    struct decimal low = pulled_limit(&shop, &band.low), high = pulled_limit(&shop, &band.high);
    struct decimal none = decimal_of(0, 0);
    struct decimal less = decimal_subtract(&none, &window.high_u.exact);
    HOLDS(window.low_steps >= window.plain.low_steps);
    HOLDS(window.high_steps <= window.plain.high_steps);
    HOLDS(window.low >= window.plain.low && window.high <= window.plain.high);
    HOLDS(compare_steps(&shop, window.plain.low_steps, &low, &none) >= 0);
    HOLDS(compare_steps(&shop, window.plain.low_steps - 1, &low, &none) < 0);
    HOLDS(compare_steps(&shop, window.plain.high_steps, &high, &none) <= 0);
    HOLDS(compare_steps(&shop, window.plain.high_steps + 1, &high, &none) > 0);
    HOLDS(compare_steps(&shop, window.low_steps, &low, &window.low_u.exact) >= 0);
    HOLDS(compare_steps(&shop, window.low_steps - 1, &low, &window.low_u.exact) < 0);
    HOLDS(compare_steps(&shop, window.high_steps, &high, &less) <= 0);
    HOLDS(compare_steps(&shop, window.high_steps + 1, &high, &less) > 0);
}

/* A larger drum or a thicker cord never asks for more pull, not after rounding
 * either; and a larger limit never for less. */
static void check_order_of_windows(void)
{
    struct band band, higher;
    struct shop shop = made_shop(&band);
    struct pull_window plain =
        pull_window_on(&shop, &band, &shop.drum.diameter.q, &shop.cord.diameter.q);
    struct quantity drum = shop.drum.diameter.q, cord = shop.cord.diameter.q;
    struct quantity more = made_quantity(&lengths[0], 2000, KIND_LENGTH);
    drum.exact = decimal_add(&drum.exact, &more.exact);
    cord.exact = decimal_add(&cord.exact, &more.exact);
    drum.base = decimal_to_double(&drum.exact);
    cord.base = decimal_to_double(&cord.exact);
    struct pull_window large = pull_window_on(&shop, &band, &drum, &shop.cord.diameter.q);
    struct pull_window thick = pull_window_on(&shop, &band, &shop.drum.diameter.q, &cord);
    HOLDS(large.low < plain.low && large.high < plain.high && large.aim < plain.aim);
    HOLDS(large.low_steps <= plain.low_steps && large.high_steps <= plain.high_steps);
    HOLDS(thick.low_steps == large.low_steps && thick.high_steps == large.high_steps);
    higher = band;
    struct quantity raise = made_quantity(&torques[1], 2000, KIND_TORQUE);
    higher.low.q.exact = decimal_add(&band.low.q.exact, &raise.exact);
    higher.high.q.exact = decimal_add(&band.high.q.exact, &raise.exact);
    struct pull_window up =
        pull_window_on(&shop, &higher, &shop.drum.diameter.q, &shop.cord.diameter.q);
    HOLDS(up.low_steps >= plain.low_steps && up.high_steps >= plain.high_steps);
}

/* Place of a state on the way from loose to tight. */
static int order_of(enum state state)
{
    static const int orders[] = {
        [STATE_CLEARLY_LOW] = 0, [STATE_LOW_IN_DOUBT] = 1,  [STATE_GOOD] = 2,
        [STATE_UNDECIDED] = 2,   [STATE_HIGH_IN_DOUBT] = 3, [STATE_CLEARLY_HIGH] = 4};
    return orders[state];
}

/* Whole numbers for drag, limits and U: the state by its meaning. */
static int meant_order(int64_t drag, int64_t low, int64_t high, int64_t u)
{
    if (drag + u < low)
        return 0;
    if (drag - u > high)
        return 4;
    if (drag - u < low && drag + u > high)
        return 2;
    return drag - u < low ? 1 : drag + u > high ? 3 : 2;
}

/* From nothing to far above: the states come in order, change at the limits only, and
 * good and undecided never both. */
static void check_states(void)
{
    int64_t low = (int64_t)draw(400), high = low + (int64_t)draw(60), u = (int64_t)draw(60);
    struct decimal l = decimal_of(low, -3), h = decimal_of(high, -3), doubt = decimal_of(u, -3);
    int before = 0;
    bool good = false, undecided = false;
    for (int64_t at = 0; at < high + u + 3; at++) {
        struct decimal drag = decimal_of(at, -3);
        enum state state = state_of(&drag, &l, &h, &doubt);
        good = good || state == STATE_GOOD;
        undecided = undecided || state == STATE_UNDECIDED;
        HOLDS(order_of(state) >= before);
        HOLDS(order_of(state) == meant_order(at, low, high, u));
        HOLDS(state != STATE_GOOD || (at - u >= low && at + u <= high));
        before = order_of(state);
    }
    HOLDS(before == 4);
    HOLDS(!(good && undecided));
    HOLDS(good == (low + u <= high - u));
}

/* The same through pulls: more pull, never a looser state. */
static void check_judged_order(void)
{
    struct band band;
    struct shop shop = made_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct pull_window window = pull_window_on(&shop, &band, setup.drum, setup.cord);
    int before = 0;
    shop.gauge.checked_error = measure_of("0.02 N", KIND_FORCE);
    for (int i = 0; i < 8; i++) {
        char text[QUANTITY_TEXT];
        snprintf(text, sizeof text, "%.6f N", window.aim * (0.2 + 0.23 * i));
        struct quantity pull = quantity_of(text, KIND_FORCE);
        struct quantity pulls[] = {pull, pull};
        struct judgement found =
            judge_pulls(results_for(&shop), &band, &setup, &as_limits, pulls, 2);
        double u = unit_from_base(found.uncertainty.expanded, band.high.q.unit);
        HOLDS(decimal_to_double(&found.shown_u.typed) >= u * (1 - 1e-15));
        HOLDS(found.state == STATE_UNDECIDED || order_of(found.state) >= before);
        before = found.state == STATE_UNDECIDED ? before : order_of(found.state);
    }
}

/* Never-exceed on the gauge: the last step that is not above it. */
static void check_never(void)
{
    struct band band;
    struct shop shop = made_shop(&band);
    struct decimal none = decimal_of(0, 0), raise = decimal_of((int64_t)draw(3000), -4);
    shop.limits.never_exceed = band.high;
    shop.limits.never_exceed.q.exact = decimal_add(&band.high.q.exact, &raise);
    struct pull_window window =
        pull_window_on(&shop, &band, &shop.drum.diameter.q, &shop.cord.diameter.q);
    struct decimal never = pulled_limit(&shop, &shop.limits.never_exceed);
    HOLDS(window.never_steps >= window.high_steps);
    HOLDS(compare_steps(&shop, window.never_steps, &never, &none) <= 0);
    HOLDS(compare_steps(&shop, window.never_steps + 1, &never, &none) > 0);
}

/* More pull, a larger drum, a thicker cord: never less drag, on paper neither. */
static void check_shown_drag(void)
{
    struct quantity pull = made_quantity(&forces[0], 99999, KIND_FORCE);
    struct quantity drum = made_quantity(&lengths[0], 99999, KIND_LENGTH);
    struct quantity cord = made_quantity(&lengths[0], 4000, KIND_LENGTH);
    double parts[] = {pull.base, drum.base, cord.base};
    struct decimal before = decimal_of(0, 0);
    for (int i = 0; i <= 3; i++) {
        double drag = drag_from_pull(parts[0], drag_radius(parts[1], parts[2]));
        struct decimal shown = decimal_of_shown(show_places(drag, 3));
        HOLDS(decimal_compare(&shown, &before) >= 0);
        before = shown;
        if (i < 3)
            parts[i] *= 1 + share() / 100;
    }
}

/* The factor for U: less with more degrees of freedom, more for a larger share, never
 * below that of the normal distribution. And no doubt is made less by another one. */
static void check_doubt(void)
{
    double p = 0.1 + 0.9 * share(), nu = between(1, 1e5);
    double factor = student_factor(p, nu);
    HOLDS(student_factor(p, nu * (1 + share())) < factor);
    HOLDS(student_factor(p + (1 - p) * (0.01 + 0.9 * share()), nu) > factor);
    HOLDS(factor > student_factor(p, INFINITY));
    struct doubt doubts[] = {{between(1e-3, 1), 1 + (double)draw(40)}, {between(1e-3, 1), 4}};
    struct uncertainty one = uncertainty_of(doubts, 1), two = uncertainty_of(doubts, 2);
    HOLDS(two.standard > one.standard && two.standard >= doubts[1].u);
    HOLDS(two.nu >= fmin(doubts[0].nu, doubts[1].nu) * (1 - 1e-12));
    HOLDS(two.nu <= (doubts[0].nu + doubts[1].nu) * (1 + 1e-12));
}

/* Drag grows with pull, drum and cord, and comes back as the pull that it was. */
static void check_drag(void)
{
    double pull = between(1e-3, 1e4), drum = between(1e-3, 2), cord = between(1e-5, 2e-2);
    double more = 1 + share() / 1000, radius = drag_radius(drum, cord);
    double drag = drag_from_pull(pull, radius);
    HOLDS(fabs(drag_to_pull(drag, radius) / pull - 1) < 1e-15);
    HOLDS(drag_from_pull(pull * more, radius) > drag);
    HOLDS(drag_from_pull(pull, drag_radius(drum * more, cord)) > drag);
    HOLDS(drag_from_pull(pull, drag_radius(drum, cord * 2)) > drag);
    HOLDS(drag_correction_for_skew(between(1e-3, 89)) < 0);
    HOLDS(fabs(drag_pull_at_arm(drag_pull_at_arm(pull, radius, drum), drum, radius) / pull -
               1) < 1e-15);
}

/* A move of the nut only ever tightens, by no more than 5 degrees and twice the last
 * move, and only while drag is missing. */
static void check_nut(void)
{
    struct nut_point older = {20 * share(), share(), share() / 50, 0};
    struct nut_point newer = {20 * share(), share(), share() / 50, 0};
    double target = share(), good = share() / 10;
    struct nut_move move = nut_next(older, newer, target, good);
    if (move.advice != NUT_TURN) {
        HOLDS(move.angle == 0 && !move.capped);
        return;
    }
    HOLDS(move.angle > 0 && move.angle <= NUT_MOST_MOVE);
    HOLDS(move.angle <= 2 * (newer.angle - older.angle));
    HOLDS(newer.drag < target && newer.drag > older.drag && newer.angle > older.angle);
    HOLDS(move.capped ||
          fabs(older.drag +
               (newer.drag - older.drag) * (newer.angle + move.angle - older.angle) /
                   (newer.angle - older.angle) -
               target) < 1e-9);
}

static const struct property properties[] = {
    {check_nesting, 4000}, {check_order_of_windows, 4000},
    {check_states, 1000},  {check_judged_order, 1000},
    {check_drag, 10000},   {check_nut, 10000},
    {check_never, 4000},   {check_shown_drag, 10000},
    {check_doubt, 5000},
};

static void test_properties(void **state)
{
    (void)state;
    try_properties(properties, sizeof properties / sizeof properties[0]);
    assert_true(cases >= 49000);
}

/* ---- how often U covers the truth where only a few pulls were taken: a Monte Carlo run in the
 * manner of JCGM 101, through the shop's own rules ---- */

enum { SHOPS = 20000, MOST = 8 };

static const double truth = 20, scatter = 0.02; /* N; share of the pull */

/* The error of the reading (N) as the shop's own figures allow it: two half steps, the
 * gauge either way. Drum and cord are taken for exact. */
static double draw_error(gsl_rng *rng, const struct shop *shop)
{
    double step = shop->gauge.step.q.base, gauge = shop->gauge.checked_error.q.base;
    return gsl_ran_flat(rng, -step / 2, step / 2) + gsl_ran_flat(rng, -step / 2, step / 2) +
           gsl_ran_flat(rng, -gauge, gauge);
}

/* The share of many shops whose U, after so many pulls, covers the true drag. */
static double cover(const struct shop *shop, size_t count)
{
    struct drum_setup setup = shop_drum_setup(shop);
    double radius = (setup.drum->base + setup.cord->base) / 2;
    int within = 0;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(rng, 20261125 + count);
    for (int i = 0; i < SHOPS; i++) {
        double pulls[MOST], error = draw_error(rng, shop);
        for (size_t j = 0; j < count; j++)
            pulls[j] = truth + error + gsl_ran_gaussian(rng, scatter * truth);
        struct series series = series_of(pulls, count);
        double u =
            pull_uncertainty(results_for(shop), &setup, series.mean, &series, NULL).expanded;
        within += fabs(series.mean - truth) * radius <= u;
    }
    gsl_rng_free(rng);
    return (double)within / SHOPS;
}

/* From a gauge that leaves the scatter all the doubt to one that leaves it a small part. */
static void test_cover(void **state)
{
    (void)state;
    static const char *const errors[] = {"0.01 N", "0.2 N", "0.4 N", "0.8 N", "2 N"};
    struct shop shop = shop_of("100 mm", "2 mm", "0.05 N");
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.pulls.skew = measure_of("0 deg", KIND_ANGLE);
    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++)
        for (size_t count = 1; count <= 6; count++) {
            shop.gauge.checked_error = measure_of(errors[i], KIND_FORCE);
            double found = cover(&shop, count);
            if (found < 0.94)
                fail_msg("gauge %s, %zu pulls: covered %.4f", errors[i], count, found);
        }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_properties),
    cmocka_unit_test(test_cover),
};

GROUP(properties, NULL, NULL)
