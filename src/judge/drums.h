/* The drum to make: for the radius that is wanted, else like the fitted one. */
#ifndef JUDGE_DRUMS_H
#define JUDGE_DRUMS_H

#include "judge/results.h"
#include "shop/shop.h"

/* All lengths in metres. It lies with its free face down, as it is printed, and the nose comes
 * from above: first a flange with the notch, then the land with the peg, the slope and the
 * other flange; then what goes on to the nose: a plug or, where the cap is deeper than the drum
 * is wide, a collar. */
struct drum_to_make {
    bool wanted; /* for drum.wanted-radius; otherwise the fitted drum */
    int turns;   /* of cord side by side */
    double radius, cord;
    double land, land_width;
    double flange, flange_height, thickness; /* flange: outside diameter */
    double slope;                  /* what the slope of 45 degrees takes of the width */
    double width;                  /* of all but plug and collar */
    double peg, peg_height, notch; /* peg: its width */
    double peg_foot; /* from the free face to the peg, whose lower side slopes by 45 degrees */
    double edge;     /* radius of the edges */
    double bore;     /* NAN where it is not given */
    double opening;  /* of the solid: the bore; a smaller one to be bored out; 0: none */
    double closed;   /* a cap: what closes the opening at the free face; else 0 */
    double post, post_length; /* diameter of plug or collar; 0: neither */
    int holes;
    double hole, hole_circle;
    double allowance; /* the files to print are larger by this factor */
    double turn;      /* cord of one turn */
};

struct drum_to_make drum_to_make(const struct shop *shop);

/* The least wall between the bore and what lies about it, and the most of the notch: shares of
 * the land's radius that half of it may be. Rules of ours. */
#define LEAST_DRUM_WALL 0.003
#define MOST_OF_NOTCH   0.8

/* A solid's circles are polygons: they reduce the radius by no more than this share. */
#define DRUM_CHORD 1e-4

/* What the peg of that drum bears. */
struct peg_load {
    double pull;   /* N: the most that any band asks for on that drum; without limits, the most
                      that the gauge reads */
    double stress; /* Pa */
    double strength; /* Pa: of what the drum is made of, a low value */
    double factor;   /* strength over stress */
    bool enough;     /* from PEG_FACTOR on */
};

/* A sharp foot about doubles the stress, and a printed layer may lack a part. A rule of ours.
 */
#define PEG_FACTOR 3

struct peg_load peg_load_of(const struct results *results, const struct drum_to_make *drum);

/* How much harder the first pull is than the steady ones, where no log says it: a rule of thumb
 * of ours. */
#define BREAKAWAY_USUAL 1.5

/* The most pull that a window asks of the gauge, and whether the gauge reads so far: one rule
 * for every table, page and verb. */

struct most_pull {
    double force; /* N */
    bool never;   /* it is the pull at never-exceed; else the breakaway at the high limit */
    bool beyond;  /* it is more than the gauge can read */
};

/* The breakaway at the high limit, or the pull at never-exceed, where one
 * is given and is more. */
struct most_pull most_pull_of(const struct results *results, const struct pull_window *window);

/* Whether a gauge on a drum can decide at all: whether it reads far enough, and by how many
 * times U goes into half the window, the ratio of the two. One rule for all that say so. */

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
struct fitness fitness_on(const struct results *results, const struct band *band,
                          const struct quantity *drum);

/* Of a ratio alone. */
enum fit fit_of(double ratio);

/* Which drum: each is rated by how sure a drag in the middle of a band is on it; and where the
 * doubt comes from. */

struct drum_rating {
    const struct quantity *drum;
    bool fitted;
    double pull;     /* at the aim, as read, N */
    double expanded; /* U of the drag there, N.m */
    struct fitness fitness;
    /* The standard uncertainty as % of the drag; and of it, */
    double whole;
    double pulls;  /* what comes from the scatter of the pulls and of whole series, */
    double gauge;  /* from the gauge, */
    double radius; /* and from drum and cord */
};

/* The
 * scatter and the skew are shares of the pull: the same on every drum. The gauge's share
 * grows with the drum, the share of drum and cord falls. The tolerances of the shop's
 * own drum are taken for all. Of the drum only exact and base count. */
struct drum_rating drum_rating_of(const struct results *results, const struct band *band,
                                  const struct quantity *drum);

/* The common sizes and the fitted drum among them, from small to large. */
struct drum_ratings {
    struct drum_rating items[MOST_DRUMS];
    size_t count;
    bool alike;  /* the ratios of two or more drums that the gauge reads are within a tenth: no
                    best */
    size_t best; /* index of the largest ratio among them; count: none */
};

void rate_drums(const struct results *results, const struct band *band,
                struct drum_ratings *ratings);

#endif
