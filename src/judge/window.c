/* Pull windows: drags over the effective radius, rounded inward to whole steps of the gauge.
 * Exact with twice the radius, D + d, against twice the drag. */
#include "judge/window.h"

#include "physics/physics.h"

#include <math.h>

/* ---- the effective radius ---- */

enum { RADIUS_DIGITS = 5 };

struct decimal double_radius(const struct quantity *drum, const struct quantity *cord)
{
    return decimal_add(&drum->exact, &cord->exact);
}

double effective_radius(const struct quantity *drum, const struct quantity *cord)
{
    return drag_radius(drum->base, cord->base);
}

double shop_radius(const struct shop *shop)
{
    return effective_radius(&shop->drum.diameter.q, &shop->cord.diameter.q);
}

struct shown radius_digits(const struct shop *shop)
{
    const struct unit *unit = shop->drum.diameter.q.unit;
    return show_significant(unit_from_base(shop_radius(shop), unit), RADIUS_DIGITS);
}

/* ---- what the gauge may read ---- */

enum { LIMIT_DIGITS = 4 };

struct decimal pulled_limit(const struct shop *shop, const struct measure *limit)
{
    if (shop->limits.basis != BASIS_INCREASE)
        return limit->q.exact;
    return decimal_add(&limit->q.exact, &shop->limits.slack_drag.q.exact);
}

double pulled_limit_near(const struct shop *shop, const struct measure *limit)
{
    struct decimal exact = pulled_limit(shop, limit);
    return decimal_to_double(&exact);
}

/* The drag of one gauge step, doubled so that it stays an exact decimal:
 * step * (D + d). */
static struct decimal doubled_step_drag(const struct shop *shop, const struct decimal *span)
{
    return decimal_multiply(&shop->gauge.step.q.exact, span);
}

static struct decimal doubled(const struct decimal *a)
{
    return decimal_add(a, a);
}

/* The step nearest to the middle of the window, kept within the window. */
static int64_t aim_steps(const struct pull_window *window, double step)
{
    int64_t steps = llround(window->aim / step);
    if (steps < window->low_steps)
        return window->low_steps;
    return steps > window->high_steps ? window->high_steps : steps;
}

int64_t steps_not_below(const struct shop *shop, const struct decimal *span,
                        const struct decimal *limit)
{
    struct decimal step = doubled_step_drag(shop, span), twice = doubled(limit);
    return decimal_steps_not_below(&twice, &step);
}

int64_t steps_not_above(const struct shop *shop, const struct decimal *span,
                        const struct decimal *limit)
{
    struct decimal step = doubled_step_drag(shop, span), twice = doubled(limit);
    return decimal_steps_not_above(&twice, &step);
}

static void round_inward(const struct shop *shop, const struct band *band,
                         const struct decimal *span, struct pull_window *window)
{
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    window->low_steps = steps_not_below(shop, span, &low);
    window->high_steps = steps_not_above(shop, span, &high);
    window->closed = window->low_steps > window->high_steps;
    if (!window->closed)
        window->aim_steps = aim_steps(window, shop->gauge.step.q.base);
    if (given(&shop->limits.never_exceed)) {
        struct decimal never = pulled_limit(shop, &shop->limits.never_exceed);
        window->never_steps = steps_not_above(shop, span, &never);
    }
}

/* span: D + d exactly, twice the radius. */
static struct pull_window window_for(const struct shop *shop, const struct band *band,
                                     const struct decimal *span, double radius)
{
    double low = pulled_limit_near(shop, &band->low);
    double high = pulled_limit_near(shop, &band->high);
    struct drag_window pulls = drag_window_as_pull(drag_window_of(low, high), radius);
    struct pull_window window = {
        .low = pulls.low, .aim = pulls.aim, .high = pulls.high, .never = NAN};
    if (given(&shop->limits.never_exceed))
        window.never =
            drag_to_pull(pulled_limit_near(shop, &shop->limits.never_exceed), radius);
    round_inward(shop, band, span, &window);
    return window;
}

struct pull_window pull_window_on(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum, const struct quantity *cord)
{
    struct decimal span = double_radius(drum, cord);
    return window_for(shop, band, &span, effective_radius(drum, cord));
}

struct pull_window pull_window_of(const struct shop *shop, const struct band *band)
{
    return pull_window_on(shop, band, &shop->drum.diameter.q, &shop->cord.diameter.q);
}

struct pull_window pull_window_at_arm(const struct shop *shop, const struct band *band,
                                      const struct quantity *arm)
{
    struct decimal span = doubled(&arm->exact);
    return window_for(shop, band, &span, arm->base);
}

int reading_against_limits(const struct shop *shop, const struct band *band,
                           const struct quantity *drum, const struct quantity *cord,
                           int64_t steps)
{
    struct decimal span = double_radius(drum, cord);
    struct decimal step = doubled_step_drag(shop, &span);
    struct decimal count = decimal_of(steps, 0);
    struct decimal drag = decimal_multiply(&count, &step);
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    low = doubled(&low);
    high = doubled(&high);
    if (decimal_compare(&drag, &low) < 0)
        return -1;
    return decimal_compare(&drag, &high) > 0;
}

struct shown show_limit_in(const struct quantity *limit, const struct unit *unit,
                           enum limit_end side)
{
    if (limit->base == 0)
        return show_places(0, 0);
    struct decimal place = step_of_digits(quantity_in(limit, unit), LIMIT_DIGITS);
    struct decimal factor = unit_factor(unit);
    struct decimal step = decimal_multiply(&place, &factor);
    int64_t steps = side == LIMIT_LOW ? decimal_steps_not_below(&limit->exact, &step)
                                      : decimal_steps_not_above(&limit->exact, &step);
    return show_steps(steps, &place);
}
