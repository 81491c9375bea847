/* Links of what is placed on sheets: to where their anchors stand. */
#ifndef PAGE_LINKS_H
#define PAGE_LINKS_H

#include "page/flow.h"

/* Remembers where the anchors of strips were placed, before the flow lets them go. */
void links_note_anchors(struct flow *flow);

/* Gives every placed link its area, once all strips are placed, their anchors noted, and
 * the sheets have their labels; writes page numbers where they are asked for. */
void links_resolve(struct flow *flow);

#endif
