/* The verbs that answer at the bench: judged pulls, windows, nut moves. Each reads
 * its words, asks src/verdict and src/drag, and adds rows to an answer. */
#ifndef TERMINAL_TERMINAL_H
#define TERMINAL_TERMINAL_H

#include "shop/shop.h"
#include "terminal/answer.h"

/* What was asked. speed: NULL for the lathe's own top speed. */
struct question {
    const struct shop *shop;
    const char *speed;
    const char *lock, *warmth, *direction, *lock_added; /* NULL: not said */
    const char *const *words;
    size_t word_count;
};

/* Each gives false after a fault in the words, told to diags. */
bool terminal_pull(const struct question *question, struct diags *diags, struct answer *answer);
bool terminal_window(const struct question *question, struct diags *diags,
                     struct answer *answer);
bool terminal_gauge(const struct question *question, struct diags *diags,
                    struct answer *answer);
bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer);

#endif
