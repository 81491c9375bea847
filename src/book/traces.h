/* The traces that the log of pulls names. */
#ifndef BOOK_TRACES_H
#define BOOK_TRACES_H

#include "shop/shop.h"

/* Reads them, of the folder traces beside the log, and puts the pulls that they stand for in
 * their places; a series without a typed breakaway gets the highest of theirs. A trace that is
 * not there is a fault where the log names it, one that cannot be read a fault in itself. */
void traces_read(struct arena *arena, struct diags *diags, struct shop *shop);

#endif
