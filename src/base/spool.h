/* Items put into order, of which more may come than are to be held in memory: sorted runs
 * of them wait in a file without a name, and are merged. A file that cannot be used ends the
 * program (base/fatal.h). */
#ifndef BASE_SPOOL_H
#define BASE_SPOOL_H

#include <stddef.h>

struct spool;

/* As for qsort(), of two items' bytes. */
typedef int spool_order(const void *left, const void *right);

/* most: how many bytes of items are held before they go to the file. */
struct spool *spool_new(spool_order *order, size_t most);
void spool_free(struct spool *spool); /* NULL is allowed */

/* Copies the item's bytes. Their order must be told by their contents alone. */
void spool_add(struct spool *spool, const void *bytes, size_t length);

/* There are no more items, and the next is the first. May be called again. */
void spool_start(struct spool *spool);

/* The next item, aligned for any type, until the next is asked for; NULL at the end. */
const void *spool_next(struct spool *spool);

#endif
