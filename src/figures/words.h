/* Words and digits that figures share with each other. */
#ifndef FIGURES_WORDS_H
#define FIGURES_WORDS_H

#include "shop/words.h"

/* A pull of so many gauge steps without its unit, as the tables show it. */
const char *steps_words(struct arena *arena, const struct shop *shop, int64_t steps);

#endif
