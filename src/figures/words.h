/* Words and digits that figures share with each other. */
#ifndef FIGURES_WORDS_H
#define FIGURES_WORDS_H

#include "shop/shop.h"

/* A quantity as it was typed, "62 mm"; owned by the arena. */
const char *quantity_words(struct arena *arena, const struct quantity *quantity);

/* A pull of so many gauge steps without its unit, as the tables show it. */
const char *steps_words(struct arena *arena, const struct shop *shop, int64_t steps);

/* "1120–1800 r/min". */
const char *band_words(struct arena *arena, const struct band *band);

#endif
