/* From inline nodes and plain texts to lines in the flow. */
#ifndef PAGE_LINES_H
#define PAGE_LINES_H

#include "page/flow.h"

/* Fills flow->phrase with the inline children of a node. Links are added to the
 * flow, each with a tag of its own. */
void lines_read(struct flow *flow, const struct node *parent, const struct text_style *style,
                int tag);
void lines_read_plain(struct flow *flow, const char *text, const struct text_style *style,
                      int tag);

/* The same for the heads and cells of a table. */
void lines_read_cell(struct flow *flow, const char *text, const struct text_style *style,
                     int tag);

/* Breaks flow->phrase and puts each line into a strip of its own. */
void lines_put(struct flow *flow, struct area area, const struct text_style *style);

/* Breaks flow->phrase into flow->lines, which are so high then; a word that is wider makes
 * flow->failed. */
double lines_break(struct flow *flow, double width, const struct text_style *style);

/* Puts all of flow->lines into the strip that is there; y: the top of the first. */
void lines_put_all(struct flow *flow, double x, double y, const struct text_style *style);

/* Puts line `index` of flow->lines into the strip that is there; y: the baseline. */
void lines_put_one(struct flow *flow, size_t index, double x, double y,
                   const struct text_style *style);

/* Puts labels that no line has taken into a strip of their own. */
void lines_flush_labels(struct flow *flow, const struct text_style *style);

#endif
