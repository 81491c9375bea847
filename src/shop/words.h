/* What was typed, as it is printed. Texts are owned by the arena. */
#ifndef SHOP_WORDS_H
#define SHOP_WORDS_H

#include "shop/shop.h"

/* A quantity with the digits that were typed: "62 mm", "2 9/16 in". */
const char *quantity_text(struct arena *arena, const struct quantity *quantity);

/* What is taken for running in: as typed, else what stands in for it, "20 °C". */
const char *room_text(struct arena *arena, const struct shop *shop);
const char *stop_text(struct arena *arena, const struct shop *shop);
const char *rise_text(struct arena *arena, const struct shop *shop);

/* "500–1200 r/min". */
const char *band_text(struct arena *arena, const struct band *band);

#endif
