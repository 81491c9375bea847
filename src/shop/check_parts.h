/* The parts of shop_check() that have files of their own. */
#ifndef SHOP_CHECK_PARTS_H
#define SHOP_CHECK_PARTS_H

#include "shop/shop.h"

/* Speeds and temperatures of running in. Sorts the lathe's speeds. */
void shop_check_run_in(struct shop *shop, struct diags *diags);

/* Nothing of the demo may stay without the notice that it is invented. */
void shop_check_notice(const struct shop *shop, struct diags *diags);

/* The oil: its grade, or its two viscosities. */
void shop_check_oil(const struct shop *shop, struct diags *diags);

#endif
