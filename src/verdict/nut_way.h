/* In whose units a turn of the nut is told: the rim in those of its diameter, the way along
 * the spindle in those of the thread. */
#ifndef VERDICT_NUT_WAY_H
#define VERDICT_NUT_WAY_H

#include "shop/shop.h"

/* Metres a turn; 0 where the settings give neither pitch nor threads. */
double nut_pitch_given(const struct nut *nut);

bool nut_rim_in_inches(const struct nut *nut);

/* Threads per inch, or a pitch in inches. */
bool nut_thread_in_inches(const struct nut *nut);

#endif
