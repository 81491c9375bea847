/* How a series was taken, and whether the limits may judge it at all. They hold for the
 * locked nut, for a spindle as warm as the manual says, turned the usual way. */
#ifndef JUDGE_SERIES_H
#define JUDGE_SERIES_H

#include "judge/uncertainty.h"
#include "shop/logs.h"

/* As a row of the log says it. */
struct pull_conditions series_conditions(const struct pull_series *series);

/* Takes a word of the log's column PULL_LOCK, PULL_WARMTH or PULL_DIRECTION; "" is: not said,
 * and of the direction the usual one. False for any other text, and *fault says why. */
bool conditions_read(enum pull_column column, const char *text,
                     struct pull_conditions *conditions, struct quantity_fault *fault);

/* Whether it was turned the usual way, the nut not unloaded, as warm as the limits say (cold
 * without limits). A warmth that was not said is that of the limits. */
bool conditions_suit_limits(const struct shop *shop, const struct pull_conditions *taken);

/* What may be said where the drag alone would have this state: that state, or why there
 * is none. Pulls that say nothing of the drag stay what they are. */
enum state state_under_conditions(const struct shop *shop, const struct pull_conditions *taken,
                                  enum state side);

/* What the years compare: the series that close a job in the log. */

/* A job ends where the log then rests for this many days, or ends (a rule of ours). */
enum { CLOSING_REST_DAYS = 30 };

/* Whether a series of the log closes its job: the last of it that was measured the usual
 * way round, at the warmth that the limits are for, with the nut said to be locked. */
bool closes_job(const struct shop *shop, const struct pull_series *series);

/* Whether a row of the log has the nut unloaded, or crept back: a slack nut does not unload
 * the bearings. */

/* What every answer says of it; which end is pushed, its page says. */
#define UNLOAD_BY_A_PUSH                                                                       \
    "unload until there is end play, by a steady push and never by a blow on the nose (page "  \
    "\"Move the nut\")"

/* Back by so much the nut counts as unloaded, degrees: a rule of ours. At a pitch of 1.5 mm it
 * is 0.4 mm along the spindle, many times what the bearings give way under their preload. */
#define NUT_QUARTER_TURN 90

/* Whether a series was pulled with the nut unloaded: its row says so, or the nut stands a
 * quarter turn or more behind the furthest place since it was last unloaded. series: one of
 * the shop's readings. */
bool series_unloaded(const struct shop *shop, const struct pull_series *series);

/* The row from which the nut was turned back, within one job and not unloaded since, to where
 * it stands in this series: no good setting, for as long as it stays there. NULL: it was not.
 */
const struct pull_series *series_backed_off(const struct shop *shop,
                                            const struct pull_series *series);

/* Five states of a drag against a window, and why there is none; the words and shapes for them.
 * The rule: ISO 14253-1 and JCGM 106, with the guard band equal to U. */

enum state {
    STATE_CLEARLY_LOW,  /* T + U below the low limit */
    STATE_LOW_IN_DOUBT, /* T - U below the low limit */
    STATE_GOOD,         /* T - U not below the low, T + U not above the high limit */
    STATE_HIGH_IN_DOUBT,
    STATE_CLEARLY_HIGH,
    STATE_UNDECIDED, /* both limits lie within U: gauge and drum cannot decide */
    STATE_SCATTERED, /* the same, and the scatter of the pulls is the largest part of U */
    STATE_REJECTED,  /* pulls_too_wide: nothing is said of the drag */
    STATE_NO_PULL,   /* every pull is 0: the gauge saw nothing */
    STATE_NO_LIMIT,  /* there is none on file: a drag to compare, not to judge */
    /* Not judged: it was not taken as the limits ask (judge/series.h). */
    STATE_FOR_COLD,    /* warm, and the limits are for a cold spindle */
    STATE_FOR_WARM,    /* cold, and they are for a warm one */
    STATE_OTHER_WAY,   /* turned against the usual way: only to compare */
    STATE_NOT_LOCKED,  /* before locking */
    STATE_LOCK_UNSAID, /* and that was not said */
    STATE_UNLOADED,    /* with the nut slack */
    STATE_BACKED_OFF   /* the nut was turned back, and not unloaded (judge/series.h) */
};

const char *state_words(enum state state); /* "low or in doubt" */
const char *state_shape(enum state state); /* "▽" */

/* Both, as they are said: "▽ low or in doubt". */
enum { STATE_TEXT = 80 };

