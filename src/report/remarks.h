/* What gives cause to look closer without being a fault: rows "remark", each with its sentence
 * and, where it is about a row of the settings or a log, that row's place and day. No row of a
 * log is left out of the tables for any of it. */
#ifndef REPORT_REMARKS_H
#define REPORT_REMARKS_H

#include "judge/results.h"
#include "report/rows.h"

/* All that follows, in this order, and their printing, a line each, behind some words. */
void remark_on_all(struct rows *rows, const struct results *results);
void remarks_print(const struct rows *rows, const char *before);

/* What looks unwise in the settings. */
void remark_on_settings(struct rows *rows, const struct results *results);

/* On the log of pulls, in its order; then, unless it is empty, a row "both-ways": how often
 * both ways round could be compared. */
void remark_on_pulls(struct rows *rows, const struct results *results);

/* On the gauge's check: a load or a reading beyond the gauge's capacity; an odd slope; a check
 * more than a year older than the log's last series. */
void remark_on_weighings(struct rows *rows, const struct results *results);

#endif
