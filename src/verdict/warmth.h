/* What warming up does in this shop: to its oil, to its bearings, to the drag. Estimates,
 * never limits. */
#ifndef VERDICT_WARMTH_H
#define VERDICT_WARMTH_H

#include "drag/growth.h"
#include "drag/oil.h"
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

/* What a degree of the nut adds to the drag (N.m), by the log's last two places, since the
 * nut was last unloaded, that were taken alike and between which the drag rose; NaN where
 * there are none. */
double nut_slope(const struct shop *shop);

/* Degrees of the nut that move it as far (m); NaN without a thread. */
double nut_degrees(const struct shop *shop, double way);

#endif
