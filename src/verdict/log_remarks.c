#include "verdict/log_remarks.h"

#include "shop/date.h"
#include "verdict/gauge.h"
#include "verdict/log_notes.h"

#include <string.h>

/* A load by its weight: a mass has none of its own. A force as typed is compared exactly. */
static bool load_is_beyond(const struct shop *shop, const struct weighing *weighing)
{
    const struct quantity *capacity = &shop->gauge.capacity.q;
    if (weighing->load.unit->kind == KIND_FORCE)
        return decimal_compare(&weighing->load.exact, &capacity->exact) > 0;
    return weighing_force(shop, weighing) > capacity->base;
}

static void tell_one_beyond(const struct weighing *weighing, const char *what,
                            const struct quantity *capacity, const struct listener *listener)
{
    struct speaker speaker = speaker_at(listener, weighing->at, weighing->date);
    speaker_say(
        &speaker,
        "this %s is more than the gauge of the settings can read, %s %s. Was it another "
        "gauge?",
        what, capacity->digits, capacity->unit->symbol);
}

static void tell_beyond(const struct shop *shop, const struct listener *listener)
{
    const struct quantity *capacity = &shop->gauge.capacity.q;
    for (size_t i = 0; i < shop->weighings.count; i++) {
        const struct weighing *weighing = &shop->weighings.items[i];
        bool load = load_is_beyond(shop, weighing);
        if (load || decimal_compare(&weighing->reading.exact, &capacity->exact) > 0)
            tell_one_beyond(weighing, load ? "load" : "reading", capacity, listener);
    }
}

static void tell_slope(const struct shop *shop, const struct listener *listener)
{
    char text[SLOPE_TEXT];
    struct gauge_check check = gauge_check_of(shop);
    if (!gauge_slope_is_odd(&check, text))
        return;
    struct speaker speaker = speaker_at(listener, shop->weighings.items[0].at, NULL);
    speaker_say(&speaker, "%s", text);
}

static void tell_age(const struct shop *shop, const struct listener *listener)
{
    const struct weighing *last = shop_last_weighing(shop);
    if (!last || !shop->readings.count)
        return;
    const char *pulled = shop->readings.items[shop->readings.count - 1].date;
    char later[DATE_TEXT];
    date_year_later(last->date, later);
    if (strcmp(pulled, later) <= 0)
        return;
    struct speaker speaker = speaker_at(listener, last->at, last->date);
    speaker_say(&speaker,
                "the gauge's last check is more than a year older than the log's last series, "
                "%s. Check the gauge with weights before you trust it.",
                pulled);
}

void log_remarks_tell(const struct shop *shop, const struct listener *listener)
{
    log_notes_remark(shop, listener);
    tell_beyond(shop, listener);
    tell_slope(shop, listener);
    tell_age(shop, listener);
}
