/* Boxes to tick, each before its words. */
#ifndef PAGE_TICKS_H
#define PAGE_TICKS_H

#include "page/flow.h"
#include "tree/points.h"

/* A pencil in a greasy hand wants this much, 6 mm, in points. */
#define TICK_SIDE (6 * MM)

/* Height of the lines that these boxes take in this width. Words that are wider than it
 * set flow->failed. */
double ticks_height(struct flow *flow, const char *const *words, size_t count, double width);

/* Puts them into the strip that is there, from y downward. */
void ticks_put(struct flow *flow, const char *const *words, size_t count, struct area area,
               double y, int tag);

#endif
