#include "verdict/sure.h"

#include "drag/drag.h"
#include "number/show.h"
#include "verdict/gauge.h"

#include <math.h>

enum { UNCERTAINTY_DIGITS = 2 };

struct rig shop_rig(const struct shop *shop)
{
    return (struct rig){&shop->drum.diameter.q, &shop->drum.tolerance.q, &shop->cord.diameter.q,
                        &shop->cord.tolerance.q};
}

enum gauge_source gauge_source_at(const struct shop *shop, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    if (gauge_check_covers(&check, pull))
        return GAUGE_WEIGHED;
    return given(&shop->gauge.checked_error) ? GAUGE_CHECKED : GAUGE_DATA_SHEET;
}

const char *gauge_source_words(enum gauge_source source)
{
    static const char *const words[] = {[GAUGE_WEIGHED] = "the log of known weights",
                                        [GAUGE_CHECKED] =
                                            "the error checked with known weights",
                                        [GAUGE_DATA_SHEET] = "the data sheet"};
    return words[source];
}

double gauge_error_at(const struct shop *shop, double pull)
{
    const struct gauge *gauge = &shop->gauge;
    struct gauge_check check = gauge_check_of(shop);
    if (gauge_check_covers(&check, pull))
        return fabs(gauge_check_error(&check, pull));
    if (given(&gauge->checked_error))
        return gauge->checked_error.q.base;
    double error = 0;
    if (given(&gauge->full_scale_error))
        error += gauge->full_scale_error.q.base / 100 * gauge->capacity.q.base;
    if (given(&gauge->reading_error))
        error += gauge->reading_error.q.base / 100 * pull;
    return error;
}

double gauge_within_at(const struct shop *shop, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    double known = gauge_check_covers(&check, pull) ? gauge_known_within(&check, pull) : 0;
    return gauge_error_at(shop, pull) + known;
}

static double value_or(const struct measure *measure, double other)
{
    return given(measure) ? measure->q.base : other;
}

/* What the scatter of the pulls does to their mean. Few pulls may look alike by luck: below
 * the planned number, the planned scatter stands in where their own is less. */
static void add_scatter(const struct shop *shop, const struct series *series,
                        struct pull_doubts *doubts)
{
    size_t usual = (size_t)(shop->pulls.count ? shop->pulls.count : PULLS_COUNT);
    size_t count = series ? series->count : usual;
    double planned = value_or(&shop->pulls.scatter, PULLS_SCATTER) / 100 * doubts->pull;
    bool own = series && count >= 2 && (count >= usual || series->sd > planned);
    doubts->sd_of_mean = (own ? series->sd : planned) / sqrt((double)count);
    doubts->pulls_nu = (double)(own ? count : usual) - 1;
}

/* The gauge's error: known by weights, with what they leave open of it; or only within a
 * range. */
static void add_gauge(const struct shop *shop, struct pull_doubts *doubts)
{
    struct gauge_check check = gauge_check_of(shop);
    double error = gauge_error_at(shop, doubts->pull);
    if (!gauge_check_covers(&check, doubts->pull)) {
        doubts->gauge_half_width = error;
        return;
    }
    doubts->gauge_bias = error;
    doubts->gauge_u = gauge_check_u(&check, doubts->pull);
    doubts->gauge_nu = (double)check.line.count - 2;
}

struct uncertainty sure_of_pull(const struct shop *shop, const struct rig *rig, double pull,
                                const struct series *series, struct doubt *doubts)
{
    struct doubt parts[DOUBT_SOURCES];
    struct pull_doubts known = {.pull = pull,
                                .step = shop->gauge.step.q.base,
                                .drum = rig->drum->base,
                                .drum_tolerance = rig->drum_tolerance->base,
                                .cord = rig->cord->base,
                                .cord_tolerance = rig->cord_tolerance->base,
                                .skew = value_or(&shop->pulls.skew, PULLS_SKEW)};
    add_scatter(shop, series, &known);
    add_gauge(shop, &known);
    return drag_uncertainty(&known, doubts ? doubts : parts);
}

struct sureness sureness_in(double base, const struct unit *unit)
{
    double value = unit_from_base(base, unit);
    if (!(value > 0))
        return (struct sureness){.places = 0};
    struct decimal place = step_of_digits(value, UNCERTAINTY_DIGITS);
    int64_t count = (int64_t)ceil(value / decimal_to_double(&place));
    if (count == 100) { /* 0.0999 is 0.10, not 0.100 */
        count = 10;
        place = decimal_of(1, place.exponent + 1);
    }
    struct decimal factor = unit_factor(unit), many = decimal_of(count, 0);
    struct sureness sureness = {.typed = decimal_multiply(&many, &place),
                                .places = decimal_places(&place)};
    sureness.exact = decimal_multiply(&sureness.typed, &factor);
    return sureness;
}
