#include "verdict/closing.h"

#include "shop/date.h"
#include "verdict/taken.h"

static bool may_close(const struct shop *shop, const struct pull_series *series)
{
    struct taken taken = series_taken(series);
    return taken_to_judge(shop, &taken);
}

bool closes_job(const struct shop *shop, const struct pull_series *series)
{
    const struct pull_series *end = shop->readings.items + shop->readings.count;
    if (!may_close(shop, series))
        return false;
    for (const struct pull_series *at = series + 1; at < end; at++) {
        if (date_days(at->date) - date_days(at[-1].date) >= CLOSING_REST_DAYS)
            return true;
        if (may_close(shop, at))
            return false;
    }
    return true;
}
