/* Moving the nut, simulated. */
#ifndef SIMULATE_NUT_H
#define SIMULATE_NUT_H

#include <stdbool.h>
#include <stdint.h>

struct nut_case {
    const char *name;
    bool no_slack;     /* no row with the nut unloaded before the first way up */
    bool lock_known;   /* what the lock adds is known from the first, but for how it varies */
    bool stiff;        /* few degrees to the aim */
    const char *never; /* never-exceed; usually 1.2 N.m */
};

extern const struct nut_case nut_cases[]; /* as far as a name that is NULL */

struct nut_tally {
    long jobs, good, wrong;               /* wrong: called good, and outside the limits */
    long jobs_past_high, jobs_past_never; /* at any moment */
    long steps, past_high, past_never; /* of the moves and locks: the true drag behind them */
    long moves, locks, unloaded;
};

struct nut_tally simulate_nut(const struct nut_case *of, long jobs, uint64_t seed);

#endif
