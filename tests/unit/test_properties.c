/* What must hold whatever the settings: thousands of made-up shops, drags, limits and
 * amounts from a fixed seed. */
#include "drag/drag.h"
#include "drag/nut.h"
#include "facts.h"
#include "made.h"
#include "shop_fixture.h"
#include "verdict/guard.h"
#include "verdict/state.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

static int cases;

#define HOLDS(what)                                                                            \
    do {                                                                                       \
        if (!(what))                                                                           \
            fail_msg("case %d: not so: %s", cases, #what);                                     \
    } while (0)

/* 0..1, ends excluded. */
static double share(void)
{
    return ((double)draw(1000000) + 0.5) / 1000000;
}

/* Spread evenly over its powers of ten. */
static double between(double low, double high)
{
    return low * pow(high / low, share());
}

static struct quantity made_quantity(const struct made_unit *unit, uint64_t most,
                                     enum kind kind)
{
    return quantity_of(make(unit, 1 + draw(most)).text, kind);
}

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
    struct rig rig = shop_rig(&shop);
    struct guarded_window window = guarded_window_on(&shop, &band, &rig);
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
    struct rig rig = shop_rig(&shop);
    struct pull_window window = pull_window_on(&shop, &band, rig.drum, rig.cord);
    int before = 0;
    shop.gauge.checked_error = measure_of("0.02 N", KIND_FORCE);
    for (int i = 0; i < 8; i++) {
        char text[QUANTITY_TEXT];
        snprintf(text, sizeof text, "%.6f N", window.aim * (0.2 + 0.23 * i));
        struct quantity pull = quantity_of(text, KIND_FORCE);
        struct quantity pulls[] = {pull, pull};
        struct judgement found = judge_pulls(&shop, &band, &rig, pulls, 2);
        double u = unit_from_base(found.uncertainty.expanded, band.high.q.unit);
        HOLDS(decimal_to_double(&found.sureness.typed) >= u * (1 - 1e-15));
        HOLDS(found.state == STATE_UNDECIDED || order_of(found.state) >= before);
        before = found.state == STATE_UNDECIDED ? before : order_of(found.state);
    }
}

/* A limit as it is shown in a unit, read back exactly. */
static struct quantity shown_limit(const struct quantity *limit, const struct made_unit *unit,
                                   enum limit_side side)
{
    const struct unit *to = unit_find(unit->symbol, strlen(unit->symbol));
    char text[DECIMAL_TEXT + 16];
    snprintf(text, sizeof text, "%s %s", show_limit_in(limit, to, side).text, unit->symbol);
    return quantity_of(text, KIND_TORQUE);
}

/* No limit is shown outside the true one, nor two of them in another order, and none
 * is moved inward by more than a step of its fourth digit. */
static void check_shown_limits(void)
{
    const struct made_unit *unit = &torques[draw(5)];
    struct quantity a = made_quantity(&torques[draw(5)], 900000, KIND_TORQUE);
    struct quantity b = made_quantity(&torques[draw(5)], 900000, KIND_TORQUE);
    if (decimal_compare(&a.exact, &b.exact) > 0) {
        struct quantity other = a;
        a = b;
        b = other;
    }
    struct quantity low_a = shown_limit(&a, unit, LIMIT_LOW);
    struct quantity low_b = shown_limit(&b, unit, LIMIT_LOW);
    struct quantity high_a = shown_limit(&a, unit, LIMIT_HIGH);
    struct quantity high_b = shown_limit(&b, unit, LIMIT_HIGH);
    HOLDS(decimal_compare(&low_a.exact, &a.exact) >= 0);
    HOLDS(decimal_compare(&high_a.exact, &a.exact) <= 0);
    HOLDS(decimal_compare(&low_a.exact, &low_b.exact) <= 0);
    HOLDS(decimal_compare(&high_a.exact, &high_b.exact) <= 0);
    HOLDS(low_a.base - high_a.base <= 1.0001e-3 * low_a.base);
}

/* U is never shown below itself, nor above by a step of its second digit, and a larger
 * one never smaller. */
static void check_shown_u(void)
{
    const struct unit *unit = unit_find("lbf.in", 6);
    double u = between(1e-6, 1e4), more = u * (1 + 0.2 * share());
    struct sureness shown = sureness_in(u, unit), larger = sureness_in(more, unit);
    double typed = decimal_to_double(&shown.typed), amount = unit_from_base(u, unit);
    HOLDS(typed >= amount * (1 - 4e-16));
    HOLDS(typed < amount * 1.1);
    HOLDS(decimal_compare(&larger.typed, &shown.typed) >= 0);
    char digits[DECIMAL_TEXT];
    decimal_print(&shown.typed, shown.places, digits);
    HOLDS(fabs(strtod(digits, NULL) - typed) <= 1e-15 * typed);
    double up = strtod(show_up(amount, 4).text, NULL);
    HOLDS(up >= amount * (1 - 1e-11) - 1e-16 && up < amount + 1.0001e-4);
}

/* Any amount there and back again, through every unit of its kind. */
static void check_round_trip(void)
{
    double amount = between(1e-9, 1e9) * (draw(2) ? 1 : -1);
    for (size_t i = 0; unit_at(i); i++) {
        const struct unit *unit = unit_at(i);
        double back = unit_to_base(unit_from_base(amount, unit), unit);
        /* a temperature's zero takes the last digits of a small amount */
        HOLDS(fabs(back - amount) <= 1e-15 * (fabs(amount) + abs(unit->zero)));
    }
    struct quantity quantity = made_quantity(&torques[draw(5)], 900000, KIND_TORQUE);
    char text[QUANTITY_TEXT];
    quantity_show(&quantity, text);
    struct quantity again = quantity_of(text, KIND_TORQUE);
    HOLDS(decimal_compare(&again.exact, &quantity.exact) == 0);
    HOLDS(quantity_in(&quantity, quantity.unit) == decimal_to_double(&quantity.typed));
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
    HOLDS(drag_from_skew_pull(pull, radius, 89 * share()) < drag);
    HOLDS(fabs(drag_pull_at_arm(drag_pull_at_arm(pull, radius, drum), drum, radius) / pull -
               1) < 1e-15);
}

/* A move of the nut only ever tightens, by no more than 5 degrees and twice the last
 * move, and only while drag is missing. */
static void check_nut(void)
{
    struct nut_point older = {20 * share(), share()}, newer = {20 * share(), share()};
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

static const struct {
    void (*check)(void);
    int times;
} properties[] = {
    {check_nesting, 4000},      {check_order_of_windows, 4000},
    {check_states, 1000},       {check_judged_order, 1000},
    {check_shown_limits, 8000}, {check_shown_u, 10000},
    {check_round_trip, 5000},   {check_drag, 10000},
    {check_nut, 10000},
};

static void test_properties(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof properties / sizeof properties[0]; i++)
        for (int j = 0; j < properties[i].times; j++) {
            properties[i].check();
            cases++;
        }
    print_message("%d made-up cases\n", cases);
    assert_true(cases >= 50000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_properties)};
    return cmocka_run_group_tests_name("properties", tests, NULL, NULL);
}
