/* content/gauge-check.csv: known weights hung on the gauge, and what it read.
 *
 *   date,direction,load,reading,by,note
 *
 * direction: up or down; load: a mass or a force; by and note may be left out. */
#ifndef READ_GAUGE_LOG_H
#define READ_GAUGE_LOG_H

#include "base/file.h"
#include "shop/shop.h"

/* Fills shop->weighings. The file need not be there; then *text is empty. */
void gauge_log_read(struct arena *arena, struct diags *diags, const char *file,
                    struct file_text *text, struct shop *shop);

#endif
