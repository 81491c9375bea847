#include "verdict/last_alike.h"

#include "number/show.h"
#include "verdict/log_notes.h"
#include "verdict/told_parts.h"

#include <math.h>
#include <stdio.h>

const struct pull_series *last_alike(const struct shop *shop, const struct taken *taken)
{
    bool as_said = taken && taken->lock != LOCK_UNSAID;
    struct pull_series wanted = {.lock = as_said ? taken->lock : LOCK_AFTER,
                                 .warm = taken && taken->warmth == SAID_WARM,
                                 .other_way = taken && taken->other_way,
                                 .drum = shop->drum.diameter.q,
                                 .cord = shop->cord.diameter.q};
    for (size_t i = shop->readings.count; i-- > 0;)
        if (series_alike(&shop->readings.items[i], &wanted))
            return &shop->readings.items[i];
    return NULL;
}

bool last_alike_words(const struct shop *shop, const struct taken *taken,
                      char text[LAST_ALIKE_TEXT])
{
    const struct pull_series *last = last_alike(shop, taken);
    if (!last)
        return false;
    struct judgement judged = judge_series(shop, last);
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    struct shown pull = show_places(unit_from_base(judged.pulls.mean, unit), places);
    struct shown drag =
        show_places(unit_from_base(judged.drag, judged.unit), judged.sureness.places);
    snprintf(text, LAST_ALIKE_TEXT, "%.10s: %.40s\u00a0%s, %.40s\u00a0%s", last->date,
             pull.text, unit->shown, drag.text, judged.unit->shown);
    return true;
}

void tell_last_alike(const struct teller *teller, const struct shop *shop,
                     const struct judgement *judgement)
{
    char before[LAST_ALIKE_TEXT], text[2 * LAST_ALIKE_TEXT];
    if (!last_alike_words(shop, &judgement->taken, before))
        return;
    struct judgement last = judge_series(shop, last_alike(shop, &judgement->taken));
    if (!(last.drag > 0))
        return;
    struct drag_change change = drag_change_of(&last, judgement);
    double percent = 100 * change.change / last.drag;
    snprintf(text, sizeof text, "%s; now %.40s\u00a0%% %s%s", before,
             show_places(fabs(percent), 0).text, percent < 0 ? "less" : "more",
             change.clear ? "" : ", no more than its doubt");
    tell(teller, "last-alike", "The last alike", text, "");
}
