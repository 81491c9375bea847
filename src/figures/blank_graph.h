/* Squared paper with named axes, for a pencil. Squares are 5 mm at full size. */
#ifndef FIGURES_BLANK_GRAPH_H
#define FIGURES_BLANK_GRAPH_H

#include "doc/canvas.h"
#include "doc/tree.h"
#include "shop/shop.h"

#define GRAPH_SQUARE (5 * MM) /* points */

/* The graph as it was asked for, its texts filled in. Where it asks for the window, the
 * limits of the lathe's own band are drawn in, as the manual gives them. */
struct figure *draw_blank_graph(struct arena *arena, const struct shop *shop,
                                const struct graph *graph, const struct text_meter *meter);

#endif
