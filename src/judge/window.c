/* Pull windows: the readings at the limits, rounded inward to whole steps of the gauge; and of
 * them those at which the usual pulls are good. */
#include "judge/window.h"

#include "physics/physics.h"

#include <math.h>

enum { RADIUS_DIGITS = 5, LIMIT_DIGITS = 4 };

struct shown radius_digits(const struct shop *shop)
{
    const struct unit *unit = shop->drum.diameter.q.unit;
    return show_significant(unit_from_base(shop_radius(shop), unit), RADIUS_DIGITS);
}

/* ---- the readings at the limits ---- */

static const double hair = 1e-9; /* of a step: what doubles may have rounded */

static int64_t step_not_below(double steps)
{
    return (int64_t)ceil(steps - hair);
}

static int64_t step_not_above(double steps)
{
    return (int64_t)floor(steps + hair);
}

/* The step nearest to the middle of the window, kept within the window. */
static int64_t aim_steps(const struct pull_window *window, double step)
{
    int64_t steps = llround(window->aim / step);
    if (steps < window->low_steps)
        return window->low_steps;
    return steps > window->high_steps ? window->high_steps : steps;
}

struct pull_window pull_window_on(const struct known *known, const struct band *band,
                                  double radius)
{
    double step = known->shop->gauge.step.q.base, low = band->low.q.base,
           high = band->high.q.base;
    const struct measure *never = &known->shop->limits.never_exceed;
    struct pull_window window = {
        .low = reading_of_drag(known, radius, low),
        .aim = reading_of_drag(known, radius, drag_window_of(low, high).aim),
        .high = reading_of_drag(known, radius, high),
        .never = given(never) ? reading_of_drag(known, radius, never->q.base) : NAN};
    window.low_steps = step_not_below(window.low / step);
    window.high_steps = step_not_above(window.high / step);
    window.closed = window.low_steps > window.high_steps;
    if (!window.closed)
        window.aim_steps = aim_steps(&window, step);
    if (given(never))
        window.never_steps = step_not_above(window.never / step);
    return window;
}

int reading_against_limits(const struct known *known, const struct band *band, double radius,
                           int64_t steps)
{
    double step = known->shop->gauge.step.q.base;
    if (steps < step_not_below(reading_of_drag(known, radius, band->low.q.base) / step))
        return -1;
    return steps > step_not_above(reading_of_drag(known, radius, band->high.q.base) / step);
}

/* ---- what is good of them ---- */

static double u_at(const struct known *known, const struct drum_setup *setup, double reading)
{
    struct pull_mean pulls = usual_pulls(known, reading);
    return measure_pulls(known, setup, &pulls, NULL).drag.sureness.expanded;
}

struct guarded_window guarded_window_on(const struct known *known, const struct band *band,
                                        const struct drum_setup *setup)
{
    double radius = effective_radius(setup->drum, setup->cord);
    double step = known->shop->gauge.step.q.base, low = band->low.q.base,
           high = band->high.q.base;
    struct guarded_window window = {.plain = pull_window_on(known, band, radius)};
    double low_u = u_at(known, setup, window.plain.low);
    double high_u = u_at(known, setup, window.plain.high);
    window.low_u = uncertainty_shown_in(low_u, band->low.q.unit);
    window.high_u = uncertainty_shown_in(high_u, band->high.q.unit);
    window.none = window.closed =
        !good_readings(known, setup, low, high, &window.low, &window.high);
    if (window.none) {
        window.low = reading_of_drag(known, radius, low + low_u);
        window.high = reading_of_drag(known, radius, high - high_u);
        return window;
    }
    window.low_steps = step_not_below(window.low / step);
    window.high_steps = step_not_above(window.high / step);
    window.closed = window.low_steps > window.high_steps;
    return window;
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
