#include "verdict/remarks.h"

#include "verdict/guard.h"

#include <math.h>

/* Common practice, no source: below a fifth of its capacity few gauges are good. */
static const double least_share = 0.2;
/* A foot is twelve inches: limits that far apart are likely two units mixed up. */
static const double unlike = 6;

static void say(const struct listener *listener, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static void say(const struct listener *listener, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    listener_tell(listener, "", format, args);
    va_end(args);
}

static void tell_band(const struct shop *shop, const struct band *band,
                      const struct listener *listener)
{
    struct pull_window window = pull_window_of(shop, band);
    const char *from = band->from.q.digits, *to = band->to.q.digits;
    if (window.closed)
        say(listener, "band %s-%s r/min: no step of the gauge lies between the limits", from,
            to);
    if (window.high > shop->gauge.capacity.q.base)
        say(listener, "band %s-%s r/min: the high pull is more than the gauge can read", from,
            to);
}

static void tell_own_band(const struct shop *shop, const struct listener *listener)
{
    struct rig rig = shop_rig(shop);
    struct guarded_window window = guarded_window_on(shop, shop_own_band(shop), &rig);
    double capacity = shop->gauge.capacity.q.base;
    if (!window.plain.closed && window.closed)
        say(listener,
            "your band: this gauge and drum cannot decide; see the table sure-windows");
    if (window.plain.never > capacity)
        say(listener, "your band: the never-exceed pull is more than the gauge can read");
    if (window.plain.low < least_share * capacity)
        say(listener,
            "your band: the low pull is below a fifth of the gauge's capacity; check the "
            "gauge with weights there, or take a smaller drum");
}

/* lbf.in beside lbf.ft, or a point in the wrong place. */
static void tell_units(const struct shop *shop, const struct listener *listener)
{
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        least = fmin(least, shop->limits.bands[i].high.q.base);
        most = fmax(most, shop->limits.bands[i].high.q.base);
    }
    if (most > unlike * least)
        say(listener,
            "the high limits of the bands lie far apart; is one of them in another unit?");
}

/* The band is that of the top speed: where no speed is the top speed, one may be missing. */
static void tell_speeds(const struct shop *shop, const struct listener *listener)
{
    const struct measures *speeds = &shop->lathe.speeds;
    const struct quantity *top = &shop->lathe.top_speed.q;
    const struct quantity *fastest = speeds->count ? &speeds->items[speeds->count - 1].q : NULL;
    if (fastest && decimal_compare(&fastest->exact, &top->exact) != 0)
        say(listener,
            "no speed of lathe.speeds is lathe.top-speed, %s r/min; the fastest is %s r/min. "
            "Is one missing?",
            top->digits, fastest->digits);
}

void remarks_tell(const struct shop *shop, const struct listener *listener)
{
    tell_speeds(shop, listener);
    if (!shop_has_limits(shop)) {
        say(listener, NO_LIMIT_ON_FILE
            ". There are no windows, and a drag is only compared with earlier ones; see the "
            "page \"The manual is lost\"");
        return;
    }
    for (size_t i = 0; i < shop->limits.band_count; i++)
        tell_band(shop, &shop->limits.bands[i], listener);
    tell_own_band(shop, listener);
    tell_units(shop, listener);
}
