/* What is typed at the bench, and whether it may stand. */
#ifndef VERDICT_TYPED_H
#define VERDICT_TYPED_H

#include "shop/shop.h"

/* Whether a force may stand as one more pull behind `taken` others: not below zero,
 * not above what the shop's gauge can read (shop NULL: not known), and no more than MOST_PULLS
 * in all. If not, *fault says why. */
bool pull_allowed(const struct shop *shop, const struct quantity *pull, size_t taken,
                  struct quantity_fault *fault);

/* The band at a speed such as "900 r/min"; *band is NULL without limits on file. False
 * after a fault. */
bool band_read(const struct shop *shop, const char *text, const struct band **band,
               struct quantity_fault *fault);

#endif