void state_text(enum state state, char text[STATE_TEXT]);

/* May two places of the nut say how far to turn it next? Not where it is left alone, nothing
 * is known, or it must be unloaded first. */
bool state_turns_nut(enum state state);
const char *state_next(enum state state); /* what to do, one or two sentences */

/* How a series was taken. */
enum said_warmth { SAID_NOTHING, SAID_COLD, SAID_WARM };

struct pull_conditions {
    enum lock lock;
    enum said_warmth warmth;
    bool other_way;
};

/* A judged series of pulls. SI units. */
struct judgement {
    const struct band *band;          /* NULL without limits on file */
    const struct unit *unit;          /* of the band's high limit; shop_drag_unit() without */
    struct series pulls;              /* N */
    double drag;                      /* N.m */
    struct uncertainty uncertainty;   /* N.m */
    struct shown_uncertainty shown_u; /* of the drag, in that unit */
    bool scattered; /* the scatter of the pulls is the largest part of the doubt */
    struct pull_conditions conditions;
    enum state by_number; /* by the numbers alone: what to do next goes by it */
    enum state state;     /* what may be said: the same, or why it is not judged */
    const struct pull_series
        *backed_off; /* in the log: from that row, and not unloaded; or NULL */
    bool over_never; /* T + U is above never-exceed, however it was taken; not told of pulls
                      * that say nothing of the drag */
};

enum { MOST_PULLS = 100 };

/* The pulls in brief, N; at most MOST_PULLS of them. */
struct series series_of_pulls(const struct quantity *pulls, size_t count);

/* Judges pulls (1..MOST_PULLS of them) against a band on a setup, as they were taken. Decided
 * exactly, with U as it is shown. band: NULL without limits on file. */
struct judgement judge_pulls(const struct shop *shop, const struct band *band,
                             const struct drum_setup *setup,
                             const struct pull_conditions *taken, const struct quantity *pulls,
                             size_t count);

/* A series of the log against the lathe's own band, on the drum and cord of its day
 * (with the tolerances of today's). */
struct judgement judge_series(const struct shop *shop, const struct pull_series *series);

/* The same against another band, NULL without limits on file, and said to be taken
 * otherwise than its row says. */
struct judgement judge_series_as(const struct shop *shop, const struct band *band,
                                 const struct pull_conditions *taken,
                                 const struct pull_series *series);

/* Said of a drag that is not judged, and by its number is clearly high. */
#define HIGH_UNJUDGED                                                                          \
    "by its number the drag is clearly high: do not run it at speed until it is judged good"

/* What to do where the drag is clearly high or past never-exceed, whatever else is not said. */
const char *next_when_high(enum lock lock);

/* Good, but by fewer than three pulls: no nut is left alone by it (a rule of thumb of ours). */
bool good_by_few(const struct judgement *judgement);

/* Whether the limits are an increase and the drag is below the slack drag that they count from.
 * Not of an unloaded nut, which may well be. */
bool drag_below_slack(const struct shop *shop, const struct judgement *judgement);
#define BELOW_SLACK                                                                            \
    "the drag is below the slack drag of the settings: measure that again, the nut unloaded, " \
    "as cold or warm and on the same oil"

/* Pulls that lie further apart than a tenth of their mean are rejected: they ask for a
 * cause; unless two steps of the gauge hold them all, for then it is the gauge that cannot
 * tell them apart (rules of thumb of ours). Decided exactly. */
bool pulls_too_wide(const struct shop *shop, const struct quantity *pulls, size_t count);

/* The state of an exact drag, given doubled, against limits widened or narrowed by
 * an exact U: for tables. All in base units. */
enum state state_of(const struct decimal *drag, const struct decimal *low,
                    const struct decimal *high, const struct decimal *expanded);

/* What is typed at the bench, and whether it may stand. */

/* Whether a force may stand as one more pull behind `taken` others: not below zero,
 * not above what the shop's gauge can read (shop NULL: not known), and no more than MOST_PULLS
 * in all. If not, *fault says why. */
bool pull_allowed(const struct shop *shop, const struct quantity *pull, size_t taken,
                  struct quantity_fault *fault);

/* The band at a speed such as "900 r/min"; *band is NULL without limits on file. False
 * after a fault. */
bool band_read(const struct shop *shop, const char *text, const struct band **band,
               struct quantity_fault *fault);

#endif
