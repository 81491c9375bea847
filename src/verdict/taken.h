/* How a series was taken, and whether the limits may judge it at all. They hold for the
 * locked nut, for a spindle as warm as the manual says, turned the usual way. */
#ifndef VERDICT_TAKEN_H
#define VERDICT_TAKEN_H

#include "verdict/state.h"

/* As a row of the log says it. */
struct taken series_taken(const struct pull_series *series);

/* From the words of the log's columns: lock is "before", "after", "unloaded" or ""; warmth
 * "cold", "warm" or ""; direction "usual", "other" or "", which is the usual one. "" is: not
 * said. False for any other text, and *fault says why. */
bool taken_lock_read(const char *text, struct taken *taken, struct quantity_fault *fault);
bool taken_warmth_read(const char *text, struct taken *taken, struct quantity_fault *fault);
bool taken_direction_read(const char *text, struct taken *taken, struct quantity_fault *fault);

/* Whether it was turned the usual way, the nut not unloaded, as warm as the limits say (cold
 * without limits). A warmth that was not said is that of the limits. */
bool taken_as_limits(const struct shop *shop, const struct taken *taken);

/* And with the nut locked: then it may be judged. */
bool taken_to_judge(const struct shop *shop, const struct taken *taken);

/* What may be said where the drag alone would have this state: that state, or why there
 * is none. Pulls that say nothing of the drag stay what they are. */
enum state state_as_taken(const struct shop *shop, const struct taken *taken, enum state side);

#endif
