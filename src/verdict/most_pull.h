/* The most pull that a window asks of the gauge, and whether the gauge reads so far: one rule
 * for every table, page and verb. */
#ifndef VERDICT_MOST_PULL_H
#define VERDICT_MOST_PULL_H

#include "verdict/window.h"

struct most_pull {
    double force; /* N */
    bool never;   /* it is the pull at never-exceed; else the breakaway at the high limit */
    bool beyond;  /* it is more than the gauge can read */
};

/* The breakaway at the high limit (breakaway_ratio()), or the pull at never-exceed, where one
 * is given and is more. */
struct most_pull most_pull_of(const struct shop *shop, const struct pull_window *window);

#define BEYOND_THE_GAUGE "beyond the gauge"
#define BEYOND_THE_GAUGE_RULE                                                                  \
    "Beyond the gauge: the breakaway at the high limit, or the pull at never-exceed where "    \
    "one is given, is more than the gauge can read."

/* Of a pull that is beyond: that it is, which one, how much, and what to do. */
enum { MOST_PULL_TEXT = 500 };
void most_pull_words(const struct shop *shop, const struct most_pull *most,
                     char text[MOST_PULL_TEXT]);

#endif
