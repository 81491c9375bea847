#include "verdict/gauge_source.h"

#include "number/show.h"
#include "verdict/gauge.h"

#include <math.h>
#include <stdio.h>

enum gauge_source gauge_source_at(const struct shop *shop, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    bool checked = given(&shop->gauge.checked_error);
    if (gauge_check_covers(&check, pull))
        return GAUGE_WEIGHED;
    if (check.known)
        return checked ? GAUGE_CHECKED_OR_CARRIED : GAUGE_SHEET_OR_CARRIED;
    return checked ? GAUGE_CHECKED : GAUGE_DATA_SHEET;
}

const char *gauge_source_words(enum gauge_source source)
{
    static const char *const words[] = {
        [GAUGE_WEIGHED] = "the log of known weights",
        [GAUGE_CHECKED] = "the error checked with known weights",
        [GAUGE_DATA_SHEET] = "the data sheet",
        [GAUGE_CHECKED_OR_CARRIED] =
            "the larger of the checked error and the line of the known weights, which do not "
            "reach there",
        [GAUGE_SHEET_OR_CARRIED] =
            "the larger of the data sheet and the line of the known weights, which do not "
            "reach there"};
    return words[source];
}

double gauge_stated_error(const struct shop *shop, double pull)
{
    const struct gauge *gauge = &shop->gauge;
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
    double stated = gauge_stated_error(shop, pull);
    if (!check.known)
        return stated;
    double weighed = gauge_carried_error(&check, pull) + gauge_known_within(&check, pull);
    return gauge_check_covers(&check, pull) ? weighed : fmax(weighed, stated);
}

bool gauge_reach_ends(const struct shop *shop, double low, double high, char text[REACH_TEXT])
{
    struct gauge_check check = gauge_check_of(shop);
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    if (!check.known || (gauge_check_covers(&check, low) && gauge_check_covers(&check, high)))
        return false;
    snprintf(text, REACH_TEXT,
             "U where the known weights do not reach (they speak for %s to %s %s) takes the "
             "larger of %s and their line carried on: hang weights near such pulls",
             show_places(unit_from_base(gauge_check_from(&check), unit), places).text,
             show_places(unit_from_base(gauge_check_to(&check), unit), places).text,
             unit->shown,
             given(&shop->gauge.checked_error) ? "the checked error" : "the data sheet");
    return true;
}
