/* Blocks of a tree into the flow: headings, paragraphs, lists, cautions, ... */
#ifndef PAGE_BLOCKS_H
#define PAGE_BLOCKS_H

#include "page/flow.h"

/* Lays out siblings from first up to but without end (NULL: all that follow). */
void blocks_put(struct flow *flow, const struct node *first, const struct node *end,
                struct area area, int tag);

void heading_put(struct flow *flow, const struct node *node, struct area area, int tag);
void list_put(struct flow *flow, const struct node *node, struct area area, int tag);
void literal_put(struct flow *flow, const struct node *node, struct area area, int tag);
void figure_put(struct flow *flow, const struct figure *figure, struct area area, int tag);
void fields_put(struct flow *flow, const struct node *node, struct area area, int tag);
void grid_put(struct flow *flow, const struct table *table, struct area area, int tag);
void caution_put(struct flow *flow, const struct node *node, struct area area, int tag);

struct text_style body_style(const struct flow *flow);

/* The area without `left` at its left and `right` at its right; so deep in a
 * nest that little is left, it goes no further in. */
struct area area_within(struct area area, double left, double right);

#endif
