/* What follows for a workshop and its logs, worked out once a run and only read afterwards: the
 * gauge's check, the windows, every series of the log judged, what rows of the log say of each
 * other, its jobs. Owned by the arena that it was made in; the shop must outlive it.
 *
 * A job is what its rows name, and is closed by a row of its own. Of a log without jobs one
 * ends where the log then rests for CLOSING_REST_DAYS, or ends. */
#ifndef JUDGE_RESULTS_H
#define JUDGE_RESULTS_H

#include "judge/gauge.h"
#include "judge/series.h"
#include "judge/window.h"

/* A row of the log, judged by the settings in force for it (known.shop: those that the record
 * of its job has, else those of its day), against their own band, on the drum and cord that it
 * names or they have. The rows that it leads to are NULL where there is none. */
struct judged {
    const struct pull_series *series;
    struct known known; /* before it, on its day */
    struct judgement judgement;
    bool closes; /* its job: the last of it that was measured the usual way round, at the warmth
                  * that the limits are for, with the nut said to be locked */

    /* The nearest earlier one that was taken alike with the nut locked at the same place, and
     * never moved since; only of a locked one. */
    const struct judged *like;
    /* The one just before locking at the same place, else alike, of the first locked there;
     * and what locking added, N.m: below zero where the lock eased the nut, NAN without it. */
    const struct judged *before_lock;
    double lock_added;

    /* The place of the nut in the row before this one that says it; NULL where that is further
     * on, or the nut was unloaded between the two: an unloaded place is on no line either. */
    const struct judged *row_before;
    /* The nearest looser place along these that was taken alike. */
    const struct judged *looser;
    /* The last one with the nut unloaded, of the same job and taken alike but for the lock. */
    const struct judged *slack;
    /* Its cap lies so far from the room that it is not cold, or so near that it is not warm, as
     * the row says; and it is more than LIKE_CAPS warmer or colder than that of `like`. */
    bool warmth_doubted, other_cap;
    size_t stay, climb; /* numbers: the nut stayed, or went on, in all rows of one number */
};

/* Rows of the log; what was not taken is NULL. */
struct job {
    size_t first, end; /* rows, end behind the last */
    /* the step that closes it, or where no job is named the series; NULL: it is open, and then
     * nothing closes it */
    const struct pull_series *closed;
    const struct pull_series *steps; /* of it, */
    size_t step_count;               /* so many */
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

struct results {
    const struct shop *shop;
    const struct band *band; /* the lathe's own; NULL without limits on file */
    struct gauge_checks checks;
    struct known known; /* after the whole log: what a series taken next is judged by */

    /* How much harder the first pull is than the steady ones: the most that the log has of
     * breakaway over mean, and the series that has it; NULL: none, then BREAKAWAY_USUAL. 1
     * where starting pulls count. */
    double breakaway_ratio;
    const struct pull_series *hardest;

    /* Of every band of the limits, in their order, on the shop's own drum; and of the lathe's
     * own band, NULL without limits on file. */
    struct guarded_window *windows;
    const struct guarded_window *own;

    struct judged *rows; /* of the log, in its order */
    size_t row_count;
    struct job *jobs; /* of the log, in its order */
    size_t job_count;
    /* The last job with a closing series in which the nut was set, and the last check since;
     * where it was set in none, as far as the log says, the last that was closed. Its left is
     * NULL where none was. */
    struct job last_job;

    /* What locking added the last time, at the last place of its U, as it is shown: what is
     * printed is what decided. Without a unit, and NAN, where the log does not say. */
    struct quantity lock_share;
    double lock_added; /* N.m */

    /* The last row that says where the nut stood; and the last that may steer it: it says
     * where the nut stood and something of the drag, was turned the usual way and as warm as
     * the limits say, and no later row has the nut elsewhere. Without limits every such row
     * may. NULL: there is none. */
    const struct judged *last_place, *steering;

    /* The row by which the log says what to do next: the last behind the steering one that is
     * too high or rejected, else that; without one the last of all. NULL: the log is empty. */
    const struct judged *latest;
};

/* Kelvin between two caps beyond which the oil alone makes another drag; from the room at which
 * a spindle is cold no more, and up to which it is not warm yet: rules of thumb of ours. */
#define LIKE_CAPS     5.0
#define FAR_FROM_ROOM 15.0
#define AT_ROOM       2.0

const struct results *results_of(struct arena *arena, const struct shop *shop);

/* The same as it stood before a row: with the settings in force for it, and what was known on
 * its day. Its rows and jobs stay those of the whole log. */
const struct results *results_as_of(struct arena *arena, const struct results *results,
                                    const struct judged *row);

/* What became of a row of the log. */
const struct judged *results_row(const struct results *results,
                                 const struct pull_series *series);

/* The window of a band of the limits. */
const struct guarded_window *results_window(const struct results *results,
                                            const struct band *band);

/* The looser place before a row that was taken alike, since the nut was last unloaded and not
 * further off than NUT_FAR_APART. NULL: there is none. */
const struct judged *looser_place(const struct judged *row);

/* What a degree of the nut adds to the drag (N.m), by the log's last two such places between
 * which the drag rose; NaN where there are none. */
double nut_slope(const struct results *results);

/* The last series of the log on the shop's own drum and cord, taken like that; what was not
 * said is locked, cold, the usual way round, and so is all where conditions is NULL. NULL:
 * there is none. */
const struct judged *last_alike(const struct results *results,
                                const struct pull_conditions *conditions);

#endif
