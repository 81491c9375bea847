/* The log of pulls taken apart into jobs (judge/series.h says where one ends): what was
 * found, what was left, and what was taken beside it. */
#ifndef JUDGE_JOB_H
#define JUDGE_JOB_H

#include "shop/shop.h"

/* Rows of shop->readings; what was not taken is NULL. */
struct job {
    size_t first, end; /* rows, end behind the last */
    /* the job's first row, unless taken before locking, unloaded or the other way round */
    const struct pull_series *found;
    /* the series that closes the job */
    const struct pull_series *left;
    /* taken beside it, the nut not moved between: just before locking; the other way
     * round; of the other warmth; the last two with the same lock */
    const struct pull_series *before, *other_way, *other_warmth;
    /* the series that closed the last job since in which the nut stayed: a check */
    const struct pull_series *since;
    bool set; /* the nut was moved in it, or since the last job that was closed; or unlocked */
};

/* The job that begins with a row. first: below the count of the log. */
struct job job_at(const struct shop *shop, size_t first);

/* The last job with a closing series in which the nut was set, and the last check since;
 * where it was set in none, as far as the log says, the last that was closed. left is NULL
 * where none was. */
struct job job_last(const struct shop *shop);

#endif
