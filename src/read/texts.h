/* Texts of the user's that may be printed, from the settings and from the logs. */
#ifndef READ_TEXTS_H
#define READ_TEXTS_H

#include "base/diag.h"
#include "shop/shop.h"

/* Notes a text of one line and fitting length in the shop, with its place: whether every
 * sign can be printed is only known later. Else false, with a fault that calls it by the
 * given name. */
bool text_keep(struct arena *arena, struct diags *diags, struct shop *shop, const char *name,
               struct typed_text typed);

#endif
