/* Whether a row of the log has the nut unloaded, or crept back: a slack nut does not unload
 * the bearings. */
#ifndef VERDICT_UNLOADED_H
#define VERDICT_UNLOADED_H

#include "shop/shop.h"

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

#endif
