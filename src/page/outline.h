/* The outline of a print: its headings as a reader's side bar shows them. */
#ifndef PAGE_OUTLINE_H
#define PAGE_OUTLINE_H

#include "page/flow.h"

/* Headings down to this level, once all strips are placed. */
void outline_make(struct flow *flow, int lowest);

#endif
