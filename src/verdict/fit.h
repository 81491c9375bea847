/* Whether a gauge on a drum can decide at all: whether it reads far enough, and by how many
 * times U goes into half the window, the ratio of the two. One rule for all that say so. */
#ifndef VERDICT_FIT_H
#define VERDICT_FIT_H

#include "verdict/most_pull.h"

/* Rules of thumb of ours: with four times U in half the window there is room; below one
 * nothing can be proved. */
enum fit {
    FIT_BEYOND, /* most_pull_of() is more than the gauge can read */
    FIT_NONE,   /* below 1, */
    FIT_BARELY, /* from 1, */
    FIT_USABLE, /* 2, */
    FIT_SURE    /* 4 */
};

struct fitness {
    double ratio; /* half the window over U of the shop's usual pulls at the aim */
    struct most_pull most;
    enum fit fit;
};

/* For a band on a drum, with the cord and the tolerances of the shop. */
struct fitness fitness_on(const struct shop *shop, const struct band *band,
                          const struct quantity *drum);

/* Of a ratio alone. */
enum fit fit_of(double ratio);

const char *fit_word(enum fit fit); /* "usable" */

/* The word, and what it means for the work. */
void fitness_words(const struct shop *shop, const struct fitness *fitness,
                   char text[MOST_PULL_TEXT]);

#endif
