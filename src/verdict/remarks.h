/* What looks unwise in a shop without being a fault: said by `check` and `book`. */
#ifndef VERDICT_REMARKS_H
#define VERDICT_REMARKS_H

#include "shop/shop.h"

/* Takes one remark after another; the text lasts only for the call. */
struct listener {
    void (*hear)(void *to, const char *remark);
    void *to;
};

void remarks_tell(const struct shop *shop, const struct listener *listener);

#endif
