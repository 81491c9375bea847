/* Tables into the flow: measured, fitted to the width, put row by row. */
#ifndef PAGE_TABLES_H
#define PAGE_TABLES_H

#include "page/flow.h"

/* Puts caption, heads, rows and notes. The type is as large as the width allows,
 * then the sheet is turned; a table that fits even so at no size is a fault. */
void table_put(struct flow *flow, const struct table *table, struct area area, int tag);

#endif
