/* What the two logs give cause to look at, said by `check` and `book`, each remark with
 * the file and line of its row. */
#ifndef VERDICT_LOG_REMARKS_H
#define VERDICT_LOG_REMARKS_H

#include "verdict/remarks.h"

/* The findings of log_notes.h, then those on the gauge's check: a load or a reading beyond
 * the gauge's capacity; a check more than a year older than the log's last series. */
void log_remarks_tell(const struct shop *shop, const struct listener *listener);

#endif
