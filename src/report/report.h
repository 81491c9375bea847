/* What is said of judged pulls, of a window, of a move of the nut: rows of a name, a
 * label, a value and a unit. The terminal prints them and the bench page shows them;
 * neither chooses words or digits of its own. */
#ifndef REPORT_REPORT_H
#define REPORT_REPORT_H

#include "judge/series.h"
#include "physics/physics.h"

/* Takes the rows, one after another. The texts last only for the call; unit is ""
 * where there is none. */
struct row_sink {
    void (*row)(void *to, const char *name, const char *label, const char *value,
                const char *unit);
    void *to;
};

/* Where a band is asked for below, NULL means that there is no limit on file: then that
 * is said in place of a window, an aim or a state. */

/* Reading, drag, window, state and what to do next; notes where the pulls are too few or
 * too far apart, off the gauge's steps, or judged for another band than the lathe's own.
 * Before locking what to do next goes by the drag that is to be expected once locked.
 * lock_added: what locking added the last time, N.m; NAN: not known. */
void report_judgement(const struct row_sink *rows, const struct shop *shop,
                      const struct judgement *judgement, const struct quantity *pulls,
                      double lock_added);

/* The state under a label, and what to do next. */
void report_state(const struct row_sink *rows, const struct shop *shop, const char *label,
                  const struct judgement *judgement, double lock_added);

/* How much harder the first pull was than the steady ones, where one was taken. */
void report_breakaway(const struct row_sink *rows, const struct judgement *judgement,
                      const struct quantity *breakaway);

/* The drags that are good with U taken off: the limits moved inward by U, at U's own place. */
void report_good_drags(const struct row_sink *rows, const struct shop *shop,
                       const struct judgement *judgement);

/* Which drum: every common size and the fitted one, from small to large. For each a row
 * "drum" (label: its size; value: a remark, or ""; unit: "fitted", or ""), then "low"
 * and "high" where a step of the gauge lies between the limits. */
void report_drums(const struct row_sink *rows, const struct shop *shop,
                  const struct band *band);

/* What the gauge may read on the shop's own drum. */
void report_window(const struct row_sink *rows, const struct shop *shop,
                   const struct band *band);

/* How far to turn the nut next, from two places and drags, the older first. Within a
 * tenth of the window of its middle counts as there.
 * taken: how both drags were measured. Drags that were not taken as the limits ask give no
 * move. Unless it was after locking, the move aims lower by what locking added; where that
 * is not known, it is said. A lock that eased the nut raises no aim. */
void report_nut_move(const struct row_sink *rows, const struct shop *shop,
                     const struct band *band, const struct nut_point points[2],
                     const struct pull_conditions *taken, double lock_added);

/* What those who tell share. */

/* One row; unit is "" where there is none. */
void put_row(const struct row_sink *rows, const char *name, const char *label,
             const char *value, const char *unit);

/* The log's last series that a new one compares with, and what is said of the two where there
 * is no limit to judge by. */

/* The last series of the log on the shop's own drum and cord, taken like that; what was not
 * said is locked, cold, the usual way round, and so is all where taken is NULL. NULL: there
 * is none. */
const struct pull_series *last_alike(const struct shop *shop,
                                     const struct pull_conditions *taken);

/* "2026-05-03: 11.00 N, 0.346 N·m"; false where there is none. */
enum { LAST_ALIKE_TEXT = 200 };

bool last_alike_words(const struct shop *shop, const struct pull_conditions *taken,
                      char text[LAST_ALIKE_TEXT]);

/* That, and by how much the judged drag is more or less: a row, or none. */
void report_last_alike(const struct row_sink *rows, const struct shop *shop,
                       const struct judgement *judgement);

/* What is said of a drag that was measured before the nut was locked: what locking is
 * expected to make of it. Never a verdict: only a locked nut is judged. */

struct expected {
    double drag;                      /* N.m */
    struct shown_uncertainty shown_u; /* of it, in the judgement's unit */
    enum state state;
};

/* The drag to be expected once locked, and its state. added: what locking added the last
 * time, N.m; below zero counts as nothing, for a lock that eased once may not again.
 * Its U is the root of three times the series' own: the drag now, and the two of which
 * the lock's share is the difference, each with about the same U (root of the sum of
 * squares). The judgement has a band. */
struct expected expected_once_locked(const struct shop *shop, const struct judgement *judgement,
                                     double added);

#endif
