/* Cuts the flow into sheets. */
#ifndef PAGE_PLACE_H
#define PAGE_PLACE_H

#include "page/layout.h"

/* Appends one empty upright sheet to the print. */
struct sheet *sheet_add(struct flow *flow, const struct layout *layout, bool sideways);

/* Places strips from first to before end, from a new sheet on. */
void flow_place(struct flow *flow, const struct layout *layout, size_t first, size_t end);

#endif
