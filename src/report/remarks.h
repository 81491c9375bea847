/* Who takes what is found, one sentence after another. */
#ifndef REPORT_REMARKS_H
#define REPORT_REMARKS_H

#include "judge/series.h"
#include "shop/shop.h"

/* The text lasts only for the call. */
struct remark_sink {
    void (*remark)(void *to, const char *remark);
    void *to;
};

/* Who tells a listener, and what stands before each of his sentences: nothing, or a place. */
struct speaker {
    const struct remark_sink *listener;
    char before[256];
};

/* What looks unwise in a shop without being a fault: said by `check` and `book`. */

void remark_on_settings(const struct shop *shop, const struct remark_sink *listener);

/* What the log of pulls gives cause to look at: one sentence a finding, each with the
 * line and the date of its row. No row is left out of the tables for any of it. */

/* Every finding, in the order of the log; then how often both ways round could be
 * compared. Nothing for an empty log. */
void note_on_pull_log(const struct shop *shop, const struct remark_sink *listener);

/* The change of a drag against an earlier one, N.m, each with its U as it is shown. */
struct drag_change {
    double change;
    struct shown_uncertainty u; /* of the change: change_doubt(), rounded up */
    bool clear;                 /* the change is larger than its doubt */
};

struct drag_change drag_change_of(const struct judgement *before, const struct judgement *now);

/* What the two logs give cause to look at, said by `check` and `book`, each remark with
 * the file and line of its row. */

/* The findings of log_notes.h, then those on the gauge's check: a load or a reading beyond
 * the gauge's capacity; a check more than a year older than the log's last series. */
void remark_on_logs(const struct shop *shop, const struct remark_sink *listener);

#endif
