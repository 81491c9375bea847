#include "judge/job.h"

#include "judge/series.h"
#include "shop/shop.h"

static size_t end_of_job(const struct pull_series_log *log, size_t first)
{
    const struct pull_series *at = log->items + first + 1, *end = log->items + log->count;
    while (at < end && date_days(at->date) - date_days(at[-1].date) < CLOSING_REST_DAYS)
        at++;
    return (size_t)(at - log->items);
}

/* Pulled while the nut was being set: not as found, nor a check of a nut left alone. */
static bool is_setting(const struct pull_series *series)
{
    return series->lock == LOCK_BEFORE || series->lock == LOCK_UNLOADED;
}

static void find_closing(const struct shop *shop, struct job *job)
{
    const struct pull_series *items = shop->readings.items;
    if (!is_setting(&items[job->first]) && !items[job->first].other_way)
        job->found = &items[job->first];
    for (size_t i = job->first; i < job->end; i++)
        if (closes_job(shop, &items[i]))
            job->left = &items[i];
}

/* Sorts a row of the closing series' own place among those beside it. */
static void take_beside(struct job *job, const struct pull_series *series)
{
    const struct pull_series *left = job->left;
    struct pull_series turned = *series, warmed = *series;
    turned.other_way = !series->other_way;
    warmed.warm = !series->warm;
    if (series < left && series->lock == LOCK_BEFORE && series_alike_but_lock(series, left))
        job->before = series;
    if (series_alike(&turned, left))
        job->other_way = series;
    if (series_alike(&warmed, left))
        job->other_warmth = series;
}

/* Of two series at one place the one that says where that is. */
static const struct pull_series *where_said(const struct pull_series *series,
                                            const struct pull_series *placed)
{
    return placed->nut.unit ? placed : series;
}

struct job job_at(const struct shop *shop, size_t first)
{
    const struct pull_series *items = shop->readings.items;
    struct job job = {.first = first, .end = end_of_job(&shop->readings, first)};
    find_closing(shop, &job);
    if (!job.left)
        return job;
    const struct pull_series *from = job.left, *to = job.left + 1, *placed = job.left;
    while (from > items + first && !series_nut_moved(from - 1, placed))
        placed = where_said(--from, placed);
    while (to < items + job.end && !series_nut_moved(to, placed))
        placed = where_said(to++, placed);
    for (const struct pull_series *at = from; at < to; at++)
        take_beside(&job, at);
    return job;
}

/* Whether some row of a job has the nut elsewhere than the last row before it that says
 * where, or unlocked. *place: that row, and then the job's own last. */
static bool was_set(const struct shop *shop, const struct job *job,
                    const struct pull_series **place)
{
    bool set = false;
    const struct pull_series *items = shop->readings.items;
    for (const struct pull_series *at = items + job->first; at < items + job->end; at++) {
        set = set || is_setting(at) || (*place && series_nut_moved(*place, at));
        if (at->nut.unit)
            *place = at;
    }
    return set;
}

struct job job_last(const struct shop *shop)
{
    struct job last = {0};
    const struct pull_series *place = NULL;
    bool set = false;
    for (size_t first = 0; first < shop->readings.count;) {
        struct job job = job_at(shop, first);
        set = was_set(shop, &job, &place) || set;
        if (job.left && last.set && !set) {
            last.since = job.left;
        } else if (job.left) {
            last = job;
            last.set = set;
        }
        if (job.left)
            set = false;
        first = job.end;
    }
    return last;
}
