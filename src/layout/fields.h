/* Rows of places to write in, and boxes to tick. */
#ifndef LAYOUT_FIELDS_H
#define LAYOUT_FIELDS_H

#include "doc/canvas.h"
#include "layout/flow.h"

/* Of a box to tick: a pencil in a greasy hand wants this much, 6 mm, in points. */
#define TICK_SIDE (6 * MM)

/* The rows of a NODE_FIELDS. A label, value or words too wide for their place are a fault. */
void fields_put(struct flow *flow, const struct node *node, struct area area, int tag);

#endif
