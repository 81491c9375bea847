/* Which drum: each is rated by how sure a drag in the middle of a band is on it; and where the
 * doubt comes from. */
#ifndef VERDICT_DRUM_RATING_H
#define VERDICT_DRUM_RATING_H

#include "verdict/fit.h"

struct drum_rating {
    const struct quantity *drum;
    bool fitted;
    double pull;     /* N, at the aim */
    double expanded; /* U of the drag there, N.m */
    struct fitness fitness;
    /* The standard uncertainty as % of the drag, half of the gauge's known error in it
     * (sure_evenly()); and of it, */
    double whole;
    double pulls;  /* what comes from the scatter of the pulls, */
    double gauge;  /* from the gauge, */
    double radius; /* and from drum and cord */
};

/* The
 * scatter and the skew are shares of the pull: the same on every drum. The gauge's share
 * grows with the drum, the share of drum and cord falls. The tolerances of the shop's
 * own drum are taken for all. Of the drum only exact and base count. */
struct drum_rating drum_rating_of(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum);

/* The common sizes and the fitted drum among them, from small to large. */
struct drum_ratings {
    struct drum_rating items[MOST_DRUMS];
    size_t count;
    bool alike;  /* the ratios of two or more drums that the gauge reads are within a tenth: no
                    best */
    size_t best; /* index of the largest ratio among them; count: none */
};

void rate_drums(const struct shop *shop, const struct band *band, struct drum_ratings *ratings);

#endif
