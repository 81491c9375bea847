/* Which drum: how sure a drag in the middle of a band is on each, and where the doubt
 * comes from. */
#ifndef VERDICT_DRUM_WEIGHT_H
#define VERDICT_DRUM_WEIGHT_H

#include "verdict/sure.h"

struct drum_weight {
    const struct quantity *drum;
    bool fitted;
    bool readable; /* the gauge reaches the high pull and never-exceed */
    double pull;   /* N, at the aim */
    double u;      /* standard uncertainty of the drag, doubled; N.m */
    double whole;  /* standard uncertainty as % of the drag; and of it, */
    double gauge;  /* what comes from the gauge, */
    double radius; /* and from drum and cord */
    double ratio;  /* half the window over u */
};

/* The even factor 2, whatever the degrees of freedom: so that drums compare. The
 * scatter and the skew are shares of the pull: the same on every drum. The gauge's share
 * grows with the drum, the share of drum and cord falls. The tolerances of the shop's
 * own drum are taken for all. Of the drum only exact and base count. */
struct drum_weight drum_weight_of(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum);

enum { MOST_DRUMS = 64 };

/* The common sizes and the fitted drum among them, from small to large. */
struct drum_weights {
    struct drum_weight items[MOST_DRUMS];
    size_t count;
    size_t best; /* index of the largest ratio among readable drums; count: none */
};

void weigh_drums(const struct shop *shop, const struct band *band,
                 struct drum_weights *weights);

#endif
