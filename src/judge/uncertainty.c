/* How sure a drag is in this workshop, and what that leaves of a window. Of the gauge's error
 * the larger of what was weighed and what is stated counts, past the reach of the weights. */
#include "judge/uncertainty.h"

#include "judge/gauge.h"
#include "judge/results.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"

#include <math.h>
#include <string.h>

enum { UNCERTAINTY_DIGITS = 2 };

struct drum_setup shop_drum_setup(const struct shop *shop)
{
    return (struct drum_setup){&shop->drum.diameter.q, &shop->drum.tolerance.q,
                               &shop->cord.diameter.q, &shop->cord.tolerance.q};
}

/* What the scatter of the pulls does to their mean. Few pulls may look alike by luck: below
 * the planned number, the planned scatter stands in where their own is less. */
static void add_scatter(const struct shop *shop, const struct series *series,
                        struct pull_doubts *doubts)
{
    size_t usual = (size_t)shop->pulls.count.number;
    size_t count = series ? series->count : usual;
    double planned = shop->pulls.scatter.q.base / 100 * doubts->pull;
    bool own = series && count >= 2 && (count >= usual || series->sd > planned);
    doubts->sd_of_mean = (own ? series->sd : planned) / sqrt((double)count);
    doubts->pulls_nu = (double)(own ? count : usual) - 1;
}

/* The gauge's error as the weights have it, with what they leave open of it. */
static void add_weighed(const struct gauge_check *check, struct pull_doubts *doubts)
{
    doubts->gauge_bias = gauge_carried_error(check, doubts->pull);
    doubts->gauge_u = gauge_check_u(check, doubts->pull);
    doubts->gauge_nu = (double)check->line.count - 2;
}

static struct uncertainty combined(const struct pull_doubts *known, bool even,
                                   struct doubt *doubts)
{
    struct uncertainty sum = drag_uncertainty(known, doubts);
    if (even) {
        sum.factor = 2;
        sum.expanded = 2 * sum.standard + sum.bias;
    }
    return sum;
}

/* All but the gauge is in known. */
static struct uncertainty with_gauge(const struct results *results,
                                     const struct pull_doubts *known, bool even,
                                     struct doubt *doubts)
{
    const struct gauge_check *check = &results->check;
    struct pull_doubts weighed = *known, stated = *known;
    struct doubt others[DOUBT_SOURCES];
    stated.gauge_half_width = gauge_stated_error(results->shop, known->pull);
    if (!check->known)
        return combined(&stated, even, doubts);
    add_weighed(check, &weighed);
    struct uncertainty sum = combined(&weighed, even, doubts);
    if (gauge_check_covers(check, known->pull))
        return sum;
    struct uncertainty other = combined(&stated, even, others);
    if (!(other.expanded > sum.expanded))
        return sum;
    memcpy(doubts, others, sizeof others);
    return other;
}

static struct uncertainty sure_with(const struct results *results,
                                    const struct drum_setup *setup, double pull,
                                    const struct series *series, bool even,
                                    struct doubt *doubts)
{
    const struct shop *shop = results->shop;
    struct doubt parts[DOUBT_SOURCES];
    struct pull_doubts known = {.pull = pull,
                                .step = shop->gauge.step.q.base,
                                .drum = setup->drum->base,
                                .drum_tolerance = setup->drum_tolerance->base,
                                .cord = setup->cord->base,
                                .cord_tolerance = setup->cord_tolerance->base,
                                .skew = shop->pulls.skew.q.base};
    add_scatter(shop, series, &known);
    return with_gauge(results, &known, even, doubts ? doubts : parts);
}

struct uncertainty pull_uncertainty(const struct results *results,
                                    const struct drum_setup *setup, double pull,
                                    const struct series *series, struct doubt *doubts)
{
    return sure_with(results, setup, pull, series, false, doubts);
}

struct uncertainty pull_uncertainty_even(const struct results *results,
                                         const struct drum_setup *setup, double pull,
                                         struct doubt *doubts)
{
    return sure_with(results, setup, pull, NULL, true, doubts);
}

struct shown_uncertainty uncertainty_shown_in(double base, const struct unit *unit)
{
    double value = unit_from_base(base, unit);
    if (!(value > 0))
        return (struct shown_uncertainty){.places = 0};
    struct decimal place = step_of_digits(value, UNCERTAINTY_DIGITS);
    int64_t count = (int64_t)ceil(value / decimal_to_double(&place));
    if (count == 100) { /* 0.0999 is 0.10, not 0.100 */
        count = 10;
        place = decimal_of(1, place.exponent + 1);
    }
    struct decimal factor = unit_factor(unit), many = decimal_of(count, 0);
    struct shown_uncertainty sureness = {.typed = decimal_multiply(&many, &place),
                                         .places = decimal_places(&place)};
    sureness.exact = decimal_multiply(&sureness.typed, &factor);
    return sureness;
}

/* ---- what U leaves of a pull window ---- */

static struct shown_uncertainty sureness_at(const struct results *results,
                                            const struct drum_setup *setup, double pull,
                                            const struct unit *unit)
{
    return uncertainty_shown_in(pull_uncertainty(results, setup, pull, NULL, NULL).expanded,
                                unit);
}

struct guarded_window guarded_window_on(const struct results *results, const struct band *band,
                                        const struct drum_setup *setup)
{
    const struct shop *shop = results->shop;
    struct guarded_window window = {.plain =
                                        pull_window_on(shop, band, setup->drum, setup->cord)};
    double radius = effective_radius(setup->drum, setup->cord);
    window.low_u = sureness_at(results, setup, window.plain.low, band->low.q.unit);
    window.high_u = sureness_at(results, setup, window.plain.high, band->high.q.unit);
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    low = decimal_add(&low, &window.low_u.exact);
    high = decimal_subtract(&high, &window.high_u.exact);
    window.low = drag_to_pull(decimal_to_double(&low), radius);
    window.high =
        decimal_to_double(&high) / radius; /* below 0 where U is larger than the limit */
    struct decimal span = double_radius(setup->drum, setup->cord);
    window.low_steps = steps_not_below(shop, &span, &low);
    window.high_steps = steps_not_above(shop, &span, &high);
    window.closed = window.low_steps > window.high_steps;
    return window;
}
