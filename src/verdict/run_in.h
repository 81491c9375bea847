/* Running in: the stages of speed, and the temperature at which to stop. The manual of
 * the lathe comes before all of it. */
#ifndef VERDICT_RUN_IN_H
#define VERDICT_RUN_IN_H

#include "number/show.h"
#include "shop/shop.h"

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
enum { RUN_IN_LOOK_CELSIUS = 20, RUN_IN_LOOK = FAHRENHEIT_RISE(RUN_IN_LOOK_CELSIUS) };

/* Temperatures of the cap for a room, exactly, in degrees Fahrenheit: where to stop, the
 * lesser of shop_stop() and the room plus shop_rise(); and where to look closer, never
 * above that. */
struct decimal run_in_stop(const struct shop *shop, const struct decimal *room);
struct decimal run_in_look(const struct shop *shop, const struct decimal *room);

/* Whole degrees not above a temperature given in degrees Fahrenheit. */
int64_t whole_fahrenheit(const struct decimal *fahrenheit);
int64_t whole_celsius(const struct decimal *fahrenheit);

/* The same for a difference of temperatures. */
int64_t whole_celsius_of_rise(const struct decimal *fahrenheit);

#endif
