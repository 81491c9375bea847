/* What the log of pulls gives cause to look at: one sentence a finding, each with the
 * line and the date of its row. No row is left out of the tables for any of it. */
#ifndef VERDICT_LOG_NOTES_H
#define VERDICT_LOG_NOTES_H

#include "verdict/remarks.h"
#include "verdict/state.h"

/* Every finding, in the order of the log; then how often both ways round could be
 * compared. Nothing for an empty log. */
void log_notes_tell(const struct shop *shop, const struct listener *listener);

/* The same findings as remarks, "file:line: date: finding", without the count. */
void log_notes_remark(const struct shop *shop, const struct listener *listener);

/* The change of a drag against an earlier one, N.m, each with its U as it is shown. */
struct drag_change {
    double change;
    struct sureness doubt; /* of the change: change_doubt(), rounded up */
    bool clear;            /* the change is larger than its doubt */
};

struct drag_change drag_change_of(const struct judgement *before, const struct judgement *now);

#endif
