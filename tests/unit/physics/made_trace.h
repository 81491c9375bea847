/* Traces of known truth, made of what happens at the lathe: it knows nothing of how they are
 * read. */
#ifndef TESTS_MADE_TRACE_H
#define TESTS_MADE_TRACE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* How a kind of trace is made. Shares are of the steady force; times in s; 0: none of it. */
struct making {
    const char *name;
    double rate;                        /* readings a second */
    double turn, turns;                 /* s; how many the steady part has */
    double force;                       /* N */
    double noise, memory_noise, memory; /* without and with a memory of `memory` s */
    double waves[6];                    /* once a turn, twice, ... */
    double drift;                       /* over the steady part */
    double slip, slip_rate;             /* height of a saw tooth; a second */
    double step;                        /* of the display */
    double dropped;                     /* share of the readings that are lost */
    double bursts;                      /* s: readings lost together, once a turn */
    double jitter;                      /* of the time between readings */
    double zero;                        /* where it rests */
    double late_zero;                   /* where it rests before the key is pressed */
    double zero_moves;                  /* until behind the pull */
    double zeroed;                      /* by how much the key moves it once the spindle runs */
    double held, averaged; /* s: the display shows something new so seldom; a mean */
    double wobble;         /* of the speed */
    double said;           /* the turn as said, over the true one; 0: not said */
    double before, behind; /* s at rest; below 0: the record is cut there */
    double breakaway;      /* over the steady force; 0: it starts without one */
    double rise, settle;   /* s: up to the breakaway; time constant down from it */
    double hesitates;      /* share of the force that is held first */
    double starts, slows;  /* s, with a share of a tenth more or less */
    double capacity;       /* over the force; 0: far above */
    double knocks;         /* a turn, of a fifth of the force, one reading each */
    bool tailed;           /* the noise has long tails */
    bool peak_held;        /* the gauge shows the highest */
};

struct made_trace {
    double *times, *forces; /* to be freed */
    size_t count;
    double mean, breakaway, wave; /* the truth, N; breakaway 0: none that is shown */
    double turn, said, step, capacity;
};

struct made_trace make_trace(const struct making *making, uint64_t seed);
void free_made_trace(struct made_trace *made);

#endif
