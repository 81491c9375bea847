/* When a text is printed: on forms and on the card it may begin with a condition in braces,
 * as in "{with-limits}State". */
#ifndef VALUES_CONDITION_H
#define VALUES_CONDITION_H

#include "shop/shop.h"

struct condition {
    const char *name;
    const char *meaning; /* for docs/formats.md, which lists them all */
    bool (*holds)(const struct shop *shop);
};

/* Every condition in turn from 0 on; NULL at the end. */
const struct condition *condition_at(size_t index);

/* The text without the condition at its head, or NULL where that does not hold; a text
 * without one as it is. Where the shop is NULL every condition holds. */
const char *condition_take(const struct shop *shop, const char *text);

#endif
