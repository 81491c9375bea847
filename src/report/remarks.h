/* What gives cause to look closer without being a fault. No row of a log is left out of the
 * tables for any of it. */
#ifndef REPORT_REMARKS_H
#define REPORT_REMARKS_H

#include "shop/shop.h"

/* Takes what is found, one sentence after another. The text lasts only for the call. */
struct remark_sink {
    void (*remark)(void *to, const char *text);
    void *to;
};

/* What looks unwise in the settings: said by `check` and `book`. */
void remark_on_settings(const struct shop *shop, const struct remark_sink *sink);

/* What the log of pulls gives cause to look at, as the table of it says it: in the order of
 * the log, each with the date and the line of its row; then how often both ways round could be
 * compared. Nothing for an empty log. */
void note_on_pull_log(const struct shop *shop, const struct remark_sink *sink);

/* The same as `check` and `book` say it, "file:line: date: finding", without the count; then
 * the findings on the gauge's check: a load or a reading beyond the gauge's capacity; an odd
 * slope; a check more than a year older than the log's last series. */
void remark_on_logs(const struct shop *shop, const struct remark_sink *sink);

#endif
