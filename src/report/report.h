/* What is said of judged pulls, of a window, of a move of the nut. The terminal prints the rows
 * and the bench page shows them; neither chooses words or digits of its own.
 *
 * Where a band is asked for, NULL means that there is no limit on file: then that is said in
 * place of a window, an aim or a state. lock_added: what locking added the last time, N.m;
 * NAN: not known. */
#ifndef REPORT_REPORT_H
#define REPORT_REPORT_H

#include "judge/results.h"
#include "physics/physics.h"
#include "report/rows.h"

/* Reading, drag, window, state and what to do next; notes where the pulls are too few or
 * too far apart, off the gauge's steps, or judged for another band than the lathe's own.
 * Before locking what to do next goes by the drag that is to be expected once locked. */
void report_judgement(struct rows *rows, const struct results *results,
                      const struct judgement *judgement, const struct quantity *pulls,
                      double lock_added);

/* The state under a label, and what to do next. */
void report_state(struct rows *rows, const struct shop *shop, const char *label,
                  const struct judgement *judgement, double lock_added);

/* The log's last series alike, and by how much the judged drag is more or less: a row, or
 * none. */
void report_last_alike(struct rows *rows, const struct results *results,
                       const struct judgement *judgement);

/* How much harder the first pull was than the steady ones, where one was taken. */
void report_breakaway(struct rows *rows, const struct judgement *judgement,
                      const struct quantity *breakaway);

/* The drags that are good with U taken off: the limits moved inward by U, at U's own place. */
void report_good_drags(struct rows *rows, const struct shop *shop,
                       const struct judgement *judgement);

/* What the gauge may read on the shop's own drum. */
void report_window(struct rows *rows, const struct results *results, const struct band *band);

/* Which drum: every common size and the fitted one, from small to large. For each a row
 * "drum" (label: its size; value: a remark, or ""; unit: "fitted", or ""), then "low"
 * and "high" where a step of the gauge lies between the limits. */
void report_drums(struct rows *rows, const struct results *results, const struct band *band);

/* What is known of the gauge: at the band's aim, without limits at half its capacity. */
void report_gauge(struct rows *rows, const struct results *results, const struct band *band);

/* How far to turn the nut next, from two places and drags, the older first. Within a
 * tenth of the window of its middle counts as there.
 * conditions: how both drags were measured. Drags that were not taken as the limits ask give
 * no move. Unless it was after locking, the move aims lower by what locking added; where that
 * is not known, it is said. A lock that eased the nut raises no aim. */
void report_nut_move(struct rows *rows, const struct shop *shop, const struct band *band,
                     const struct nut_point points[2], const struct pull_conditions *conditions,
                     double lock_added);

#endif
