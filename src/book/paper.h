/* What the card is asked for, and how well it can be read. Part of book_compose(). */
#ifndef BOOK_PAPER_H
#define BOOK_PAPER_H

#include "base/memory.h"
#include "book/book.h"
#include "doc/canvas.h"
#include "layout/aids.h"
#include "layout/compose.h"
#include "shop/shop.h"

/* What is printed to measure with and to work by: the tape for the drum, the strip
 * for the nut, a drum to make. */

/* The aids for this shop, owned by the arena; *count of them. */
const struct aid *book_aids(struct arena *arena, const struct shop *shop,
                            const struct text_meter *meter, enum paper_size booklet,
                            size_t *count);

/* The drum to make, at 1:1 where it fits. One of them. */
struct aid book_drum_aid(struct arena *arena, const struct shop *shop,
                         const struct text_meter *meter, enum paper_size booklet);

#endif
