/* What states, advice and facts are called: every sentence that more than one place says. What
 * is made of numbers is owned by the arena, and "" where there is nothing to say. */
#ifndef REPORT_WORDS_H
#define REPORT_WORDS_H

#include "judge/advice.h"
#include "judge/budget.h"
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/improvement.h"

const char *state_words(enum state state); /* "low or in doubt" */
const char *state_shape(enum state state); /* "▽" */
const char *next_check_words(struct arena *arena, const struct results *results);
const char *state_text(enum state state); /* "▽ low or in doubt" */

/* What to do, one or two sentences. */
const char *advice_words(enum advice advice);

/* The same in one line. */
const char *advice_in_brief(enum advice advice);

/* A source of doubt, "scatter of the pulls"; and in which unit it is told. */
const char *budget_words(const struct budget_line *line);
const struct unit *budget_unit(const struct shop *shop, enum budget_measure measure);

/* What would let a series decide, and what it would say then; "" where that was not asked. */
const char *improvement_words(struct arena *arena, const struct improvement *improvement);

/* Said of a drag that is not judged, and by its number is clearly high. */
#define HIGH_UNJUDGED "by its number the drag is clearly high: do not run it"

/* How pulls are taken that are to be judged by limits for the starting drag. */
#define STARTING_PULLS                                                                         \
    "starting pulls, each the highest reading as the spindle starts from rest, and each at "   \
    "another place of its turn"

/* Of drag_below_slack(). */
#define BELOW_SLACK                                                                            \
    "the drag is below the slack drag of the settings: measure that again, the nut unloaded, " \
    "as cold or warm and on the same oil"

/* Of pulls_too_wide(), and of a single pull. */
#define TOO_WIDE                                                                               \
    "scatter more than is known of your pulls, and lie further apart than two steps of the "   \
    "gauge"
#define ONE_PULL "one pull says nothing of the scatter: what is known of your pulls was taken"

/* Of a check that is not confirmed, and corrects more than the data sheet lets expect. */
#define BEYOND_THE_SHEET                                                                       \
    "the check corrects the reading by more than twice the data sheet's error: a wrong mass "  \
    "looks like a wrong gauge. Hang masses of another name, or some with a certificate, and "  \
    "write that into the columns masses and certificate"

/* Of a window that is closed. */
#define NO_STEP_BETWEEN "none: no step of this gauge lies between the limits"
#define CLOSED_WINDOW   NO_STEP_BETWEEN "; take a finer gauge or a smaller drum"

/* Of a window of which U leaves nothing. */
#define CANNOT_DECIDE "this gauge and drum cannot decide"
#define NOTHING_GOOD                                                                           \
    "none: " CANNOT_DECIDE                                                                     \
    "; check the gauge with weights, take a finer gauge or a smaller drum"

#define MORE_THAN_THE_GAUGE "more than the gauge of the settings can read"
#define BEYOND_THE_GAUGE    "beyond the gauge"

/* Which pull at the high limit the gauge must reach: the breakaway, or the pull itself where
 * that is a starting one; and when a drum is beyond the gauge. */
const char *hardest_pull_words(const struct shop *shop);
const char *beyond_rule_words(struct arena *arena, const struct shop *shop);

/* Of a most pull that is beyond: that it is, which one, how much, and what to do. */
const char *most_pull_words(struct arena *arena, const struct shop *shop,
                            const struct most_pull *most);

const char *fit_word(enum fit fit); /* "usable" */

/* The word, and what it means for the work. */
const char *fitness_words(struct arena *arena, const struct shop *shop,
                          const struct fitness *fitness);

/* How strong the peg of the drum to make is, and what to do where that is too little. */
const char *peg_words(struct arena *arena, const struct results *results,
                      const struct drum_to_make *drum);

const char *gauge_source_words(enum gauge_source source);

/* Why a drag is not called good that its numbers call so. */
const char *withheld_words(enum withheld withheld);

/* Where the check's slope is odd: what it is, and what may be wrong. */
const char *gauge_slope_words(struct arena *arena, const struct gauge_check *check);

/* Where known weights were hung, and do not reach all pulls (N) from low to high: where they
 * do, and what U takes elsewhere. */
const char *gauge_reach_words(struct arena *arena, const struct results *results, double low,
                              double high);

/* "2026-05-03: 11.00 N, 0.346 N·m", of last_alike(). */
const char *last_alike_words(struct arena *arena, const struct results *results,
                             const struct pull_conditions *conditions);

/* The effective radius in the unit of the drum's diameter: "31.400 mm". */
const char *radius_text(struct arena *arena, const struct shop *shop);

/* What the limits are for: "running drag, whole drag, used bearings, cold". */
const char *limit_kind_text(struct arena *arena, const struct shop *shop);
const char *shop_basis_word(const struct shop *shop);
const char *shop_bearings_word(const struct shop *shop);
const char *shop_warmth_word(const struct shop *shop);

/* "not said", "before lock", "locked" or "unloaded". */
const char *series_lock_word(enum lock lock);

#endif
