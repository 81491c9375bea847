/* What a doubt leaves of a pull window: the guarded window, limit plus U at the low
 * end, limit minus U at the high end (ISO 14253-1, JCGM 106). */
#ifndef VERDICT_GUARD_H
#define VERDICT_GUARD_H

#include "verdict/sure.h"
#include "verdict/window.h"

struct guarded_window {
    struct pull_window plain;
    struct sureness low_sureness,
        high_sureness;             /* U at each limit, in the unit of that limit */
    double low, high;              /* pulls (N) at which the mean is just good */
    int64_t low_steps, high_steps; /* rounded inward */
    bool closed;                   /* no step is good: gauge and drum cannot decide */
};

/* For the pulls that the shop usually takes. */
struct guarded_window guarded_window_on(const struct shop *shop, const struct band *band,
                                        const struct rig *rig);

/* Of the lathe's own band on its own drum; not without limits on file. */
struct guarded_window guarded_window_own(const struct shop *shop);

#endif
