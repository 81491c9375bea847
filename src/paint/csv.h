/* A table as CSV (RFC 4180): one line of heads, then the shown values. */
#ifndef PAINT_CSV_H
#define PAINT_CSV_H

#include "base/buffer.h"
#include "tree/table.h"

void csv_paint(struct buffer *out, const struct table *table);

#endif
