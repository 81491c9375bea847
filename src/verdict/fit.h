/* Whether a gauge on a drum can decide at all: by how many times U goes into half the window,
 * the ratio of the two. */
#ifndef VERDICT_FIT_H
#define VERDICT_FIT_H

#include "shop/shop.h"

/* Rules of thumb of ours: with four times U in half the window there is room; below one
 * nothing can be proved. */
enum fit { FIT_NONE, FIT_BARELY, FIT_USABLE, FIT_SURE }; /* below 1, from 1, 2, 4 */

enum fit fit_of(double ratio);

const char *fit_word(enum fit fit);  /* "usable" */
const char *fit_words(enum fit fit); /* the word, and what it means for the work */

/* The ratio for a band: half its window over the U of the shop's usual pulls (sure_of_pull())
 * at a pull (N), on its own drum. */
double fit_ratio(const struct shop *shop, const struct band *band, double pull);

#endif
