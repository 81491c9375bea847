/* What stands on the card of the lathe's own band beside the words of its page: the same facts,
 * on paper and on a page that prints it. */
#ifndef REPORT_CARD_H
#define REPORT_CARD_H

#include "judge/results.h"

/* A place on the scale of pulls, in steps of the gauge. */
struct card_mark {
    int64_t steps;
    const char *number; /* the pull, without its unit */
    const char *name;
};

struct card_state {
    const char *words; /* with its shape */
    const char *pulls; /* at which it stands; "" where no one number says it */
};

enum { CARD_MARKS = 3, CARD_STATES = 5 };

struct card_facts {
    const char *head; /* "● good, at 0 r/min to 1800 r/min", or that this gauge cannot decide */
    const char *good;                   /* the good pulls, or that there is none */
    bool decides;                       /* there are some */
    int64_t good_from, good_to;         /* then */
    struct card_mark marks[CARD_MARKS]; /* low pull, aim, high pull; none in a closed window */
    size_t mark_count;
    const char *never; /* the pull never to go above; NULL where there is none */
    struct card_state states[CARD_STATES]; /* as they lie about a window; where it decides */
};

/* Only where there are limits. Owned by the arena. */
struct card_facts card_facts(struct arena *arena, const struct results *results);

#endif
