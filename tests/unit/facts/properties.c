/* What must hold whatever the settings: thousands of made-up shops, drags, limits and
 * amounts from a fixed seed. */
#include "properties.h"
#include "judge/measure.h"
#include "judge/series.h"
#include "judge/window.h"
#include "physics/physics.h"

#include <math.h>

/* A made-up shop: limits of the size that its gauge reads well or badly. */
static struct shop made_shop(struct band *band)
{
    static const char *const steps[] = {"0.01 N",  "0.05 N", "1 N",      "0.02 lbf",
                                        "0.5 ozf", "0.1 gf", "0.005 kgf"};
    struct shop shop = shop_empty();
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

/* What so many steps of the gauge mean against a limit: below it, at it or above it. A hair
 * either way is at it. */
static int compare_steps(const struct known *known, int64_t steps, double limit)
{
    double reading = (double)steps * known->shop->gauge.step.q.base;
    double drag = drag_of_reading(known, shop_radius(known->shop), reading);
    double hair =
        2e-9 * known->shop->gauge.step.q.base * shop_radius(known->shop) + 1e-12 * limit;
    return fabs(drag - limit) <= hair ? 0 : drag < limit ? -1 : 1;
}

/* The good part of a window lies within it, and the window within the limits. */
static void check_nesting(void)
{
    struct band band;
    struct shop shop = made_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    const struct known *known = known_for(&shop);
    struct guarded_window window = guarded_window_on(known, &band, &setup);
    double low = band.low.q.base, high = band.high.q.base;
    HOLDS(window.closed || window.low_steps >= window.plain.low_steps);
    HOLDS(window.closed || window.high_steps <= window.plain.high_steps);
    HOLDS(window.low >= window.plain.low && window.high <= window.plain.high);
    HOLDS(compare_steps(known, window.plain.low_steps, low) >= 0);
    HOLDS(compare_steps(known, window.plain.low_steps - 1, low) < 0);
    HOLDS(compare_steps(known, window.plain.high_steps, high) <= 0);
    HOLDS(compare_steps(known, window.plain.high_steps + 1, high) > 0);
}

/* A larger radius never asks for more pull, not after rounding either; and a larger limit
 * never for less. */
static void check_order_of_windows(void)
{
    struct band band, higher;
    struct shop shop = made_shop(&band);
    const struct known *known = known_for(&shop);
    double radius = shop_radius(&shop), wider = radius + between(1e-6, 0.01);
    struct pull_window plain = pull_window_on(known, &band, radius);
    struct pull_window large = pull_window_on(known, &band, wider);
    HOLDS(large.low < plain.low && large.high < plain.high && large.aim < plain.aim);
    HOLDS(large.low_steps <= plain.low_steps && large.high_steps <= plain.high_steps);
    higher = band;
    double raise = made_quantity(&torques[1], 2000, KIND_TORQUE).base;
    higher.low.q.base += raise;
    higher.high.q.base += raise;
    struct pull_window up = pull_window_on(known, &higher, radius);
    HOLDS(up.low_steps >= plain.low_steps && up.high_steps >= plain.high_steps);
}

/* Place of a verdict on the way from loose to tight. */
static int order_of(enum verdict verdict)
{
    static const int orders[] = {
        [VERDICT_LOW] = 0,  [VERDICT_LOW_IN_DOUBT] = 1,  [VERDICT_GOOD] = 2,
        [VERDICT_NONE] = 2, [VERDICT_HIGH_IN_DOUBT] = 3, [VERDICT_HIGH] = 4};
    return orders[verdict];
}

/* From nothing to far above: the verdicts come in order, and good is what its chances say. */
static void check_verdicts(void)
{
    double low = between(0.01, 0.4), high = low + between(0.001, 0.1);
    struct measured measured = {
        .drag.sureness = {.standard = between(1e-4, 0.05), .nu = 4 + (double)draw(40)}};
    int before = 0;
    for (double at = 0; at < high + 0.6; at += 0.001) {
        measured.drag.drag = measured.drag.whole = at;
        struct decision found = decide(&measured, low, high);
        HOLDS(order_of(found.verdict) >= before);
        HOLDS((found.verdict == VERDICT_GOOD) == (found.below + found.above <= 0.025));
        before = order_of(found.verdict);
    }
    HOLDS(before == 4);
}

/* The same through pulls: more pull, never a looser state. */
static void check_judged_order(void)
{
    struct band band;
    struct shop shop = made_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct pull_window window = pull_window_on(known_for(&shop), &band, shop_radius(&shop));
    int before = 0;
    shop.gauge.checked_error = measure_of("0.02 N", KIND_FORCE);
    for (int i = 0; i < 8; i++) {
        char text[QUANTITY_TEXT];
        snprintf(text, sizeof text, "%.6f N", window.aim * (0.2 + 0.23 * i));
        struct quantity pull = quantity_of(text, KIND_FORCE);
        struct quantity pulls[] = {pull, pull};
        struct judgement found =
            judge_pulls(known_for(&shop), &band, &setup, &as_limits, pulls, 2);
        double u = unit_from_base(found.measured.drag.sureness.expanded, band.high.q.unit);
        HOLDS(decimal_to_double(&found.shown_u.typed) >= u * (1 - 1e-15));
        enum verdict verdict = found.decision.verdict;
        HOLDS(verdict == VERDICT_NONE || order_of(verdict) >= before);
        before = verdict == VERDICT_NONE ? before : order_of(verdict);
    }
}

/* Never-exceed on the gauge: the last step that is not above it. */
static void check_never(void)
{
    struct band band;
    struct shop shop = made_shop(&band);
    shop.limits.never_exceed = band.high;
    shop.limits.never_exceed.q.base += (double)draw(3000) * 1e-4;
    const struct known *known = known_for(&shop);
    double never = shop.limits.never_exceed.q.base;
    struct pull_window window = pull_window_on(known, &band, shop_radius(&shop));
    HOLDS(window.never_steps >= window.high_steps);
    HOLDS(compare_steps(known, window.never_steps, never) <= 0);
    HOLDS(compare_steps(known, window.never_steps + 1, never) > 0);
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
 * move, only while drag is missing, and never into more risk than is taken. */
static void check_nut(void)
{
    double turn = 5 * share(), drag = 0.1 + share() / 2, rise = share() / 2;
    struct nut_point points[] = {{0, drag, 0, 0.002}, {turn, drag + rise, 0, 0.002}};
    struct nut_course course = {points, 2, share() < 0.5 ? NAN : drag * share(), 0.002};
    struct nut_bounds bounds = {.target = 0.575,
                                .good = 0.025,
                                .limits = {{0.7, 0.01, 10, 0.1}, {1.2, 0.01, 10, 0.025}}};
    struct nut_move move = nut_next(&course, &bounds);
    if (move.advice != NUT_TURN) {
        HOLDS(move.angle == 0 && !move.capped && !move.risky);
        return;
    }
    struct nut_curve curve = nut_curve_of(&course);
    double to = turn + move.angle;
    HOLDS(move.angle >= 0 && move.angle <= NUT_MOST_MOVE && move.angle <= 2 * turn);
    HOLDS(points[1].drag < bounds.target);
    HOLDS(move.angle == 0 || nut_curve_above(&curve, to, &bounds.limits[0]) <= 0.1);
    HOLDS(move.angle == 0 || nut_curve_above(&curve, to, &bounds.limits[1]) <= 0.025);
    HOLDS(move.angle == 0 || nut_curve_drag(&curve, to) <= bounds.target * (1 + 1e-9));
    HOLDS(move.capped || move.risky || nut_curve_drag(&curve, to + 0.02) > bounds.target);
}

static const struct property properties[] = {
    {check_nesting, 4000},  {check_order_of_windows, 4000},
    {check_verdicts, 1000}, {check_judged_order, 1000},
    {check_drag, 10000},    {check_nut, 1000},
    {check_never, 4000},    {check_shown_drag, 10000},
    {check_doubt, 5000},
};

static void test_properties(void **state)
{
    (void)state;
    try_properties(properties, sizeof properties / sizeof properties[0]);
    assert_true(cases >= 40000);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_properties),
};

GROUP(properties, NULL, NULL)
