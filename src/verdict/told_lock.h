/* What is said of a drag that was measured before the nut was locked: what locking is
 * expected to make of it. Never a verdict: only a locked nut is judged. */
#ifndef VERDICT_TOLD_LOCK_H
#define VERDICT_TOLD_LOCK_H

#include "verdict/told.h"

struct expected {
    double drag;              /* N.m */
    struct sureness sureness; /* of it, in the judgement's unit */
    enum state state;
};

/* The drag to be expected once locked, and its state. added: what locking added the last
 * time, N.m; below zero counts as nothing, for a lock that eased once may not again.
 * Its U is the root of three times the series' own: the drag now, and the two of which
 * the lock's share is the difference, each with about the same U (root of the sum of
 * squares). The judgement has a band. */
struct expected expected_once_locked(const struct shop *shop, const struct judgement *judgement,
                                     double added);

void tell_lock_added(const struct teller *teller, const struct unit *unit, double added);

/* The rows of that; gives what to do next. added: NAN where it is not known. */
const char *tell_before_lock(const struct teller *teller, const struct shop *shop,
                             const struct judgement *judgement, double added);

#endif
