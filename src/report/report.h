/* What is said of judged pulls, of a window, of a move of the nut. The terminal prints the rows
 * and the bench page shows them; neither chooses words or digits of its own.
 *
 * Where a band is asked for, NULL means that there is no limit on file: then that is said in
 * place of a window, an aim or a state. lock_added: what locking added the last time, N.m;
 * NAN: not known. */
#ifndef REPORT_REPORT_H
#define REPORT_REPORT_H

#include "judge/advice.h"
#include "physics/physics.h"
#include "report/rows.h"

/* Reading, drag, window, state and what to do next; notes where the pulls are too few or
 * too far apart, off the gauge's steps, or judged for another band than the lathe's own.
 * Before locking what to do next goes by the drag that is to be expected once locked. */
void report_judgement(struct rows *rows, const struct results *results,
                      const struct judgement *judgement, const struct quantity *pulls,
                      double lock_added);

/* The state under a label, how far to turn the nut where that is known, and what to do next,
 * which is given back. */
enum advice report_state(struct rows *rows, const struct results *results, const char *label,
                         const struct advice_asked *asked);

/* The log's last series alike, and by how much the judged drag is more or less: a row, or
 * none. */
void report_last_alike(struct rows *rows, const struct results *results,
                       const struct judgement *judgement);

/* How sure the drag is, source by source: a row for each, then what they come to. */
void report_budget(struct rows *rows, const struct shop *shop,
                   const struct judgement *judgement);

/* How much harder the first pull was than the steady ones, where one was taken. */
void report_breakaway(struct rows *rows, const struct judgement *judgement,
                      const struct quantity *breakaway);

/* The drags that would be called good, were their doubt that of this one. */
void report_good_drags(struct rows *rows, const struct judgement *judgement);

/* What the gauge may read on the shop's own drum. */
void report_window(struct rows *rows, const struct results *results, const struct band *band);

/* Which drum: every common size and the fitted one, from small to large. For each a row
 * "drum" (label: its size; value: a remark, or ""; unit: "fitted", or ""), then "low"
 * and "high" where a step of the gauge lies between the limits. */
void report_drums(struct rows *rows, const struct results *results, const struct band *band);

/* What is known of the gauge: at the band's aim, without limits at half its capacity. */
void report_gauge(struct rows *rows, const struct results *results, const struct band *band);

/* What the newer of two places of the nut and its drag say, and how far to turn it next; the
 * older first. conditions: how both drags were measured. */
void report_places(struct rows *rows, const struct results *results, const struct band *band,
                   const struct quantity angles[2], const struct quantity drags[2],
                   const struct pull_conditions *conditions, double lock_added);

#endif
