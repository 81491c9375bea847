/* The list of headings with their page numbers. */
#ifndef PAGE_CONTENTS_H
#define PAGE_CONTENTS_H

#include "page/flow.h"

/* Headings of levels 1 and 2 of these pages; the numbers are written when the links
 * are resolved. */
void contents_put(struct flow *flow, const struct page *const *pages, size_t count, int tag);

#endif
