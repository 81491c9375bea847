/* What locking the nut added to the drag, from the log of pulls. */
#ifndef JUDGE_NUT_H
#define JUDGE_NUT_H

#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

/* The drag of a locked series less that of the series taken just before locking, at the
 * same place of the nut and else alike; N·m, below zero where the lock eased the nut.
 * NaN where the series is not the first one locked there, or none was taken before.
 * series: one of the shop's readings. */
double lock_added(const struct shop *shop, const struct pull_series *series);

/* The latest of these in the log, at the last place of its U, as it is shown: what is
 * printed is what decides. False where there is none. */
bool lock_added_known(const struct shop *shop, struct quantity *added);

/* The same in N·m; NaN where there is none. */
double lock_added_last(const struct shop *shop);

/* What a turn of the nut does at its rim and along the spindle, and in whose units it is told:
 * the rim in those of its diameter, the way along the spindle in those of the thread. */

/* Metres a turn; 0 where the settings give neither pitch nor threads. */
double nut_pitch_given(const struct nut *nut);

/* Threads per inch, or a pitch in inches. */
bool nut_thread_in_inches(const struct nut *nut);

/* A way as it is told. places: digits behind the point where nothing finer is wanted. */
struct nut_distance {
    double value; /* NAN: the settings do not say */
    int places;
    const char *unit; /* "in", "mm", "µm" */
    bool inches;
};

/* What passes of the rim for so many degrees: inches or millimetres. */
struct nut_distance nut_rim_distance(const struct nut *nut, double degrees);

/* How far the nut goes: inches or micrometres; and the same in the other system. */
struct nut_distance nut_travel_distance(const struct nut *nut, double degrees);
struct nut_distance nut_travel_other_unit(const struct nut *nut, double degrees);

/* Digits, with so many more of them behind the point. */
struct shown show_distance(const struct nut_distance *way, int more);

/* Places of the nut: those of the log, and where to go from two of them. */

/* The last series of the log that says where the nut stood; NULL: none does. */
const struct pull_series *nut_last_place(const struct shop *shop);

/* The last series of the log that may steer the nut: it says where the nut stood, and was
 * turned the usual way, as warm as the limits say. NULL: there is none, or a later row has
 * the nut elsewhere. Without limits every series may. */
const struct pull_series *nut_last_steering(const struct shop *shop);

/* Whether a series is of that kind. */
bool nut_may_steer(const struct shop *shop, const struct pull_series *series);

/* The place of the nut in the row before this one that says it; NULL where there is none,
 * or where it is further on, or the nut was unloaded between the two: an unloaded place is
 * on no line either. */
const struct pull_series *nut_row_before(const struct shop *shop,
                                         const struct pull_series *series);

/* The looser place before this one that was taken alike, since the nut was last unloaded
 * and not further off than NUT_FAR_APART. NULL: there is none. */
const struct pull_series *nut_place_before(const struct shop *shop,
                                           const struct pull_series *last);

/* A series of the log that says where the nut stood, and a drag that was typed: its U is
 * the one that the settings let expect. angle in degrees, drag in N.m. */
struct nut_point nut_point_of_series(const struct shop *shop, const struct pull_series *series);
struct nut_point nut_point_of_drag(const struct shop *shop, double angle, double drag);

/* The middle of a band's limits as they are pulled, N.m. */
double nut_aim(const struct shop *shop, const struct band *band);

/* What locking is still going to add to the last series, N.m; NAN: nothing, or that is
 * not known. A series that does not say when the nut was locked counts as not locked. last
 * may be NULL. */
double nut_lock_to_come(const struct shop *shop, const struct pull_series *last);

/* What the nut is to reach before it is locked: the aim less what the lock will add,
 * where it adds. lock_added: NAN where that is not known. */
double nut_aim_before_lock(const struct shop *shop, const struct band *band, double lock_added);

/* The next move from two places and drags, the older first, toward that. Within a tenth
 * of the window of it counts as there (a rule of thumb of ours). */
struct nut_move nut_move_toward_aim(const struct shop *shop, const struct band *band,
                                    const struct nut_point points[2], double lock_added);

#endif
