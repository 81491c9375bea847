/* What a turn of the nut does at its rim and along the spindle, and in whose units it is told:
 * the rim in those of its diameter, the way along the spindle in those of the thread. */
#ifndef VERDICT_NUT_WAY_H
#define VERDICT_NUT_WAY_H

#include "number/show.h"
#include "shop/shop.h"

/* Metres a turn; 0 where the settings give neither pitch nor threads. */
double nut_pitch_given(const struct nut *nut);

bool nut_rim_in_inches(const struct nut *nut);

/* Threads per inch, or a pitch in inches. */
bool nut_thread_in_inches(const struct nut *nut);

/* A way as it is told. places: digits behind the point where nothing finer is wanted. */
struct nut_way {
    double value; /* NAN: the settings do not say */
    int places;
    const char *unit; /* "in", "mm", "µm" */
    bool inches;
};

/* What passes of the rim for so many degrees: inches or millimetres. */
struct nut_way nut_rim_way(const struct nut *nut, double degrees);

/* How far the nut goes: inches or micrometres; and the same in the other system. */
struct nut_way nut_travel_way(const struct nut *nut, double degrees);
struct nut_way nut_travel_other(const struct nut *nut, double degrees);

/* Digits, with so many more of them behind the point. */
struct shown show_way(const struct nut_way *way, int more);

#endif
