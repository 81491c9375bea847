/* Cuts the flow into sheets. */
#ifndef PAGE_PLACE_H
#define PAGE_PLACE_H

#include "page/layout.h"

/* Places strips from first to before end, from a new sheet on. */
void flow_place(struct flow *flow, const struct layout *layout, size_t first, size_t end);

#endif
