/* What is printed to measure with: the tape for the drum, the strip for the nut. */
#ifndef BOOK_AIDS_H
#define BOOK_AIDS_H

#include "base/memory.h"
#include "page/aids.h"
#include "shop/shop.h"

/* The aids for this shop, owned by the arena; *count of them. */
const struct aid *book_aids(struct arena *arena, const struct shop *shop,
                            enum paper_size booklet, size_t *count);

#endif
