#include "verdict/guard.h"

#include "drag/drag.h"
#include "verdict/radius.h"

static struct sureness sureness_at(const struct shop *shop, const struct rig *rig, double pull,
                                   const struct unit *unit)
{
    return sureness_in(sure_of_pull(shop, rig, pull, NULL, NULL).expanded, unit);
}

struct guarded_window guarded_window_on(const struct shop *shop, const struct band *band,
                                        const struct rig *rig)
{
    struct guarded_window window = {.plain = pull_window_on(shop, band, rig->drum, rig->cord)};
    double radius = effective_radius(rig->drum, rig->cord);
    window.low_sureness = sureness_at(shop, rig, window.plain.low, band->low.q.unit);
    window.high_sureness = sureness_at(shop, rig, window.plain.high, band->high.q.unit);
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    low = decimal_add(&low, &window.low_sureness.exact);
    high = decimal_subtract(&high, &window.high_sureness.exact);
    window.low = drag_to_pull(decimal_to_double(&low), radius);
    window.high =
        decimal_to_double(&high) / radius; /* below 0 where U is larger than the limit */
    struct decimal span = double_radius(rig->drum, rig->cord);
    window.low_steps = steps_not_below(shop, &span, &low);
    window.high_steps = steps_not_above(shop, &span, &high);
    window.closed = window.low_steps > window.high_steps;
    return window;
}

struct guarded_window guarded_window_own(const struct shop *shop)
{
    struct rig rig = shop_rig(shop);
    return guarded_window_on(shop, shop_own_band(shop), &rig);
}
