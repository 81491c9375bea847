/* The physical chain behind a verdict, simulated: drum and cord, gauge, its check by known
 * masses, the log, the pulls. What the parameters of a case leave open is drawn anew in every
 * trial. Whoever decides sees only what a log would hold (struct chain_data). */
#ifndef SIMULATE_CHAIN_H
#define SIMULATE_CHAIN_H

#include "random.h"

#include <stdbool.h>
#include <stddef.h>

enum { CHAIN_PULLS = 20, CHAIN_WEIGHINGS = 120, CHAIN_HISTORY = 60 };

/* ---- what a log would hold; SI units, days counted from 1 January 2018 ---- */

struct weighing_seen {
    int day; /* weighings of one day are one session */
    bool down;
    double mass;           /* kg, as it is marked */
    double mass_tolerance; /* kg, either way, as it is stated */
    double reading;        /* N */
};

/* A series of pulls, on one winding of the cord. */
struct series_seen {
    int day;
    int setting; /* rows with the same number were pulled with the nut unmoved */
    int count;
    double pulls[CHAIN_PULLS]; /* N, as the gauge showed them */
};

struct chain_data {
    double drum, drum_tolerance, cord, cord_tolerance; /* m */
    double step, capacity;                             /* of the gauge, N */
    double stated_error; /* of the gauge by its data sheet, N either way */
    double latitude;     /* of the workshop, degrees, at the sea's level; NaN: not known */
    double gravity;      /* what follows from it; else standard gravity, m/s2 */
    double skew;         /* the most that a pull is askew, degrees */
    struct weighing_seen weighings[CHAIN_WEIGHINGS]; /* oldest session first */
    int weighing_count;
    struct series_seen history[CHAIN_HISTORY]; /* oldest first, all locked, before today */
    int history_count;
    bool increase;            /* the limits count from the slack drag */
    struct series_seen slack; /* then: with the nut unloaded, today, another winding */
    double low, high;         /* limits, N.m; low 0: none */
    int today;
    struct series_seen series; /* to be judged */
};

/* ---- what is said of it ---- */

enum called {
    CALLED_LOW,
    CALLED_LOW_IN_DOUBT,
    CALLED_GOOD,
    CALLED_HIGH_IN_DOUBT,
    CALLED_HIGH,
    CALLED_UNDECIDED,
    CALLED_REJECTED /* nothing is said of the drag */
};

struct answer {
    enum called state;
    double drag;     /* N.m; the increase where the limits are one */
    double expanded; /* U, N.m; drag - U to drag + U is claimed to cover in 95 % */
};

typedef void decider(const struct chain_data *data, struct answer *answer);

/* By the library itself (library.c), by a model to try (candidate.c). */
decider judge_by_library, candidate;

/* ---- the parameters of a case; what is left 0 has the usual value ---- */

enum draw_kind {
    USUAL,
    FIXED,       /* a */
    UNIFORM,     /* from a to b */
    INVERSE_CHI, /* standard deviation of a distribution whose variance is a scaled inverse
                  * chi-squared one: a is the scale, b the degrees of freedom, whole */
    SQUARED      /* from 0 to a, the density falling as the square of what is left to a */
};

struct draw {
    enum draw_kind kind;
    double a, b;
};

enum check_kind {
    CHECK_USUAL,     /* 1, 2, 3, 2, 1 kg */
    CHECK_TWICE,     /* the same again */
    CHECK_UP,        /* 1, 2, 3 kg */
    CHECK_ONE,       /* 2 kg, three times: not complete */
    CHECK_TOO_LIGHT, /* 0.3, 0.6, 0.9, 0.6, 0.3 kg: the pulls lie beyond its reach */
    CHECK_NONE
};

enum hysteresis_shown { HYSTERESIS_WEIGHED, HYSTERESIS_READS_LOW, HYSTERESIS_READS_HIGH };

struct chain {
    const char *name;
    const char *cheat; /* where nature can cheat: how; NULL: every promise must hold */
    bool withheld;     /* "good" may be withheld: a further check or series is asked for */
    bool disputed;     /* two checks do not agree: alarms take the worse of the two */

    double low, high; /* N.m; usually 0.45 to 0.70 */
    bool no_low;      /* the low limit is 0 */
    double slack;     /* of the high limit: the limits are an increase over it */
    int slack_pulls;  /* usually as many as are judged */

    /* Usually drawn from the prior that the program states. */
    struct draw scatter;     /* between pulls of one winding, % of the pull */
    struct draw correlation; /* of neighbouring pulls: an AR(1) series */
    struct draw between;     /* between windings, % */

    double trend;       /* % from each pull to the next; the last one is the truth */
    double outlier;     /* % by which one pull is off */
    double skew_always; /* degrees; usually anything up to 5 */

    double step;         /* N; usually 0.05 */
    double gauge_error;  /* % of the pull, about which it is drawn within half a percent */
    double gauge_zero;   /* N, about which it is drawn within 0.05 N */
    double hysteresis;   /* % of the pull, between up and down */
    int hysteresis_kind; /* enum hysteresis_shown: weighed up and down, and the pulls lie
                          * anywhere between; or weighed one way, and pulled the other */

    int check;              /* enum check_kind */
    int sessions;           /* a year apart; usually one */
    double dropped;         /* % by which the gauge changed before the last session */
    double drift;           /* % at most by which it changes from one session to the next, and
                             * has changed since the last */
    bool check_after;       /* and one session more, after today, 5 % off */
    double mass_tolerance;  /* %, stated; usually 0.1 */
    struct draw mass_error; /* %; usually uniform within the tolerance, each mass for itself */
    bool mass_common;       /* one error for all */
    bool gravity_unknown;   /* anywhere on earth, and standard gravity is reckoned with */
    double tolerance;       /* of drum and cord, mm; usually 0.05 */

    int settings, windings, history_pulls; /* of the log: so many jobs, each with so many
                                            * series of so many pulls */
};

/* The limits of a case, N.m. */
double chain_low(const struct chain *chain);
double chain_high(const struct chain *chain);

/* One trial: what the log would hold where the true drag (the increase where the limits are
 * one) is `truth`, N.m, and `count` pulls are taken. */
struct trial {
    struct chain_data data;
    double scatter, between, correlation; /* true: shares of the pull; of neighbours */
};

void chain_draw(const struct chain *chain, double truth, int count, struct random *random,
                struct trial *trial);

/* The drag and its standard uncertainty, N.m, by an observer who knows the scatter, the
 * correlation and the noise of the weighings, though not the gauge, the drum or the masses. How
 * many of his standard uncertainties from a limit he errs 2.5 % of the time is for the caller
 * to find out from many trials. */
struct observed {
    double drag, u;
};

struct observed observe(const struct trial *trial);

/* All cases, as far as a name that is NULL. */
extern const struct chain cases[];

#endif
