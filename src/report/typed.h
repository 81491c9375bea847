/* What is typed at the terminal or on the bench page, and whether it may stand. If not, each
 * gives false, and *fault says why. */
#ifndef REPORT_TYPED_H
#define REPORT_TYPED_H

#include "judge/series.h"
#include "physics/physics.h"
#include "shop/logs.h"

/* Takes a word of the log's column PULL_LOCK, PULL_WARMTH or PULL_DIRECTION; "" is: not said,
 * and of the direction the usual one. */
bool conditions_read(enum pull_column column, const char *text,
                     struct pull_conditions *conditions, struct quantity_fault *fault);

/* Whether a force may stand as one more pull behind `taken` others: not below zero,
 * not above what the shop's gauge can read (shop NULL: not known), and no more than MOST_PULLS
 * in all. */
bool pull_allowed(const struct shop *shop, const struct quantity *pull, size_t taken,
                  struct quantity_fault *fault);

/* What locking adds, N.m, such as "0.08 N.m": below zero where it eases the nut. Not more than
 * the band's high limit either way, nor, without a band, than a limit may be. */
bool lock_added_read(const struct band *band, const char *text, double *added,
                     struct quantity_fault *fault);

/* Whether a line may be drawn through two places of the nut. */
bool places_allowed(const struct quantity angles[2], struct quantity_fault *fault);

/* The band at a speed such as "900 r/min"; *band is NULL without limits on file. */
bool band_read(const struct shop *shop, const char *text, const struct band **band,
               struct quantity_fault *fault);

#endif
