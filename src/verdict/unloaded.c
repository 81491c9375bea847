#include "verdict/unloaded.h"

#include "shop/date.h"
#include "verdict/closing.h"

/* Where the nut has been, row by row. */
struct course {
    const struct pull_series *place;        /* the last row that says where it stands */
    const struct pull_series *top, *in_job; /* furthest on since it was unloaded */
    const struct pull_series *from;         /* turned back from there to where it stands */
    bool unloaded;                          /* it stands so */
};

static bool job_begins(const struct shop *shop, const struct pull_series *at)
{
    return at == shop->readings.items ||
           date_days(at->date) - date_days(at[-1].date) >= CLOSING_REST_DAYS;
}

static const struct pull_series *further_on(const struct pull_series *top,
                                            const struct pull_series *at)
{
    return top && top->nut.base > at->nut.base ? top : at;
}

static void turn_to(struct course *course, const struct pull_series *at)
{
    const struct pull_series *top = course->top, *in_job = course->in_job;
    course->place = at;
    course->from = NULL;
    course->unloaded = top && top->nut.base - at->nut.base >= NUT_QUARTER_TURN;
    if (course->unloaded)
        course->top = course->in_job = at;
    else if (in_job && in_job->nut.base > at->nut.base)
        course->from = in_job;
}

static void go_on(const struct shop *shop, struct course *course, const struct pull_series *at)
{
    if (job_begins(shop, at))
        course->in_job = NULL;
    if (at->lock == LOCK_UNLOADED) {
        *course = (struct course){.place = at->nut.unit ? at : NULL, .unloaded = true};
        return;
    }
    if (!at->nut.unit)
        return;
    if (!course->place || series_nut_moved(course->place, at))
        turn_to(course, at);
    course->top = further_on(course->top, at);
    course->in_job = further_on(course->in_job, at);
}

static struct course course_to(const struct shop *shop, const struct pull_series *series)
{
    struct course course = {0};
    for (const struct pull_series *at = shop->readings.items; at <= series; at++)
        go_on(shop, &course, at);
    return course;
}

bool series_unloaded(const struct shop *shop, const struct pull_series *series)
{
    return course_to(shop, series).unloaded;
}

const struct pull_series *series_backed_off(const struct shop *shop,
                                            const struct pull_series *series)
{
    return course_to(shop, series).from;
}
