/* A table as CSV (RFC 4180): one line of heads, then the shown values. */
#ifndef HTML_CSV_H
#define HTML_CSV_H

#include "base/buffer.h"
#include "doc/tree.h"

void csv_paint(struct buffer *out, const struct table *table);

#endif
