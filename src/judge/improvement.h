/* Which single change would let a series decide that cannot. */
#ifndef JUDGE_IMPROVEMENT_H
#define JUDGE_IMPROVEMENT_H

#include "judge/series.h"

/* From the cheapest to the dearest. */
enum improvement_kind {
    IMPROVE_NOT_ASKED,    /* it is decided, or not judged */
    IMPROVE_CHECK,        /* a further check of the gauge that agrees: nothing else is of use */
    IMPROVE_SITE,         /* to say where the workshop lies, for its gravity */
    IMPROVE_PULLS,        /* more pulls: as many in all */
    IMPROVE_SQUARE,       /* pulls that are no further askew than half of what is stated */
    IMPROVE_SETUPS,       /* drum and cord put on anew, as many times */
    IMPROVE_WEIGHTS,      /* the gauge checked near this pull with the usual weights */
    IMPROVE_SURE_WEIGHTS, /* with such as are good to IMPROVE_TOLERANCE */
    IMPROVE_DRUM,         /* another drum of those listed */
    IMPROVE_GAUGE,        /* a gauge of a fifth of the step, checked with the usual weights */
    IMPROVE_NOTHING       /* none of these alone */
};

#define IMPROVE_TOLERANCE 0.001

struct improvement {
    enum improvement_kind kind;
    int count;                   /* of pulls or of set-ups */
    const struct quantity *drum; /* of IMPROVE_DRUM */
    enum verdict then;           /* good, or surely outside */
};

/* The cheapest change by which, the mean staying where it is, the drag would be good or surely
 * outside. known: before the series, on its day; pulls: of the judgement, on the shop's own
 * drum. */
struct improvement improvement_of(const struct known *known, const struct judgement *judgement,
                                  const struct quantity *pulls);

#endif
