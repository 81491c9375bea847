/* Which drum: each is rated by how sure a drag in the middle of a band is on it; and where the
 * doubt comes from. */
#ifndef VERDICT_DRUM_RATING_H
#define VERDICT_DRUM_RATING_H

#include "verdict/sure.h"

struct drum_rating {
    const struct quantity *drum;
    bool fitted;
    bool readable; /* the gauge reaches the breakaway at the high limit, and never-exceed */
    double pull;   /* N, at the aim */
    /* U of the drag: twice its standard uncertainty, and the bias; N.m */
    double expanded;
    double whole;  /* half of U as % of the drag; and of it, */
    double pulls;  /* what comes from the scatter of the pulls, */
    double gauge;  /* from the gauge, */
    double radius; /* and from drum and cord */
    double ratio;  /* half the window over U */
};

/* The even factor 2, whatever the degrees of freedom: so that drums compare. The
 * scatter and the skew are shares of the pull: the same on every drum. The gauge's share
 * grows with the drum, the share of drum and cord falls. The tolerances of the shop's
 * own drum are taken for all. Of the drum only exact and base count. */
struct drum_rating drum_rating_of(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum);

/* What makes a drum not readable, in the words of both tables that say so. */
#define DRUM_BEYOND_GAUGE                                                                      \
    "Beyond the gauge: the breakaway at the high limit, or the pull at never-exceed where "    \
    "one is given, is more than the gauge can read."

/* The common sizes and the fitted drum among them, from small to large. */
struct drum_ratings {
    struct drum_rating items[MOST_DRUMS];
    size_t count;
    bool alike;  /* the ratios of two or more readable drums are within a tenth: no best */
    size_t best; /* index of the largest ratio among readable drums; count: none */
};

void rate_drums(const struct shop *shop, const struct band *band, struct drum_ratings *ratings);

#endif
