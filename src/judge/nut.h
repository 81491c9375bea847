/* The nut: how its turns are told, and where to go from two of its places. */
#ifndef JUDGE_NUT_H
#define JUDGE_NUT_H

#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

struct judged; /* judge/results.h */
struct known;

/* What a turn of the nut does at its rim and along the spindle, and in whose units it is told:
 * the rim in those of its diameter, the way along the spindle in those of the thread. */

/* Metres a turn; 0 where the settings give neither pitch nor threads. */
double nut_pitch_given(const struct nut *nut);

/* Threads per inch, or a pitch in inches. */
bool nut_thread_in_inches(const struct nut *nut);

/* A way as it is told, with the same digits wherever it is. */
struct nut_distance {
    double value;       /* NAN: the settings do not say */
    struct shown shown; /* where they do */
    const char *unit;   /* "in", "mm", "µm" */
};

/* What passes of the rim for so many degrees: inches or millimetres. */
struct nut_distance nut_rim_distance(const struct nut *nut, double degrees);

/* How far the nut goes: inches or micrometres; and the same in the other system. */
struct nut_distance nut_travel_distance(const struct nut *nut, double degrees);
struct nut_distance nut_travel_other_unit(const struct nut *nut, double degrees);

/* Places of the nut: those of the log, and where to go from two of them. */

/* Whether a series may steer the nut: it says where that stood, and was turned the usual way,
 * as warm as the limits say. Without limits every series may that says the place. */
bool nut_may_steer(const struct shop *shop, const struct pull_series *series);

/* A series of the log that says where the nut stood, and a drag that was typed: its U is
 * the one that the settings let expect. angle in degrees, drag in N.m. */
struct nut_point nut_point_of_row(const struct judged *row);
struct nut_point nut_point_of_drag(const struct known *known, double angle, double drag);

/* A course with room for its points. */
struct nut_places {
    struct nut_point points[NUT_PLACES];
    size_t count; /* below two: no move can be told */
    double slack, slack_u;
    double lock_added; /* of a locked row: its points are those before the lock, which added so
                        * much; NAN: the points were taken as the row was */
};

/* The places of a row and of the looser ones before it that were taken alike, none further from
 * it than NUT_FAR_APART. Of a locked row that was measured just before locking too, those
 * before the lock: it is freed before the nut is turned. lock_added: what locking adds, N.m, or
 * NAN; locked places lie by so much over the slack drag. */
struct nut_places nut_places_of_row(const struct judged *row, double lock_added);

/* The middle of a band's limits as they are pulled, N.m. */
double nut_aim(const struct known *known, const struct band *band);

#endif
