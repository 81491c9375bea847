/* What is printed to measure with and to work by: the tape for the drum, the strip
 * for the nut, a drum to make. */
#ifndef BOOK_AIDS_H
#define BOOK_AIDS_H

#include "base/memory.h"
#include "page/aids.h"
#include "shop/shop.h"
#include "tree/canvas.h"

/* The aids for this shop, owned by the arena; *count of them. */
const struct aid *book_aids(struct arena *arena, const struct shop *shop,
                            const struct text_meter *meter, enum paper_size booklet,
                            size_t *count);

/* The drum to make, at 1:1 where it fits. One of them. */
struct aid book_drum_aid(struct arena *arena, const struct shop *shop,
                         const struct text_meter *meter, enum paper_size booklet);

#endif
