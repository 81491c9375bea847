/* What warming up does in this shop: to its oil, to its bearings, to the drag. Estimates,
 * never limits. */
#ifndef JUDGE_WARMTH_H
#define JUDGE_WARMTH_H

#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

/* An oil of which only the grade is known is taken for a plain mineral oil with this
 * viscosity index: common practice, no source. */
#define OIL_INDEX 95.0

/* The oil of the settings. False where they do not say enough. */
bool shop_oil(const struct shop *shop, struct oil *oil);

/* The two bearings of the settings in an arrangement; false where the settings do not
 * say enough for it. The pitch diameters stand in for the cups': they are a little less. */
bool shop_bearings(const struct shop *shop, bool face_to_face, struct bearing_pair *pair);

/* Pitch diameters (m) of the front and the rear bearing; NaN where they are not known. */
struct pitch_diameters {
    double front, rear;
};

struct pitch_diameters shop_pitch_diameters(const struct shop *shop);

/* Palmgren's coefficients for tapered rollers: f0 in an oil bath or grease, f1 at a tenth
 * of the rating. Source: a public library for thermal models, which cites a textbook. */
#define PALMGREN_OIL  6.0
#define PALMGREN_LOAD 0.0004

/* How much a length grows, as a share of itself for each degree Celsius. Source: tables of
 * materials; cast iron stands there with 10 to 11 millionths. */
#define STEEL_EXPANSION     12e-6
#define CAST_IRON_EXPANSION 10e-6

/* Drag (N.m) of churning oil on both bearings, at a speed in r/min. */
double churning_drag(const struct shop *shop, double viscosity, double speed);

/* Drag (N.m) of an axial preload (N) on both bearings. NaN where the settings do not say
 * enough. */
double preload_drag(const struct shop *shop, double preload);

/* Degrees of the nut that move it as far (m); NaN without a thread. */
double nut_degrees(const struct shop *shop, double way);

/* Running in: the stages of speed, and the temperature at which to stop. The manual of
 * the lathe comes before all of it. */

enum { RUN_IN_STAGES = 10 };

/* A stage: a speed that stands for one or more tenths of the top speed. */
struct run_in_stage {
    int first, last;              /* tenths */
    struct decimal speed;         /* r/min, exactly */
    const struct quantity *typed; /* the lathe's own speed; NULL: the exact tenth */
};

/* The stages in order; returns how many. Each tenth of the top speed takes the fastest
 * speed of lathe.speeds that is not above it; tenths with one speed are one stage, and
 * tenths below the slowest speed have none. Without lathe.speeds: the exact tenths.
 * Source of the equal tenths: a text on running in spindles; the rest is our rule. */
size_t run_in_stages(const struct shop *shop, struct run_in_stage stages[RUN_IN_STAGES]);

/* Its speed as it is shown, r/min: as typed, or the exact tenth with as many digits as tenths
 * of this top speed need. */
struct shown run_in_speed(const struct shop *shop, const struct run_in_stage *stage);

/* The least time at a stage, the last one or one before it, in minutes; shown rounded up. */
double run_in_minutes(const struct shop *shop, bool last);

/* How much warmer than the room the cap may be before one looks closer: from there on, as a
 * bearing maker says of precision spindles. In both scales. */
enum { RUN_IN_LOOK_CELSIUS = 20, RUN_IN_LOOK = RUN_IN_LOOK_CELSIUS * 9 / 5 };

/* Temperatures of the cap for a room, exactly, in degrees Fahrenheit: where to stop, the
 * lesser of run-in.stop and the room plus run-in.rise; and where to look closer, never above
 * that. */
struct decimal run_in_stop(const struct shop *shop, const struct decimal *room);
struct decimal run_in_look(const struct shop *shop, const struct decimal *room);

/* Whole degrees not above a temperature given in degrees Fahrenheit. */
int64_t whole_fahrenheit(const struct decimal *fahrenheit);
int64_t whole_celsius(const struct decimal *fahrenheit);

/* The same for a difference of temperatures. */
int64_t whole_celsius_of_rise(const struct decimal *fahrenheit);

#endif
