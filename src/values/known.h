/* Values that a form carries already when it is printed: each has a name, to be written
 * in braces. All come from the records of the shop by way of src/verdict and src/drag. */
#ifndef VALUES_KNOWN_H
#define VALUES_KNOWN_H

#include "shop/shop.h"

struct known_value {
    const char *name;
    const char *meaning; /* for docs/formats.md, which lists them all */
    bool of_limits;      /* asked for only where there are limits; else the words say so */
    /* The text as it is printed, owned by the arena; "" where the settings do not say. */
    const char *(*text)(struct arena *arena, const struct shop *shop);
};

/* Every value in turn from 0 on; NULL at the end. */
const struct known_value *known_at(size_t index);

/* The text with every "{name}" in it replaced, by nothing where the shop is NULL. A name
 * that is not known, or a brace that is not closed, is a fault at the place; then the text
 * is given back as it is. */
const char *known_fill(struct arena *arena, struct diags *diags, const struct shop *shop,
                       const char *text, struct place at);

#endif
