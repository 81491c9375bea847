/* The log's last series that a new one compares with, and what is said of the two where there
 * is no limit to judge by. */
#ifndef VERDICT_LAST_ALIKE_H
#define VERDICT_LAST_ALIKE_H

#include "verdict/told.h"

/* The last series of the log on the shop's own drum and cord, taken like that; what was not
 * said is locked, cold, the usual way round, and so is all where taken is NULL. NULL: there
 * is none. */
const struct pull_series *last_alike(const struct shop *shop, const struct taken *taken);

/* "2026-05-03: 11.00 N, 0.346 N·m"; false where there is none. */
enum { LAST_ALIKE_TEXT = 200 };
bool last_alike_words(const struct shop *shop, const struct taken *taken,
                      char text[LAST_ALIKE_TEXT]);

/* That, and by how much the judged drag is more or less: a row, or none. */
void tell_last_alike(const struct teller *teller, const struct shop *shop,
                     const struct judgement *judgement);

#endif
