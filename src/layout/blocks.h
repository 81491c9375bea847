/* Blocks of a tree into the flow, and what sheets say of themselves. All goes into flow->area,
 * as part of flow->tag. */
#ifndef LAYOUT_BLOCKS_H
#define LAYOUT_BLOCKS_H

#include "layout/flow.h"

/* Lays out siblings from first up to but without end (NULL: all that follow). */
void blocks_put(struct flow *flow, const struct node *first, const struct node *end);

/* The notice in a box that is not overlooked; nothing without a notice. */
void imprint_notice_put(struct flow *flow, const struct imprint *imprint);

/* Inputs and fingerprint, at the foot of the sheet where the strips end; the notice over them
 * where it is asked for. */
void imprint_foot_put(struct flow *flow, const struct imprint *imprint, double size,
                      bool with_notice);

#endif
