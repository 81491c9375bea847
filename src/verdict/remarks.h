/* What looks unwise in a shop without being a fault: said by `check` and `book`. */
#ifndef VERDICT_REMARKS_H
#define VERDICT_REMARKS_H

#include "shop/shop.h"
#include "verdict/listener.h"

void remarks_tell(const struct shop *shop, const struct listener *listener);

#endif
