/* The flow cut into sheets, and what then is known: where each strip, anchor and heading
 * stands. */
#ifndef LAYOUT_CUT_H
#define LAYOUT_CUT_H

#include "layout/flow.h"
#include "layout/paper.h"

/* Places the strips from first to before end on sheets of this layout, from a new sheet on. Of
 * the ways to cut them it takes one that parts what belongs together least, then one with few
 * sheets, no bare ones among them, and little taken from the gaps. A strip that is too tall
 * for any sheet has one of its own. */
void flow_place(struct flow *flow, const struct layout *layout, size_t first, size_t end);

/* Remembers where the anchors of strips were placed; headings down to this level go into the
 * print's outline, 0: none. */
void flow_note_anchors(struct flow *flow, int lowest);

/* Gives every placed link its area, once all strips are placed, their anchors noted, and the
 * sheets have their labels; writes page numbers where they are asked for. */
void flow_resolve_links(struct flow *flow);

#endif
